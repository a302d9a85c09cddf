"""Buttons on a piece: how large they are, and how far from the seams and edges beside them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from drafting.geometry import Line, Point, distance, lerp, polyline
from drafting.pattern.find import edge_at, points_at
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Edge, MarkPoint
from drafting.pattern.places import Landmark, Place

__all__ = ["CLEAR", "beside_buttons", "button_size"]

CLEAR: Final = 10.0
"""mm from the rim of a button to a seam or an edge above or below it (common practice, the figure ours)."""

_ACROSS: Final = (Place.NECK, Place.STAND, Place.WAIST)
_FLAT: Final = 0.05  # mm by which a curve may lie beside the lines it is measured along


def button_size(piece: Piece) -> float:
    """The diameter of the buttons of a piece, mm: as much as its stand is wide; 0 where it has none."""
    edge, marks = edge_at(piece, Place.STAND_EDGE), points_at(piece, Landmark.BUTTON)
    return min((_away(edge, mark.at) for mark in marks), default=0.0) if edge else 0.0


def beside_buttons(piece: Piece) -> Iterator[tuple[MarkPoint, Edge, float]]:
    """Each button with the neck or waist edge nearest to it, and how far its rim lies from that, mm."""
    half = 0.5 * button_size(piece)
    edges = [edge for edge in piece.edges if edge.place in _ACROSS]
    for mark in points_at(piece, Landmark.BUTTON):
        if edges:
            nearest = min(edges, key=lambda edge: _away(edge, mark.at))
            yield mark, nearest, _away(nearest, mark.at) - half


def _away(edge: Edge, place: Point) -> float:
    """How far a place lies from an edge, mm."""
    points = polyline(edge.curves, _FLAT)
    return min(_from_line(Line(a, b), place) for a, b in pairwise(points))


def _from_line(line: Line, place: Point) -> float:
    along = line.end - line.start
    share = (place - line.start).dot(along) / max(along.dot(along), 1e-12)
    return distance(place, lerp(line.start, line.end, min(1.0, max(0.0, share))))
