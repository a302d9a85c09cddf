"""The hull of a curve, its four control points as plain numbers: what it tells of the curve without evaluating it.

A curve lies inside the hull of its control points, and its directions inside the fan of the legs between them. Plain
tuples of numbers, not points, because these are looked at thousands of times for one drawing.
"""

from __future__ import annotations

import math
from typing import Final

from drafting.geometry.curve import Cubic, Curve, Line
from drafting.geometry.point import Point
from drafting.geometry.tolerance import CROSSING, SAME_PLACE

__all__ = [
    "LEAST_SINE",
    "NARROW",
    "Box",
    "Hull",
    "Stretch",
    "apart",
    "box_of",
    "extent",
    "fan_apart",
    "halves",
    "hull_of",
    "legs_of",
    "place_and_velocity",
    "straight",
    "transversal",
]

Hull = tuple[float, float, float, float, float, float, float, float]
"""x and y of the four control points, mm."""

Stretch = tuple[Hull, float, float]
"""A stretch of a curve: its own hull, and the parameters of its ends on the whole curve."""

Box = tuple[float, float, float, float]
"""Left, bottom, right, top, mm."""

LEAST_SINE: Final = 1e-6
"""Directions nearer than this count as parallel: over a metre they part by a thousandth of a millimetre."""

NARROW: Final = 1e-9
"""A stretch of parameter too short to halve."""


def hull_of(curve: Curve) -> Hull:
    """The control points of a curve; a line has its inner two at thirds, which keeps its parameter."""
    p, q = curve.start, curve.end
    if isinstance(curve, Cubic):
        return p.x, p.y, curve.c1.x, curve.c1.y, curve.c2.x, curve.c2.y, q.x, q.y
    dx, dy = (q.x - p.x) / 3.0, (q.y - p.y) / 3.0
    return p.x, p.y, p.x + dx, p.y + dy, q.x - dx, q.y - dy, q.x, q.y


def box_of(h: Hull) -> Box:
    """The upright box round the control points, which holds the curve."""
    return (
        min(h[0], h[2], h[4], h[6]),
        min(h[1], h[3], h[5], h[7]),
        max(h[0], h[2], h[4], h[6]),
        max(h[1], h[3], h[5], h[7]),
    )


def extent(h: Hull) -> float:
    """The longer side of the box, mm."""
    left, bottom, right, top = box_of(h)
    return max(right - left, top - bottom)


def apart(p: Hull, q: Hull) -> bool:
    """Whether two hulls are certainly further apart than CROSSING: by their boxes, or by a strip along either chord."""
    left, bottom, right, top = box_of(p)
    other = box_of(q)
    if (
        other[0] > right + CROSSING
        or other[2] < left - CROSSING
        or other[1] > top + CROSSING
        or other[3] < bottom - CROSSING
    ):
        return True
    return _clear_of_strip(p, q) or _clear_of_strip(q, p)


def _clear_of_strip(p: Hull, q: Hull) -> bool:
    """Whether q lies clear of the strip along p's chord that holds p."""
    x, y = p[0], p[1]
    nx, ny = y - p[7], p[6] - x
    size = math.hypot(nx, ny)  # zero where p ends where it begins: then nothing is clear of it
    one, two = nx * (p[2] - x) + ny * (p[3] - y), nx * (p[4] - x) + ny * (p[5] - y)
    low, high = min(0.0, one, two) - CROSSING * size, max(0.0, one, two) + CROSSING * size
    a, b = nx * (q[0] - x) + ny * (q[1] - y), nx * (q[2] - x) + ny * (q[3] - y)
    c, d = nx * (q[4] - x) + ny * (q[5] - y), nx * (q[6] - x) + ny * (q[7] - y)
    return (a > high and b > high and c > high and d > high) or (a < low and b < low and c < low and d < low)


def fan_apart(one: Curve, other: Curve, end: Point) -> bool:
    """Whether a straight line through the common end certainly parts the rest of two curves."""
    fan, against = _rays(one, end), _rays(other, end)
    if not fan or not against:
        return False
    # the line is square to what leads from the middle of the one fan of rays to the middle of the other
    (px, py), (qx, qy) = _middle(fan), _middle(against)
    ux, uy = px - qx, py - qy
    return _all_ahead(fan, ux, uy) and _all_ahead(against, -ux, -uy)


def _rays(curve: Curve, end: Point) -> list[tuple[float, float]]:
    """The steps from the end to the other control points; those on the end itself tell nothing."""
    x, y = end.x, end.y
    places = (curve.start, curve.end) if isinstance(curve, Line) else (curve.start, curve.c1, curve.c2, curve.end)
    steps = [(place.x - x, place.y - y) for place in places if place is not end]
    return [step for step in steps if abs(step[0]) + abs(step[1]) > SAME_PLACE]


def _all_ahead(rays: list[tuple[float, float]], ux: float, uy: float) -> bool:
    """Whether all rays certainly lead to one side of a line, that to which (ux, uy) is square to it."""
    return all(ux * x + uy * y > LEAST_SINE * (abs(x) + abs(y)) for x, y in rays)


def _middle(rays: list[tuple[float, float]]) -> tuple[float, float]:
    """The unit direction of the steps together."""
    x = y = 0.0
    for dx, dy in rays:
        x, y = x + dx, y + dy
    size = math.hypot(x, y)
    return (x / size, y / size) if size > 0.0 else (0.0, 0.0)


def legs_of(h: Hull) -> tuple[tuple[float, float], ...]:
    """The three steps between control points; every direction of the curve lies between theirs."""
    return (h[2] - h[0], h[3] - h[1]), (h[4] - h[2], h[5] - h[3]), (h[6] - h[4], h[7] - h[5])


def transversal(p: Hull, q: Hull) -> bool:
    """Whether every direction of p lies to the same side of every direction of q: then they cross once at most."""
    legs, others = legs_of(p), legs_of(q)
    crosses = [ax * by - ay * bx for ax, ay in legs for bx, by in others]
    low, high = min(crosses), max(crosses)
    if low < 0.0 < high:
        return False
    longest = max(ax * ax + ay * ay for ax, ay in legs) * max(bx * bx + by * by for bx, by in others)
    return min(abs(low), abs(high)) > LEAST_SINE * math.sqrt(longest)


def straight(part: Stretch) -> bool:
    """Whether a stretch keeps within a quarter of CROSSING of its chord and runs along it, or is too short to halve."""
    h, low, high = part
    if high - low <= NARROW:
        return True
    cx, cy = h[6] - h[0], h[7] - h[1]
    size = math.hypot(cx, cy)
    if size <= 0.25 * CROSSING:
        return extent(h) <= 0.25 * CROSSING
    limit = 0.25 * CROSSING * size
    return (
        abs(cx * (h[3] - h[1]) - cy * (h[2] - h[0])) <= limit
        and abs(cx * (h[5] - h[1]) - cy * (h[4] - h[0])) <= limit
        and all(cx * x + cy * y >= 0.0 for x, y in legs_of(h))
    )


def halves(part: Stretch) -> tuple[Stretch, Stretch]:
    """The two halves of a stretch, by parameter."""
    (x0, y0, x1, y1, x2, y2, x3, y3), low, high = part
    ax, ay, bx, by = 0.5 * (x0 + x1), 0.5 * (y0 + y1), 0.5 * (x1 + x2), 0.5 * (y1 + y2)
    cx, cy = 0.5 * (x2 + x3), 0.5 * (y2 + y3)
    dx, dy, ex, ey = 0.5 * (ax + bx), 0.5 * (ay + by), 0.5 * (bx + cx), 0.5 * (by + cy)
    mx, my, mid = 0.5 * (dx + ex), 0.5 * (dy + ey), 0.5 * (low + high)
    return ((x0, y0, ax, ay, dx, dy, mx, my), low, mid), ((mx, my, ex, ey, cx, cy, x3, y3), mid, high)


def place_and_velocity(h: Hull, t: float) -> tuple[float, float, float, float]:
    """Place and velocity at t."""
    u = 1.0 - t
    a, b, c, d = u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t
    k, m, n = 3.0 * u * u, 6.0 * u * t, 3.0 * t * t
    return (
        a * h[0] + b * h[2] + c * h[4] + d * h[6],
        a * h[1] + b * h[3] + c * h[5] + d * h[7],
        k * (h[2] - h[0]) + m * (h[4] - h[2]) + n * (h[6] - h[4]),
        k * (h[3] - h[1]) + m * (h[5] - h[3]) + n * (h[7] - h[5]),
    )
