"""Cut and join: edges split in two or joined, and what refers to them carried over."""
