"""A quarter of a skirt, from its centre line out to its side seam: its waist with the darts in it, its hem."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import takewhile
from typing import Final

from drafting.alterations.techniques.marks.grain_line import with_grain_inside
from drafting.alterations.techniques.spreading.slash_and_spread import Slash, fanned_line, strip_of
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Move, Point, Vec, run_hits, run_reversed
from drafting.pattern import Dart, Edge, Pattern, Piece, Place, Role, closed, edges_at

__all__ = ["Quarter", "quarter_of", "quarters", "rebuilt"]

_TOPS: Final = (Place.WAIST, Place.YOKE)
"""What the upper edge of a skirt may be: its waist, or where a band or a yoke was cut off it."""


@dataclass(frozen=True, slots=True)
class Quarter:
    """A skirt piece seen from its centre line.

    waist:    the edges of the waist from the centre outward, the legs of darts among them
    side:     the side seam
    hem:      the hem from the centre outward, and its edge's name
    to_right: whether the side seam lies to the right of the centre line
    """

    piece: Piece
    waist: tuple[Edge, ...]
    side: Edge
    hem: tuple[Curve, ...]
    hem_name: str
    to_right: bool

    def outward(self, edge: Edge) -> tuple[Curve, ...]:
        """The curves of an edge of the waist from the centre outward."""
        return run_reversed(edge.curves) if self.to_right else edge.curves

    def dart_at(self, edge: Edge) -> Dart | None:
        """The dart whose nearer leg, seen from the centre, this edge is."""
        near = 1 if self.to_right else 0
        return next((dart for dart in self.piece.darts if dart.legs[near] == edge.name), None)

    @property
    def sewn(self) -> tuple[Edge, ...]:
        """The edges of the waist that are sewn to something, from the centre outward."""
        return tuple(edge for edge in self.waist if edge.role is not Role.DART_LEG)

    @property
    def sewn_at(self) -> set[tuple[str, str]]:
        """The piece and the name of each of these edges."""
        return {(self.piece.name, edge.name) for edge in self.sewn}

    @property
    def edges_kept(self) -> tuple[str, ...]:
        """The edges that are neither waist nor side seam nor hem: the centre line, and stands or wraps beside it."""
        altered = {self.side.name, self.hem_name, *(edge.name for edge in self.waist)}
        return tuple(edge.name for edge in self.piece.edges if edge.name not in altered)

    @property
    def centre(self) -> Point:
        """The upper end of the centre line."""
        return self.outward(self.waist[0])[0].start

    @property
    def corner(self) -> Point:
        """The upper end of the side seam."""
        return self.outward(self.waist[-1])[-1].end

    def below(self, x: float) -> Point:
        """Where the hem lies at this distance across. Raises NotAPattern where the piece has no hem there."""
        hits = run_hits(self.hem, Point(x, self.hem[0].start.y), Vec(0.0, 1.0))
        if not hits:
            raise NotAPattern(self.piece.name, reason="its hem does not lie below its waist")
        return hits[0][1].point


def quarters(pattern: Pattern) -> tuple[Quarter, ...]:
    """The skirt pieces of a pattern: those with one hem, a waist and a side seam between the two.

    Raises NotAPattern for one whose waist does not run from a centre line to the side seam.
    """
    return tuple(
        quarter_of(piece)
        for piece in pattern.pieces
        if _hems(piece) and len(edges_at(piece, Place.SIDE)) == 1 and edges_at(piece, *_TOPS)
    )


def _hems(piece: Piece) -> list[Edge]:
    """Its hems, turned up or faced."""
    return [edge for edge in piece.edges if edge.role is Role.HEM or edge.place is Place.HEM]


def rebuilt(
    quarter: Quarter,
    waist: Mapping[str, tuple[Curve, ...] | None],
    hem: Sequence[Curve],
    moves: Sequence[Move],
    parted: Sequence[Slash],
    darts: tuple[Dart, ...],
) -> Piece:
    """The piece with another waist and hem, its side seam and what is marked on it moved with their strips.

    waist:  the new curves of its edges from the centre outward, by name; None for a leg of a dart that is gone
    moves:  where each strip goes, from the centre outward
    parted: the cut between each two of them
    darts:  those that are left, their points still where they were
    """
    piece = quarter.piece
    edges = []
    for edge in piece.edges:
        if edge.name == quarter.hem_name:
            edges.append(replace(edge, curves=tuple(hem) if quarter.to_right else run_reversed(hem)))
        elif edge is quarter.side:
            edges.append(edge.moved(moves[-1]))
        elif edge.name in waist:
            curves = waist[edge.name]
            if curves is not None:
                edges.append(replace(edge, curves=run_reversed(curves) if quarter.to_right else curves))
        else:
            edges.append(edge)

    def placed(p: Point) -> Point:
        return moves[strip_of(p, parted, quarter.to_right)].point(p)

    outline = closed(piece.name, tuple(edges))
    begins = {edge.name: edge.start for edge in outline}
    notches = tuple(notch for notch in piece.notches if notch.station.edge in begins)
    made = replace(
        piece,
        edges=outline,
        darts=tuple(replace(dart, apex=begins[dart.legs[1]]) for dart in darts),
        notches=notches,
        lines=tuple(fanned_line(mark, parted, moves, to_right=quarter.to_right) for mark in piece.lines),
        points=tuple(mark.placed(placed(mark.at)) for mark in piece.points),
    )
    return with_grain_inside(made)


def quarter_of(piece: Piece) -> Quarter:
    """The piece seen as a quarter of a skirt. Raises NotAPattern as `quarters` does."""
    (hem, *more), (side,), edges = _hems(piece), edges_at(piece, Place.SIDE), piece.edges
    if more:
        raise NotAPattern(piece.name, reason="its hem is made of more than one edge")
    at = edges.index(side)
    before, after = edges[at - 1], edges[(at + 1) % len(edges)]
    if hem not in (before, after):
        raise NotAPattern(piece.name, reason="its side seam does not end at the hem")
    to_right = before is hem
    ring = (*edges[at + 1 :], *edges[:at])
    inward = ring if to_right else ring[::-1]
    chain = tuple(takewhile(lambda edge: edge.place in _TOPS or edge.role is Role.DART_LEG, inward))[::-1]
    if not chain or chain[-1].role is Role.DART_LEG or chain[0].role is Role.DART_LEG:
        raise NotAPattern(piece.name, reason="its waist does not run from the centre line to the side seam")
    outward = hem.curves if to_right else run_reversed(hem.curves)
    return Quarter(piece, chain, side, outward, hem.name, to_right)
