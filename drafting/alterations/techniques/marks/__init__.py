"""What is marked on a piece, carried along: levels, gathers, the grain line."""
