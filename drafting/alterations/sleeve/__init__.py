"""Alterations of the sleeve: its cap, its width, its fullness."""
