"""The closed set of curves, Line and Cubic, and what can be asked of one.

Parameters run from 0 at the start to 1 at the end. Lengths are millimetres with a proven bound.
"""

from __future__ import annotations

import math

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry.arclength import Hodograph, before, length_of, speed_at
from drafting.geometry.point import Point, Vec, lerp
from drafting.geometry.tolerance import LENGTH, MEASURED, SOLVED

__all__ = [
    "Cubic",
    "Curve",
    "Line",
    "at_length",
    "bounds",
    "curvature",
    "end_tangents",
    "flatten",
    "handles",
    "length",
    "point_at",
    "reverse",
    "split",
    "tangent",
]

_FINEST = 1e-7
"""mm: with less it is looked to whether a float can hold so much of a length."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stretch from start to end."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic Bezier from start to end with two handles: what page and screen formats speak natively."""

    start: Point
    c1: Point
    c2: Point
    end: Point


Curve = Line | Cubic


def point_at(curve: Curve, t: float) -> Point:
    """The place at parameter t (0 to 1; beyond it the curve's own continuation)."""
    if isinstance(curve, Line):
        return lerp(curve.start, curve.end, t)
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    u = 1.0 - t
    ka, kb, kc, kd = u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t
    return Point(ka * a.x + kb * b.x + kc * c.x + kd * d.x, ka * a.y + kb * b.y + kc * c.y + kd * d.y)


def handles(curve: Curve) -> tuple[Vec, Vec]:
    """The steps from the start to the first handle and from the second to the end; thirds of a line, which draw it."""
    if isinstance(curve, Line):
        third = (curve.end - curve.start) * (1.0 / 3.0)
        return third, third
    return curve.c1 - curve.start, curve.end - curve.c2


def velocity(curve: Curve, t: float) -> Vec:
    """The derivative by t, mm; zero at a cusp."""
    return Vec(*_rates(curve, t))


def tangent(curve: Curve, t: float) -> Vec:
    """The unit direction of travel at t. Where a handle lies on its end point, the limit direction.

    Raises NotAPattern for a curve that is a single point.
    """
    x, y = _rates(curve, t)
    if x * x + y * y > 1e-18 or isinstance(curve, Line):
        if x == 0.0 and y == 0.0:
            raise NotAPattern("curve", reason="a line of no length has no direction")
        size = math.hypot(x, y)
        return Vec(x / size, y / size)
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    ahead = [q - a for q in (b, c, d)] if t < 0.5 else [d - q for q in (c, b, a)]
    for step in ahead:
        if step.x != 0.0 or step.y != 0.0:
            return step.unit()
    raise NotAPattern("curve", reason="all four points of a curve are one place")


def end_tangents(curve: Curve) -> tuple[Vec, Vec]:
    """The unit directions of travel at the start and at the end."""
    return tangent(curve, 0.0), tangent(curve, 1.0)


def curvature(curve: Curve, t: float) -> float:
    """Signed curvature at t in 1/mm; positive turns left. Infinite at a cusp."""
    if isinstance(curve, Line):
        return 0.0
    v = velocity(curve, t)
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    u = 1.0 - t
    ax = 6.0 * (u * (c.x - 2.0 * b.x + a.x) + t * (d.x - 2.0 * c.x + b.x))
    ay = 6.0 * (u * (c.y - 2.0 * b.y + a.y) + t * (d.y - 2.0 * c.y + b.y))
    speed = v.norm()
    return (v.x * ay - v.y * ax) / speed**3 if speed > 0.0 else math.inf


def length(curve: Curve, tol: float = LENGTH) -> float:
    """The length in mm, never further than `tol` from the truth (the bound is proven in arclength.py).

    What is finer than a float holds of a length cannot be had: `tol` counts as 1e-13 of the control polygon at least.
    Raises NotAPattern for a `tol` that is not above zero (not a number included).
    """
    if not tol > 0.0:
        raise NotAPattern("a length", reason=f"it cannot be had within {tol} mm")
    if isinstance(curve, Line):
        return math.hypot(curve.end.x - curve.start.x, curve.end.y - curve.start.y)
    velocity = _velocity(curve)
    if tol < _FINEST:
        tol = max(tol, 1e-13 * (abs(velocity[0]) + abs(velocity[1]) + abs(velocity[2])))
    return length_of(velocity, tol)


def at_length(curve: Curve, distance_from_start: float) -> float:
    """The parameter at which `distance_from_start` mm of curve have been travelled, within 1e-6 mm.

    Distances below zero or past the end give 0 or 1.
    """
    if distance_from_start <= 0.0:
        return 0.0
    if isinstance(curve, Line):
        whole = length(curve)
        return min(1.0, distance_from_start / whole) if whole > 0.0 else 1.0
    moving = _velocity(curve)
    whole = length_of(moving, MEASURED)
    if distance_from_start >= whole:
        return 1.0
    low, high = 0.0, 1.0
    t = distance_from_start / whole
    for _ in range(60):
        off = length_of(before(moving, t), MEASURED) - distance_from_start
        if abs(off) <= SOLVED / 2:
            break
        if off > 0.0:
            high = t
        else:
            low = t
        pace = speed_at(moving, t)
        step = t - off / pace if pace > 0.0 else -1.0
        # the bracket is inclusive: a strict one throws a converged step away
        t = step if low <= step <= high else 0.5 * (low + high)
    return t


def split(curve: Curve, t: float) -> tuple[Curve, Curve]:
    """The two parts before and after t; they meet in exactly the same point."""
    if isinstance(curve, Line):
        mid = lerp(curve.start, curve.end, t)
        return Line(curve.start, mid), Line(mid, curve.end)
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    ab, bc, cd = lerp(a, b, t), lerp(b, c, t), lerp(c, d, t)
    abc, bcd = lerp(ab, bc, t), lerp(bc, cd, t)
    mid = lerp(abc, bcd, t)
    return Cubic(a, ab, abc, mid), Cubic(mid, bcd, cd, d)


def reverse(curve: Curve) -> Curve:
    """The same curve travelled the other way."""
    if isinstance(curve, Line):
        return Line(curve.end, curve.start)
    return Cubic(curve.end, curve.c2, curve.c1, curve.start)


def bounds(curve: Curve) -> tuple[float, float, float, float]:
    """The tight box (left, bottom, right, top) in mm."""
    a, d = curve.start, curve.end
    left, right = (a.x, d.x) if a.x < d.x else (d.x, a.x)
    bottom, top = (a.y, d.y) if a.y < d.y else (d.y, a.y)
    if isinstance(curve, Line):
        return left, bottom, right, top
    b, c = curve.c1, curve.c2
    # between its ends lies what its handles lie between
    if not (left <= b.x <= right and left <= c.x <= right):
        xs = [left, right, *(point_at(curve, t).x for t in stationary(a.x, b.x, c.x, d.x))]
        left, right = min(xs), max(xs)
    if not (bottom <= b.y <= top and bottom <= c.y <= top):
        ys = [bottom, top, *(point_at(curve, t).y for t in stationary(a.y, b.y, c.y, d.y))]
        bottom, top = min(ys), max(ys)
    return left, bottom, right, top


def flatten(curve: Curve, tol: float) -> list[Point]:
    """Points on the curve, both ends included, whose polyline strays from it by no more than `tol` mm.

    The number of equal parameter steps follows from the second derivative, which bounds the sag of each chord.
    Raises NotAPattern for a `tol` that is not above zero.
    """
    if not tol > 0.0:
        raise NotAPattern("points along a line", reason=f"they cannot be had within {tol} mm")
    if isinstance(curve, Line):
        return [curve.start, curve.end]
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    ax, ay, bx, by, cx, cy, dx, dy = a.x, a.y, b.x, b.y, c.x, c.y, d.x, d.y
    bend = 6.0 * max(math.hypot(cx - 2 * bx + ax, cy - 2 * by + ay), math.hypot(dx - 2 * cx + bx, dy - 2 * cy + by))
    n = max(1, math.ceil(math.sqrt(bend / (8.0 * tol))))
    places = [a]
    for i in range(1, n):  # as `point_at` has it, but for the many places of a drawing in plain numbers
        t = i / n
        u = 1.0 - t
        ka, kb, kc, kd = u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t
        places.append(Point(ka * ax + kb * bx + kc * cx + kd * dx, ka * ay + kb * by + kc * cy + kd * dy))
    return [*places, d]


def _rates(curve: Curve, t: float) -> tuple[float, float]:
    """The derivative by t of either coordinate, mm."""
    if isinstance(curve, Line):
        return curve.end.x - curve.start.x, curve.end.y - curve.start.y
    a, b = curve.start, curve.c1
    if t == 0.0:  # the ends are what is asked for most
        return 3.0 * (b.x - a.x), 3.0 * (b.y - a.y)
    c, d = curve.c2, curve.end
    if t == 1.0:
        return 3.0 * (d.x - c.x), 3.0 * (d.y - c.y)
    u = 1.0 - t
    ka, kb, kc = 3.0 * u * u, 6.0 * u * t, 3.0 * t * t
    return (
        ka * (b.x - a.x) + kb * (c.x - b.x) + kc * (d.x - c.x),
        ka * (b.y - a.y) + kb * (c.y - b.y) + kc * (d.y - c.y),
    )


def _velocity(curve: Cubic) -> Hodograph:
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    return (
        complex(3.0 * (b.x - a.x), 3.0 * (b.y - a.y)),
        complex(3.0 * (c.x - b.x), 3.0 * (c.y - b.y)),
        complex(3.0 * (d.x - c.x), 3.0 * (d.y - c.y)),
    )


def stationary(a: float, b: float, c: float, d: float) -> list[float]:
    """Where the derivative of one coordinate vanishes inside 0..1."""
    p, q, r = b - a, c - b, d - c
    k2, k1, k0 = p - 2 * q + r, 2 * (q - p), p
    if abs(k2) < 1e-12 * (abs(k1) + abs(k0) + 1e-300):
        roots = [-k0 / k1] if k1 != 0.0 else []
    else:
        disc = k1 * k1 - 4 * k2 * k0
        if disc < 0.0:
            return []
        w = -0.5 * (k1 + math.copysign(math.sqrt(disc), k1))
        roots = [w / k2]
        if w != 0.0:
            roots.append(k0 / w)
    return [t for t in roots if 0.0 < t < 1.0]
