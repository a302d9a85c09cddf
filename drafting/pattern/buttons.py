"""Buttons on a piece: how large they are, and how far from the seams and edges beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from operator import itemgetter
from typing import Final

from drafting.geometry import Line, Point, distance, lerp, polyline
from drafting.pattern.find import edge_at, points_at
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Edge, MarkPoint
from drafting.pattern.places import Landmark, Place

__all__ = ["BEYOND_CENTRE", "CLEAR", "beside_buttons", "button_size", "buttonhole"]

BEYOND_CENTRE: Final = 3.0
"""mm beyond the centre at which a level buttonhole begins, so that the button's shank lies on the centre; and what the
thickness of a flat button adds to its width (common practice: 1/8 in)."""

CLEAR: Final = 10.0
"""mm from the rim of a button to a seam or an edge above or below it (common practice, the figure ours)."""

_ACROSS: Final = (Place.NECK, Place.STAND, Place.WAIST, Place.BAND_END)
_TICK: Final = 2.0  # mm, half a stroke across the end of a buttonhole
_FLAT: Final = 0.05  # mm by which a curve may lie beside the lines it is measured along


def button_size(piece: Piece) -> float:
    """The diameter of the buttons of a piece, mm: as much as its stand is wide; 0 where it has none."""
    edge, marks = edge_at(piece, Place.STAND_EDGE), points_at(piece, Landmark.BUTTON)
    if edge is None or not marks:
        return 0.0
    drawn = polyline(edge.curves, _FLAT)
    return min(_away(drawn, mark.at) for mark in marks)


def beside_buttons(piece: Piece) -> Iterator[tuple[MarkPoint, Edge, float]]:
    """Each button with the neck or waist edge nearest to it, and how far its rim lies from that, mm."""
    half = 0.5 * button_size(piece)
    edges = [(edge, polyline(edge.curves, _FLAT)) for edge in piece.edges if edge.place in _ACROSS]
    for mark in points_at(piece, Landmark.BUTTON) if edges else ():
        away = [(_away(drawn, mark.at), edge) for edge, drawn in edges]
        off, nearest = min(away, key=itemgetter(0))
        yield mark, nearest, off - half


def _away(drawn: Sequence[Point], place: Point) -> float:
    """How far a place lies from an edge that is drawn through these points, mm."""
    return min(_from_line(start, end, place) for start, end in pairwise(drawn))


def _from_line(start: Point, end: Point, place: Point) -> float:
    along = end - start
    share = (place - start).dot(along) / max(along.dot(along), 1e-12)
    return distance(place, lerp(start, end, min(1.0, max(0.0, share))))


def buttonhole(piece: Piece, mark: MarkPoint) -> tuple[Line, ...]:
    """The level buttonhole at a mark for a button, with a stroke across each end; nothing for any other mark.

    A button is as wide as the stand beyond the centre, and its hole as long as it is wide and thick.
    """
    edge = edge_at(piece, Place.STAND_EDGE)
    if mark.landmark is not Landmark.BUTTON or edge is None:
        return ()
    out = (edge.end - edge.start).unit().right()
    ends = (mark.at + out * BEYOND_CENTRE, mark.at - out * button_size(piece))
    ticks = (Line(end - out.left() * _TICK, end + out.left() * _TICK) for end in ends)
    return (Line(*ends), *ticks)
