"""How a line bends: its tightest places, where it changes from one side to the other, how its turning is spread.

The bend at a place is the curvature, 1/mm, positive where it turns left. That of a cubic is q / s^1.5, with q, the
cross product of velocity and acceleration, of the second degree in t (its terms of the third cancel) and s, the square
of the velocity, of the fourth. So the bend changes sign at the roots of q, and is least and greatest at the ends and at
the roots of q' s - 1.5 q s', which is of the fifth degree. These are looked for between equal steps, and each that is
found between two steps is closed in on.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry.curve import Cubic, Curve, Line, point_at, tangent
from drafting.geometry.point import Point, Vec, distance

__all__ = [
    "Bend",
    "Turn",
    "bending",
    "inflections",
    "kinks",
    "most_turning_within",
    "tightest",
    "tightest_radius",
    "turns",
]

_LOOKS: Final = 12  # steps in which the roots of the fifth degree are looked for: closer pairs differ by nothing felt
_CLOSE: Final = 1e-9  # of the parameter
_PARTS: Final = 12  # of a cubic, for how its turning is spread; the turning itself is exact at each
_STEPS: Final = 16
_BENT: Final = math.radians(0.01)  # a joint that turns less is none: less than rounding a file to 0.01 mm makes


@dataclass(frozen=True, slots=True)
class Bend:
    """A place where a run bends the most: the number of its curve, the parameter on it, the curvature there, 1/mm."""

    curve: int
    t: float
    curvature: float

    @property
    def radius(self) -> float:
        """The radius of the circle that bends as much, mm."""
        return 1.0 / abs(self.curvature) if self.curvature else math.inf


@dataclass(frozen=True, slots=True)
class Turn:
    """A stretch of a run that turns one way: by so much, radians, positive to the left; where it begins and ends."""

    angle: float
    start: Point
    end: Point


def tightest(run: Sequence[Curve]) -> tuple[Bend, Bend]:
    """The sharpest bend to the right and to the left, in this order; of curvature zero where there is none.

    Infinite at a cusp. Where two curves meet at an angle there is a corner, which is not seen here (`kinks`).
    """
    right = left = Bend(0, 0.0, 0.0)
    for k, curve in enumerate(run):
        if isinstance(curve, Line):
            continue
        for t, bend in _extremes(curve):
            if bend < right.curvature:
                right = Bend(k, t, bend)
            elif bend > left.curvature:
                left = Bend(k, t, bend)
    return right, left


def tightest_radius(run: Sequence[Curve]) -> float:
    """The radius of the sharpest bend of a run to either side, mm; infinite where it does not bend."""
    return min(bend.radius for bend in tightest(run))


def bending(run: Sequence[Curve]) -> float:
    """The integral along a run of curvature squared, 1/mm: how hard a thin spline in its shape is bent.

    By Simpson's rule over 16 steps of each curve; infinite at a cusp.
    """
    return sum(_bending(curve) for curve in run if not isinstance(curve, Line))


def _bending(curve: Cubic) -> float:
    """The integral of curvature squared along a cubic, per mm, by Simpson's rule; infinite where it stands still."""
    legs = _legs(curve)
    x0, y0, x1, y1, x2, y2 = legs
    q0, q1, q2 = _turning(legs)
    total = 0.0
    for k in range(_STEPS + 1):
        t = k / _STEPS
        speed = math.hypot(x0 + t * (x1 + t * x2), y0 + t * (y1 + t * y2))
        if speed == 0.0:
            return math.inf
        # curvature squared by speed; velocity and acceleration are in thirds
        value = (q0 + t * (q1 + t * q2)) ** 2 / (3.0 * speed**5)
        total += value * (1.0 if k in (0, _STEPS) else 4.0 if k % 2 else 2.0)
    return total / (3.0 * _STEPS)


def inflections(curve: Curve) -> tuple[float, ...]:
    """Where a curve changes from turning one way to the other, as parameters between 0 and 1, rising."""
    if isinstance(curve, Line):
        return ()
    a, b, c = _turning(_legs(curve))
    return tuple(t for t in _roots(a, b, c) if _CLOSE < t < 1.0 - _CLOSE)


def turns(run: Sequence[Curve], *, felt: float = 0.0) -> tuple[Turn, ...]:
    """The stretches of a run that turn one way, one after the other; the corners at its joints count as turns.

    felt: what turns by less, radians, is passed over, and what lies on both sides of it and turns one way is one
    """
    found: list[Turn] = []
    for angle, start, end in _steps(run):
        if angle != 0.0:
            _add(found, Turn(angle, start, end))
    if not felt:
        return tuple(found)
    seen: list[Turn] = []
    for turn in found:
        if abs(turn.angle) >= felt:
            _add(seen, turn)
    return tuple(seen)


def _add(found: list[Turn], turn: Turn) -> None:
    """A turn added to those before it, to the last of them where it goes the same way."""
    if found and (found[-1].angle > 0.0) == (turn.angle > 0.0):
        found[-1] = Turn(found[-1].angle + turn.angle, found[-1].start, turn.end)
    else:
        found.append(turn)


def kinks(run: Sequence[Curve]) -> tuple[tuple[float, Point], ...]:
    """The corners within a run: by how much each turns, radians, positive to the left, and where."""
    found = []
    for one, other in pairwise(run):
        angle = tangent(one, 1.0).angle_to(tangent(other, 0.0))
        if abs(angle) > _BENT:
            found.append((angle, other.start))
    return tuple(found)


def most_turning_within(run: Sequence[Curve], span: float) -> float:
    """The largest share of a run's turning, either way, that lies within `span` mm of it; 0 for a straight one."""
    gone, turned = [0.0], [0.0]
    last: Vec | None = None
    for curve in run:
        parts = 1 if isinstance(curve, Line) else _PARTS
        at, along = curve.start, tangent(curve, 0.0)
        if last is not None and (corner := abs(last.angle_to(along))) > _BENT:
            gone.append(gone[-1])
            turned.append(turned[-1] + corner)
        for k in range(1, parts + 1):
            place, direction = point_at(curve, k / parts), tangent(curve, k / parts)
            angle = abs(along.angle_to(direction))
            # an arc is longer than its chord by a twenty-fourth of its angle squared
            gone.append(gone[-1] + distance(at, place) * (1.0 + angle * angle / 24.0))
            turned.append(turned[-1] + angle)
            at, along = place, direction
        last = along
    if turned[-1] == 0.0:
        return 0.0
    # the share grows and falls between the places where either end of the span passes one of those looked at
    starts = {*gone, *(max(0.0, g - span) for g in gone)}
    most = max(_by(gone, turned, s + span) - _before(gone, turned, s) for s in starts)
    return most / turned[-1]


def _by(gone: Sequence[float], turned: Sequence[float], at: float) -> float:
    """What has been turned by `at` mm; a corner that lies there counts."""
    k = bisect_right(gone, at)
    if k == len(gone):
        return turned[-1]
    return turned[k - 1] + (turned[k] - turned[k - 1]) * (at - gone[k - 1]) / (gone[k] - gone[k - 1])


def _before(gone: Sequence[float], turned: Sequence[float], at: float) -> float:
    """What has been turned before `at` mm; a corner that lies there does not count."""
    k = bisect_left(gone, at)
    if k == 0:
        return turned[0]
    return turned[k - 1] + (turned[k] - turned[k - 1]) * (at - gone[k - 1]) / (gone[k] - gone[k - 1])


def _steps(run: Sequence[Curve]) -> Iterator[tuple[float, Point, Point]]:
    """The turning of a run piece by piece, each to one side: radians, from where to where."""
    last: Vec | None = None
    for curve in run:
        ahead = tangent(curve, 0.0)
        if last is not None and abs(corner := last.angle_to(ahead)) > _BENT:
            yield corner, curve.start, curve.start
        ts = (0.0, *inflections(curve), 1.0)
        at = curve.start
        for low, high in pairwise(ts):
            place, direction = point_at(curve, high), tangent(curve, high)
            yield _turned(curve, low, high, ahead, direction), at, place
            at, ahead = place, direction
        last = ahead


def _turned(curve: Curve, low: float, high: float, ahead: Vec, arriving: Vec) -> float:
    """How far a stretch that turns one way turns, radians: the way it bends in its middle, and less than once round."""
    if isinstance(curve, Line):
        return 0.0
    a, b, c = _turning(_legs(curve))
    middle = 0.5 * (low + high)
    angle = ahead.angle_to(arriving)
    left = (c * middle + b) * middle + a > 0.0
    if abs(angle) > _BENT and left != (angle > 0.0):
        return angle + math.copysign(2.0 * math.pi, -angle)
    return angle


_Legs = tuple[float, float, float, float, float, float]


def _legs(curve: Cubic) -> _Legs:
    """The velocity as v0 + v1 t + v2 t^2, in thirds: x and y of each."""
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    px, py, qx, qy, rx, ry = b.x - a.x, b.y - a.y, c.x - b.x, c.y - b.y, d.x - c.x, d.y - c.y
    return px, py, 2.0 * (qx - px), 2.0 * (qy - py), px - 2.0 * qx + rx, py - 2.0 * qy + ry


def _turning(legs: _Legs) -> tuple[float, float, float]:
    """The cross product of velocity and acceleration, both in thirds, as a + b t + c t^2."""
    x0, y0, x1, y1, x2, y2 = legs
    return x0 * y1 - y0 * x1, 2.0 * (x0 * y2 - y0 * x2), x1 * y2 - y1 * x2


def _extremes(curve: Cubic) -> Iterator[tuple[float, float]]:
    """The parameters at which the bend of a cubic is least or greatest, its ends with them, and the bend there."""
    legs = _legs(curve)
    x0, y0, x1, y1, x2, y2 = legs
    q0, q1, q2 = _turning(legs)
    if q0 == q1 == q2 == 0.0:
        return
    s0, s1, s2 = x0 * x0 + y0 * y0, 2.0 * (x0 * x1 + y0 * y1), x1 * x1 + y1 * y1 + 2.0 * (x0 * x2 + y0 * y2)
    s3, s4 = 2.0 * (x1 * x2 + y1 * y2), x2 * x2 + y2 * y2

    def bend(t: float) -> float:
        speed = (((s4 * t + s3) * t + s2) * t + s1) * t + s0
        cross = (q2 * t + q1) * t + q0
        # the velocity is in thirds: a third of the cross product of two thirds over the cube of one
        return cross / (3.0 * speed * math.sqrt(speed)) if speed > 0.0 else math.copysign(math.inf, cross)

    # q' s - 1.5 q s', from the constant term to that of the fifth degree
    g0 = q1 * s0 - 1.5 * q0 * s1
    g1 = 2.0 * q2 * s0 - 0.5 * q1 * s1 - 3.0 * q0 * s2
    g2 = 0.5 * q2 * s1 - 2.0 * q1 * s2 - 4.5 * q0 * s3
    g3 = -q2 * s2 - 3.5 * q1 * s3 - 6.0 * q0 * s4
    g4 = -2.5 * q2 * s3 - 5.0 * q1 * s4
    g5 = -4.0 * q2 * s4

    def slope(t: float) -> float:
        return ((((g5 * t + g4) * t + g3) * t + g2) * t + g1) * t + g0

    yield 0.0, bend(0.0)
    yield 1.0, bend(1.0)
    low, at_low = 0.0, g0
    for k in range(1, _LOOKS + 1):
        high = k / _LOOKS
        at_high = slope(high)
        if (at_low < 0.0) != (at_high < 0.0):
            t = _root(slope, low, high, at_low, at_high)
            yield t, bend(t)
        low, at_low = high, at_high


def _root(value: Callable[[float], float], low: float, high: float, at_low: float, at_high: float) -> float:
    """Where a value changes sign between two places: regula falsi, the end that stays counting for half each time."""
    kept = 0
    for _ in range(60):
        if high - low < _CLOSE or at_high == at_low:
            break
        t = high - at_high * (high - low) / (at_high - at_low)
        at = value(t)
        if at == 0.0:
            return t
        if (at < 0.0) == (at_high < 0.0):
            high, at_high = t, at
            at_low *= 0.5 if kept == -1 else 1.0
            kept = -1
        else:
            low, at_low = t, at
            at_high *= 0.5 if kept == 1 else 1.0
            kept = 1
        if abs(at) < 1e-12 * (abs(at_low) + abs(at_high)):
            return t
    return 0.5 * (low + high)


def _roots(a: float, b: float, c: float) -> list[float]:
    """The real roots of a + b t + c t^2 at which it changes sign, rising."""
    size = max(abs(a), abs(b), abs(c))
    if size == 0.0:
        return []
    if abs(c) < 1e-12 * size:
        return [-a / b] if abs(b) > 1e-12 * size else []
    within = b * b - 4.0 * a * c
    if within <= 0.0:
        return []
    w = -0.5 * (b + math.copysign(math.sqrt(within), b))
    return sorted((w / c, a / w)) if w else []
