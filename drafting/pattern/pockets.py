"""Pockets found again in a pattern: the piece that a pocket lies on, by what both are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from drafting.geometry import Curve, Vec, polyline, run_hits
from drafting.pattern.find import edges_at, points_at
from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Edge, Role
from drafting.pattern.places import Landmark, PieceKind, Place

__all__ = [
    "ABOVE_HEM",
    "above_hem",
    "edge_past_pocket",
    "is_patch",
    "marked_for_pockets",
    "one_sided",
    "pockets",
    "sewn_behind",
]

ABOVE_HEM: Final = 40.0
"""mm. How far above the hem a pocket ends at least (common practice)."""


def pockets(pattern: Pattern) -> Iterator[Piece]:
    """Its pockets, patches and bags."""
    return (piece for piece in pattern.pieces if piece.identity.kind is PieceKind.POCKET)


def is_patch(piece: Piece) -> bool:
    """Whether a piece is sewn onto the outside of another, on its marks: a pocket whose mouth is turned in."""
    if piece.identity.kind is not PieceKind.POCKET:
        return False
    return any(edge.role is Role.HEM for edge in edges_at(piece, Place.POCKET_MOUTH))


def marked_for_pockets(pattern: Pattern, pocket: Piece) -> tuple[Piece, ...]:
    """The pieces that a patch may lie on: of its kind and part of the body, or cut off such a one, with the marks of a
    pocket.
    """
    mine = (pocket.identity.of, pocket.identity.part)

    def fits(piece: Piece) -> bool:
        what = piece.identity
        return (what.of if what.kind is PieceKind.YOKE else what.kind, what.part) == mine

    return tuple(piece for piece in pattern.pieces if fits(piece) and points_at(piece, Landmark.POCKET))


def one_sided(pocket: Piece, pattern: Pattern) -> bool:
    """Whether a patch is for one half of the body alone, and what it lies on is there for both."""
    lies_on = marked_for_pockets(pattern, pocket)
    return pocket.identity.side is not None and any(piece.cut.fold or piece.cut.mirror for piece in lies_on)


def sewn_behind(pattern: Pattern, bag: Piece) -> Piece | None:
    """The piece of the garment to whose edge the mouth of a bag is sewn; None where that is none."""
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if any(ref.piece == bag.name and bag.edge(ref.edge).place is Place.POCKET_MOUTH for ref in run):
                return pattern.piece(other[0].piece)
    return None


def above_hem(run: Sequence[Curve], piece: Piece) -> float | None:
    """How far above the hem a line ends, mm; below zero where it reaches under it, None without a hem below."""
    down = Vec(0.0, -1.0) if piece.grain is None else (piece.grain.start - piece.grain.end).unit()
    hems = [curve for edge in edges_at(piece, Place.HEM, Place.LEG_OPENING) for curve in edge.curves]
    found = [hit.along for at in polyline(run) for _, hit in run_hits(hems, at, down)]
    return min(found, default=None)


_SLANTED: Final = (Place.POCKET_MOUTH, Place.POCKET_TOP, Place.POCKET_EDGE)


def edge_past_pocket(pattern: Pattern, piece: Piece, edge: Edge, *, onward: bool) -> tuple[Piece, int] | None:
    """Where the outline of a front goes on at the mouth of a slanted pocket, and that of its hip piece at the bag: the
    other of the two, and which of its edges meets there; None at any other edge.

    onward: whether one comes to the edge at its start
    """
    if edge.place not in _SLANTED or piece.identity.kind is PieceKind.POCKET:
        return None
    at = edge.start if onward else edge.end
    for bag in _joined_at_pocket(pattern, piece):
        for other in _joined_at_pocket(pattern, bag):
            for k, each in enumerate(other.edges):
                meets = each.start if onward else each.end
                if other.name != piece.name and each.place not in _SLANTED and meets.near(at):
                    return other, k
    return None


def _joined_at_pocket(pattern: Pattern, piece: Piece) -> Iterator[Piece]:
    """The pieces that are sewn to this one along a mouth or round a bag."""
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if any(ref.piece == piece.name and piece.edge(ref.edge).place in _SLANTED for ref in run):
                yield pattern.piece(other[0].piece)
