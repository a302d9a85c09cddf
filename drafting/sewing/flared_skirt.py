"""Whether a skirt is hung before its hem is levelled."""

from __future__ import annotations

from typing import Final

from drafting.pattern import BodyPart, Pattern, Place
from drafting.pattern.find import line_at
from drafting.pattern.locate import across
from drafting.pattern.places import Level
from drafting.sewing.seam_kinds import is_inside
from drafting.sewing.stays import times_cut

__all__ = ["is_flared"]

_FLARED: Final = 1.3
"""How many times as wide as at the hip a skirt is at its hem from where on it is hung before it is levelled (ours)."""


def is_flared(pattern: Pattern) -> bool:
    """Whether a skirt is so much wider at its hem than at the hip that its seams lie across the grain and drop."""
    hem = hip = 0.0
    for piece in pattern.pieces:
        line = line_at(piece, Level.HIP)
        if piece.identity.part is BodyPart.SKIRT and not is_inside(piece) and line is not None:
            hip += times_cut(piece) * across(piece, line.name)
            hem += times_cut(piece) * sum(edge.length for edge in piece.edges if edge.place is Place.HEM)
    return hip > 0.0 and hem > _FLARED * hip
