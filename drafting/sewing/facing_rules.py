"""When facings are sewn: to each other, then to the edge they finish."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Final

from drafting.pattern import EdgeRef, Pattern, Piece, Place, Role, Seam
from drafting.sewing.openings import openings
from drafting.sewing.seam_kinds import SeamKind, faced_place, is_facing, pieces_in
from drafting.sewing.sewing_step import Act
from drafting.sewing.stages import Found, Sewing, Stage, centre_seams, left_over

__all__ = ["facing_ends", "facings"]


def facings(sewing: Sewing) -> Found:
    """Facings: those of one place, or that go round a corner together, are joined, and then sewn on in one pass."""
    pattern = sewing.pattern
    zips = {opening.place for opening in openings(pattern) if not opening.fastening.buttons}
    for places, seams in _faced_in_one(sewing):
        place = Place.NECK if Place.NECK in places else places[0]
        if Place.ARMHOLE in places:  # the sides are closed before
            place = Place.ARMHOLE
        stage = Stage.EDGES if Place.STAND_EDGE in places else _FACED.get(place, Stage.EDGES)
        names = tuple(name for name in pieces_in(seams) if is_facing(pattern.piece(name)))
        joined = [seam for seam in sewing.seams(SeamKind.FACINGS) if not set(names).isdisjoint(pieces_in([seam]))]
        loose = [ref for name in names for ref in left_over(pattern, pattern.piece(name))]
        first = [ref for ref in loose if pattern.piece(ref.piece).edge(ref.edge).place is Place.FACING_EDGE]
        first += [ref for name in names for ref in centre_seams(pattern, pattern.piece(name))]
        yield stage, sewing.step(Act.JOIN_FACINGS, joined, place=place, edges=tuple(first), pieces=names)
        at_zip = facing_ends(pattern, zips)
        ends = [ref for ref in loose if ref not in first and ref not in at_zip]
        if Place.STAND_EDGE in places:
            ends += [ref for piece in pattern.pieces if not is_facing(piece) for ref in _stand_ends(pattern, piece)]
        yield stage, sewing.step(Act.FACE, seams, place=place, edges=tuple(ends))


def _faced_in_one(sewing: Sewing) -> list[tuple[tuple[Place | None, ...], tuple[Seam, ...]]]:
    """The seams that sew facings on, those together that are sewn in one pass, with the places they finish."""
    groups: list[tuple[tuple[Place | None, ...], tuple[Seam, ...]]] = []
    for seam in sewing.seams(SeamKind.FACE):
        places: tuple[Place | None, ...] = (faced_place(sewing.pattern, seam),)
        seams: tuple[Seam, ...] = (seam,)
        facings = {name for name in pieces_in(seams) if is_facing(sewing.pattern.piece(name))}
        for group in list(groups):
            if places[0] in group[0] or facings & set(pieces_in(group[1])):
                groups.remove(group)
                places, seams = tuple(dict.fromkeys((*group[0], *places))), (*group[1], *seams)
        groups.append((places, seams))
    return groups


def facing_ends(pattern: Pattern, places: Collection[Place]) -> list[EdgeRef]:
    """The ends of facings at these openings, which are sewn to the tape of the zip."""
    facings = (piece for piece in pattern.pieces if is_facing(piece))
    return [
        EdgeRef(piece.name, edge.name)
        for piece in facings
        for edge in piece.edges
        if edge.role is Role.OPENING and edge.place in places
    ]


_FACED: Final[Mapping[Place | None, Stage]] = {
    Place.NECK: Stage.NECK,
    Place.ARMHOLE: Stage.ARMHOLES,
    Place.HEM: Stage.HEMS,
    Place.WRIST: Stage.HEMS,
}


def _stand_ends(pattern: Pattern, piece: Piece) -> Iterator[EdgeRef]:
    """The ends of a button stand that are closed as its facing is sewn on."""
    return (ref for ref in left_over(pattern, piece) if piece.edge(ref.edge).place is Place.STAND)
