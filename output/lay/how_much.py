"""From a lay to what is asked for in a shop: cloth as it shrinks, in steps as it is cut."""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from drafting.pattern import Pattern
from drafting.reading.units import MM_PER_INCH, length_text
from output.lay.lay_pieces import Material, pieces_to_lay
from output.lay.lay_values import Spread
from output.lay.lay_widths import width_table

__all__ = [
    "AT_ONCE",
    "ENDS",
    "before_washing",
    "cloth_to_buy",
    "length_to_buy",
    "shop_length",
    "shop_step",
]

AT_ONCE: Final = 12
"""Orders tried for a lay that has to be there at once: for the report and the first sheet."""

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


def cloth_to_buy(
    pattern: Pattern, cloths: Mapping[Material, Spread], shrinkage: float, unit: str, *, others: bool = True
) -> tuple[str, ...]:
    """A line for each material: "1.8 m of shell, 140 cm wide; or 2.8 m of 112 cm, ...".

    shrinkage: of the shell
    others:    whether the other usual widths are told as well
    """
    return tuple(
        line
        for material, cloth in cloths.items()
        if (line := _line_to_buy(pattern, cloth, material, shrinkage if material == "shell" else 0.0, unit, others))
    )


def _line_to_buy(pattern: Pattern, cloth: Spread, material: Material, shrinkage: float, unit: str, others: bool) -> str:
    """The line of one material; "" where nothing is cut from it, or no width is wide enough."""
    if not pieces_to_lay(pattern, cloth, material):
        return ""
    table = width_table(pattern, cloth, material, unit, tries=AT_ONCE)
    widths = [cloth.width, *(width for width in table if width != cloth.width)]
    lays = [(width, lay) for width in widths if (lay := table[width].get(cloth.fold)) is not None]
    told = [
        # a width in whole centimetres, as cloth is sold
        (shop_length(length_to_buy(lay.length, shrinkage, unit), unit), length_text(width, unit).replace(".0 ", " "))
        for width, lay in lays
    ]
    if not told:
        return ""
    (length, width), *more = told
    rest = f"; or {', '.join(f'{length} of {width}' for length, width in more)}" if more and others else ""
    return f"{length} of {material}, {width} wide{rest}"
