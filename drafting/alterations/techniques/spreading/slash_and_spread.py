"""Slash and spread with several cuts: a piece cut into strips from its upper edge to its lower one, and fanned out.

The strips keep their shape. Each is laid beside the one before it, with one gap above and another below. The edge with
gaps is trued: redrawn in one sweep through the middles of the gaps and of the strips. An edge at which the strips hang
together (the hinge) keeps its length exactly, also when it is trued.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    STAY,
    Curve,
    Line,
    Move,
    Point,
    Vec,
    bend,
    distance,
    fair,
    lerp,
    mapped,
    point_at,
    run_ends,
    run_hits,
    run_length,
    run_reversed,
    shift,
    smooth_through,
    turn,
)
from drafting.geometry.tolerance import MEASURED, SAME_PLACE
from drafting.pattern import MarkLine

__all__ = ["Slash", "fanned", "fanned_line", "level_line", "middles", "of_length", "strip_of", "trued"]

_ROUND: Final = 0.5523
"""The share of the way to where the end directions meet that makes the handles of a circle or an ellipse."""

_TIGHTEST: Final = 0.9
"""The same share where a bend would become a corner (our figure)."""

_FEW: Final = 3
"""So many points between two ends leave a chain of strips too coarse to be drawn through (our figure)."""

_LOPSIDED: Final = 0.2
"""The share of one tangent line's way to where both meet that the other has at the least for one bend between them to
be even; of less it would all lie at one end, and the fairest line is drawn (our figure)."""

_MOST_TURNED: Final = math.radians(75.0)
"""How far the outermost strip may be turned: more, and the two sides of a piece would come round to each other."""


@dataclass(frozen=True, slots=True)
class Slash:
    """A cut from a place on the upper edge to one on the lower."""

    top: Point
    bottom: Point


def fanned(slashes: Sequence[Slash], *, top: float, bottom: float, to_right: bool) -> tuple[Move, ...]:
    """The move of each strip when every slash is opened by these amounts above and below, mm; the first strip stays.

    slashes: in the order in which they lie from the strip that stays, towards the right or the left
    Each opens as a wedge or as an even gap: the sides of a slash are equally long, so it is an isosceles trapezoid.
    Raises NotAPattern where the last strip would be turned by more than 75 degrees.
    """
    moves = [STAY]
    turned = 0.0
    for slash in slashes:
        leg = slash.bottom - slash.top
        half = 0.5 * (bottom - top) / leg.norm()
        if abs(half) >= 1.0:
            raise NotAPattern(
                "slash", reason=f"a slash {leg.norm():.0f} mm long cannot be opened by {bottom - top:.0f} mm"
            )
        angle = 2.0 * math.asin(half) * (1.0 if to_right else -1.0)
        turned += angle
        if abs(turned) > _MOST_TURNED:
            raise NotAPattern("slash", reason="so much fullness would turn its sides towards each other")
        middle = leg.turned(0.5 * angle).unit()
        away = middle.left() if to_right else middle.right()
        moves.append(turn(slash.top, angle).then(shift(away * top)).then(moves[-1]))
    return tuple(moves)


def middles(places: Sequence[Point], moves: Sequence[Move]) -> list[Point]:
    """The middles of the gaps: where each slash met an edge, half way between what it has become on both sides.

    Half way in turning too, so that all three lie on one arc about the place where the two sides of the slash meet: a
    hem is then as far from there in the middle of a gap as at its sides.
    """
    return [
        _half_way(one.point(place), other.point(place), _angle(other) - _angle(one))
        for place, one, other in zip(places, moves[:-1], moves[1:], strict=True)
    ]


def fanned_line(mark: MarkLine, slashes: Sequence[Slash], moves: Sequence[Move], *, to_right: bool) -> MarkLine:
    """A marked line that runs across strips, drawn in one sweep where it now lies; as before where no cut parts it.

    slashes: in the order in which they lie from the strip that stays, each parting its strip from the next
    """
    outward = (mark.end.x > mark.start.x) == to_right
    run = mark.drawn if outward else run_reversed(mark.drawn)
    first, last = (strip_of(place, slashes, to_right) for place in (run[0].start, run[-1].end))
    start, end = moves[first].point(run[0].start), moves[last].point(run[-1].end)
    met: list[Point] = []
    for slash, one, other in zip(slashes[first:last], moves[first:last], moves[first + 1 : last + 1], strict=True):
        hits = run_hits(run, slash.top, slash.bottom - slash.top)
        if hits:
            met += middles([hits[0][1].point], [one, other])
    ends = (start, end) if outward else (end, start)
    if not met:
        return mark.moved(moves[first]) if first == last else mark.between(*ends)
    leaving, arriving = run_ends(run)
    swept = level_line((start, *met, end), moves[first].vec(leaving), moves[last].vec(arriving))
    return mark.through(swept if outward else run_reversed(swept), *ends)


def strip_of(place: Point, slashes: Sequence[Slash], to_right: bool) -> int:
    """The number of the strip on which a place lies."""
    beyond = ((slash.bottom - slash.top).cross(place - slash.top) > 0.0 for slash in slashes)
    return sum(side == to_right for side in beyond)


def _angle(move: Move) -> float:
    """How far a move turns what it moves, radians anticlockwise."""
    return math.atan2(move.c, move.a)


def _half_way(one: Point, other: Point, turned: float) -> Point:
    """The middle of the arc through `turned` radians from one place to another: its rise over half the chord is the
    tangent of a quarter of the angle (plane geometry).
    """
    return lerp(one, other, 0.5) + (other - one).right() * (0.5 * math.tan(0.25 * turned))


def trued(points: Sequence[Point], leaving: Vec, arriving: Vec) -> tuple[Curve, ...]:
    """One smooth sweep through the points; a straight line where they and both directions lie on one."""
    if _straight(points, leaving, arriving):
        return (Line(points[0], points[-1]),)
    return smooth_through(points, leaving, arriving)


def _straight(points: Sequence[Point], leaving: Vec, arriving: Vec) -> bool:
    """Whether the points and both directions lie on one line."""
    along = (points[-1] - points[0]).unit()
    inner = all(abs(along.cross(p - points[0])) <= SAME_PLACE for p in points[1:-1])
    return inner and max(abs(along.cross(leaving.unit())), abs(along.cross(arriving.unit()))) <= SAME_PLACE


def level_line(points: Sequence[Point], leaving: Vec, arriving: Vec) -> tuple[Curve, ...]:
    """What was level, where it now lies: one arc from end to end, as a cutter trues a hem, near the points between.

    The strips are stiff, so the points lie on a chain of straight lines and short bends. The arc is drawn in one bend
    with handles half way between those of a circle and those that come nearest to the points (least squares at their
    places along the chain: the curve depends on its handles linearly). Where one bend
    does not join the ends it runs through the points; so it does through more than three, which are near enough to an
    arc by themselves. Where one bend would all lie at one end, it is the curve of least bending.
    """
    start, end = points[0], points[-1]
    if len(points) - 2 > _FEW or _straight(points, leaving, arriving):
        return trued(points, leaving, arriving)
    try:
        flat, full = (bend(start, leaving, end, arriving, tight=tight) for tight in (0.0, 1.0))
    except NotAPattern:
        return trued(points, leaving, arriving)
    arms = sorted(distance(full.c1, each) for each in (start, end))
    if arms[0] < _LOPSIDED * arms[1]:
        return (fair(start, leaving, end, arriving),)
    gone = [0.0, *accumulate(distance(one, other) for one, other in pairwise(points))]
    top = bottom = 0.0
    for p, at in zip(points[1:-1], gone[1:-1], strict=True):
        low, high = (point_at(curve, at / gone[-1]) for curve in (flat, full))
        top += (p - low).dot(high - low)
        bottom += (high - low).dot(high - low)
    nearest = min(_TIGHTEST, max(0.0, top / bottom)) if bottom else _ROUND
    return (bend(start, leaving, end, arriving, tight=0.5 * (_ROUND + nearest)),)


def of_length(run: Sequence[Curve], wanted: float) -> tuple[Curve, ...]:
    """The run made larger or smaller about its start until it is so long, mm; every direction is kept."""
    start, factor = run[0].start, wanted / run_length(run, MEASURED)
    return mapped(run, lambda p: start + (p - start) * factor)
