"""Side seams: one shape for front and back, so that they are equal whatever lies between."""

from __future__ import annotations

from drafting.geometry import Cubic, Point

__all__ = ["bodice_side", "hip_side", "side_share"]


def side_share(t: float, bow: float) -> float:
    """How much of the side's slant is still to come at the share t of the way up: 1 at the waist, 0 at the top."""
    return (1.0 - t) * ((1.0 - bow) + bow * (1.0 - t))


def bodice_side(waist: Point, under: Point, bow: float) -> Cubic:
    """From the waist up to the underarm: a line for bow 0, more upright toward the top the nearer bow is to 1."""
    slant = under.x - waist.x
    return _quadratic(waist, Point(under.x - 0.5 * slant * (1.0 - bow), 0.5 * (waist.y + under.y)), under)


def hip_side(hip: Point, waist: Point) -> Cubic:
    """From the hip, upright there so that it runs into the straight seam below without a corner, up to the waist."""
    return _quadratic(hip, Point(hip.x, 0.5 * (hip.y + waist.y)), waist)


def _quadratic(a: Point, b: Point, c: Point) -> Cubic:
    return Cubic(a, a + (b - a) * (2.0 / 3.0), c + (b - c) * (2.0 / 3.0), c)
