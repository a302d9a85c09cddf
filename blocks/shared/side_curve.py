"""Side seams: one shape for front and back, so that they are equal whatever lies between."""

from __future__ import annotations

from drafting.geometry import Cubic, Point

__all__ = ["bodice_side", "hip_side", "side_share"]


def side_share(t: float) -> float:
    """How much of the side's slant is still to come at the share t of the way up: 1 at the waist, 0 at the top.

    It is the line of least bending that is held upright at the top and only laid against the waist: a thin spline
    clamped at one end and pushed at the other bends by s^2 (3 - s) / 2 of its end (the cantilever of any handbook of
    engineering).
    """
    s = 1.0 - t
    return 0.5 * s * s * (3.0 - s)


def bodice_side(waist: Point, under: Point) -> Cubic:
    """From the waist up to the underarm, where it is upright so that a level armhole runs on across it in one line."""
    third = (under.y - waist.y) / 3.0
    half_way = 0.5 * (waist.x + under.x)
    return Cubic(waist, Point(half_way, waist.y + third), Point(under.x, under.y - third), under)


def hip_side(hip: Point, waist: Point) -> Cubic:
    """From the hip, upright there so that it runs into the straight seam below without a corner, up to the waist.

    It bends evenly all the way: of the lines that leave the hip upright, the one of least change of bending.
    """
    half_way = Point(hip.x, 0.5 * (hip.y + waist.y))
    return Cubic(hip, hip + (half_way - hip) * (2.0 / 3.0), waist + (half_way - waist) * (2.0 / 3.0), waist)
