"""A curve as few straight lines: places chosen by how it bends, where equal steps would crowd its straight parts.

A chord over a small step dt of the parameter strays from its curve by |v x a| / |v| dt^2 / 8, with v the velocity and a
the acceleration. So places at equal steps of the integral of sqrt(|v x a| / |v|) give chords that all stray alike, and
no other places of that number stray less. A chord that turns by an angle w loses w / 3 times what it strays of its
length: a run loses a third of the distance for each radian that it turns in all.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Final

from drafting.geometry.curve import Cubic, Curve, Line, flatten, point_at
from drafting.geometry.point import Point

__all__ = ["few_chords"]

_STEPS: Final = 16
"""Of the parameter, between which the integral is taken for a straight line."""

_LOOKS: Final = (0.3, 0.4, 0.5, 0.6, 0.7)
"""Where between its ends a chord is held against its curve."""


def few_chords(curve: Curve, stray: float) -> list[Point]:
    """Places on a curve, both ends among them, as few as have chords that stray from it by at most `stray` mm."""
    if isinstance(curve, Line):
        return [curve.start, curve.end]
    evenly = flatten(curve, stray)
    bends = [_bend(curve, k / _STEPS) for k in range(_STEPS + 1)]
    sums = [0.0, *accumulate(0.5 * (a + b) / _STEPS for a, b in pairwise(bends))]
    fewest = max(1, math.ceil(sums[-1] / math.sqrt(8.0 * stray)))
    for many in range(fewest, len(evenly) - 1):  # more, where the bend changes within a chord
        steps = [0.0, *(_where(sums, sums[-1] * k / many) for k in range(1, many)), 1.0]
        places = [curve.start, *(point_at(curve, t) for t in steps[1:-1]), curve.end]
        if all(_strays(curve, *each) <= stray for each in zip(pairwise(steps), pairwise(places), strict=True)):
            return places
    return evenly


def _strays(curve: Cubic, steps: tuple[float, float], ends: tuple[Point, Point]) -> float:
    """How far a chord lies from its part of the curve, mm."""
    (t, u), (start, end) = steps, ends
    along, up = end.x - start.x, end.y - start.y
    square = along * along + up * up
    most = 0.0
    for look in _LOOKS:  # in plain numbers: this is asked more often than all else
        at = point_at(curve, t + look * (u - t))
        x, y = at.x - start.x, at.y - start.y
        share = min(1.0, max(0.0, (x * along + y * up) / square)) if square else 0.0
        most = max(most, math.hypot(x - share * along, y - share * up))
    return most


def _bend(curve: Cubic, t: float) -> float:
    """sqrt(|v x a| / |v|) at a parameter."""
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    u = 1.0 - t
    k, m, n, p, q = 3.0 * u * u, 6.0 * u * t, 3.0 * t * t, 6.0 * u, 6.0 * t
    vx, vy = (k * (r - s) + m * (w - r) + n * (e - w) for s, r, w, e in ((a.x, b.x, c.x, d.x), (a.y, b.y, c.y, d.y)))
    ax, ay = (
        p * (w - 2.0 * r + s) + q * (e - 2.0 * w + r) for s, r, w, e in ((a.x, b.x, c.x, d.x), (a.y, b.y, c.y, d.y))
    )
    speed = math.hypot(vx, vy)
    return math.sqrt(abs(vx * ay - vy * ax) / speed) if speed else 0.0


def _where(sums: Sequence[float], wanted: float) -> float:
    """The parameter at which the integral has a value."""
    k = max(1, bisect_left(sums, wanted))
    part = sums[k] - sums[k - 1]
    return (k - 1 + ((wanted - sums[k - 1]) / part if part else 0.0)) / _STEPS
