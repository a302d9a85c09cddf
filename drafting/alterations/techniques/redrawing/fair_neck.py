"""A neckline drawn anew between the centre line and the shoulder, as the block draws it.

Behind it is flat from the centre line, then one even arc up to the shoulder; in front the fairest line that does not
turn back. Either way it follows from its two ends and its directions there alone, so a change that is taken back leaves
no trace.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, Vec, blend, end_tangents, fair, moved_all, run_length, shift
from drafting.geometry.bending import tightest
from drafting.geometry.tolerance import SOLVED

__all__ = ["LEAST_BEND", "LEAST_HALF", "MORE_BEHIND", "accept_neck", "eased_rise", "flat_neck", "is_flat", "neck_drawn"]

LEAST_BEND: Final = 12.0
"""mm of radius: a neck that bends tighter is a corner that no facing turns (our figure)."""

LEAST_HALF: Final = 40.0
"""mm that a neck lies from the centre line at the shoulder, at least: less makes a slot of it (our figure)."""

MORE_BEHIND: Final = 3.0
"""mm of radius by which the tightest bend of a back neck is more than its allowance (our figure)."""

_CUBIC: Final = 1.01
"""How much wider an arc is drawn for its cubic to be no tighter in its middle than it: up to a right angle."""

_FLATTEST: Final = 1e-9


def is_flat(run: Sequence[Curve]) -> bool:
    """Whether a neckline runs flat from the centre line."""
    return len(run) > 1 and isinstance(run[0], Line)


def neck_drawn(low: Point, square: Vec, high: Point, into: Vec, *, flat: bool) -> tuple[Curve, ...]:
    """The neckline from the centre line to the shoulder, leaving along `square` and arriving along `into`.

    flat: straight as far as an arc into the shoulder allows; where it allows no flat part, it is drawn as in front
    """
    u, v = square.unit(), into.unit()
    turning = u.cross(v)
    if flat and abs(turning) > _FLATTEST:
        chord = high - low
        ahead, behind = chord.cross(v) / turning, u.cross(chord) / turning
        if 0.0 < behind < ahead:
            foot = low + u * (ahead - behind)
            return Line(low, foot), blend(foot, u, high, v)
    return (fair(low, u, high, v, steady=True),)


def eased_rise(square: Vec, into: Vec, across: Vec, allowance: float) -> float:
    """By how much less a flat back neck is to turn, radians, so that its arc is no tighter than its allowance takes.

    across: the step from the centre line to the shoulder
    An arc that turns by an angle rises by its radius times 1 - cos of it.
    """
    u, v = square.unit(), into.unit()
    rise = abs(u.cross(across))
    least = _CUBIC * (allowance + MORE_BEHIND)
    return max(0.0, abs(u.angle_to(v)) - math.acos(1.0 - min(rise / least, 2.0)))


def flat_neck(run: Sequence[Curve], turned: float) -> tuple[Curve, ...] | None:
    """A neckline that begins flat, turned at its shoulder end by so many radians and as long as it was.

    Its shoulder end moves level by the millimetre or so that this takes, for of all lines of one rise and turn the arc
    bends least where it bends most. None where turn and rise allow no flat part.
    """
    low, high = run[0].start, run[-1].end
    u, v = end_tangents(run[0])[0].unit(), end_tangents(run[-1])[1].turned(turned)
    drawn = neck_drawn(low, u, high, v, flat=True)
    if not is_flat(drawn):
        return None
    step = u * (run_length(run, SOLVED / 100) - run_length(drawn, SOLVED / 100))
    foot = drawn[0].end + step
    if (foot - low).dot(u) <= 0.0:
        return None
    return Line(low, foot), moved_all(drawn[1:], shift(step))[0]


def accept_neck(piece: str, run: Sequence[Curve], *, pointed: bool) -> None:
    """Raise NotAPattern for a neckline that makes a slot, or bends tighter than can be sewn.

    pointed: whether it comes to a point at the centre line, along which it then does not leave square
    """
    first, last = run[0].start, run[-1].end
    if not pointed:
        half = abs(end_tangents(run[0])[0].dot(last - first))
        if half < LEAST_HALF:
            raise NotAPattern(piece, f"half its neck would be only {half:.0f} mm wide at the shoulder, a slot")
    radius = min(bend.radius for bend in tightest(run))
    if radius < LEAST_BEND:
        raise NotAPattern(piece, f"its neck would bend as tightly as a circle of {radius:.0f} mm radius")
