"""How large a pocket is unless its size is asked for: by the hand of whoever wears it, and that by the height.

A woman's hand is 79 mm wide over the knuckles where she is 1,629 mm tall (U.S. Army survey of 1988,
means, from memory); a child's is taken as the same shares of its height (ours).
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final

from drafting.alterations.earlier_steps import ZIP_OR_POCKET, has_zip, zip_of_block
from drafting.alterations.option_fields import option
from drafting.errors import Remedy, Setting, StepRefused, UnknownName
from drafting.pattern import Pattern, Piece

__all__ = ["BESIDE_HAND", "HAND_WIDE", "ROUNDED_AWAY", "accept_no_zip", "bag_hangs", "by_height"]

HAND_WIDE: Final = 0.0487
"""The width of a hand, as a share of the height."""

BESIDE_HAND: Final = 20.0
"""mm by which a pocket, or the mouth of one, is wider than the hand at least (common practice)."""

ROUNDED_AWAY: Final = 1.6
"""mm that a width may be narrower still: a sixteenth of an inch, by which what is told was rounded (ours)."""

_UNKNOWN: Final = 1650.0  # mm: a height where nobody's is known (ours)
_ROUNDED: Final = 5.0  # mm


def by_height(pattern: Pattern, share: float) -> float:
    """This share of the height of the wearer, mm, to the next half centimetre."""
    try:
        height = pattern.wearer.length("stature").mm
    except UnknownName:
        height = _UNKNOWN
    return _ROUNDED * round(share * height / _ROUNDED)


def bag_hangs(most: float) -> Any:
    """The field for how far the bag of a pocket hangs below its mouth, at most so many mm."""
    about = "how far the bag hangs below the mouth; left out, 10 cm for a height of 163 cm"
    return option("length", about, 20.0, most, default=None, or_less=True)


def accept_no_zip(step: str, pattern: Pattern, pieces: Iterable[Piece]) -> None:
    """Raise StepRefused where the side seam of one of these pieces has a zip in it, with what helps."""
    for piece in filter(has_zip, pieces):
        reason = f'the side seam of "{piece.name}" has a zip in it'
        if zip_of_block(pattern, piece):
            behind = Remedy("set in block", step, (Setting("fastening", "back"),), lead="Open it behind")
            raise StepRefused(step, reason=reason, remedies=[behind])
        raise StepRefused(step, reason=f"{reason}; {ZIP_OR_POCKET}")
