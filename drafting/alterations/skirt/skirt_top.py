"""The upper part of a skirt or of trousers as a cutter sees it when she traces a band or a yoke: darts closed.

The waist of a front or a back is laid out with its darts closed and its panels together, and a line is drawn parallel
to it. The part above the line is one piece without darts; the part below keeps the rest of each dart. A dart is drawn
to end on the line where it does not reach it, or where it would be less than 6 mm wide there (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise, takewhile
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Line,
    Move,
    Point,
    blend,
    corner_turn,
    cut_run,
    distance,
    lerp,
    moved_all,
    run_ends,
    run_hits,
    run_length,
    run_reversed,
    tangent,
    turn,
)
from drafting.geometry.meet import run_meetings
from drafting.geometry.outline import stretch
from drafting.parts.finishes.free_edge import chained, parallel_extended, until_met
from drafting.parts.folded_outline import LaidEdge, laid_from
from drafting.pattern import (
    CENTRES,
    BodyPart,
    Dart,
    Half,
    Pattern,
    Piece,
    Place,
    Role,
    dart_mouth,
    edges_at,
    pieces_of,
    with_pieces,
)

__all__ = ["Border", "LineBelow", "Top", "borders", "darts_ending_on", "line_below", "top_and_line", "top_of"]

_LEAST_LEFT: Final = 6.0
"""mm of a dart that must be left below the line for it to be kept (common practice)."""

_ENDS_ON: Final = 1e-9  # mm by which a dart that is drawn to end on the line may miss it
_TRIES: Final = 12
_CORNER: Final = math.radians(0.3)  # where a line is no longer one curve (ours)
_ROUNDED: Final = 25.0  # mm on both sides of a corner that are redrawn (ours)
_MEETS: Final = 1e-7  # mm by which two edges that are sewn to each other may lie apart where the line crosses them
_SQUARE: Final = math.radians(0.1)  # nearer to square than that a line comes to a centre seam as it is (ours)
_LED: Final = 60.0  # mm of a line before a centre seam that are redrawn to come to it square (ours)
_SHARE: Final = 0.9  # of what lies between that and the next dart or seam at the most (ours)
_BEYOND: Final = 1.0  # mm past the centre seam, to be sure to cross it
_FAR: Final = 500.0  # mm, below any line that is drawn


@dataclass(frozen=True, slots=True)
class Top:
    """The waist of a front or a back, laid out anticlockwise with its darts closed.

    centre: the piece at the centre, which lies as it is
    after, before: the edges that follow it, and those that come before it, walked away from it
    """

    half: Half
    centre: str
    run: tuple[LaidEdge, ...]
    after: tuple[LaidEdge, ...]
    before: tuple[LaidEdge, ...]

    @property
    def pieces(self) -> tuple[str, ...]:
        """The pieces that it lies on."""
        return tuple(dict.fromkeys(each.ref.piece for each in self.run))


@dataclass(frozen=True, slots=True)
class Border:
    """What divides two edges of the waist: a dart, the seam of two panels, or no more than the end of an edge.

    dart: None for a seam; edge: its first edge on the way round, which the next one is sewn to; "" for an end
    line: that edge where it lies, from the waist down; where an edge ends, a line square to the waist
    """

    piece: Piece
    edge: str
    dart: Dart | None
    line: tuple[Curve, ...]


@dataclass(frozen=True, slots=True)
class LineBelow:
    """The line below the waist of a front or a back, and where it meets what runs down from there.

    parts:  of the line below each edge of the waist, where they lie, in their order
    downs:  how far down each border it is met, mm
    after, before: what lies above it of the edges after and before the waist, walked away from that
    """

    parts: tuple[tuple[Curve, ...], ...]
    downs: tuple[float, ...]
    after: tuple[LaidEdge, ...]
    before: tuple[LaidEdge, ...]


def top_of(pattern: Pattern, half: Half, part: BodyPart) -> Top | None:
    """The waist of the front or the back of a skirt or of trousers; None where there is none."""
    with_waist = [
        piece for piece in pieces_of(pattern, part=part) if piece.identity.half is half and edges_at(piece, Place.WAIST)
    ]
    if not with_waist:
        return None
    first = min(with_waist, key=lambda piece: not edges_at(piece, Place.CENTRE_FRONT, Place.CENTRE_BACK))
    edge = edges_at(first, Place.WAIST)[0].name
    on, back = (_waist_and_rest(pattern, first, edge, onward=onward) for onward in (True, False))
    earlier = [replace(each, edge=replace(each.edge, curves=run_reversed(each.edge.curves))) for each in back[0][1:]]
    run = (*reversed(earlier), *on[0])
    # laid down so that the edge at the centre lies as it is, and the grain runs there as it does on that piece
    at_centre = run[0] if back[1][0].edge.place in CENTRES else run[-1]
    settle = at_centre.move.undone()
    laid = (tuple(_moved(each, settle) for each in edges) for edges in (run, on[1], back[1]))
    return Top(half, at_centre.ref.piece, *laid)


def _moved(each: LaidEdge, move: Move) -> LaidEdge:
    edge = replace(each.edge, curves=moved_all(each.edge.curves, move))
    return LaidEdge(each.ref, edge, each.move.then(move))


def _waist_and_rest(
    pattern: Pattern, piece: Piece, edge: str, *, onward: bool
) -> tuple[tuple[LaidEdge, ...], tuple[LaidEdge, ...]]:
    walk = list(laid_from(pattern, piece, edge, onward=onward))
    waist = tuple(takewhile(lambda each: each.edge.place is Place.WAIST, walk))
    return waist, tuple(walk[len(waist) :])


def borders(pattern: Pattern, top: Top) -> tuple[Border, ...]:
    """What divides the edges of a waist, in their order."""
    out = []
    for one, other in pairwise(top.run):
        piece = pattern.piece(one.ref.piece)
        edge = piece.beside(one.ref.edge)[1]
        if (other.ref.piece, other.ref.edge) == (piece.name, edge.name):
            end, along = one.edge.end, run_ends(one.edge.curves)[1]
            out.append(Border(piece, "", None, (Line(end, end + along.left() * _FAR),)))
            continue
        dart = next((each for each in piece.darts if each.legs[0] == edge.name), None)
        out.append(Border(piece, edge.name, dart, moved_all(edge.curves, one.move)))
    return tuple(out)


def line_below(name: str, pattern: Pattern, top: Top, depth: float) -> LineBelow:
    """The line so many mm below a waist; every dart of the waist reaches it.

    name: what is drawn, for a refusal. Raises NotAPattern where the pieces are too small for it
    """
    free = _smoothed(parallel_extended(name, chained([curve for each in top.run for curve in each.edge.curves]), depth))
    lengths = [_SHARE * run_length(each.edge.curves) for each in top.run]
    free = _led_square(name, pattern, top.after, free, depth, lengths[-1])
    free = run_reversed(_led_square(name, pattern, top.before, run_reversed(free), depth, lengths[0]))
    after, high = _edges_above(name, top.after, free, depth, last=False)
    before, low = _edges_above(name, top.before, free, depth, last=True)
    downs, places = [], [low]
    for border in borders(pattern, top):
        reach = border.line if border.dart is None else _leg_extended(border.line, depth)
        down, at = _first_meeting(name, reach, free)
        downs.append(down)
        places.append(at)
    places.append(high)
    if any(b <= a for a, b in pairwise(places)):
        raise NotAPattern(name, reason=_too_small(depth))
    parts = [stretch(free, a, b) for a, b in pairwise(places)]
    return LineBelow(tuple(parts), tuple(downs), tuple(after), tuple(before))


def _edges_above(
    name: str, walk: Sequence[LaidEdge], free: Sequence[Curve], depth: float, *, last: bool
) -> tuple[list[LaidEdge], float]:
    """What lies above the line of the edges at one end of the waist, and where on the line they meet it."""
    try:
        return until_met(name, walk, free, last=last)
    except NotAPattern as error:
        raise NotAPattern(name, reason=_too_small(depth)) from error


def _too_small(depth: float) -> str:
    return f"the piece is too small for a line {depth:.0f} mm below its waist"


def top_and_line(name: str, pattern: Pattern, half: Half, part: BodyPart, depth: float) -> tuple[Top, LineBelow]:
    """A waist, its panels laid so that their edges meet at the line below it as well, and that line.

    Two edges that bend away from each other lie flat at no more than two places: at the waist and at the line.
    """
    top = top_of(pattern, half, part)
    assert top is not None
    line = line_below(name, pattern, top, depth)
    for _ in range(_TRIES):
        closed = _closed_at(pattern, top, line.downs)
        if closed is top:
            break
        top, line = closed, line_below(name, pattern, closed, depth)
    return top, line


def _closed_at(pattern: Pattern, top: Top, downs: Sequence[float]) -> Top:
    """The waist with every panel turned about the upper end of its seam until that closes so far down, mm."""
    centre_first = top.run[0].ref.piece == top.centre
    for k, (border, down) in enumerate(zip(borders(pattern, top), downs, strict=True)):
        if border.dart is not None or not border.edge:
            continue
        beyond = top.run[k + 1]
        piece = pattern.piece(beyond.ref.piece)
        sewn = moved_all(run_reversed(piece.beside(beyond.ref.edge)[0].curves), beyond.move)
        corner = border.line[0].start
        here, there = (cut_run(run, down)[0][-1].end for run in (border.line, sewn))
        if distance(here, there) <= _MEETS:
            continue
        if centre_first:
            move = turn(corner, (there - corner).angle_to(here - corner))
            run = (*top.run[: k + 1], *(_moved(each, move) for each in top.run[k + 1 :]))
            top = replace(top, run=run, after=tuple(_moved(each, move) for each in top.after))
        else:
            move = turn(corner, (here - corner).angle_to(there - corner))
            run = (*(_moved(each, move) for each in top.run[: k + 1]), *top.run[k + 1 :])
            top = replace(top, run=run, before=tuple(_moved(each, move) for each in top.before))
    return top


def _led_square(
    name: str, pattern: Pattern, walk: Sequence[LaidEdge], free: tuple[Curve, ...], depth: float, within: float
) -> tuple[Curve, ...]:
    """The line led square to a centre seam at its end, turning one way only: opened out it runs straight on there.

    walk: what runs down from the end of the waist; within: how many mm of the line may be redrawn
    """
    above, end = _edges_above(name, walk, free, depth, last=False)
    seam = walk[len(above) - 1].edge
    if seam.place not in CENTRES or seam.role is Role.FOLD or _comes_to_point(pattern.piece(walk[0].ref.piece)):
        return free
    met, reach = stretch(free, 0.0, end), min(_LED, within)
    kept = cut_run(met, run_length(met) - reach)[0]
    at, start, leaving = met[-1].end, kept[-1].end, run_ends(kept)[1]
    down = run_ends(above[-1].edge.curves)[1]
    if abs(down.dot(run_ends(met)[1])) < math.sin(_SQUARE):
        return free
    for _ in range(_TRIES):
        square = down.left() if down.left().dot(leaving) > 0.0 else down.right()
        turns = start + leaving * ((at - start).dot(square) / (1.0 + leaving.dot(square)))
        hits = run_hits(seam.curves, turns, square)
        if not hits:
            return free
        k, hit = min(hits, key=lambda found: abs(found[1].along))
        at, down = hit.point, tangent(seam.curves[k], hit.t)
    return (*kept, blend(start, leaving, at, square), Line(at, at + square * _BEYOND))


def _comes_to_point(piece: Piece) -> bool:
    """Whether the waist of a piece is meant to come to a point at its centre."""
    ends = ({piece.edge(one).place, piece.edge(other).place} for one, other in piece.points_meant)
    return any(Place.WAIST in places and not places.isdisjoint(CENTRES) for places in ends)


def _smoothed(run: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """A run whose small corners, where darts are closed, are drawn as one curve (common practice)."""
    out = run
    for k in range(len(run) - 1, 0, -1):
        if abs(corner_turn(run[k - 1 : k], run[k : k + 1])) < _CORNER:
            continue
        before, after = out[:k], out[k:]
        reach = min(_ROUNDED, 0.4 * run_length(before), 0.4 * run_length(after))
        into, on = cut_run(before, run_length(before) - reach)[0], cut_run(after, reach)[1]
        leaving, arriving = run_ends(into)[1], run_ends(on)[0]
        out = (*into, blend(into[-1].end, leaving, on[0].start, arriving), *on)
    return out


def _leg_extended(leg: Sequence[Curve], depth: float) -> tuple[Curve, ...]:
    """The leg of a dart, led on straight beyond its point."""
    far = leg[-1].end + (leg[-1].end - leg[0].start).unit() * 2.0 * depth
    return (*leg, Line(leg[-1].end, far))


def _first_meeting(name: str, line: Sequence[Curve], free: Sequence[Curve]) -> tuple[float, float]:
    """How far down a line another meets it first, mm, and where along that other."""
    found = run_meetings(line, free)
    if not found:
        raise NotAPattern(name, reason="the line below the waist misses a seam that runs down from it")
    i, j, meeting = found[0]
    return run_length(stretch(line, 0.0, i + meeting.at_a)), j + meeting.at_b


def darts_ending_on(name: str, pattern: Pattern, top: Top, depth: float) -> Pattern:
    """The pattern with the darts of this waist long enough to reach a line below it; those of which little would be
    left there end on it.
    """
    half, part = top.half, pattern.piece(top.run[0].ref.piece).identity.part
    ending = {
        (border.piece.name, border.dart.name)
        for border in borders(pattern, top)
        if border.dart is not None and _left(border.piece, border.dart, depth) < _LEAST_LEFT
    }
    for _ in range(_TRIES if ending else 0):
        now = top_of(pattern, half, part or BodyPart.SKIRT)
        assert now is not None
        drawn = line_below(name, pattern, now, depth)
        off = 0.0
        for border, down in zip(borders(pattern, now), drawn.downs, strict=True):
            if border.dart is not None and (border.piece.name, border.dart.name) in ending:
                piece = pattern.piece(border.piece.name)
                off = max(off, abs(down - piece.edge(border.edge).length))
                pattern = with_pieces(pattern, _dart_so_long(piece, piece.dart(border.dart.name), down))
        if off <= _ENDS_ON:
            break
    return pattern


def _left(piece: Piece, dart: Dart, depth: float) -> float:
    """How wide a dart still is so far below the waist, mm; below zero where it does not reach there."""
    one, other = dart_mouth(piece, dart)
    return distance(one, other) * (1.0 - depth / distance(lerp(one, other, 0.5), dart.apex))


def _dart_so_long(piece: Piece, dart: Dart, leg: float) -> Piece:
    """The piece with a dart whose legs are straight and so long, mm; its mouth and its direction as they were."""
    one, other = dart_mouth(piece, dart)
    middle, half = lerp(one, other, 0.5), 0.5 * distance(one, other)
    apex: Point = middle + (dart.apex - middle).unit() * math.sqrt(leg * leg - half * half)
    darts = tuple(replace(each, apex=apex) if each == dart else each for each in piece.darts)
    legs = (
        replace(piece.edge(dart.legs[0]), curves=(Line(one, apex),)),
        replace(piece.edge(dart.legs[1]), curves=(Line(apex, other),)),
    )
    by_name = {each.name: each for each in legs}
    return replace(piece, edges=tuple(by_name.get(edge.name, edge) for edge in piece.edges), darts=darts)
