"""Slash and spread, stretch: a piece cut, moved apart, and its seams redrawn."""
