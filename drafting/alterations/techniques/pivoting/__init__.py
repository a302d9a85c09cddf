"""Pivot: a part of a piece turned about a point; darts folded, closed and opened again."""
