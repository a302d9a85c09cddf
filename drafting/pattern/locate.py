"""Where things are on a piece: stations, notches, dart mouths, widths at a line."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from drafting.geometry import Curve, Point, Vec, distance, run_hits, run_place, run_reversed
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern.parts import Dart, Edge, MarkLine, Station
from drafting.pattern.piece import Piece
from drafting.pattern.seam import EdgeRef

__all__ = ["across", "dart_angle", "dart_mouth", "dart_width", "from_start", "place", "reach", "ref_curves", "ref_edge"]


def from_start(edge: Edge, station: Station) -> float:
    """How far along its edge a station lies, mm from the edge's start."""
    return station.at if station.end == "start" else edge.length - station.at


def place(piece: Piece, station: Station) -> tuple[Point, Vec]:
    """The point of a station and the unit direction of the edge there (anticlockwise round the piece)."""
    edge = piece.edge(station.edge)
    return run_place(edge.curves, from_start(edge, station))


def across(piece: Piece, line: str) -> float:
    """The width of cloth at a marked line, mm: what lies inside the outline, so that open darts are left out."""
    return piece.remembered(("across", line), lambda: _across(piece, piece.line(line)))


def _across(piece: Piece, mark: MarkLine) -> float:
    direction = mark.end - mark.start
    hits = sorted(hit.along for _, hit in run_hits(piece.outline, mark.start, direction))
    # a line along which an edge runs, or a touch, leaves an odd count; the ends of the mark itself then decide
    if len(hits) % 2:
        return direction.norm()
    return sum(b - a for a, b in list(pairwise(hits))[::2])


def reach(piece: Piece, start: Point, direction: Vec) -> float:
    """How far it is from a place on the piece, in a direction, to where the piece ends, mm; 0 where it does not."""
    ahead = [hit.along for _, hit in run_hits(piece.outline, start, direction) if hit.along > SAME_PLACE]
    return min(ahead, default=0.0)


def dart_mouth(piece: Piece, dart: Dart) -> tuple[Point, Point]:
    """The two ends of a dart's mouth on the seam line, in outline order."""
    return piece.edge(dart.legs[0]).start, piece.edge(dart.legs[1]).end


def dart_width(piece: Piece, dart: Dart) -> float:
    """How much a dart takes up at the seam line, straight across its mouth, mm."""
    return distance(*dart_mouth(piece, dart))


def dart_angle(piece: Piece, dart: Dart) -> float:
    """The angle of a dart at its apex between the ends of its legs, radians."""
    one, other = dart_mouth(piece, dart)
    return abs((one - dart.apex).angle_to(other - dart.apex))


def ref_edge(pieces: Iterable[Piece], ref: EdgeRef) -> Edge:
    """The edge a reference means."""
    for piece in pieces:
        if piece.name == ref.piece:
            return piece.edge(ref.edge)
    raise LookupError(ref.piece)


def ref_curves(pieces: Iterable[Piece], ref: EdgeRef) -> tuple[Curve, ...]:
    """The curves of a referenced edge in the direction in which it is walked."""
    curves = ref_edge(pieces, ref).curves
    return run_reversed(curves) if ref.backward else curves
