"""Notches as they are drawn and numbered: marks across the allowance, the same number on both pieces of a pair."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from drafting.geometry import Curve, Point, Vec, run_hits
from drafting.geometry.hull import Box, box_of, hull_of
from drafting.pattern.locate import from_start, place
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Edge, Notch, Role, Station
from drafting.pattern.seam import NotchRef, Seam

__all__ = ["DOUBLE_NOTCH", "INWARD_NOTCH", "LEAST_APART", "ZIP_NOTCH", "notch_ends", "notch_numbers", "notch_places"]

DOUBLE_NOTCH: Final = 6.0
"""The distance between the two marks of a double notch, mm (common practice: a quarter of an inch)."""

INWARD_NOTCH: Final = 4.0
"""How far a notch reaches into the piece where there is no allowance to cut it in, mm (common practice)."""

LEAST_APART: Final = 8.0
"""mm between two notches: nearer, they would be taken for a double one, whose marks stand 6 mm apart (our figure)."""

ZIP_NOTCH: Final = "zip notch"
"""The name of the notch at the end of a zip."""

_OFF_THE_LINE: Final = 1e-3
"""mm off its own sewing line from which a notch looks for what it may not cross."""


def notch_places(piece: Piece, notch: Notch) -> tuple[Station, ...]:
    """Where its marks stand on its edge, measured from the start of it: one, or two for a double notch.

    The marks of a double notch stay on its edge.
    """
    edge = piece.edge(notch.station.edge)
    at = from_start(edge, notch.station)
    if notch.style == "single":
        return (Station(edge.name, at),)
    half = 0.5 * DOUBLE_NOTCH
    return Station(edge.name, max(0.0, at - half)), Station(edge.name, min(edge.length, at + half))


def notch_ends(piece: Piece, notch: Notch, cutting: Sequence[Curve]) -> tuple[tuple[Point, Point], ...]:
    """A notch as it is drawn: from the sewing line out to the cutting line, square to the seam; two for a double one.

    cutting: the piece's cutting line
    It is never longer than the allowance of its edge, and stops at the first line in its way. Where there is no
    allowance to cut it in, the mark runs 4 mm into the piece instead.
    """
    edge = piece.edge(notch.station.edge)
    marks = []
    for station in notch_places(piece, notch):
        point, direction = place(piece, station)
        out = direction.right()
        marks.append((point, point + out * _reach(piece, cutting, point, out, edge)))
    return tuple(marks)


def notch_numbers(seams: Iterable[Seam]) -> Mapping[NotchRef, int]:
    """The number of every notch that meets another, from 1 in the order of sewing.

    Notches that meet carry one number on both pieces; so do several that are all drawn up to one mark.
    """
    numbers: dict[NotchRef, int] = {}
    count = 0
    for seam in seams:
        for pair in seam.notches:
            known = sorted({numbers[mark] for mark in pair if mark in numbers})
            if not known:
                count += 1
            number = known[0] if known else count
            # two groups that turn out to be one take the number of the earlier
            numbers |= {mark: number for mark, had in numbers.items() if had in known}
            numbers |= dict.fromkeys(pair, number)
    return numbers


def _reach(piece: Piece, cutting: Sequence[Curve], point: Point, out: Vec, edge: Edge) -> float:
    """How far a mark is drawn outward, mm; inward (negative) where there is no allowance."""
    if edge.role is Role.FOLD or edge.allowance == 0.0:
        return -INWARD_NOTCH
    far = point + out * edge.allowance
    ahead = (hit.along for _, hit in run_hits(_near(piece, cutting, point, far), point, out))
    return min(edge.allowance, min((along for along in ahead if along > _OFF_THE_LINE), default=edge.allowance))


def _near(piece: Piece, cutting: Sequence[Curve], one: Point, other: Point) -> list[Curve]:
    """The lines of a piece that may come between two places, or to one of them: those whose boxes do."""

    def boxed() -> tuple[Sequence[Curve], list[tuple[Box, Curve]]]:
        return cutting, [(box_of(hull_of(curve)), curve) for curve in (*cutting, *piece.outline)]

    # the line is kept with its boxes, so that no other comes to have its id; in a copy of the piece it means nothing
    kept, boxes = piece.remembered(("boxes", id(cutting)), boxed)
    if kept is not cutting:
        _, boxes = boxed()
    left, right, low, high = min(one.x, other.x), max(one.x, other.x), min(one.y, other.y), max(one.y, other.y)
    return [curve for box, curve in boxes if box[0] <= right and box[2] >= left and box[1] <= high and box[3] >= low]
