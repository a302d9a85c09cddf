"""When bands of knit are sewn on: to the neck after the shoulders, to wrists and hem when their tubes are closed."""

from __future__ import annotations

from typing import Final

from drafting.pattern import Place, Role, Seam
from drafting.sewing.seam_kinds import SeamKind, pieces_in
from drafting.sewing.sewing_step import Act
from drafting.sewing.stages import Found, Sewing, Stage, left_over

__all__ = ["bands_stretched_on"]

_STAGES: Final = {Place.NECK: Stage.NECK, Place.WRIST: Stage.HEMS, Place.HEM: Stage.HEMS}


def bands_stretched_on(sewing: Sewing) -> Found:
    """A step for each band: its ends are joined, it is folded, and stretched to its edge as it is sewn."""
    by_band: dict[str, list[Seam]] = {}
    for seam in sewing.seams(SeamKind.STRETCHED_ON):
        by_band.setdefault(seam.b[0].piece, []).append(seam)
    for band, seams in by_band.items():
        first = seams[0].a[0]
        place = sewing.pattern.piece(first.piece).edge(first.edge).place or Place.HEM
        edges = tuple(left_over(sewing.pattern, sewing.pattern.piece(band)))
        pieces = (band, *(name for name in pieces_in(seams) if name != band))
        stage = _STAGES.get(place, Stage.EDGES)
        beside = (each for s in seams for ref in s.a for each in sewing.pattern.piece(ref.piece).beside(ref.edge))
        if place is Place.HEM and any(edge.role is Role.OPENING for edge in beside):
            stage = Stage.WAIST  # before the band of the front, which goes over its ends
        yield stage, sewing.step(Act.STRETCH_ON, seams, place=place, pieces=pieces, edges=edges, in_the_round=True)
