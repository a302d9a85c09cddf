"""The armhole of a bodice piece, seen from the underarm: lowered along the side seam, or cut in at its notch.

Lowered, its lower end goes all the way and the rest less and less towards the shoulder, so that it keeps its width and
its shape; cut in, its notch goes all the way and both ends stay. Either way the handles of its curves go with the ends
they belong to: it leaves shoulder and side seam as it did, and runs on through its notch without a corner.

Where it is lowered past the bust line, that line and the notches on the side seam give way and are marked just below
the new underarm: there the tape goes round the body now.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from drafting.alterations.techniques.redrawing.fair_armhole import accept_bend, drawn_past, ends_of, held_at
from drafting.alterations.techniques.redrawing.redraw_run import along_run, begun_further, met_at
from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Point,
    Vec,
    cut_run,
    distance,
    length,
    run_at,
    run_hits,
    run_length,
    run_reversed,
    tangent,
)
from drafting.geometry.tolerance import LENGTH
from drafting.pattern import Edge, Level, MarkLine, Notch, Piece, Place, Station, from_start, with_edges

__all__ = ["Hole", "hole_of", "lowered", "narrowed"]

_ROOM: Final = 10.0  # mm of side seam that stay between the underarm and what is marked below it
_ON_SEAM: Final = 1e-3


@dataclass(frozen=True, slots=True)
class Hole:
    """An armhole on a piece: the names of its edge and of the side seam, and both as runs that begin at the underarm.

    below: how many curves of the armhole lie between the underarm and its notch
    first: whether the armhole's edge begins at the underarm
    """

    piece: Piece
    armhole: str
    side: str
    up: tuple[Curve, ...]
    down: tuple[Curve, ...]
    below: int
    first: bool


def hole_of(piece: Piece) -> Hole:
    """The armhole of a piece. Raises NotAPattern where none meets a side seam at the underarm."""
    for edge in piece.edges:
        before, after = piece.beside(edge.name)
        if edge.place is Place.ARMHOLE and Place.SIDE in (before.place, after.place):
            first = before.place is Place.SIDE
            return _hole(piece, edge, before if first else after, first=first)
    raise NotAPattern(piece.name, "its armhole does not meet a side seam")


def lowered(hole: Hole, by: float) -> Piece:
    """The piece with its armhole lowered by `by` mm of side seam, raised where that is below zero.

    Raises NotAPattern where so much of the side seam would be cut away that a balance line below the bust is lost.
    """
    piece, under = hole.piece, hole.up[0].start
    _accept(hole, by)
    down = _led_along(hole, by)
    new_under = down[0].start
    up = _past(hole.up, hole.below, new_under)
    step = new_under - under

    def line(mark: MarkLine) -> MarkLine:
        if under.near(mark.end, _ON_SEAM):
            return mark.straight(mark.start + Vec(0.0, step.y), new_under)
        if under.near(mark.start, _ON_SEAM):
            return mark.straight(new_under, mark.end + Vec(0.0, step.y))
        if _is_bust_line(mark):
            return _given_way(hole, down, by, mark)
        return mark.straight(_kept_on(hole.up, up, mark.start), _kept_on(hole.up, up, mark.end))

    accept_bend(piece.edge(hole.armhole), up)
    altered = _put_back(hole, replace(hole, up=up, down=down, below=1))
    return replace(altered, lines=tuple(line(mark) for mark in piece.lines))


def narrowed(hole: Hole, by: float) -> Piece:
    """The piece with its armhole `by` mm further in at its notch, running into what it was at both ends."""
    last = hole.up[hole.below - 1]
    inward = tangent(last, 1.0).left() if hole.first else tangent(last, 1.0).right()
    step = Vec(math.copysign(by, inward.x), 0.0)  # level, so that the lines that end there stay level
    at = last.end + step
    up = drawn_past(ends_of(hole.up), held_at(at, last))
    at = up[0].end

    def moved(p: Point) -> Point:
        return at if p.near(last.end, _ON_SEAM) else p

    accept_bend(hole.piece.edge(hole.armhole), up)
    altered = _put_back(hole, replace(hole, up=up, below=1))
    lines = tuple(mark.straight(moved(mark.start), moved(mark.end)) for mark in altered.lines)
    return replace(altered, lines=lines)


def _hole(piece: Piece, edge: Edge, side: Edge, *, first: bool) -> Hole:
    up = edge.curves if first else run_reversed(edge.curves)
    down = run_reversed(side.curves) if first else side.curves
    notches = [notch for notch in piece.notches if notch.station.edge == edge.name]
    at = min((_from_under(edge, notch.station, first=first) for notch in notches), default=0.5 * edge.length)
    lower, upper = _parted(up, at)
    if not lower or not upper:
        raise NotAPattern(piece.name, "its armhole has its notch at an end")
    return Hole(piece, edge.name, side.name, (*lower, *upper), down, len(lower), first)


def _is_bust_line(line: MarkLine) -> bool:
    return line.level is Level.BUST and not line.onward


def _parted(run: Sequence[Curve], at: float) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """A run parted where it is `at` mm long, at a joint where there is one."""
    gone = 0.0
    for k, curve in enumerate(run):
        gone += length(curve)
        if abs(gone - at) <= 10 * LENGTH:
            return tuple(run[: k + 1]), tuple(run[k + 1 :])
    return cut_run(run, at)


def _from_under(edge: Edge, station: Station, *, first: bool) -> float:
    at = from_start(edge, station)
    return at if first else edge.length - at


def _accept(hole: Hole, by: float) -> None:
    """Raise NotAPattern where a balance line below the bust would be cut away from the side seam, or nearly."""
    room, what = run_length(hole.down) - _ROOM, "waist"
    for line in hole.piece.lines:
        for end in (line.start, line.end):
            at = _down_to(hole, end)
            if at is not None and at > _ON_SEAM and not _is_bust_line(line) and at - _ROOM < room:
                room, what = at - _ROOM, line.name
    if by > room:
        reason = f"its armhole cannot be lowered by {by:.1f} mm: the {what} comes to its {Place.SIDE} above that"
        raise NotAPattern(hole.piece.name, reason)


def _down_to(hole: Hole, place: Point) -> float | None:
    """How far below the underarm a place on the side seam lies, mm along it; None for a place that is not on it."""
    return along_run(hole.down, place)


def _still_below(at: float, by: float) -> float:
    """How far below the new underarm something lies that was `at` mm below the old one."""
    return max(at - by, min(at, _ROOM))


def _given_way(hole: Hole, down: Sequence[Curve], by: float, mark: MarkLine) -> MarkLine:
    """The bust line, which stays where it is unless it would come to lie in the armhole."""
    ends = [mark.start, mark.end]
    for k, end in enumerate(ends):
        at = _down_to(hole, end)
        if at is not None and _still_below(at, by) > at - by:
            new = run_at(down, _still_below(at, by))
            ends[k], ends[1 - k] = new, ends[1 - k] + Vec(0.0, new.y - end.y)
            break
    return mark.straight(ends[0], ends[1])


def _led_along(hole: Hole, by: float) -> tuple[Curve, ...]:
    """The side seam begun `by` mm further down; what lies below the bust line stays as it is."""
    return begun_further(hole.down, by, met_at(hole.down, hole.piece, Level.BUST))


def _past(run: Sequence[Curve], below: int, start: Point) -> tuple[Curve, ...]:
    """The armhole from another underarm: its shoulder end and its directions as they were, its notch moved by a share.

    The share fades from the underarm to the shoulder, so that it keeps its shape and its width.
    """
    was, joint = ends_of(tuple(run)), run[below - 1].end
    gone = run_length(run[:below]) / run_length(run)
    at = joint + (start - was.start) * _eased(1.0 - gone)
    return drawn_past(replace(was, start=start), held_at(at, run[below - 1]))


def _kept_on(run: Sequence[Curve], new: Sequence[Curve], end: Point) -> Point:
    """The end of a level line: where it ended on the run it now ends on the new one, at the same level."""
    level = Vec(1.0, 0.0)
    if not any(hit.point.near(end, _ON_SEAM) for _, hit in run_hits(run, end, level)):
        return end
    return min((hit.point for _, hit in run_hits(new, end, level)), key=lambda p: distance(p, end), default=end)


def _eased(share: float) -> float:
    return share * share * (3.0 - 2.0 * share)


def _put_back(hole: Hole, new: Hole) -> Piece:
    """The piece with the new runs in its outline, its notches where they were on what did not move."""
    piece = hole.piece
    armhole, side = piece.edge(hole.armhole), piece.edge(hole.side)
    up = replace(armhole, curves=new.up if hole.first else run_reversed(new.up))
    down = replace(side, curves=run_reversed(new.down) if hole.first else new.down)
    altered = with_edges(piece, up, down)
    joint, new_joint = run_length(hole.up[: hole.below]), run_length(new.up[: hole.below])
    grown_side = run_length(new.down) - run_length(hole.down)

    def notch(mark: Notch) -> Notch:
        station = mark.station
        if station.edge == hole.armhole:
            at = _from_under(armhole, station, first=hole.first)
            if at <= joint + LENGTH:
                at *= new_joint / joint
            else:
                upper, new_upper = run_length(hole.up[hole.below :]), run_length(new.up[hole.below :])
                at = new_joint + (at - joint) * new_upper / upper
            whole = run_length(new.up)
            from_first = station.end == ("start" if hole.first else "end")
            return mark.moved_to(at if from_first else whole - at)
        if station.edge == hole.side:
            from_start_now = from_start(side, station)
            at = _still_below(side.length - from_start_now if hole.first else from_start_now, -grown_side)
            from_under = station.end == ("end" if hole.first else "start")
            return mark.moved_to(at if from_under else run_length(new.down) - at)
        return mark

    return replace(altered, notches=tuple(notch(mark) for mark in piece.notches))
