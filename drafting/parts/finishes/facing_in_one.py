"""Where the facing of a neck or a hem and that of a button stand are one piece: on a front or back that has both.

So no facing lies over another at the end of the stand, and both edges are sewn in one pass, round the corner (common
practice).
"""

from __future__ import annotations

from typing import Final

from drafting.pattern import BodyPart, Derived, DrawnTo, Identity, Pattern, PieceKind, Place

__all__ = [
    "HEM_FACING",
    "LINING",
    "NECK_FACING",
    "NECK_FACING_TO",
    "STAND_FACING",
    "goes_round_corner",
    "stand_facing_beside",
    "stand_facings",
]

HEM_FACING: Final = "hem facing"
LINING: Final = "lining"
NECK_FACING: Final = "neck facing"

NECK_FACING_TO: Final = tuple(
    DrawnTo(Place.NECK, Identity(kind, BodyPart.BODICE)) for kind in (PieceKind.FRONT, PieceKind.BACK)
)
"""What a neck facing is drawn to."""

STAND_FACING: Final = "facing of the button stand"


def goes_round_corner(pattern: Pattern, source: DrawnTo) -> bool:
    """Whether the facing of the stand of these pieces is drawn with that of the neck or the hem that it comes to."""
    necks = [each.identity for part in pattern.derived if part.part == NECK_FACING for each in part.to]
    hems = [each.piece for part in pattern.derived if part.part == HEM_FACING for each in part.to]
    return source.place is Place.STAND_EDGE and (source.identity in necks or source.piece in hems)


def stand_facing_beside(pattern: Pattern, source: DrawnTo) -> tuple[str, float] | None:
    """The piece whose stand a facing of neck or hem goes on along, and how deep it is there, mm; None for no stand."""
    for part in stand_facings(pattern):
        for each in part.to:
            if each.piece == source.piece if source.piece else each.identity == source.identity:
                return each.piece, part.length("depth")
    return None


def stand_facings(pattern: Pattern) -> tuple[Derived, ...]:
    """The facings of button stands."""
    return tuple(part for part in pattern.derived if part.part == STAND_FACING)
