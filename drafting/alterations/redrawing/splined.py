"""A seam that is one spline over the grain, drawn as that spline again when its marks are moved along the grain.

Over the grain means that it goes aside as a function of how far along the grain it has come, a cubic between every two
knots, with no jump of its second derivative: what a thin spline does that is clamped at its ends and held at its marks.
It follows from the places of the knots and the slopes at its ends alone, so amounts add up, and what is taken back
leaves no trace.
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
        slopes = clamped_slopes([(p - origin).dot(aside) for p in self.knots], self.heights, self.first, self.last)
        steps = [self.along + aside * slope for slope in slopes]
        return tuple(
            Cubic(a, a + steps[i] * (self.heights[i] / 3.0), b - steps[i + 1] * (self.heights[i] / 3.0), b)
            for i, (a, b) in enumerate(pairwise(self.knots))
        )


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
