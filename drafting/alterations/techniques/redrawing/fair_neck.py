"""A neckline redrawn between the centre line and the shoulder, as the block draws it.

It is the fairest line that does not turn back. It follows from its two ends and its directions there alone, so a change
that is taken back leaves no trace.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Point, Vec, end_tangents, fair
from drafting.geometry.bending import tightest_radius

__all__ = ["LEAST_BEND", "LEAST_HALF", "MORE_BEHIND", "accept_neck", "eased_rise", "neck_drawn"]

LEAST_BEND: Final = 12.0
"""mm of radius: a neck that bends tighter is a corner that no facing turns (our figure)."""

LEAST_HALF: Final = 40.0
"""mm that a neck lies from the centre line at the shoulder, at least: less makes a slot of it (our figure)."""

MORE_BEHIND: Final = 3.0
"""mm of radius by which the tightest bend of a back neck is more than its allowance (our figure)."""

_SOUGHT: Final = math.radians(0.05)


def neck_drawn(low: Point, square: Vec, high: Point, into: Vec) -> tuple[Curve, ...]:
    """The neckline from the centre line to the shoulder, leaving along `square` and arriving along `into`."""
    return (fair(low, square.unit(), high, into.unit(), steady=True),)


def eased_rise(square: Vec, into: Vec, across: Vec, allowance: float, most: float) -> float:
    """By how much less a back neck is to turn, radians, so that it bends no tighter than its allowance takes.

    across: the step from the centre line to the shoulder; most: what is answered where no less would do
    """
    low, least = Point(0.0, 0.0), allowance + MORE_BEHIND
    side = math.copysign(1.0, square.cross(into))

    def room(eased: float) -> float:
        drawn = neck_drawn(low, square, low + across, into.turned(-side * eased))
        return min(2.0 * least, tightest_radius(drawn)) - least

    if room(0.0) >= 0.0:
        return 0.0
    tight, wide = 0.0, most
    if room(most) < 0.0:
        return most
    while wide - tight > _SOUGHT:
        middle = 0.5 * (tight + wide)
        tight, wide = (tight, middle) if room(middle) >= 0.0 else (middle, wide)
    return wide


def accept_neck(piece: str, run: Sequence[Curve], *, pointed: bool) -> None:
    """Raise NotAPattern for a neckline that makes a slot, or bends tighter than can be sewn.

    pointed: whether it comes to a point at the centre line, along which it then does not leave square
    """
    first, last = run[0].start, run[-1].end
    if not pointed:
        half = abs(end_tangents(run[0])[0].dot(last - first))
        if half < LEAST_HALF:
            raise NotAPattern(piece, reason=f"half its neck would be only {half:.0f} mm wide at the shoulder, a slot")
    radius = tightest_radius(run)
    if radius < LEAST_BEND:
        raise NotAPattern(piece, reason=f"its neck would bend as tightly as a circle of {radius:.0f} mm radius")
