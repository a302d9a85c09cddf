"""The armhole: from the shoulder end, down past the chest or back line, round under the arm to the side seam."""

from __future__ import annotations

import math

from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Curve, Point, Vec, bend, bounds, curvature, split
from drafting.geometry.solve import solve

__all__ = ["armhole_in_front", "armhole_through", "lean", "leaning"]


def lean(direction: Vec) -> float:
    """How far a downward direction leans toward the centre line (smaller x), radians from straight down."""
    return math.atan2(-direction.x, -direction.y)


def leaning(angle: float) -> Vec:
    """The unit direction that leans `angle` radians from straight down toward the centre line."""
    return Vec(-math.sin(angle), -math.cos(angle))


def armhole_through(
    tip: Point, leaving: float, pass_by: Point, under: Point, arriving: Vec, hollow: float
) -> tuple[Cubic, Cubic]:
    """Two curves from the shoulder end through the widest point of the hollow to the underarm, turning one way only.

    leaving: the lean at the shoulder end; it must be more than the lean of the way to `pass_by`
    hollow:  how deep the lower curve goes into the corner, 0 to 1 (0.55 is a quarter of an ellipse)
    The direction at `pass_by` is the one at which both curves bend alike, so no join can be felt.
    Raises NotAPattern where the three points allow no such curve.
    """
    high, low = lean(pass_by - tip), lean(under - pass_by)

    def pair(at: float) -> tuple[Cubic, Cubic]:
        through = leaning(at)
        upper = bend(tip, leaning(leaving), pass_by, through, tight=0.5, tight_end=0.55)
        lower = bend(pass_by, through, under, arriving, tight=0.55, tight_end=hollow)
        return upper, lower

    def mismatch(at: float) -> float:
        upper, lower = pair(at)
        return math.log(abs(curvature(upper, 1.0) / curvature(lower, 0.0)))

    # from one chord to the other the mismatch of bending falls from one sign to the other; a hundredth of it cannot be
    # felt, and six halvings guarded by the secant find that
    near, far = low + 0.02 * (high - low), high - 0.02 * (high - low)
    at_near, at_far = mismatch(near), mismatch(far)
    if (at_near < 0.0) == (at_far < 0.0):
        return pair(near if abs(at_near) < abs(at_far) else far)
    for turn in range(12):
        share = 0.5 if turn % 3 == 2 else at_near / (at_near - at_far)
        middle = near + share * (far - near)
        value = mismatch(middle)
        if abs(value) < 0.01:
            break
        if (value < 0.0) == (at_near < 0.0):
            near, at_near = middle, value
        else:
            far, at_far = middle, value
    return pair(middle)


def armhole_in_front(tip: Point, leaving: float, under: Point, arriving: Vec, narrowest: float) -> tuple[Curve, Curve]:
    """One curve from the shoulder end to the underarm, cut in two where it comes nearest the centre line.

    leaving:   the lean at the shoulder end
    narrowest: how near it comes to the centre line, mm; how deep the curve goes into the corner is solved for it
    Raises NotAPattern where no curve of one bend comes that near.
    """

    def drawn(tight: float) -> Cubic:
        return bend(tip, leaning(leaving), under, arriving, tight=tight)

    tight = solve(lambda tight: bounds(drawn(tight))[0] - narrowest, 0.6, 0.02)
    if not 0.1 < tight < 0.95:
        raise NotAPattern("armhole", f"no smooth curve comes within {narrowest:.0f} mm of the centre line")
    curve = drawn(tight)
    inmost = [t for t in _upright(curve) if 0.0 < t < 1.0]
    if not inmost:
        raise NotAPattern("armhole", "it comes no nearer to the centre line than its ends")
    return split(curve, inmost[0])


def _upright(curve: Cubic) -> list[float]:
    """Where the curve runs straight up or down: the roots of the quadratic that is its sideways velocity."""
    p, q, r = curve.c1.x - curve.start.x, curve.c2.x - curve.c1.x, curve.end.x - curve.c2.x
    a, b = p - 2.0 * q + r, 2.0 * (q - p)
    root = math.sqrt(max(0.0, b * b - 4.0 * a * p))
    return sorted((-b + sign * root) / (2.0 * a) for sign in (1.0, -1.0)) if a else [-p / b]
