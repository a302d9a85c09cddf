"""Which edges of a garment need no seam, and which of those nothing finishes: they are left to be bound or faced."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain
from typing import Final

from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Edge, Role
from drafting.pattern.places import MIDDLE_SEAMS, BodyPart, PieceKind, Place
from drafting.pattern.pockets import is_patch

__all__ = ["JOINED_WHERE_BOTH", "has_inner_layer", "is_facing", "needs_no_seam", "parts_covered", "unfinished_edges"]

JOINED_WHERE_BOTH: Final[Mapping[Place | None, tuple[frozenset[BodyPart], ...]]] = {
    Place.WAIST: (
        frozenset((BodyPart.BODICE, BodyPart.SKIRT)),
        frozenset((BodyPart.BODICE, BodyPart.TROUSERS)),
    ),
    Place.ARMHOLE: (frozenset((BodyPart.BODICE, BodyPart.SLEEVE)),),
}
"""The lines that are sewn where the garment covers two parts of the body, and finished where it covers one of them."""

_LEFT_BARE: Final[Mapping[Place | None, Place]] = {
    Place.NECK: Place.NECK,
    Place.WAIST: Place.WAIST,
    Place.ARMHOLE: Place.ARMHOLE,
    Place.BIB: Place.BIB,
    Place.WRAP: Place.WAIST,
}
"""The lines that may be left to be bound or faced, each with what shows it: a wrapped half reaches beyond its
waist."""

_FINISHED: Final = (
    Place.LAP_END,
    Place.PLEAT_END,
    Place.NECK,
    Place.BIB,
    Place.FACING_EDGE,
    Place.WRAP,
    Place.STAND,
    Place.BAND_EDGE,
    Place.BAND_END,
)
"""What is finished by itself: a neck is bound or faced, the inner edge of a facing neatened, what reaches beyond the
waist of a wrapped half, the end of a button stand and the edges of a band turned in, the ends
of a pleat folded in."""


_CAUGHT: Final = (Place.WAIST, Place.ARMHOLE, Place.WRIST, Place.STAND, Place.STAND_EDGE, Place.WRAP, Place.WRAP_EDGE)
"""Where a lining that ends there is caught in the seam of the shell, or turned in and sewn down by hand."""


def unfinished_edges(pattern: Pattern) -> Iterator[tuple[Piece, Edge, Place]]:
    """The edges that nothing of the pattern finishes though nothing is missing, each with its line: neck, waist or
    armhole. They are left to be bound or faced.
    """
    parts = parts_covered(pattern)
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in chain(seam.a, seam.b)}
    for piece in pattern.pieces:
        if is_facing(piece) or piece.identity.kind is PieceKind.LINING or has_inner_layer(piece):
            continue
        for edge in piece.edges:
            line = _LEFT_BARE.get(edge.place)
            bare = edge.role is Role.SEAM and (piece.name, edge.name) not in sewn
            if line is not None and bare and needs_no_seam(edge, piece, parts):
                yield piece, edge, line


def parts_covered(pattern: Pattern) -> frozenset[BodyPart]:
    """The parts of the body that the garment covers."""
    return frozenset(piece.identity.part for piece in pattern.pieces if piece.identity.part is not None)


def is_facing(piece: Piece) -> bool:
    """Whether a piece lies behind another and is held with it; it is sewn where two of them meet."""
    return piece.identity.kind is PieceKind.FACING


def has_inner_layer(piece: Piece) -> bool:
    """Whether a piece is cut once more as its own inside, as a shaped waistband is: that finishes its upper edge."""
    doubled = piece.cut.layers == 2 and 2 * piece.cut.interfacing == piece.cut.count
    return doubled and any(edge.place is Place.YOKE for edge in piece.edges)


def needs_no_seam(edge: Edge, piece: Piece, parts: frozenset[BodyPart]) -> bool:
    """Whether an edge is finished without another piece, or sewn to the other half of its own."""
    if piece.identity.kind is PieceKind.LINING and edge.place in _CAUGHT:
        return True
    if edge.place is Place.POCKET_EDGE:
        return is_patch(piece)
    if edge.place is Place.YOKE and piece.identity.kind is PieceKind.FACING:
        return True  # the end of a facing, which the inner layer of the band above it covers
    if edge.place in _FINISHED or (edge.place in MIDDLE_SEAMS and piece.cut.mirror):
        return True
    both = JOINED_WHERE_BOTH.get(edge.place)
    return both is not None and not any(pair <= parts for pair in both)
