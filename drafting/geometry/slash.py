r"""Slash and spread, slash and hinge: what most alterations stand on.

An outline is slashed along a straight line. What lies to the left of the line moves, what lies to its right stays.
Spreading parts the two by a strip, or takes one out; hinging turns the moving part about a point of the outline,
which opens a wedge or takes one out. Every curve that is not cut keeps its shape exactly; what is new is straight,
and says so, so that the caller can redraw it.

      before              spread               hinge
    +---*---+          +---*  *---+          +---*  *---+     The line cuts the outline in places (*). Between two of
    | M | S |          | M |  | S |          | M  \ / S |     them lies a run, all to its left (M moves) or all to its
    |   |   |    ->    |   |  |   |    or    |     V    |     right (S stays). The runs are moved or left, and joined
    +---*---+          +---*--*---+          +-----*----+     anew in their order by straight lines where they parted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry.crossing import run_hits
from drafting.geometry.curve import Curve, Line, point_at
from drafting.geometry.meet import meetings
from drafting.geometry.outline import area, starting_at, stretch
from drafting.geometry.point import Point, Vec, distance
from drafting.geometry.tolerance import SAME_PLACE
from drafting.geometry.transform import STAY, Move, moved, shift, turn

__all__ = ["Laid", "Part", "Tagged", "hinge", "slash", "spread"]

_WHERE: Final = "slash"


class Part(StrEnum):
    """Which part of a slashed outline a curve is."""

    STAYS = "stays"
    MOVES = "moves"
    NEW = "new"


@dataclass(frozen=True, slots=True)
class Tagged:
    """A curve of an outline and the name of the edge it belongs to."""

    curve: Curve
    tag: str


@dataclass(frozen=True, slots=True)
class Laid:
    """A curve as it lies after the slash: the edge it came from, and the part it is.

    tag: for a new curve, the edge that was cut there; "" where the cut went through a corner of two edges
    """

    curve: Curve
    tag: str
    part: Part


@dataclass(frozen=True, slots=True)
class _Run:
    """A stretch of the outline between two places of the slash; `whole` where nothing of it is cut."""

    curves: tuple[Tagged, ...]
    left: bool


def slash(outline: Sequence[Tagged], through: Point, along: Vec) -> tuple[tuple[Laid, ...], ...]:
    """The runs between the places where an endless line cuts a closed outline, in outline order; nothing is moved yet.

    `outline` runs anticlockwise. A run to the left of the line is MOVES throughout, to its right STAYS. A place where
    the outline only touches the line is no cut. Raises NotAPattern when the line does not cut the outline.
    """
    return tuple(
        tuple(Laid(item.curve, item.tag, Part.MOVES if run.left else Part.STAYS) for item in run.curves)
        for run in _runs(outline, through, along)
    )


def spread(outline: Sequence[Tagged], through: Point, along: Vec, by: float) -> tuple[Laid, ...]:
    """The closed outline after what lies to the left of the line is moved `by` mm straight away from it.

    Where the line cut an edge (a dart leg too), a straight piece bridges the gap. Negative: a strip of that width to
    the left of the line is taken out and the rest moved up; where its two sides are not in line the new piece lies
    along the line. Raises NotAPattern when the line, or the far side of the strip, does not cut the outline.
    """
    away = along.unit().left()
    stays = [run for run in _runs(outline, through, along) if not run.left]
    far = through if by >= 0.0 else through - away * by
    moves = [run for run in _runs(outline, far, along) if run.left]
    if len(stays) != len(moves):
        raise NotAPattern(_WHERE, "the strip to be taken out would split the piece")
    return _rejoined(outline, stays, moves, shift(away * by))


def hinge(outline: Sequence[Tagged], at: Point, to: Point, angle: float) -> tuple[Laid, ...]:
    """The closed outline slashed from `at` to `to`, both on it, and what is left of that line turned about `at`.

    angle: radians; positive opens a wedge at `to`, bridged by a straight piece, negative takes one out
    Raises NotAPattern when either place is off the outline, or the slash leaves the piece on its way.
    """
    start, end = _position(outline, at), _position(outline, to)
    curves = [item.curve for item in outline]
    direction = to - at
    reach = direction.norm()
    if reach <= SAME_PLACE:
        raise NotAPattern(_WHERE, "it begins and ends in one place")
    if any(SAME_PLACE < hit.along < reach - SAME_PLACE for _, hit in run_hits(curves, at, direction)):
        raise NotAPattern(_WHERE, "it leaves the piece on its way")
    stays = _Run(_part(outline, start, end), left=False)
    moving = _part(outline, end, start)
    if _enclosed(stays.curves) <= 0.0 or _enclosed(moving) <= 0.0:
        raise NotAPattern(_WHERE, "it runs outside the piece")
    if angle < 0.0:
        moving = _beyond_ray(moving, at, direction.turned(-angle))
    return _rejoined(outline, [stays], [_Run(moving, left=True)], turn(at, angle))


def _runs(outline: Sequence[Tagged], through: Point, along: Vec) -> list[_Run]:
    """The runs between cuts, neighbours to the same side put together; two or more, sides alternating."""
    curves = [item.curve for item in outline]
    normal = along.unit().left()
    cuts = sorted(i + hit.t for i, hit in run_hits(curves, through, along))
    runs: list[_Run] = []
    for k, cut in enumerate(cuts):
        part = _part(outline, cut, cuts[(k + 1) % len(cuts)])
        if not part:
            continue
        heights = [normal.dot(point_at(item.curve, t) - through) for item in part for t in (0.0, 0.25, 0.5, 0.75, 1.0)]
        run = _Run(part, max(heights, key=abs) > 0.0)
        if runs and runs[-1].left == run.left:
            run = _Run((*runs.pop().curves, *part), run.left)
        runs.append(run)
    if len(runs) > 1 and runs[0].left == runs[-1].left:
        runs = [*runs[1:-1], _Run((*runs[-1].curves, *runs[0].curves), runs[0].left)]
    if len(runs) < 2:
        raise NotAPattern(_WHERE, "the line does not cut the piece")
    return runs


def _part(outline: Sequence[Tagged], start: float, end: float) -> tuple[Tagged, ...]:
    """The closed outline from one position forward to another; all of it where they are one."""
    n = len(outline)
    stops = [(start, end)] if end > start else [(start, float(n)), (0.0, end)]
    out: list[Tagged] = []
    for low, high in stops:
        for k in range(int(low), min(n, int(high) + 1)):
            piece = stretch((outline[k].curve,), max(0.0, low - k), min(1.0, high - k))
            out.extend(Tagged(curve, outline[k].tag) for curve in piece)
    return tuple(out)


def _position(outline: Sequence[Tagged], place: Point) -> float:
    """The position of a point on the outline; NotAPattern when it is off it."""
    probe = Line(place, place)
    for k, item in enumerate(outline):
        if item.curve.start.near(place):
            return float(k)
        if item.curve.end.near(place):
            return float((k + 1) % len(outline))
        found = meetings(item.curve, probe)
        if found:
            return k + found[0].at_a
    raise NotAPattern(_WHERE, f"({place.x:.2f}, {place.y:.2f}) is not on the outline")


def _enclosed(run: tuple[Tagged, ...]) -> float:
    """The area between a run and the straight line that closes it, mm squared."""
    curves = [item.curve for item in run]
    return area((*curves, Line(curves[-1].end, curves[0].start)))


def _beyond_ray(run: tuple[Tagged, ...], at: Point, ray: Vec) -> tuple[Tagged, ...]:
    """What is left of a run that arrives at the hinge, once the wedge before the ray is taken out."""
    hits = [(i, hit) for i, hit in run_hits([item.curve for item in run], at, ray) if hit.along > SAME_PLACE]
    if not hits:
        raise NotAPattern(_WHERE, "the wedge to be taken out is the whole part that moves")
    i, hit = min(hits, key=lambda found: found[1].along)
    return _part(run, i + hit.t, float(len(run)))


def _rejoined(outline: Sequence[Tagged], stays: Sequence[_Run], moves: Sequence[_Run], move: Move) -> tuple[Laid, ...]:
    """Staying and moved runs in the order of the outline, with straight pieces where they no longer meet."""
    order = _alternating(stays, moves)
    laid: list[Laid] = []
    for k, run in enumerate(order):
        part, how = (Part.MOVES, move) if run.left else (Part.STAYS, STAY)
        previous = order[k - 1]
        from_move = move if previous.left else STAY
        end = from_move.point(previous.curves[-1].curve.end)
        start = how.point(run.curves[0].curve.start)
        if distance(end, start) > SAME_PLACE:
            one, other = previous.curves[-1].tag, run.curves[0].tag
            laid.append(Laid(Line(end, start), one if one == other else "", Part.NEW))
            end = start
        for item in run.curves:
            curve = moved(item.curve, how) if run.left else item.curve
            laid.append(Laid(starting_at(curve, end) if curve.start != end else curve, item.tag, part))
            end = laid[-1].curve.end
    return _from_first(outline, laid)


def _alternating(stays: Sequence[_Run], moves: Sequence[_Run]) -> list[_Run]:
    """Staying runs, each followed by the moving run that begins nearest to where it ends."""
    order: list[_Run] = []
    left = list(moves)
    for run in stays:
        end = run.curves[-1].curve.end
        following = min(left, key=lambda other: distance(other.curves[0].curve.start, end))
        left.remove(following)
        order += [run, following]
    return order


def _from_first(outline: Sequence[Tagged], laid: list[Laid]) -> tuple[Laid, ...]:
    """The closed run begun again where the first edge of the outline begins, so that its named corner stays first."""
    first = outline[0].tag
    for k, item in enumerate(laid):
        if item.tag == first and laid[k - 1].tag != first:
            return (*laid[k:], *laid[:k])
    return tuple(laid)
