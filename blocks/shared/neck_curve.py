"""The neck: even curves that leave the centre line square and run into one another across the shoulder."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Point, Vec, fair, run_length
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SOLVED

__all__ = ["BACK_RISE", "GROWN", "NeckShape", "back_neck", "front_neck", "neck_width"]

BACK_RISE = 15.0
"""How far the side neck point stands above the nape on the flat back, mm (Aldrich's close-fitting block: 1.5 cm)."""


@dataclass(frozen=True, slots=True)
class NeckShape:
    """How the front neck differs from the back's half width, mm: how much narrower it is, and how much deeper."""

    narrower: float
    deeper: float


GROWN: Final = NeckShape(narrower=5.0, deeper=0.0)
"""Aldrich: front neck width N/5 - 0.7, back N/5 - 0.2, front depth N/5 - 0.2 (cm)."""

_OFF_SQUARE = math.radians(16.0)
"""By how much the back neck meets the shoulder flatter than square, and the front neck steeper, so that they make one
line over the seam. It is the front slope of Aldrich's block: there the front neck comes up to the shoulder upright."""


def back_neck(nape: Point, width: float, slope: float, *, rise: float = BACK_RISE) -> Cubic:
    """The back neck from the nape (square to the centre back) to the side neck point: one even, shallow curve.

    width: half the neck, mm; slope: of the shoulder at the neck, radians below level, a quarter of a turn at the most
    Drawn square to the shoulder it could rise only at its very end, like a shelf (common practice: an even curve).
    """
    side = Point(nape.x + width, nape.y + rise)
    return fair(nape, Vec(1.0, 0.0), side, _up(slope + _OFF_SQUARE), steady=True)


def front_neck(pit: Point, width: float, slope: float, shape: NeckShape = GROWN) -> Cubic:
    """The front neck from the pit (square to the centre front) to the side neck point.

    width: half the *back* neck, from which the shape takes the front's width and depth.
    Of the cubics that do not turn back the one of least bending.
    """
    side = Point(pit.x + width - shape.narrower, pit.y + width + shape.deeper)
    return fair(pit, Vec(1.0, 0.0), side, _up(slope - _OFF_SQUARE), steady=True)


def _up(lean: float) -> Vec:
    """The unit direction upward that leans so far outward, radians."""
    return Vec(math.sin(lean), math.cos(lean))


@lru_cache(maxsize=64)  # a bodice asks for it again with every deeper armhole and every other number of darts
def neck_width(girth: float, front_slope: float, back_slope: float, shape: NeckShape = GROWN) -> float:
    """The half width of the back neck, mm, at which the whole neck edge is `girth` mm round.

    Raises NotAPattern for a girth that no neck has (under 150 or over 900 mm).
    """
    if not 150.0 <= girth <= 900.0:
        raise NotAPattern("neck", reason=f"{girth:.0f} mm is no neck")
    centre = Point(0.0, 0.0)

    def surplus(width: float) -> float:
        neck = front_neck(centre, width, front_slope, shape), back_neck(centre, width, back_slope)
        return 2.0 * run_length(neck, SOLVED) - girth

    return solve(surplus, girth / 5.0, 1.0)
