"""An armhole as the checks see it: one half of it, on the piece it is cut in, walked from the underarm up."""

from __future__ import annotations

import math
from collections.abc import Iterator

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Vec, run_reversed, tangent
from drafting.geometry.curve import Cubic, point_at, stationary
from drafting.pattern import CENTRES, Edge, Piece, Place, Role, corner_at

__all__ = ["Hole", "holes"]


@dataclass(frozen=True, slots=True)
class Hole:
    """One half of an armhole where it meets the side seam.

    below: the side seam's edge on this piece
    run:   its sewing line from the underarm up, as far as it goes on this piece without a dart or a seam in it
    whole: whether that is all the way to the shoulder
    level: square to the grain, from the underarm toward the centre of the piece; up: along the grain to the shoulder
    cloth: the angle of cloth between side seam and armhole, radians
    width: how far it reaches in from the side seam, level, mm: the width of this half of the armhole
    """

    piece: str
    edge: str
    below: str
    run: tuple[Curve, ...]
    whole: bool
    level: Vec
    up: Vec
    cloth: float
    width: float

    @property
    def rise(self) -> float:
        """By how much the armhole leaves the side seam upward of level, radians; less than zero where it dips."""
        ahead = tangent(self.run[0], 0.0)
        return Vec(self.level.dot(ahead), self.up.dot(ahead)).angle()


def holes(piece: Piece) -> tuple[Hole, ...]:
    """The halves of armholes on a piece that begin at a side seam; none where nothing tells what is upright."""
    return piece.remembered("holes", lambda: tuple(_holes(piece)))


def _holes(piece: Piece) -> Iterator[Hole]:
    along = _upright(piece)
    if along is None:
        return
    count = len(piece.edges)
    for k, edge in enumerate(piece.edges):
        if edge.place is not Place.ARMHOLE:
            continue
        for step in (1, -1):  # the way along the outline that leads up from the underarm
            below = piece.edges[(k - step) % count]
            if below.place is Place.SIDE and below.role is not Role.DART_LEG:
                yield _hole(piece, along, k, step, below.name)


def _upright(piece: Piece) -> Vec | None:
    """The direction of the grain, or of the centre line where there is none."""
    if piece.grain is not None and piece.grain.start != piece.grain.end:
        return piece.grain.direction
    centre = next((edge for edge in piece.edges if edge.place in CENTRES), None)
    return None if centre is None else (centre.end - centre.start).unit()


def _hole(piece: Piece, along: Vec, first: int, step: int, below: str) -> Hole:
    """The armhole of one piece as a run that goes up from the underarm, with the directions level and up there.

    first, step: where its first edge stands in the outline, and 1 or -1 for the way on from there
    """
    edges: list[Edge] = []
    k = first
    while piece.edges[k].place is Place.ARMHOLE:  # it ends where it began, at the side seam, if not before
        edges.append(piece.edges[k])
        k = (k + step) % len(piece.edges)
    run = tuple(curve for edge in edges for curve in (edge.curves if step == 1 else run_reversed(edge.curves)))
    up = along if along.dot(run[-1].end - run[0].start) >= 0.0 else -along
    # the outline runs anticlockwise: what lies to its left is cloth
    level = up.left() if step == 1 else up.right()
    underarm = first if step == 1 else (first + 1) % len(piece.edges)
    whole = piece.edges[k].place is Place.SHOULDER and piece.edges[k].role is not Role.DART_LEG
    return Hole(
        piece.name,
        edges[0].name,
        below,
        run,
        whole,
        level,
        up,
        math.pi - corner_at(piece, underarm),
        _reach(run, level),
    )


def _reach(run: tuple[Curve, ...], direction: Vec) -> float:
    """How far a run goes in a direction from where it begins, mm."""
    start = run[0].start
    most = 0.0
    for curve in run:
        ts = [1.0]
        if isinstance(curve, Cubic):
            values = [direction.dot(p - start) for p in (curve.start, curve.c1, curve.c2, curve.end)]
            ts += stationary(*values)
        most = max(most, *(direction.dot(point_at(curve, t) - start) for t in ts))
    return most
