"""Redraw fair: lines redrawn between ends that moved."""
