"""The shoulder of a garment whose sleeve reaches to the neck, laid back onto the bodice for its picture."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.dataclass import dataclass
from drafting.geometry import Point, distance, polyline, shift, turn
from drafting.pattern import Half, Landmark, Pattern, PieceKind, Place, edge_at, edges_at, half_of, pieces_of
from output.drawings.flat_shape import FlatShape

__all__ = ["Shoulder", "shoulder_over"]


@dataclass(frozen=True, slots=True)
class Shoulder:
    """One half of a shoulder that is cut in one with the sleeve.

    lines: its neck and its shoulder line, where they lie on the body; tip: the outer end of that
    cover: the shape it covers
    """

    lines: tuple[tuple[Point, ...], ...]
    tip: Point
    cover: tuple[Point, ...]


def shoulder_over(pattern: Pattern, bodice: Sequence[FlatShape], half: Half) -> Shoulder | None:
    """The shoulder of that half, its neck running on from that of the bodice; None where it belongs to the bodice."""
    sleeve = next((piece for piece in pieces_of(pattern, PieceKind.SLEEVE) if edge_at(piece, Place.NECK)), None)
    if sleeve is None:
        return None
    own = next((e for e in sleeve.edges if e.place is Place.NECK and half_of(sleeve, e) is half), None)
    body = [p for shape in bodice for p in shape.line(Place.NECK)]
    seam = [p for shape in bodice for p in shape.line(Place.RAGLAN, Place.SADDLE)]
    on_sleeve = [
        p for edge in edges_at(sleeve, Place.RAGLAN, Place.SADDLE, half=half) for p in polyline(edge.curves, 0.1)
    ]
    ends = [mark.at for mark in sleeve.points if mark.landmark is Landmark.SHOULDER_END]
    if own is None or len(body) < 2 or len(seam) < 2 or not on_sleeve or not ends:
        return None
    end = min(ends, key=lambda at: _apart(at, on_sleeve))  # there is one for each half
    neck = polyline(own.curves, 0.1)
    # from the seam to the neck point
    if _apart(neck[-1], on_sleeve) < _apart(neck[0], on_sleeve):
        neck = neck[::-1]
    if min(distance(body[0], p) for p in seam) < min(distance(body[-1], p) for p in seam):
        body = body[::-1]
    move = turn(neck[0], (neck[1] - neck[0]).angle_to(body[-1] - body[-2])).then(shift(body[-1] - neck[0]))
    laid = tuple(map(move.point, neck))
    tip = move.point(end)
    if distance(seam[0], laid[0]) > distance(seam[-1], laid[0]):
        seam = seam[::-1]
    return Shoulder((laid, (laid[-1], tip)), tip, (*laid, tip, *seam[::-1]))


def _apart(at: Point, line: Sequence[Point]) -> float:
    """How far a place lies from the nearest of those of a line, mm."""
    return min(distance(at, p) for p in line)
