r"""A sleeve given another cap, and the rest of it following.

When the cap changes, the sleeve below it changes as a cutter draws it. The middle of the biceps line and the whole
lower end stay. The two underarm seams run from the new underarm ends to the old lower end. Marks at a level (elbow,
balance lines) keep their distance from the crown. The change fades with the square of the height, so that a straight
seam becomes an even curve that meets the lower end without a corner:

    ___/~~~\___      the cap, wider by w: each underarm end goes out by w/2,
    \         /      a place at the share s of the height by s*s*w/2,
     \_______/       the lower end not at all
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from drafting.alterations.sleeve.set_in_sleeve import biceps_line, cap_on, levelled, sleeve_edges
from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Point,
    Vec,
    handles,
    moved_all,
    run_hits,
    run_length,
    run_reversed,
    shift,
    split,
    tangent,
)
from drafting.geometry.cap import Cap
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Grain, Landmark, Level, MarkLine, MarkPoint, Notch, Piece, place, with_edges

__all__ = ["with_cap"]


def with_cap(piece: Piece, redraw: Callable[[Cap, float], Cap]) -> Piece:
    """The sleeve with another cap, and the rest of the sleeve redrawn to that.

    redraw: makes the new cap of one that is given, leaving the underarm steeper than that by so many radians
    Cap notches keep their stations. Raises NotAPattern where the sleeve has no room for such a cap.
    """
    return levelled(piece, partial(_recut, redraw=redraw))


def _recut(piece: Piece, redraw: Callable[[Cap, float], Cap]) -> Piece:
    """`with_cap` on a sleeve whose biceps line is level."""
    was = cap_on(piece)
    middle = 0.5 * (was.origin.x + was.front[0].start.x)
    seam = sleeve_edges(piece).under_back.curves
    cap, turned, leaning = was, 0.0, 0.0
    # the more the underarm seam leans in, the steeper the cap leaves it; how much it leans is known the second time
    for _ in range(2):
        cap = _cap_placed(piece, redraw(cap, leaning - turned), middle)
        turned = leaning
        leaning = _lean(_start_shifted(seam, cap.origin - was.origin)) - _lean(seam)
    return _with_sleeve_below(piece, was, cap)


def _cap_placed(piece: Piece, cap: Cap, middle: float) -> Cap:
    """The cap shifted so that its biceps line has its middle there, and its crown hangs as high over the lower end."""
    was = sleeve_edges(piece).cap_front.end
    x = middle - 0.5 * cap.width + cap.back_width
    crown = Point(x, was.y + _lower_end(piece, x) - _lower_end(piece, was.x))
    by = shift(crown - cap.crown)
    return Cap(moved_all(cap.back, by), moved_all(cap.front, by))


def _lower_end(piece: Piece, x: float) -> float:
    """The level of the lower end of a sleeve at this distance across."""
    sides = sleeve_edges(piece).names
    end = [curve for edge in piece.edges if edge.name not in sides for curve in edge.curves]
    hits = run_hits(end, Point(x, 0.0), Vec(0.0, 1.0))
    if not hits:
        raise NotAPattern(piece.name, reason="its crown does not lie over its lower end")
    return hits[0][1].point.y


def _with_sleeve_below(piece: Piece, was: Cap, cap: Cap) -> Piece:
    """The piece with this cap, in its place, and the underarm seams and marks that go with it."""
    down, across = cap.crown.y - was.crown.y, cap.crown.x - was.crown.x
    edges = sleeve_edges(piece)
    back = _start_shifted(edges.under_back.curves, cap.origin - was.origin)
    front = run_reversed(
        _start_shifted(run_reversed(edges.under_front.curves), cap.front[0].start - was.front[0].start)
    )
    altered = with_edges(
        piece,
        replace(edges.cap_front, curves=cap.front),
        replace(edges.cap_back, curves=run_reversed(cap.back)),
        replace(edges.under_back, curves=back),
        replace(edges.under_front, curves=front),
    )
    seams = {edges.under_back.name: back, edges.under_front.name: front}

    def at_level(mark: str, run: Sequence[Curve], level: float) -> tuple[Point, float]:
        """Where a run reaches a level, and how far along it, mm."""
        if abs(run[0].start.y - level) <= SAME_PLACE:
            return run[0].start, 0.0
        hits = run_hits(run, Point(0.0, level), Vec(1.0, 0.0))
        if not hits:
            raise NotAPattern(piece.name, reason=f"its cap would come down past the {mark}")
        k, hit = hits[0]
        return hit.point, run_length((*run[:k], split(run[k], hit.t)[0]))

    def line(mark: MarkLine) -> MarkLine:
        if mark.level is Level.BICEPS:
            return biceps_line(altered, mark)
        ends = sorted((mark.start, mark.end), key=lambda end: end.x)
        return mark.straight(
            *(at_level(mark.name, run, end.y + down)[0] for run, end in zip((back, front), ends, strict=True))
        )

    def notch(mark: Notch) -> Notch:
        run = seams.get(mark.station.edge)
        if run is None:
            return mark
        _, at = at_level(mark.name, run, place(piece, mark.station)[0].y + down)
        at = at if mark.station.end == "start" else run_length(run) - at
        return replace(mark, station=replace(mark.station, at=at))

    def point(mark: MarkPoint) -> MarkPoint:
        return mark.placed(cap.crown if mark.landmark is Landmark.CROWN else mark.at + Vec(across, down))

    grain = piece.grain and Grain(piece.grain.start + Vec(across, 0.0), piece.grain.end + Vec(across, 0.0))
    return replace(
        altered,
        grain=grain,
        notches=tuple(notch(mark) for mark in piece.notches),
        lines=tuple(line(mark) for mark in piece.lines),
        points=tuple(point(mark) for mark in piece.points),
    )


def _lean(seam: Sequence[Curve]) -> float:
    """How far an underarm seam leans in at its upper end, radians; the seam of the back, going down."""
    down = tangent(seam[0], 0.0)
    return math.atan2(down.x, -down.y)


def _start_shifted(run: Sequence[Curve], by: Vec) -> tuple[Curve, ...]:
    """A run with its start shifted, its end and its direction there kept; between them the square of the height."""
    end, whole = run[-1].end, run[0].start.y - run[-1].end.y
    if by == Vec(0.0, 0.0):
        return tuple(run)

    def share(p: Point) -> float:
        return (p.y - end.y) / whole

    out: list[Curve] = []
    for curve in run:
        start = out[-1].end if out else curve.start + by * share(curve.start) ** 2
        stop = end if curve is run[-1] else curve.end + by * share(curve.end) ** 2
        leaving, arriving = handles(curve)
        leaving = leaving + by * (2.0 * share(curve.start) * leaving.y / whole)
        arriving = arriving + by * (2.0 * share(curve.end) * arriving.y / whole)
        out.append(Cubic(start, start + leaving, stop - arriving, stop))
    return tuple(out)
