"""Where the facing of a neck and that of a button stand are one piece: on a front or back that has both.

So neither lies over the other at the top of the stand, and both edges are sewn in one pass, round the corner (common
practice).
"""

from __future__ import annotations

from typing import Final

from drafting.pattern import BodyPart, Derived, DrawnTo, Identity, Pattern, PieceKind, Place

__all__ = [
    "LINING",
    "NECK_FACING",
    "NECK_FACING_TO",
    "STAND_FACING",
    "has_neck_facing",
    "stand_facing_beside",
    "stand_facings",
]

LINING: Final = "lining"
NECK_FACING: Final = "neck facing"

NECK_FACING_TO: Final = tuple(
    DrawnTo(Place.NECK, Identity(kind, BodyPart.BODICE)) for kind in (PieceKind.FRONT, PieceKind.BACK)
)
"""What a neck facing is drawn to."""

STAND_FACING: Final = "facing of the button stand"


def has_neck_facing(pattern: Pattern, source: DrawnTo) -> bool:
    """Whether the neck of these pieces is faced, so that the facing of their stand is drawn with that of the neck."""
    kinds = [each.identity for part in pattern.derived if part.part == NECK_FACING for each in part.to]
    return source.place is Place.STAND_EDGE and source.identity in kinds


def stand_facing_beside(pattern: Pattern, source: DrawnTo) -> tuple[str, float] | None:
    """The piece whose stand a neck facing goes on along, and how deep it is there, mm; None where no stand is faced."""
    for part in stand_facings(pattern):
        for each in part.to:
            if each.identity == source.identity:
                return each.piece, part.length("depth")
    return None


def stand_facings(pattern: Pattern) -> tuple[Derived, ...]:
    """The facings of button stands."""
    return tuple(part for part in pattern.derived if part.part == STAND_FACING)
