"""The drawing of a body, front and back, and where the tape lies on it."""
