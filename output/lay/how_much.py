"""From a lay to what is asked for in a shop: cloth as it shrinks, in steps as it is cut."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final

from drafting.reading.units import MM_PER_INCH

__all__ = [
    "ENDS",
    "before_washing",
    "length_to_buy",
    "shop_length",
    "shop_step",
]

ENDS: Final = 20.0
"""mm of cloth beyond the lay: both ends are straightened before it is laid (ours)."""

_CM_STEP: Final = 100.0
_INCH_STEP: Final = 4.5 * MM_PER_INCH  # an eighth of a yard
_ROUNDING: Final = 1e-6


def before_washing(lay: float, shrinkage: float) -> float:
    """The unwashed cloth that a lay takes with its ends, mm: L is cut from L / (1 - s)."""
    return (lay + ENDS) / (1.0 - shrinkage)


def length_to_buy(lay: float, shrinkage: float, unit: str) -> float:
    """How much to ask for, mm: the lay and its ends before washing, up to the next 10 cm or eighth of a yard.

    shrinkage: the share of its length that the cloth loses in the wash
    """
    return shop_step(before_washing(lay, shrinkage), unit)


def shop_step(mm: float, unit: str) -> float:
    """A length up to the next 10 cm, or eighth of a yard, mm."""
    step = _INCH_STEP if unit == "in" else _CM_STEP
    return math.ceil(mm / step - _ROUNDING) * step


def shop_length(mm: float, unit: str) -> str:
    """A length as it is asked for in a shop: "1.6 m", "1 3/4 yd"."""
    if unit != "in":
        return f"{mm / 1000.0:.4g} m"
    eighths = Fraction(round(mm / _INCH_STEP), 8)
    whole, rest = divmod(eighths, 1)
    return " ".join(part for part in (str(whole) if whole else "", str(rest) if rest else "") if part) + " yd"
