"""The armhole of a bodice piece, seen from the underarm: lowered along the side seam, or cut in at its notch.

When it is lowered, its lower end moves by the whole amount, and every place above moves less, down to nothing at the
shoulder: so it keeps its width and its shape. When it is cut in, its notch moves by the whole amount, and both ends
stay. In both cases the handles of its curves move with the ends they belong to: the armhole leaves shoulder and side
seam in the old directions, and runs through its notch without a corner.

Where it is lowered past the bust line, that line and the notches on the side seam are marked again just below the new
underarm, because the tape goes round the body there now.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.techniques.redrawing.fair_armhole import accept_bend, drawn_past, ends_of, held_at
from drafting.alterations.techniques.redrawing.redraw_run import (
    along_run,
    cut_near_joint,
    level_along,
    shortened_at_start,
)
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Point, Vec, distance, run_at, run_hits, run_length, tangent
from drafting.geometry.tolerance import LENGTH
from drafting.pattern import Level, MarkLine, Notch, Piece, Place, WalkedEdge, edges_at, with_edges

__all__ = ["Hole", "hole_of", "lowered", "narrowed", "with_underarm"]

_ROOM: Final = 10.0  # mm of side seam that stay between the underarm and what is marked below it
_ON_SEAM: Final = 1e-3


@dataclass(frozen=True, slots=True)
class Hole:
    """An armhole on a piece.

    armhole, side: its edge and that of the side seam, both walked from the underarm
    below, above:  the curves of the armhole from the underarm to its notch, and from there on
    """

    piece: Piece
    armhole: WalkedEdge
    side: WalkedEdge
    below: tuple[Curve, ...]
    above: tuple[Curve, ...]

    @property
    def whole(self) -> tuple[Curve, ...]:
        """The curves of the armhole, from the underarm up."""
        return (*self.below, *self.above)


def hole_of(piece: Piece) -> Hole:
    """The armhole of a piece. Raises NotAPattern where none meets a side seam at the underarm."""
    for edge in edges_at(piece, Place.ARMHOLE):
        before, after = piece.beside(edge.name)
        if Place.SIDE in (before.place, after.place):
            down_first = before.place is Place.SIDE
            side = WalkedEdge(before if down_first else after, down_first)
            return _parted_at_notch(piece, WalkedEdge(edge, not down_first), side)
    raise NotAPattern(piece.name, reason="its armhole does not meet a side seam")


def _parted_at_notch(piece: Piece, armhole: WalkedEdge, side: WalkedEdge) -> Hole:
    places = [armhole.along(notch.station) for notch in piece.notches if notch.station.edge == armhole.name]
    below, above = cut_near_joint(armhole.run, min(places, default=0.5 * armhole.edge.length))
    if not below or not above:
        raise NotAPattern(piece.name, reason="its armhole has its notch at an end")
    return Hole(piece, armhole, side, below, above)


def lowered(hole: Hole, by: float) -> Piece:
    """The piece with its armhole lowered by `by` mm of side seam, raised where that is below zero.

    Raises NotAPattern where so much of the side seam would be cut away that a balance line below the bust is lost, or
    the armhole would bend too tightly.
    """

    def drawn(under: Point) -> tuple[Curve, ...]:
        run = _from_underarm(hole, under)
        accept_bend(hole.armhole.edge, run)
        return run

    return with_underarm(hole, by, drawn)


def with_underarm(hole: Hole, by: float, drawn: Callable[[Point], Sequence[Curve]]) -> Piece:
    """The piece with its underarm so many mm further down the side seam; drawn: its armhole, from there up."""
    piece, run, under = hole.piece, hole.whole, hole.below[0].start
    _accept(hole, by)
    # what lies below the bust line stays as it is
    side = shortened_at_start(hole.side.run, by, level_along(hole.side.run, piece, Level.BUST))
    new_under = side[0].start
    new = drawn(new_under)
    step = Vec(0.0, new_under.y - under.y)

    def moved(line: MarkLine) -> MarkLine:
        if under.near(line.end, _ON_SEAM):
            return line.straight(line.start + step, new_under)
        if under.near(line.start, _ON_SEAM):
            return line.straight(new_under, line.end + step)
        if _is_bust_line(line):
            return _bust_line(hole, side, by, line)
        return line.straight(_level_end(run, new, line.start), _level_end(run, new, line.end))

    altered = _redrawn(hole, new, side)
    return replace(altered, lines=tuple(map(moved, piece.lines)))


def narrowed(hole: Hole, by: float) -> Piece:
    """The piece with its armhole `by` mm further in at its notch, running into what it was at both ends."""
    last = hole.below[-1]
    along = tangent(last, 1.0)
    inward = along.right() if hole.armhole.backward else along.left()
    step = Vec(math.copysign(by, inward.x), 0.0)  # level, so that the lines that end there stay level
    run = drawn_past(ends_of(hole.whole), held_at(last.end + step, last))

    def moved(place: Point) -> Point:
        return run[0].end if place.near(last.end, _ON_SEAM) else place

    accept_bend(hole.armhole.edge, run)
    altered = _redrawn(hole, run, hole.side.run)
    lines = tuple(line.straight(moved(line.start), moved(line.end)) for line in altered.lines)
    return replace(altered, lines=lines)


def _is_bust_line(line: MarkLine) -> bool:
    return line.level is Level.BUST and not line.onward


def _accept(hole: Hole, by: float) -> None:
    """Raise NotAPattern where a balance line below the bust would be cut away from the side seam, or nearly."""
    room, what = run_length(hole.side.run) - _ROOM, "waist"
    for line in hole.piece.lines:
        for end in (line.start, line.end):
            at = along_run(hole.side.run, end)
            if at is not None and at > _ON_SEAM and not _is_bust_line(line) and at - _ROOM < room:
                room, what = at - _ROOM, line.name
    if by > room:
        reason = f"its armhole cannot be lowered by {by:.1f} mm: the {what} comes to its {Place.SIDE} above that"
        raise NotAPattern(hole.piece.name, reason=reason)


def _below_underarm(at: float, by: float) -> float:
    """How far below the new underarm something lies that was `at` mm below the old one."""
    return max(at - by, min(at, _ROOM))


def _bust_line(hole: Hole, side: Sequence[Curve], by: float, line: MarkLine) -> MarkLine:
    """The bust line, which stays where it is unless it would come to lie in the armhole."""
    ends = [line.start, line.end]
    for k, end in enumerate(ends):
        at = along_run(hole.side.run, end)
        if at is not None and _below_underarm(at, by) > at - by:
            new = run_at(side, _below_underarm(at, by))
            ends[k], ends[1 - k] = new, ends[1 - k] + Vec(0.0, new.y - end.y)
            break
    return line.straight(*ends)


def _from_underarm(hole: Hole, start: Point) -> tuple[Curve, ...]:
    """The armhole from another underarm: its shoulder end and its directions as they were, its notch moved by a share.

    The share fades from the underarm to the shoulder, so that it keeps its shape and its width.
    """
    was, last = ends_of(hole.whole), hole.below[-1]
    left = 1.0 - run_length(hole.below) / run_length(hole.whole)
    at = last.end + (start - was.start) * (left * left * (3.0 - 2.0 * left))
    return drawn_past(replace(was, start=start), held_at(at, last))


def _level_end(run: Sequence[Curve], new: Sequence[Curve], end: Point) -> Point:
    """The end of a level line: where it ended on the run it now ends on the new one, at the same level."""
    level = Vec(1.0, 0.0)
    if not any(hit.point.near(end, _ON_SEAM) for _, hit in run_hits(run, end, level)):
        return end
    return min((hit.point for _, hit in run_hits(new, end, level)), key=lambda p: distance(p, end), default=end)


def _redrawn(hole: Hole, run: Sequence[Curve], side_run: Sequence[Curve]) -> Piece:
    """The piece with armhole and side seam along these runs, its notches where they were on what did not move.

    The new armhole has its notch after its first curve. Beside it, what was marked keeps its share of its own part.
    """
    piece, armhole, side = hole.piece, hole.armhole, hole.side
    altered = with_edges(piece, armhole.redrawn(run), side.redrawn(side_run))
    joint, new_joint, whole = run_length(hole.below), run_length(run[:1]), run_length(run)
    side_long = run_length(side_run)
    shorter = run_length(side.run) - side_long

    def at_its_place(notch: Notch) -> Notch:
        if notch.station.edge == armhole.name:
            at = armhole.along(notch.station)
            if at <= joint + LENGTH:
                at *= new_joint / joint
            else:
                at = new_joint + (at - joint) * run_length(run[1:]) / run_length(hole.above)
            return armhole.notch_at(notch, at, whole)
        if notch.station.edge == side.name:
            return side.notch_at(notch, _below_underarm(side.along(notch.station), shorter), side_long)
        return notch

    return replace(altered, notches=tuple(map(at_its_place, piece.notches)))
