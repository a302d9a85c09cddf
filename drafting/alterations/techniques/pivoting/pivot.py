"""Turning a part of a piece about the point of a dart, and drawing a dart again to the mouth it then has.

A dart is turned about the point it is drawn towards (the bust point), not about the point it is sewn to, which lies a
little short of it: so all darts of one bust are turned about one place, and can be moved into one another (common
practice; the new dart is then drawn to end as far short of it as the old one did).

How a dart is drawn. Its mouth is as wide as the turn made it, its point lies on the fold through the middle of the
mouth, its legs mirror each other. With straight legs to the shortened point the dart takes up more than was opened,
and the seam line, folded, would have a corner. Where that is more than a straight leg is trusted with, the legs leave
the mouth in the directions in which the folded seam runs straight on, and bend by a millimetre or so on their way to
the point. So the seams that are opened or closed keep their shape and length to the last digit, and a dart that is
moved away and back leaves the piece as it was.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Move,
    Point,
    Vec,
    corner_turn,
    distance,
    encloses,
    lerp,
    polyline,
    run_hits,
    run_reversed,
    turn,
)
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Dart, Edge, Grain, MarkLine, Piece, Place, Role, dart_mouth, free_name

__all__ = [
    "TurnedPart",
    "Turning",
    "angle_about",
    "drawn_dart",
    "inside",
    "inward_of",
    "is_centre",
    "leg_names",
    "lines_to_outline",
    "region",
    "turned_part",
    "turning_of",
    "with_part_turned",
]

_STRAIGHT: Final = math.radians(2.0)
"""By how much a folded seam may be off straight at a dart with straight legs: two thirds of what a true corner may."""

_LEAST_LEG: Final = 15.0
"""mm from the mouth of a dart to its point, at least: a shorter one cannot be sewn (our figure)."""

_MOST_BENT: Final = math.radians(20.0)
"""How far a leg may leave its straight line at the mouth: more is no dart but a corner of the piece (our figure)."""

_LEAN: Final = 2.0
"""mm that a place is judged nearer to what is turned about: marks lie on the outline, or a hair outside it."""

_ON_EDGE: Final = 1e-3
"""mm. A marked line that ends this near the outline ends on it."""


@dataclass(frozen=True, slots=True)
class Turning:
    """The place a dart is turned about, and how far short of it the dart ends, mm."""

    pivot: Point
    short: float


def turning_of(piece: Piece, dart: Dart, beyond: float = 0.0) -> Turning:
    """What a dart is turned about: the place on its fold that is nearest to the point it is drawn towards.

    A dart that is drawn towards nothing is turned about a place `beyond` mm past its own point.
    """
    one, other = dart_mouth(piece, dart)
    inward = inward_of(one, other)
    if not dart.aims_at:
        return Turning(dart.apex + inward * beyond, beyond)
    short = (piece.point(dart.aims_at) - dart.apex).dot(inward)
    return Turning(dart.apex + inward * short, short)


def angle_about(one: Point, other: Point, pivot: Point) -> float:
    """The angle of a mouth seen from the point it is turned about, radians, anticlockwise from `one` to `other`."""
    return (one - pivot).angle_to(other - pivot)


def drawn_dart(
    before: Edge, after: Edge, dart: Dart, turning: Turning, legs: tuple[str, str] | None = None
) -> tuple[Edge, Edge, Dart]:
    """A dart between two edges, the legs in outline order: its point on the fold, `short` of where it is turned about.

    Raises NotAPattern where it would be too short to sew, or where the edges meet in a corner and not along a seam.
    """
    one, other = before.end, after.start
    inward, middle = inward_of(one, other), lerp(one, other, 0.5)
    half = 0.5 * distance(one, other)
    deep = (turning.pivot - middle).dot(inward) - turning.short
    if math.hypot(deep, half) < _LEAST_LEG or deep <= 0.0:
        raise NotAPattern(f'dart "{dart.name}"', reason=f"it would be {max(0.0, deep):.0f} mm long, too short to sew")
    apex = middle + inward * deep
    folds = corner_turn(before.curves, after.curves)
    spread = math.atan2(half, deep)
    bent = spread - 0.5 * folds
    if abs(bent) > _MOST_BENT:
        raise NotAPattern(f'dart "{dart.name}"', reason="the seam has a corner there, over which no dart can be folded")
    names = legs or dart.legs
    if 2.0 * abs(bent) <= _STRAIGHT:
        into: Curve = Line(one, apex)
        out: Curve = Line(apex, other)
    else:
        # a leg that runs straight into its point: no bending there, so it arrives turned half as much the other way
        third = math.hypot(deep, half) / 3.0
        into = Cubic(
            one, one + inward.turned(-0.5 * folds) * third, apex - inward.turned(-spread - 0.5 * bent) * third, apex
        )
        out = Cubic(
            apex, apex - inward.turned(spread + 0.5 * bent) * third, other + inward.turned(0.5 * folds) * third, other
        )
    return (
        Edge(names[0], (into,), Role.DART_LEG),
        Edge(names[1], (out,), Role.DART_LEG),
        replace(dart, legs=names, apex=apex),
    )


def leg_names(
    dart: str, mouth: tuple[Point, Point], beside: tuple[str, str], taken: Collection[str]
) -> tuple[str, str]:
    """Names for the legs of a new dart that are free on the piece.

    beside: the words for what lies at the other ends of the two parts of its seam, "" where they are not known: then
            they are called by where they lie
    """
    one, other = mouth
    if abs(other.x - one.x) >= abs(other.y - one.y):
        sides = ("centre", "side") if abs(one.x) < abs(other.x) else ("side", "centre")
    else:
        sides = ("above", "below") if one.y > other.y else ("below", "above")
    words = beside if all(beside) and beside[0] != beside[1] else sides
    first = free_name(f"{dart} leg, {words[0]}", taken)
    return first, free_name(f"{dart} leg, {words[1]}", {first, *taken})


def is_centre(edge: Edge) -> bool:
    """Whether an edge lies on the centre line of the body: it stays where it is, and the grain with it."""
    return edge.role is Role.FOLD or edge.place in (Place.CENTRE_FRONT, Place.CENTRE_BACK)


def region(pivot: Point, edges: Iterable[Edge]) -> tuple[Point, ...]:
    """The part of a piece between a stretch of its outline and the point it is turned about, as a polygon."""
    return (pivot, *polyline([curve for edge in edges for curve in edge.curves], 0.1))


def inside(polygon: Sequence[Point], place: Point) -> bool:
    """Whether a place lies in the polygon; one on its outline is judged a little nearer the first corner."""
    first = polygon[0]
    leaning = lerp(place, first, min(0.5, _LEAN / max(distance(place, first), 1.0)))
    return encloses(polygon, leaning) and not place.near(first)


@dataclass(frozen=True, slots=True)
class TurnedPart:
    """A part of a piece that is turned about a point.

    names:   the edges of its stretch of the outline
    polygon: that stretch and the point, before the turn
    """

    names: frozenset[str]
    polygon: tuple[Point, ...]
    move: Move

    def holds(self, place: Point) -> bool:
        """Whether a place of the piece, before the turn, lies on it."""
        return inside(self.polygon, place)


def turned_part(pivot: Point, edges: Sequence[Edge], angle: float) -> TurnedPart:
    """The part between a stretch of the outline and a point, turned about that by so many radians, anticlockwise."""
    return TurnedPart(frozenset(edge.name for edge in edges), region(pivot, edges), turn(pivot, angle))


def with_part_turned(
    piece: Piece, part: TurnedPart, edges: tuple[Edge, ...], redrawn: Iterable[Dart], *, corners_too: bool = False
) -> Piece:
    """The piece of these edges, all that is marked on the part turned with it; its notches as they were.

    redrawn:     the darts that are drawn again
    corners_too: whether level lines that end in a corner of the part follow it
    A line that lies only in part on it is left as it is: it marks a level of the part that stays.
    """
    move, holds = part.move, part.holds
    drawn = {dart.name: dart for dart in redrawn}
    carried = (replace(d, apex=move.point(d.apex)) if d.legs[0] in part.names else d for d in piece.darts)
    grain = piece.grain
    if grain is not None and holds(grain.start) and holds(grain.end):
        grain = Grain(move.point(grain.start), move.point(grain.end))
    lines = [line.moved(move) if holds(line.start) and holds(line.end) else line for line in piece.lines]
    outline = [curve for edge in edges for curve in edge.curves]
    return replace(
        piece,
        edges=edges,
        darts=tuple({**{dart.name: dart for dart in carried}, **drawn}.values()),
        grain=grain,
        lines=lines_to_outline(lines, piece.outline, outline, holds, move if corners_too else None),
        points=tuple(mark.placed(move.point(mark.at)) if holds(mark.at) else mark for mark in piece.points),
    )


def lines_to_outline(
    lines: Iterable[MarkLine],
    was: Sequence[Curve],
    now: Sequence[Curve],
    moves: Callable[[Point], bool],
    move: Move | None = None,
) -> tuple[MarkLine, ...]:
    """Level lines that ended on the outline and no longer do, drawn from their end that stays to where it lies now.

    move: what became of the part that moves. A line that ended in a corner of the outline, as that of the underarm
          does, is drawn level with where the corner lies now
    """
    return tuple(_line_to_outline(line, was, now, moves, move) for line in lines)


def _line_to_outline(
    line: MarkLine, was: Sequence[Curve], now: Sequence[Curve], moves: Callable[[Point], bool], move: Move | None
) -> MarkLine:
    """A marked line whose end lay on the outline, led on to where the outline runs now; any other line as it was."""
    if moves(line.start):
        if moves(line.end):
            return line
        turned = _line_to_outline(_reversed(line), was, now, moves, move)
        return _reversed(turned)
    if move is not None and moves(line.end) and any(curve.start.near(line.end, _ON_EDGE) for curve in was):
        along, by = (line.end - line.start).unit(), move.point(line.end) - line.end
        return line.straight(line.start + (by - along * by.dot(along)), line.end + by)
    along = line.end - line.start
    if not moves(line.end) and _ends_on(now, line):
        return line
    if not _ends_on(was, line):
        return line
    hits = [hit for _, hit in run_hits(now, line.start, along) if hit.along > SAME_PLACE]
    return line.straight(line.start, max(hits, key=lambda hit: hit.along).point) if hits else line


def _reversed(line: MarkLine) -> MarkLine:
    return replace(line, start=line.end, end=line.start, curves=run_reversed(line.curves))


def _ends_on(outline: Sequence[Curve], line: MarkLine) -> bool:
    """Whether a line ends on the outline."""
    if any(curve.start.near(line.end, _ON_EDGE) for curve in outline):
        return True
    return any(hit.point.near(line.end, _ON_EDGE) for _, hit in run_hits(outline, line.start, line.end - line.start))


def inward_of(one: Point, other: Point) -> Vec:
    """The direction of a dart from the middle of its mouth to its point; the outline runs anticlockwise."""
    return (other - one).unit().left()
