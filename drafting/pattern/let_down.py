"""By how much what a garment measures can be let down later: at a hem, at a seam, by a tuck that is let out."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from drafting.geometry import Point, distance, flatten
from drafting.pattern.measure import Along, Between, Curved, Measure
from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Edge
from drafting.pattern.places import Level

__all__ = ["let_down_by", "let_down_edges", "tuck_by", "usual_allowance"]

_ON: Final = 1.0  # mm from an edge that a point which lies on it may be


def let_down_edges(piece: Piece) -> Iterator[tuple[Edge, float]]:
    """The edges of a piece that can be let down, each with by how much, mm."""
    for line in piece.lines:
        if line.level is Level.LET_DOWN:
            edge = min(piece.edges, key=lambda e: distance(e.start, line.start) + distance(e.end, line.end))
            yield edge, distance(edge.start, line.start)


def usual_allowance(piece: Piece, edge: Edge) -> float:
    """The allowance of an edge without what is left in it to be let down, mm."""
    return round(edge.allowance - sum(by for each, by in let_down_edges(piece) if each.name == edge.name), 6)


def tuck_by(piece: Piece) -> float:
    """What the tucks of a piece take up together, mm."""
    lines = [line for line in piece.lines if line.level is Level.TUCK]
    pairs = zip(lines[::2], lines[1::2], strict=True)
    return sum(abs((second.start - first.start).cross((first.end - first.start).unit())) for first, second in pairs)


def let_down_by(pattern: Pattern, measure: Measure) -> float:
    """By how much longer a measurement of the garment can be made, mm; 0 for what cannot be let down."""
    return sum(_more(pattern.piece(part.piece), part) for part in measure.tape)


def _more(piece: Piece, part: object) -> float:
    if isinstance(part, Curved):
        taken_up = any(line.name == part.line and line.level is Level.TUCK for line in piece.lines)
        return -part.times * part.by if taken_up else 0.0
    if isinstance(part, Along):
        along = piece.edge(part.edge)
        return sum(by for edge, by in let_down_edges(piece) if along.end == edge.start or along.start == edge.end)
    if isinstance(part, Between):
        ends = [piece.point(part.one), piece.point(part.other)]
        return sum(by for edge, by in let_down_edges(piece) if any(_near(edge, end) for end in ends))
    return 0.0


def _near(edge: Edge, point: Point) -> bool:
    """Whether a point lies on an edge, as the end of a centre line lies on a hem."""
    drawn = [place for curve in edge.curves for place in flatten(curve, 0.1)]
    return any(_from_line(point, a, b) <= _ON for a, b in pairwise(drawn))


def _from_line(point: Point, a: Point, b: Point) -> float:
    """How far a point lies from a straight line between two others, mm."""
    along = b - a
    share = min(1.0, max(0.0, (point - a).dot(along) / max(along.dot(along), 1e-12)))
    return distance(point, a + along * share)
