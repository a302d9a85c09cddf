"""How what is marked on a piece is drawn: its lines, points, dart points and the arrow along its grain."""

from __future__ import annotations

import math
from collections.abc import Iterator

from drafting.geometry import Cubic, Curve, Line, Point, arc, distance, end_tangents, length, lerp
from drafting.pattern import Grain, Level, MarkLine, MarkPoint, Piece, Role
from drafting.pattern.buttons import buttonhole
from drafting.pattern.pleats import Pleat, pleats_of
from output.drawings.drawing import path

__all__ = ["CROSS", "drawn_lines", "grain_arrow", "mark_curves", "printed_points"]

_BARB, _BARB_ANGLE = 6.0, math.radians(20)
_RING = 1.2
_WAY_DOWN, _BOW = 40.0, 10.0  # mm below the top, and mm that it sags
_LEFT_TO_SHORTEN = 10.0  # mm between a line to shorten at and the hem, with less of which it is of no more use (ours)
CROSS = 3.0
"""mm from a marked point to the ends of its cross."""


def drawn_lines(piece: Piece) -> tuple[MarkLine, ...]:
    """The marked lines of a piece that are of use: not one to shorten it at that lies on its hem by now."""
    hem = [end for edge in piece.edges if edge.role is Role.HEM for end in (edge.start, edge.end)]
    of_use = (all(distance(line.start, end) >= _LEFT_TO_SHORTEN for end in hem) for line in piece.lines)
    return tuple(line for line, kept in zip(piece.lines, of_use, strict=True) if kept or line.level != Level.LENGTHEN)


def mark_curves(piece: Piece) -> Iterator[tuple[str, tuple[Curve, ...]]]:
    """Each point that is marked on a piece, the points of its darts as well: what it is, and how it is drawn."""
    for mark in printed_points(piece):
        yield f"point: {mark.name}", (*_ring(mark.at), *_cross(mark.at), *buttonhole(piece, mark))
    for dart in piece.darts:
        yield f"point of dart: {dart.name}", _ring(dart.apex)
    for pleat in pleats_of(piece):
        yield f"way of the pleat: {pleat.fold.name}", _way(pleat)


def _way(pleat: Pleat) -> tuple[Curve, ...]:
    """From the line at which a pleat is folded to the one it is brought to: a bow with a head, below the top."""
    top, goal = pleat.fold.drawn[0], pleat.place.drawn[0]
    tail, tip = (lerp(each.start, each.end, min(0.5, _WAY_DOWN / length(each))) for each in (top, goal))
    if distance(tail, tip) < _BARB:
        return ()
    down = (top.end - top.start).unit()
    across = tip - tail
    bow = Cubic(tail, tail + across * 0.3 + down * _BOW, tail + across * 0.7 + down * _BOW, tip)
    if pleat.place.level is Level.PLEAT_SEAM:  # it goes on over the seam, and has its head there
        return (bow,)
    back = -end_tangents(bow)[1] * _BARB
    return (bow, *path(tip + back.turned(_BARB_ANGLE), tip, tip + back.turned(-_BARB_ANGLE)))


def printed_points(piece: Piece) -> tuple[MarkPoint, ...]:
    """The marked points that whoever sews it needs."""
    return tuple(mark for mark in piece.points if mark.printed)


def grain_arrow(grain: Grain) -> tuple[Curve, ...]:
    """The line along the grain, with a head at both ends."""
    curves: list[Curve] = [Line(grain.start, grain.end)]
    for tip, tail in ((grain.start, grain.end), (grain.end, grain.start)):
        back = (tail - tip).unit() * _BARB
        curves.extend(path(tip + back.turned(_BARB_ANGLE), tip, tip + back.turned(-_BARB_ANGLE)))
    return tuple(curves)


def _ring(at: Point) -> tuple[Curve, ...]:
    return arc(at, _RING, 0.0, 2.0 * math.pi)


def _cross(at: Point) -> tuple[Curve, ...]:
    return (
        Line(Point(at.x - CROSS, at.y), Point(at.x + CROSS, at.y)),
        Line(Point(at.x, at.y - CROSS), Point(at.x, at.y + CROSS)),
    )
