"""What a seam of a pattern is to whoever sews it: told by the places of its edges and the kinds of its pieces."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum, auto
from typing import Final

from drafting.pattern import BodyPart, EdgeRef, Pattern, Piece, PieceKind, Place, Seam, seam_places
from drafting.pattern.gathered import is_stretched_on

__all__ = ["SeamKind", "faced_place", "is_facing", "is_inside", "kind_of", "part_of", "pieces_in", "refs_of"]


class SeamKind(StrEnum):
    """A kind of seam."""

    PANEL = auto()
    SHOULDER = auto()
    SIDE = auto()
    UNDERARM = auto()
    INSEAM = auto()
    ARMHOLE = auto()
    RAGLAN = auto()
    WAIST = auto()
    POCKET = auto()
    SLANTED_POCKET = auto()
    LINING = auto()
    LINED = auto()
    BAND = auto()
    STRETCHED_ON = auto()
    COLLAR = auto()
    COLLAR_ON = auto()
    CUFF = auto()
    FACE = auto()
    FACINGS = auto()
    BOUND = auto()
    FLY = auto()


_BY_PLACE: Final[Mapping[Place, SeamKind]] = {
    Place.SHOULDER: SeamKind.SHOULDER,
    Place.OVERARM: SeamKind.SHOULDER,
    Place.SIDE: SeamKind.SIDE,
    Place.UNDERARM: SeamKind.UNDERARM,
    Place.INSEAM: SeamKind.INSEAM,
    Place.WAIST: SeamKind.WAIST,
    Place.POCKET_TOP: SeamKind.SLANTED_POCKET,
    Place.POCKET_EDGE: SeamKind.SIDE,
    Place.RAGLAN: SeamKind.RAGLAN,
}
"""Seams of which both runs lie at one place."""


_SEWN_ON: Final[Mapping[PieceKind | None, SeamKind]] = {
    PieceKind.CUFF: SeamKind.CUFF,
    PieceKind.BINDING: SeamKind.BOUND,
    PieceKind.FLY: SeamKind.FLY,
}
"""Seams that sew on a piece of one of these kinds."""


def kind_of(pattern: Pattern, seam: Seam) -> SeamKind:
    """What kind of seam it is. A seam that is none of the others joins panels."""
    lining = [pattern.piece(ref.piece).identity.kind is PieceKind.LINING for ref in refs_of(seam)]
    if any(lining):
        return SeamKind.LINING if all(lining) else SeamKind.LINED
    facing = [is_facing(pattern.piece(ref.piece)) for ref in refs_of(seam)]
    if any(facing):
        return SeamKind.FACINGS if all(facing) else SeamKind.FACE
    kinds = [pattern.piece(ref.piece).identity.kind for ref in refs_of(seam)]
    if PieceKind.COLLAR in kinds:
        return SeamKind.COLLAR if set(kinds) == {PieceKind.COLLAR} else SeamKind.COLLAR_ON
    if PieceKind.BAND in kinds:
        return SeamKind.STRETCHED_ON if is_stretched_on(pattern, seam) else SeamKind.BAND
    sewn_on = next((_SEWN_ON[kind] for kind in kinds if kind in _SEWN_ON), None)
    if sewn_on is not None:
        return sewn_on
    one, other = seam_places(pattern, seam)
    if {Place.CAP, Place.ARMHOLE} <= one | other and Place.RAGLAN not in one:
        return SeamKind.ARMHOLE
    if Place.POCKET_MOUTH in one | other:
        return SeamKind.SLANTED_POCKET if Place.POCKET_MOUTH in one & other else SeamKind.POCKET
    return next((kind for place, kind in _BY_PLACE.items() if place in one and place in other), SeamKind.PANEL)


def faced_place(pattern: Pattern, seam: Seam) -> Place | None:
    """The place that a facing finishes: that of the longest edge it is sewn to."""
    edges = [
        pattern.piece(ref.piece).edge(ref.edge) for ref in refs_of(seam) if not is_facing(pattern.piece(ref.piece))
    ]
    return max(edges, key=lambda edge: edge.length).place


def part_of(pattern: Pattern, seam: Seam) -> BodyPart | None:
    """The part of the body a seam belongs to; None where it joins two."""
    parts = {pattern.piece(ref.piece).identity.part for ref in refs_of(seam)}
    return parts.pop() if len(parts) == 1 else None


def is_facing(piece: Piece) -> bool:
    """Whether a piece lies behind another and finishes an edge of it."""
    return piece.identity.kind is PieceKind.FACING


def is_inside(piece: Piece) -> bool:
    """Whether a piece lies inside the garment: a facing or a lining."""
    return piece.identity.kind in (PieceKind.FACING, PieceKind.LINING)


def pieces_in(seams: Iterable[Seam]) -> tuple[str, ...]:
    """The names of the pieces that seams join, each once."""
    return tuple(dict.fromkeys(ref.piece for seam in seams for ref in refs_of(seam)))


def refs_of(seam: Seam) -> Iterator[EdgeRef]:
    """All edges of a seam."""
    yield from seam.a
    yield from seam.b
