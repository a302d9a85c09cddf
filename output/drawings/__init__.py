"""Drawings: pieces as lines, marks and notes, and as SVG in true millimetres."""
