"""What a failed check came with, and what of it passes: every remedy was tried before it is told."""
