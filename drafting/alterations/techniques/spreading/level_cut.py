"""A cut straight across the grain of a piece: the edges and marks it cuts, and those that move with the part below."""

from __future__ import annotations

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Point, Vec, length, line_hits, run_at, split
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Edge, MarkLine, Notch, Piece, from_start

__all__ = [
    "CutLine",
    "crossed",
    "crosses",
    "crossing_place",
    "curve_crosses",
    "kept_lines",
    "level_with",
    "lies_across",
    "notch_moves",
    "notch_place",
]


@dataclass(frozen=True, slots=True)
class CutLine:
    """A cut straight across the grain, through a point; `down` is the unit direction towards the part that moves.

    line: the marked line that the cut follows; None where it follows none
    """

    through: Point
    down: Vec
    line: MarkLine | None = None

    def depth(self, point: Point) -> float:
        """How far a point lies below the cut, mm along the grain; negative above it."""
        return (point.x - self.through.x) * self.down.x + (point.y - self.through.y) * self.down.y

    def below(self, point: Point) -> bool:
        """Whether a point moves. What lies on the cut itself stays."""
        return self.depth(point) > SAME_PLACE


def lies_across(line: MarkLine, cut: CutLine) -> bool:
    """Whether a marked line lies more across the grain than along it."""
    direction = line.end - line.start
    return abs(direction.cross(cut.down)) > abs(direction.dot(cut.down))


def level_with(line: MarkLine, cut: CutLine) -> bool:
    """Whether a line lies where the cut is: the width there is what the redrawn sides make it."""
    return line is cut.line or max(abs(cut.depth(line.start)), abs(cut.depth(line.end))) <= 0.5


def curve_crosses(curve: Curve, cut: CutLine) -> bool:
    """Whether the cut goes through the curve."""
    return cut.below(curve.start) != cut.below(curve.end)


def crosses(edge: Edge, cut: CutLine) -> bool:
    """Whether the cut goes through the edge."""
    return any(curve_crosses(curve, cut) for curve in edge.curves)


def crossed(piece: Piece, cut: CutLine) -> tuple[Edge, ...]:
    """The edges of the piece that the cut goes through."""
    return tuple(edge for edge in piece.edges if crosses(edge, cut))


def crossing_place(edge: Edge, cut: CutLine) -> tuple[float, bool]:
    """Where the cut goes through an edge: mm from its start, and whether the edge goes downwards there.

    Raises LookupError for an edge that the cut does not go through.
    """
    gone = 0.0
    for curve in edge.curves:
        if curve_crosses(curve, cut):
            hits = line_hits(curve, cut.through, cut.down.left())
            # an end that lies on the cut may come out as no hit at all
            t = hits[0].t if hits else float(cut.below(curve.start))
            return gone + length(split(curve, t)[0]), cut.below(curve.end)
        gone += length(curve)
    raise LookupError(edge.name)


def notch_place(piece: Piece, notch: str) -> Point:
    """Where a notch of the piece lies."""
    station = piece.notch(notch).station
    edge = piece.edge(station.edge)
    return piece.remembered(("notch", notch), lambda: run_at(edge.curves, from_start(edge, station)))


def notch_moves(piece: Piece, notch: Notch, cut: CutLine) -> bool:
    """Whether a notch lies on the part that moves."""
    edge = piece.edge(notch.station.edge)
    at, gone = from_start(edge, notch.station), 0.0
    for curve in edge.curves:
        gone += length(curve)
        if at <= gone:
            return cut.below(notch_place(piece, notch.name) if curve_crosses(curve, cut) else curve.start)
    return cut.below(edge.end)


def kept_lines(piece: Piece, cut: CutLine) -> tuple[MarkLine, ...]:
    """The marked lines across the piece at which its width is kept: all that lie wholly above or below the cut."""
    return tuple(
        line
        for line in piece.lines
        if lies_across(line, cut) and cut.below(line.start) == cut.below(line.end) and not level_with(line, cut)
    )
