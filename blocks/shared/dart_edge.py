"""Edges with darts in them, drawn the way a cutter trues them: folded closed, drawn in one sweep, opened again.

Because the edge is drawn with its darts folded, the legs of each dart are equal and the folded dart meets the
seam line without a corner, whatever the widths.
"""

from __future__ import annotations

import math
from dataclasses import replace

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Line,
    Point,
    Vec,
    bend,
    distance,
    length,
    line_hits,
    moved,
    split,
    turn,
)
from drafting.geometry.tolerance import SOLVED

__all__ = [
    "DartPlan",
    "Opened",
    "angle_for",
    "closed_end",
    "darted_edge",
    "open_dart",
    "sewn_length",
    "waist_part_names",
]


@dataclass(frozen=True, slots=True)
class DartPlan:
    """A dart to be let into an edge.

    apex:  its point on the flat piece
    axis:  the direction from the apex to the middle of the open mouth
    angle: how far the part beyond it is turned about the apex to open it, radians, anticlockwise positive
    """

    name: str
    apex: Point
    axis: Vec
    angle: float

    def opened(self, factor: float) -> DartPlan:
        """The same dart, opened `factor` times as wide."""
        return DartPlan(self.name, self.apex, self.axis, self.angle * factor)


@dataclass(frozen=True, slots=True)
class Opened:
    """An edge opened for its darts: the sewn parts in order, and between each two the legs of a dart, in and out."""

    parts: tuple[Curve, ...]
    legs: tuple[tuple[Line, Line], ...]


def angle_for(width: float, leg: float) -> float:
    """The angle of a dart `width` mm across between legs `leg` mm long, radians.

    Raises NotAPattern for a dart without legs, whose point lies on the edge or beyond it, and for one that would have
    to add more than twice the length of its legs.
    """
    if leg <= 0.0:
        raise NotAPattern("dart", reason="its point does not lie within the piece")
    if width < -2.0 * leg:
        raise NotAPattern("dart", reason="more would have to be added than it can be opened by")
    return 2.0 * math.asin(min(1.0, 0.5 * width / leg))


def open_dart(edge: Curve, t: float, apex: Point, angle: float) -> tuple[Curve, Line, Line, Curve]:
    """Cut a closed edge at t and turn what lies beyond about the apex: (before, leg in, leg out, beyond)."""
    before, beyond = split(edge, t)
    beyond = moved(beyond, turn(apex, angle))
    return before, Line(before.end, apex), Line(apex, beyond.start), beyond


def closed_end(end: Point, arriving: Vec, darts: tuple[DartPlan, ...]) -> tuple[Point, Vec]:
    """Where the far end of an edge lies, and which way it arrives, once its darts are folded closed."""
    for dart in reversed(darts):
        fold = turn(dart.apex, -dart.angle)
        end, arriving = fold.point(end), fold.vec(arriving)
    return end, arriving


def darted_edge(start: Point, leaving: Vec, end: Point, arriving: Vec, darts: tuple[DartPlan, ...]) -> Opened:
    """The edge from `start` to `end` (on the flat piece) with its darts open, one smooth curve when they are folded.

    Raises NotAPattern when no smooth curve without a wobble joins the ends, or a dart's leg misses it.
    """
    edge: Curve = _closed_curve(start, leaving, end, arriving, darts)
    parts: list[Curve] = []
    legs: list[tuple[Line, Line]] = []
    for dart in darts:
        inner = dart.axis.turned(-0.5 * dart.angle)
        hits = [hit for hit in line_hits(edge, dart.apex, inner) if hit.along > 0.0]
        if not hits:
            raise NotAPattern(f'dart "{dart.name}"', reason="its leg does not reach the seam line")
        before, leg_in, leg_out, edge = open_dart(edge, hits[0].t, dart.apex, dart.angle)
        parts.append(before)
        legs.append((leg_in, leg_out))
    # the far end came back through turns that undo each other; give it its exact place
    edge = replace(edge, end=end)
    return Opened((*parts, edge), tuple(legs))


def sewn_length(start: Point, leaving: Vec, end: Point, arriving: Vec, darts: tuple[DartPlan, ...]) -> float:
    """The length of the edge with its darts folded, mm."""
    return length(_closed_curve(start, leaving, end, arriving, darts), SOLVED)


def _closed_curve(start: Point, leaving: Vec, end: Point, arriving: Vec, darts: tuple[DartPlan, ...]) -> Curve:
    far, direction = closed_end(end, arriving, darts)
    if distance(start, far) < 1.0:
        raise NotAPattern("edge with darts", reason="its darts take up the whole of it")
    return bend(start, leaving, far, direction, tight=0.6)


def waist_part_names(darts: int) -> tuple[str, ...]:
    """What the parts of a waist with so many darts in it are called, from the centre to the side."""
    between = ("waist between darts", *(f"waist between darts {n}" for n in range(2, darts)))
    return ("waist",) if darts == 0 else ("waist at centre", *between[: darts - 1], "waist at side")
