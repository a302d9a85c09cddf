"""Redraw fair: lines drawn anew between ends that moved."""
