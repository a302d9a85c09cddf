"""A seam that is one spline over the grain, drawn as that spline again when its marks are moved along the grain.

Over the grain means: how far the seam goes aside is a function of how far it has come along the grain. This function is
a cubic between every two knots, with no jump of its second derivative, as a thin wooden spline is that is clamped at
its ends and held at its marks. Where that wavers, although a line that bends one way is possible, an arc through the
marks is drawn instead. Both follow from the places of the knots and the slopes at the ends alone. So two amounts one
after the other are the same as their sum, and an amount that is taken back leaves no trace.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.geometry import Cubic, Curve, Point, Vec, at_length, length, line_hits, split
from drafting.geometry.curve import velocity
from drafting.geometry.fit import clamped_slopes
from drafting.pattern import Edge, MarkLine

__all__ = ["stretched_spline"]

_SAME: Final = 1e-7
"""How far a slope, or a handle in mm, may be from that of the spline that the edge is to be."""

_THIRD: Final = 1.0 / 3.0

_SHORT: Final = 0.2
"""Share of a stretch that a handle is long at the least (our figure)."""

_SAME_SHARE: Final = 1e-6
"""By how much less than a third of a stretch may be a third: where the bending falls to zero it is one, but for
rounding."""

_NEAR: Final = 1e-5  # mm from a joint at which a mark is at the joint


def stretched_spline(
    edge: Edge, notches: Sequence[float], marks: Sequence[MarkLine], along: Vec, move: Callable[[Point], Point]
) -> tuple[Edge, list[tuple[float, float]]] | None:
    """The edge with its knots, the notches on it and the places where marked lines cross it moved, drawn through them.

    notches: how far along the edge they lie, mm
    Comes with where along it, mm from its start before, it grew by how much. None where it is no such spline, or would
    not run along the grain any more.
    """
    parts = _parted(edge, notches, marks)
    knots = [parts[0].start, *(part.end for part in parts)]
    was = _Graph(knots, along, _slope(parts[0], 0.0, along), _slope(parts[-1], 1.0, along))
    if not was.runs_one_way or not all(_same(part, drawn) for part, drawn in zip(parts, was.curves(), strict=True)):
        return None
    now = _Graph([move(knot) for knot in knots], along, was.first, was.last)
    if not now.runs_one_way or (now.heights[0] > 0.0) != (was.heights[0] > 0.0):
        return None
    curves, growths, gone = now.curves(), [], 0.0
    for part, curve in zip(parts, curves, strict=True):
        long = length(part)
        growths.append((gone + 0.5 * long, length(curve) - long))
        gone += long
    return replace(edge, curves=curves), growths


class _Graph:
    """A clamped spline over a direction, through knots, with slopes at its ends: mm aside for each mm along."""

    def __init__(self, knots: Sequence[Point], along: Vec, first: float, last: float) -> None:
        self.knots, self.along, self.first, self.last = knots, along, first, last
        self.heights = [(b - a).dot(along) for a, b in pairwise(knots)]

    @property
    def runs_one_way(self) -> bool:
        """Whether every knot lies further along than the one before it, or none does."""
        return all(h > _NEAR for h in self.heights) or all(h < -_NEAR for h in self.heights)

    def curves(self) -> tuple[Curve, ...]:
        """The spline, a cubic between every two knots."""
        aside, origin = self.along.left(), self.knots[0]
        asides = [(p - origin).dot(aside) for p in self.knots]
        chords = [(b - a) / h for (a, b), h in zip(pairwise(asides), self.heights, strict=True)]
        slopes = _bending_one_way(clamped_slopes(asides, self.heights, self.first, self.last), chords, self.heights)
        steps = [self.along + aside * slope for slope in slopes]
        curves = []
        for i, (a, b) in enumerate(pairwise(self.knots)):
            leave, arrive = _handles(slopes[i], chords[i], slopes[i + 1])
            h = self.heights[i]
            curves.append(Cubic(a, a + steps[i] * (leave * h), b - steps[i + 1] * (arrive * h), b))
        return tuple(curves)


def _bending_one_way(slopes: Sequence[float], chords: Sequence[float], heights: Sequence[float]) -> Sequence[float]:
    """The slopes at the knots; where the spline would waver and need not, those of an arc over both stretches.

    Where the slopes of the chords, with those at the ends, grow or fall all along, a line that bends one way can go
    through the knots. The arc that does, a parabola over the grain, has at a knot the mean of the chords, the shorter
    stretch counting the more.
    """
    run = [slopes[0], *chords, slopes[-1]]
    one_way = all(a < b for a, b in pairwise(run)) or all(a > b for a, b in pairwise(run))
    spans = zip(pairwise(slopes), chords, strict=True)
    if not one_way or all(_handles(a, chord, b) == (_THIRD, _THIRD) and a != b for (a, b), chord in spans):
        return slopes
    arcs = zip(pairwise(chords), pairwise(heights), strict=True)
    return [slopes[0], *((one * h2 + other * h1) / (h1 + h2) for (one, other), (h1, h2) in arcs), slopes[-1]]


def _handles(leaving: float, chord: float, arriving: float) -> tuple[float, float]:
    """How long the handles of a stretch are along the grain, as shares of it: thirds, as a spline's are.

    Where the line bends one way, neither goes beyond where the lines along both ends cross: it would bend back. One
    that would be much shorter stays a third: a slight waver is better than all the bend at one place.
    """
    if not min(leaving, arriving) < chord < max(leaving, arriving):
        return _THIRD, _THIRD
    crossing = (arriving - chord) / (arriving - leaving)
    if min(crossing, 1.0 - crossing) < _SHORT:
        return _THIRD, _THIRD
    leave, arrive = (share if share < _THIRD - _SAME_SHARE else _THIRD for share in (crossing, 1.0 - crossing))
    return leave, arrive


def _parted(edge: Edge, notches: Sequence[float], marks: Sequence[MarkLine]) -> list[Curve]:
    """The curves of an edge, parted at its notches and where marked lines cross it."""
    parts: list[Curve] = []
    gone = 0.0
    for curve in edge.curves:
        whole = length(curve)
        stops = [at_length(curve, at - gone) for at in notches if _NEAR < at - gone < whole - _NEAR]
        stops += [hit.t for line in marks for hit in line_hits(curve, line.start, line.end - line.start)]
        rest, low = curve, 0.0
        for stop in sorted(stops):
            if (stop - low) * whole > _NEAR and (1.0 - stop) * whole > _NEAR:
                head, rest = split(rest, (stop - low) / (1.0 - low))
                parts.append(head)
                low = stop
        parts.append(rest)
        gone += whole
    return parts


def _slope(curve: Curve, t: float, along: Vec) -> float:
    pace = velocity(curve, t)
    forward = pace.dot(along)
    return pace.dot(along.left()) / forward if forward else 0.0


def _same(curve: Curve, other: Curve) -> bool:
    return (
        isinstance(curve, Cubic)
        and isinstance(other, Cubic)
        and curve.c1.near(other.c1, _SAME)
        and curve.c2.near(other.c2, _SAME)
    )
