"""How large a pocket is unless its size is asked for: by the hand of whoever wears it, and that by the height.

A woman's hand is 79 mm wide over the knuckles where she is 1,629 mm tall (U.S. Army survey of 1988,
means, from memory); a child's is taken as the same shares of its height (ours).
"""

from __future__ import annotations

from typing import Final

from drafting.errors import UnknownName
from drafting.pattern import Pattern

__all__ = ["HAND_WIDE", "by_height"]

HAND_WIDE: Final = 0.0487
"""The width of a hand, as a share of the height."""

_UNKNOWN: Final = 1650.0  # mm: a height where nobody's is known (ours)
_ROUNDED: Final = 5.0  # mm


def by_height(pattern: Pattern, share: float) -> float:
    """This share of the height of the wearer, mm, to the next half centimetre."""
    try:
        height = pattern.wearer.length("stature").mm
    except UnknownName:
        height = _UNKNOWN
    return _ROUNDED * round(share * height / _ROUNDED)
