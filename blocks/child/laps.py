"""Lapped shoulders: front and back go on past the shoulder and lie over each other, caught together in the armhole."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Move,
    Point,
    Vec,
    bend,
    cut_run,
    end_tangents,
    mirror,
    moved_all,
    run_at,
    run_reversed,
    shift,
    turn,
)
from drafting.pattern import (
    Edge,
    MarkLine,
    MarkPoint,
    Piece,
    Place,
    Role,
    closed,
    move_piece,
    require_edge,
)

__all__ = ["with_laps"]

_MOST_LAP: Final = 0.6  # of an armhole, that the halves lap over each other down from the shoulder (ours)
_OTHER_SIDE = mirror(Point(0.0, 0.0), Vec(0.0, 1.0))


def with_laps(front: Piece, back: Piece, lap: float) -> tuple[Piece, Piece]:
    """Both pieces of a bodice with a lap beyond the shoulder, that reaches `lap` mm down the other's armhole.

    The free edge of a lap runs on out of the neck and turns toward the armhole, which it meets square. Raises
    NotAPattern where it cannot.
    """
    half = move_piece(front, _OTHER_SIDE)
    laid = _lapped(half, back, lap, "front"), _lapped(back, half, lap, "back")
    return move_piece(laid[0], _OTHER_SIDE), laid[1]


def _lapped(piece: Piece, other: Piece, lap: float, where: str) -> Piece:
    """A half, its centre at the left, with the lap that lies over the other one."""
    shoulder, armhole = require_edge(piece, Place.SHOULDER), require_edge(piece, Place.ARMHOLE)
    end = moved_all(_down_the_armhole(other, lap), _laid_beyond(other, shoulder))
    up = end_tangents(end[-1])[1]
    into_neck = end_tangents(require_edge(piece, Place.NECK).curves[0])[0]
    free = bend(end[-1].end, Vec(-up.y, up.x), shoulder.end, into_neck)
    edges: list[Edge] = []
    for edge in piece.edges:
        if edge.place is Place.SHOULDER:
            edges.append(Edge(f"{where} end of the lap", end, place=Place.LAP_END))
            edges.append(replace(edge, curves=(free,), role=Role.OPENING))
        else:
            edges.append(edge)
    reached = MarkPoint("lap to here", run_at(run_reversed(armhole.curves), lap))
    line = MarkLine("shoulder line", shoulder.start, shoulder.end)
    return replace(
        piece, edges=closed(piece.name, tuple(edges)), points=(*piece.points, reached), lines=(*piece.lines, line)
    )


def _down_the_armhole(piece: Piece, lap: float) -> tuple[Curve, ...]:
    """The uppermost `lap` mm of an armhole, from the shoulder down."""
    armhole = run_reversed(require_edge(piece, Place.ARMHOLE).curves)
    if lap >= _MOST_LAP * require_edge(piece, Place.ARMHOLE).length:
        raise NotAPattern(piece.name, reason="the lap reaches too far down the armhole")
    return cut_run(armhole, lap)[0]


def _laid_beyond(other: Piece, shoulder: Edge) -> Move:
    """The move that lays the other half beyond this shoulder, shoulder on shoulder, as it is sewn."""
    its = require_edge(other, Place.SHOULDER)
    angle = (its.end - its.start).angle_to(shoulder.end - shoulder.start)
    laid = turn(its.start, angle).then(shift(shoulder.start - its.start))
    return laid.then(mirror(shoulder.start, shoulder.end - shoulder.start))
