"""Where things are on a piece: stations, notches, dart mouths, widths at a line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from drafting.geometry import (
    Curve,
    Point,
    Vec,
    corner_turn,
    distance,
    run_bounds,
    run_hits,
    run_length,
    run_place,
    run_reversed,
)
from drafting.geometry.tolerance import MEASURED, SAME_PLACE
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Dart, Edge, MarkLine, Station
from drafting.pattern.places import Place
from drafting.pattern.seam import EdgeRef

__all__ = [
    "across",
    "corner_at",
    "dart_angle",
    "dart_mouth",
    "dart_width",
    "from_start",
    "has_sleeve",
    "outline_box",
    "place",
    "reach",
    "ref_curves",
    "ref_edge",
]


_BESIDE_EDGE: Final = 2.0
"""mm that a marked line may end beside the edge it runs to, when that was redrawn (ours)."""


def from_start(edge: Edge, station: Station) -> float:
    """How far along its edge a station lies, mm from the edge's start."""
    return station.at if station.end == "start" else edge.length - station.at


def place(piece: Piece, station: Station) -> tuple[Point, Vec]:
    """The point of a station and the unit direction of the edge there (anticlockwise round the piece)."""
    edge = piece.edge(station.edge)
    return run_place(edge.curves, from_start(edge, station))


def across(piece: Piece, line: str) -> float:
    """The width of a piece at a marked line, mm: from the one outermost edge to the other, open darts left out.

    An edge that dips over the line and comes back, as the cap of a sleeve may, takes nothing away: the tape lies over
    it as it lies over the dip. A line that is not straight is measured along itself.
    """
    mark = piece.line(line)
    if mark.curves:
        return piece.remembered(("along", line), lambda: run_length(mark.curves, MEASURED))
    return piece.remembered(("across", line), lambda: _width_along(piece, piece.line(line)))


def _width_along(piece: Piece, mark: MarkLine) -> float:
    """How wide a piece is along a marked line, mm, darts that it crosses left out."""
    direction = mark.end - mark.start
    hits = {edge.name: [hit.along for _, hit in run_hits(edge.curves, mark.start, direction)] for edge in piece.edges}
    everywhere = [along for found in hits.values() for along in found]
    if has_sleeve(piece):
        # it hangs down beside the body: the line itself ends where the body does, or a hair beside that edge
        everywhere = [_end_near(everywhere, end) for end in (0.0, direction.norm())]
    if len(everywhere) < 2:
        # an edge that runs along the line meets it nowhere; the ends of the mark itself then decide
        return direction.norm()
    mouths = 0.0
    for dart in piece.darts:
        one, other = (hits[leg] for leg in dart.legs)
        if len(one) == len(other) == 1:
            mouths += abs(one[0] - other[0])
    return max(everywhere) - min(everywhere) - mouths


def _end_near(hits: Iterable[float], end: float) -> float:
    """Where a line meets the outline beside its own end, or that end where nothing is met there; mm along it."""
    nearest = min(hits, key=lambda along: abs(along - end), default=end)
    return nearest if abs(nearest - end) <= _BESIDE_EDGE else end


def has_sleeve(piece: Piece) -> bool:
    """Whether a sleeve is cut in one with it."""
    return any(edge.place is Place.OVERARM for edge in piece.edges)


def outline_box(piece: Piece) -> tuple[float, float, float, float]:
    """The tight box (left, bottom, right, top) round the sewing line of a piece, mm."""
    return piece.remembered("box", lambda: run_bounds(piece.outline))


def reach(piece: Piece, start: Point, direction: Vec) -> float:
    """How far it is from a place on the piece, in a direction, to where the piece ends, mm, open darts on the way left
    out; 0 where it does not.
    """
    legs = {leg: dart for dart in piece.darts for leg in dart.legs}
    hits = sorted(
        (hit.along, edge.name)
        for edge in piece.edges
        for _, hit in run_hits(edge.curves, start, direction)
        if hit.along > SAME_PLACE
    )
    left_out, entered = 0.0, None
    for along, name in hits:
        dart = legs.get(name)
        if entered is None:
            if dart is None:
                return along - left_out
            entered = along, dart
        elif dart is not entered[1]:
            break  # out of the piece through the mouth of the dart
        else:
            left_out += along - entered[0]
            entered = None
    return 0.0 if entered is None else entered[0] - left_out


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


def corner_at(piece: Piece, edge: int) -> float:
    """How far the outline turns where its edge of that number, from 0, begins: radians, positive anticlockwise."""
    edges = piece.edges
    return piece.remembered(("corner", edge), lambda: corner_turn(edges[edge - 1].curves, edges[edge].curves))


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
