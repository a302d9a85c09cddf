"""The armhole: from the shoulder end, down past the chest or back line, round under the arm to the side seam.

Both pieces arrive level at the side seam, which is upright there, so front and back make one line through it. Between
its ends each is the fairest line that keeps what is given (`drafting/geometry/fair.py`): in front how near it comes to
the centre line, the height at which it does so being left free; behind the width of the back at its level, the
direction there being left free.
"""

from __future__ import annotations

import math
from dataclasses import replace

from drafting.dataclass import dataclass
from drafting.geometry import Cubic, Point, Vec, distance, fair_through, fair_touching, point_at
from drafting.geometry.solve import root_between

__all__ = ["Tip", "armhole_in_front", "armhole_through", "lean", "leaning", "off_square"]

_OFF_SQUARE = math.radians(14.0)
_STRAIGHTEST = 0.25  # of the angle before the upper chord of the back armhole, the least there may be after it
_FIRST = 15.0  # mm from the side seam over which the rise is measured
_STEEPEST = math.radians(14.9)  # the check of curves asks for 15 where that half is narrow
_HOOKED = 0.12  # of its chord: a handle that is shorter makes a hook (ours)
_MOST_RUN_ON = 1.3  # of the handle of least bending (ours: more makes a corner further on)
_DOWN = Vec(0.0, -1.0)
_OUT = Vec(1.0, 0.0)


def lean(direction: Vec) -> float:
    """How far a downward direction leans toward the centre line (smaller x), radians from straight down."""
    return math.atan2(-direction.x, -direction.y)


def leaning(angle: float) -> Vec:
    """The unit direction that leans `angle` radians from straight down toward the centre line."""
    return Vec(-math.sin(angle), -math.cos(angle))


def armhole_through(tip: Point, leaving: float, pass_by: Point, under: Point) -> tuple[Cubic, Cubic]:
    """The back armhole: two curves of least bending from the shoulder end through `pass_by` to the underarm.

    leaving: the lean at the shoulder end
    The direction at `pass_by` is the one at which both curves bend alike, so no join can be felt. Where a line that
    turns one way only would have a hook there, it is let waver a little. Raises NotAPattern where two of the places
    are one.
    """
    upper, lower = fair_through(tip, leaning(leaving), pass_by, under, _OUT, steady=True)
    if distance(upper.c2, upper.end) < _HOOKED * distance(upper.start, upper.end):
        return fair_through(tip, leaning(leaving), pass_by, under, _OUT)
    return upper, lower


def armhole_in_front(tip: Point, leaving: float, under: Point, narrowest: float) -> tuple[Cubic, Cubic]:
    """The front armhole: two curves that meet where it is nearest the centre line, at the height of least bending.

    leaving:   the lean at the shoulder end
    narrowest: how near it comes to the centre line, mm
    Raises NotAPattern where the shoulder end lies no higher than the underarm.
    """
    upper, lower = fair_touching(tip, leaning(leaving), Point(narrowest, 0.0), _DOWN, under, _OUT)
    return upper, _run_level(lower)


def _run_level(lower: Cubic) -> Cubic:
    """The lower half of a narrow armhole, its handle at the side seam longer where it would rise too steeply from it.

    Least bending makes a narrow hollow rise steeply; a cutter lets it run level first (common practice). The longer
    handle bends the rest a little more.
    """
    if _rise(lower) <= _STEEPEST:
        return lower

    def run_on(factor: float) -> Cubic:
        return replace(lower, c2=lower.end + (lower.c2 - lower.end) * factor)

    low, high = 1.0, _MOST_RUN_ON
    if _rise(run_on(high)) > _STEEPEST:
        return run_on(high)
    for _ in range(12):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _rise(run_on(middle)) > _STEEPEST else (low, middle)
    return run_on(high)


def _rise(lower: Cubic) -> float:
    """The angle at which the line rises over its first 15 mm from the side seam, radians."""

    def further(t: float) -> float:
        return distance(point_at(lower, t), lower.end) - _FIRST

    at = point_at(lower, root_between(further, 0.0, 1.0, near=1e-9))
    return math.atan2(at.y - lower.end.y, lower.end.x - at.x)


@dataclass(frozen=True, slots=True)
class Tip:
    """One armhole at its shoulder end: the lean at which it would leave square, and where it goes first.

    onward: the place it passes first: behind the back width, in front the narrowest place
    """

    tip: Point
    square: float
    onward: Point


def off_square(front: Tip, back: Tip, under_back: Point) -> float:
    """By how much the armhole leaves the shoulder off square, radians: inward behind and outward in front, or reversed.

    Front and back make up two right angles, so the armhole runs on over the shoulder seam, and so much off square that
    it bends alike on both sides of it, as one line over the shoulder would. Between small angles a and b a fair curve
    over a chord bends by 2 (2 b - a) / chord at its end, which makes that one equation. Held to 14 degrees, and to
    where the back armhole hardly turns back (both ours).
    """
    in_front, ahead = lean(front.onward - front.tip), distance(front.tip, front.onward)
    upper, above = lean(back.onward - back.tip), distance(back.tip, back.onward)
    lower, below = lean(under_back - back.onward), distance(back.onward, under_back)
    before, after = front.square - in_front, back.square - upper
    # at its width the back armhole bends alike above and below: how far its direction there lies off the upper chord,
    # and how much further for each radian off square
    share = 1.0 / (4.0 / below + 4.0 / above)
    off = share * ((4.0 * (upper - lower) - 2.0 * (0.5 * math.pi + lower)) / below + 2.0 * after / above)
    more = 2.0 * share / above
    even = (4.0 * before - 2.0 * in_front) / ahead - (4.0 * after - 2.0 * off) / above
    even /= 4.0 / ahead + (4.0 - 2.0 * more) / above
    least = (_STRAIGHTEST * off - after) / (1.0 - _STRAIGHTEST * more)
    most = (off - 0.5 * after) / (0.5 - more)
    return min(_OFF_SQUARE, max(-_OFF_SQUARE, least, min(even, most)))
