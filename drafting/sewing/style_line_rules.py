"""Sewing raglan sleeves, and panels: what they are joined by, and what comes first.

A raglan sleeve is sewn flat before the neck is finished (common practice): the dart of its shoulder, the raglan seams,
then underarm and side in one. A saddle shoulder is sewn alike: its two saddle seams, what is left of the armhole on
either side of them while the side is open, then underarm and side.
"""

from __future__ import annotations

from typing import Final

from drafting.pattern import Piece, Place, Seam, edges_at, seam_places
from drafting.sewing.seam_kinds import SeamKind
from drafting.sewing.sewing_step import Act
from drafting.sewing.stages import Found, Sewing, Stage

__all__ = ["is_in_one", "is_raglan", "is_saddled", "joined_along", "raglans"]

_SAID: Final = (Place.YOKE, Place.SADDLE, Place.EMPIRE, Place.GUSSET)
"""Seams between panels that are called by their place; any other is said to lie between them."""


def is_raglan(piece: Piece) -> bool:
    """Whether it is a sleeve with the shoulder cut in one with it, sewn before the neck."""
    return bool(edges_at(piece, Place.CAP) and edges_at(piece, Place.RAGLAN))


def is_saddled(piece: Piece) -> bool:
    """Whether it is a sleeve with a strip of the shoulder, that hangs from the bodice before its cap is sewn in."""
    return bool(edges_at(piece, Place.CAP) and edges_at(piece, Place.SADDLE))


def is_in_one(sewing: Sewing) -> bool:
    """Whether the sleeves are cut in one with front and back, whose side and underarm are sewn in one."""
    return any(edges_at(piece, Place.OVERARM) for piece in sewing.pattern.pieces)


def joined_along(sewing: Sewing, seam: Seam) -> Place:
    """What the seam between two panels is called by."""
    one, other = seam_places(sewing.pattern, seam)
    if Place.GODET in one | other:
        return Place.GODET
    return next((place for place in _SAID if place in one and place in other), Place.PRINCESS)


def raglans(sewing: Sewing) -> Found:
    """The raglan seams, when the darts are sewn and the neck is still open."""
    seams = sewing.seams(SeamKind.RAGLAN)
    if seams:
        yield Stage.SHOULDERS, sewing.step(Act.JOIN, seams, place=Place.RAGLAN)
