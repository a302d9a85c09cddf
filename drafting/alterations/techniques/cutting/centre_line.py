"""The centre line of a garment, piece under piece: which edges it is made of, and how they are made anew."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drafting.alterations.techniques.cutting.split_edges import Fragment, Made, renamed_notches, with_edges_split
from drafting.geometry import Curve, Line, Point, run_length, run_reversed
from drafting.geometry.outline import straight_run
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Cut, Edge, MarkLine, Notch, Pattern, Piece, PieceKind, Place, closed, edges_at

__all__ = ["CentreLine", "carried_on", "centre_lines", "fragments", "hangs_from", "with_centre"]


@dataclass(frozen=True, slots=True)
class CentreLine:
    """The centre line of one piece.

    edges:    its edges in outline order, and the edges before and after them
    downward: whether the outline runs down it
    """

    piece: Piece
    edges: tuple[Edge, ...]
    before: Edge
    after: Edge
    downward: bool

    @property
    def upper(self) -> Edge:
        """The edge at its upper end."""
        return self.before if self.downward else self.after

    @property
    def lower(self) -> Edge:
        """The edge at its lower end."""
        return self.after if self.downward else self.before

    @property
    def down(self) -> tuple[Curve, ...]:
        """Its curves from top to bottom."""
        run = tuple(curve for edge in self.edges for curve in edge.curves)
        return run if self.downward else run_reversed(run)

    @property
    def top(self) -> Point:
        """Its upper end."""
        return self.down[0].start

    @property
    def bottom(self) -> Point:
        """Its lower end."""
        return self.down[-1].end

    @property
    def length(self) -> float:
        """Its length, mm."""
        return run_length(self.down)

    @property
    def straight(self) -> bool:
        """Whether it is one straight line, as a fold and a button stand have to be."""
        line = (self.bottom - self.top).unit()
        ends = [curve.end for curve in self.down]
        lines = all(isinstance(curve, Line) for curve in self.down)
        return lines and all(abs(line.cross(end - self.top)) <= SAME_PLACE for end in ends)


def centre_lines(pattern: Pattern, at: str) -> tuple[CentreLine, ...]:
    """The pieces with edges at the "centre front" or the "centre back", from above to below; facings have none."""
    found = [line for piece in pattern.pieces if (line := _centre_line(piece, Place(at))) is not None]
    return tuple(sorted(found, key=lambda line: sum(hangs_from(pattern, line, other) for other in found)))


def with_centre(pattern: Pattern, line: CentreLine, edges: Sequence[Edge], made: Made, cut: Cut) -> Pattern:
    """The pattern with other edges along a centre line, which run as the old ones did.

    made: the stretches of the old edges that each new one is made of
    """
    piece, old = line.piece, {edge.name for edge in line.edges}
    kept = {edge.name: (Fragment(edge.name, 0.0, edge.length),) for edge in piece.edges if edge.name not in old}
    every: Made = {**kept, **made}
    order: list[Edge] = []
    for edge in piece.edges:
        if edge.name not in old:
            order.append(edge)
        elif edge.name == line.edges[0].name:
            order.extend(edges)
    first, last = edges[0].name, edges[-1].name
    neighbours = {line.before.name: first, line.after.name: last}
    after = replace(
        piece,
        edges=closed(piece.name, tuple(order)),
        cut=cut,
        notches=_within(renamed_notches(piece, every), {edge.name for edge in order}),
        points_meant=tuple(_renamed(pair, old, neighbours) for pair in piece.points_meant),
    )
    return with_edges_split(pattern, piece, after, every)


def carried_on(mark: MarkLine, start: Point, end: Point) -> MarkLine:
    """A marked line carried straight on from its ends to places further out; a straight one stays one line."""
    if not mark.curves:
        return mark.straight(start, end)
    whole = (*straight_run(start, mark.start), *mark.drawn, *straight_run(mark.end, end))
    return mark.through(whole, start, end)


def fragments(line: CentreLine) -> tuple[Fragment, ...]:
    """All of its edges as stretches, in outline order."""
    return tuple(Fragment(edge.name, 0.0, edge.length) for edge in line.edges)


def _centre_line(piece: Piece, at: Place) -> CentreLine | None:
    edges = edges_at(piece, at)
    if not edges or piece.identity.kind is PieceKind.FACING:
        return None
    before, after = piece.beside(edges[0].name, last=edges[-1].name)
    return CentreLine(piece, edges, before, after, edges[0].start.y > edges[-1].end.y)


def hangs_from(pattern: Pattern, line: CentreLine, other: CentreLine) -> bool:
    """Whether one piece is sewn by its upper edge to the lower edge of another."""
    mine, its = (line.piece.name, line.upper.name), (other.piece.name, other.lower.name)
    for seam in pattern.seams:
        sides = [{(ref.piece, ref.edge) for ref in run} for run in (seam.a, seam.b)]
        if any(mine in one and its in two for one, two in (sides, sides[::-1])):
            return True
    return False


def _within(notches: Sequence[Notch], names: set[str]) -> tuple[Notch, ...]:
    return tuple(notch for notch in notches if notch.station.edge in names)


def _renamed(pair: tuple[str, str], old: set[str], neighbours: dict[str, str]) -> tuple[str, str]:
    for one, other in (pair, pair[::-1]):
        if one in old and other in neighbours:
            return (neighbours[other], other)
    return pair
