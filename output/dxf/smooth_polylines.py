"""Smooth curves through the points that a curve was drawn as, so that its corners and lengths are as they were.

A polyline leaves its end in the direction of its first chord, up to two degrees off the curve it stands for: enough to
make a true corner look wrong. Where the points say that they lie on a curve, it is drawn through them again.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from drafting.geometry import Cubic, Curve, Line, Point, Vec
from output.dxf.close_outlines import Spots

__all__ = ["curves_through"]

_STRAIGHT: Final = 3.0
"""A chord this many times as long as the next is a straight line before a curve: chords of one curve are alike."""

_BEND: Final = 1e-7
"""The sine of the angle to its chord under which a stretch is straight."""


def curves_through(points: Sequence[Point], bends: Spots) -> tuple[Curve, ...]:
    """Curves from each point to the next: straight but where a point lies on one of `bends`, smooth there.

    The direction at such a point is that of the circle through it and its neighbours; each stretch is the cubic nearest
    to an arc that leaves and arrives so (handles of a third of the chord over cos^2 of half the angle to it).
    """
    chords = [after - before for before, after in pairwise(points)]
    inner = [
        _direction(before, after) if at in bends else None
        for at, (before, after) in zip(points[1:-1], pairwise(chords), strict=True)
    ]
    directions = (None, *inner, None)
    return tuple(
        _stretch(start, end, leaving, arriving)
        for (start, end), (leaving, arriving) in zip(pairwise(points), pairwise(directions), strict=True)
    )


def _direction(before: Vec, after: Vec) -> Vec:
    short, long = sorted((before, after), key=Vec.norm)
    if long.norm() > _STRAIGHT * short.norm():
        return long.unit()
    mean = before.unit() * after.norm() + after.unit() * before.norm()
    return mean.unit() if mean.norm() > 0.0 else after.unit()


def _stretch(start: Point, end: Point, leaving: Vec | None, arriving: Vec | None) -> Curve:
    chord = end - start
    along = chord.unit()
    leaving = leaving or _mirrored(arriving, along)
    arriving = arriving or _mirrored(leaving, along)
    if leaving is None or arriving is None or max(abs(along.cross(leaving)), abs(along.cross(arriving))) < _BEND:
        return Line(start, end)
    out, back = chord.norm() * _handle(leaving, along), chord.norm() * _handle(arriving, along)
    return Cubic(start, start + leaving * out, end - arriving * back, end)


def _mirrored(direction: Vec | None, along: Vec) -> Vec | None:
    """The direction at the other end of an arc over the same chord."""
    return None if direction is None else along * (2.0 * along.dot(direction)) - direction


def _handle(direction: Vec, along: Vec) -> float:
    return 2.0 / (3.0 * (1.0 + max(0.0, along.dot(direction))))
