"""A fair curve of a wanted length, for shapes that tests draw by hand."""

from __future__ import annotations

from scipy.optimize import brentq

from drafting.geometry import Cubic, Point, Vec, fair, length

__all__ = ["fair_of_length"]


def fair_of_length(start: Point, leaving: Vec, end: Point, arriving: Vec, *, wanted: float) -> Cubic:
    """The fair curve made `wanted` mm long, both its handles grown by one factor."""
    whole = fair(start, leaving, end, arriving)
    first, last = whole.c1 - start, whole.c2 - end

    def grown(factor: float) -> Cubic:
        return Cubic(start, start + first * factor, end + last * factor, end)

    return grown(brentq(lambda factor: length(grown(factor), 1e-8) - wanted, 0.05, 3.0, xtol=1e-13, rtol=1e-14))
