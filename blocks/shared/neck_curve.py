"""The neck: curves that leave the centre line square and run into one another across the shoulder."""

from __future__ import annotations

import math

from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Line, Point, Vec, blend, fair, run_length
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SOLVED

__all__ = ["BACK_RISE", "back_neck", "front_neck", "neck_width"]

BACK_RISE = 15.0
"""How far the side neck point stands above the nape on the flat back, mm (Aldrich's close-fitting block: 1.5 cm)."""

_FRONT_NARROWER = 5.0  # Aldrich: front neck width N/5 - 0.7, back N/5 - 0.2, front depth N/5 - 0.2 (cm)


def back_neck(nape: Point, width: float, slope: float) -> tuple[Line, Cubic]:
    """The back neck from the nape (square to the centre back) to the side neck point (square to the shoulder).

    width: half the neck, mm; slope: of the shoulder at the neck, radians below level, a quarter of a turn at the most
    Flat, then one even rise: of all curves of this rise and turn an arc is the one that bends least where it bends
    most, R = BACK_RISE / (1 - sin slope): 18.4 mm for the levellest shoulder of the 1988 survey. It takes up about
    20 mm of the width, so the middle two thirds of the neck are flat (common practice).
    """
    side = Point(nape.x + width, nape.y + BACK_RISE)
    up = Vec(math.sin(slope), math.cos(slope))
    radius = BACK_RISE / (1.0 - up.x)
    foot = Point(side.x - radius * up.y, nape.y)
    if foot.x <= nape.x:
        raise NotAPattern("neck", f"one {width:.0f} mm wide on either side cannot rise by {BACK_RISE:.0f} mm")
    return Line(nape, foot), blend(foot, Vec(1.0, 0.0), side, up)


def front_neck(pit: Point, width: float, slope: float) -> Cubic:
    """The front neck from the pit (square to the centre front) to the side neck point (square to the shoulder).

    width: half the *back* neck, from which Aldrich's block takes the front's width (5 mm less) and depth (the same).
    Of the cubics that do not turn back the one of least bending.
    """
    side = Point(pit.x + width - _FRONT_NARROWER, pit.y + width)
    return fair(pit, Vec(1.0, 0.0), side, Vec(math.sin(slope), math.cos(slope)), steady=True)


def neck_width(girth: float, front_slope: float, back_slope: float) -> float:
    """The half width of the back neck, mm, at which the whole neck edge is `girth` mm round.

    Raises NotAPattern for a girth that no neck has (under 150 or over 900 mm).
    """
    if not 150.0 <= girth <= 900.0:
        raise NotAPattern("neck", f"{girth:.0f} mm is no neck")
    centre = Point(0.0, 0.0)

    def surplus(width: float) -> float:
        front, back = front_neck(centre, width, front_slope), back_neck(centre, width, back_slope)
        return 2.0 * run_length((front, *back), SOLVED) - girth

    return solve(surplus, girth / 5.0, 1.0)
