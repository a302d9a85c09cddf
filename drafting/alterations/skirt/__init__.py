"""Alterations of the skirt: flare, gathers, wrap."""
