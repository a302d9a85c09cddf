"""When bias strips are sewn on: when all seams that their edge runs over are closed, and a lining lies in it."""

from __future__ import annotations

from typing import Final

from drafting.pattern import Place, Seam
from drafting.sewing.seam_kinds import SeamKind, pieces_in
from drafting.sewing.sewing_step import Act
from drafting.sewing.stages import Found, Sewing, Stage, left_over

__all__ = ["bindings"]

_STAGES: Final = {Place.NECK: Stage.NECK, Place.ARMHOLE: Stage.ARMHOLES, Place.BIB: Stage.ARMHOLES}


def bindings(sewing: Sewing) -> Found:
    """A step for each strip; a neck with a button stand is bound over the stand and its facing."""
    lined = {(ref.piece, ref.edge) for seam in sewing.seams(SeamKind.LINED) for ref in seam.b}
    by_strip: dict[str, list[Seam]] = {}
    for seam in sewing.seams(SeamKind.BOUND):
        by_strip.setdefault(seam.b[0].piece, []).append(seam)
    for strip, seams in by_strip.items():
        places = [sewing.pattern.piece(ref.piece).edge(ref.edge).place for seam in seams for ref in seam.a]
        place = next((each for each in places if each not in (Place.STAND, Place.WRAP)), Place.HEM)
        over_stand = place is Place.NECK and Place.STAND in places
        stage = Stage.EDGES if over_stand else _STAGES.get(place or Place.HEM, Stage.HEMS)
        if any((ref.piece, ref.edge) in lined for seam in seams for ref in seam.a):
            stage = max(stage, Stage.OVER_LINING)
        pieces = (strip, *(name for name in pieces_in(seams) if name != strip))
        edges = tuple(left_over(sewing.pattern, sewing.pattern.piece(strip)))
        yield stage, sewing.step(Act.BIND, seams, place=place, pieces=pieces, edges=edges)
