"""Linings, drawn from the pieces that they line."""
