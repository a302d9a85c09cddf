"""Smooth curves through given points, in given directions."""

from __future__ import annotations

import math
from collections.abc import Sequence

from drafting.errors import NotAPattern
from drafting.geometry.curve import Cubic
from drafting.geometry.point import Point, Vec, distance

__all__ = ["arc", "bend", "blend", "clamped_slopes", "smooth_through"]


def blend(start: Point, leaving: Vec, end: Point, arriving: Vec, *, fullness: float = 1.0) -> Cubic:
    """One cubic from start to end that leaves and arrives in the given directions.

    The handles are those that make a circular arc where the directions allow one, times `fullness`; so two
    directions that a circle can join give that circle within 3 parts in 10,000 for a quarter turn.
    """
    chord = distance(start, end)
    a, b = leaving.unit(), arriving.unit()
    along = (end - start).unit()
    half = 0.25 * (abs(along.angle_to(a)) + abs(along.angle_to(b)))
    # handle of a circular arc whose half turn is 2 * half: chord * (2/3) / (1 + cos)
    handle = fullness * chord * (2.0 / 3.0) / (1.0 + math.cos(2.0 * half))
    return Cubic(start, start + a * handle, end - b * handle, end)


def bend(
    start: Point, leaving: Vec, end: Point, arriving: Vec, *, tight: float = 0.5523, tight_end: float | None = None
) -> Cubic:
    """One cubic that turns one way only, out of one tangent line and into the other.

    The handles are the shares `tight` and `tight_end` (0 to 1; the same unless given) of the ways from each end to
    the point where the tangent lines meet, so the control polygon is convex and the curve cannot wobble. 0.5523 makes
    a quarter of a circle or an ellipse; more goes deeper into the corner. Where the tangent lines do not meet ahead of
    the start and behind the end, no such curve exists: NotAPattern.
    """
    # plain floats: solving for a length draws a curve a dozen times, and this is where the time goes
    sx, sy, ex, ey = start.x, start.y, end.x, end.y
    size_u, size_v = math.hypot(leaving.x, leaving.y), math.hypot(arriving.x, arriving.y)
    ux, uy, vx, vy = leaving.x / size_u, leaving.y / size_u, arriving.x / size_v, arriving.y / size_v
    cx, cy = ex - sx, ey - sy
    turning = ux * vy - uy * vx
    if abs(turning) > 1e-9:
        ahead, behind = (cx * vy - cy * vx) / turning, (ux * cy - uy * cx) / turning
    else:
        straight = math.hypot(cx, cy)
        ahead = behind = 0.5 * straight if abs(ux * cy - uy * cx) <= 1e-6 * straight else 0.0
    if ahead <= 0.0 or behind <= 0.0:
        raise NotAPattern("the line", reason="no smooth line can be drawn between its two ends")
    first, last = tight * ahead, (tight if tight_end is None else tight_end) * behind
    return Cubic(start, Point(sx + ux * first, sy + uy * first), Point(ex - vx * last, ey - vy * last), end)


def arc(centre: Point, radius: float, start: float, sweep: float) -> tuple[Cubic, ...]:
    """A circular arc as cubics of at most a quarter turn each; angles in radians, sweep signed.

    Each strays from the circle outward only, by no more than 2.73e-4 of the radius for a quarter turn: the known
    error of the 4/3 tan(angle / 4) handle (M. Goldapp, Computer Aided Geometric Design 8, 1991), measured in the tests.
    """
    n = max(1, math.ceil(abs(sweep) / (0.5 * math.pi) - 1e-12))
    step = sweep / n
    k = 4.0 / 3.0 * math.tan(step / 4.0) * radius
    pieces = []
    for i in range(n):
        p, q = start + i * step, start + (i + 1) * step
        a = Point(centre.x + radius * math.cos(p), centre.y + radius * math.sin(p))
        b = Point(centre.x + radius * math.cos(q), centre.y + radius * math.sin(q))
        pieces.append(Cubic(a, a + Vec(-math.sin(p), math.cos(p)) * k, b - Vec(-math.sin(q), math.cos(q)) * k, b))
    return tuple(pieces)


def smooth_through(points: Sequence[Point], leaving: Vec, arriving: Vec) -> tuple[Cubic, ...]:
    """A run of cubics through the points in order, with no corner and no jump in bending by length.

    The natural parameter is the chord length between points; at inner points position, direction and the second
    derivative agree (a clamped cubic spline), so the curvature is continuous. Needs two points or more, no two
    neighbours in one place; else NotAPattern.
    """
    n = len(points) - 1
    if n < 1:
        raise NotAPattern("the line", reason="a curve needs two points or more")
    gaps = [distance(points[i], points[i + 1]) for i in range(n)]
    if min(gaps) == 0.0:
        raise NotAPattern("the line", reason="two neighbouring points are one place")
    a, b = leaving.unit(), arriving.unit()
    xs = clamped_slopes([p.x for p in points], gaps, a.x, b.x)
    ys = clamped_slopes([p.y for p in points], gaps, a.y, b.y)
    run = []
    for i, gap in enumerate(gaps):
        p, q = points[i], points[i + 1]
        c1 = Point(p.x + xs[i] * gap / 3.0, p.y + ys[i] * gap / 3.0)
        c2 = Point(q.x - xs[i + 1] * gap / 3.0, q.y - ys[i + 1] * gap / 3.0)
        run.append(Cubic(p, c1, c2, q))
    return tuple(run)


def clamped_slopes(values: list[float], gaps: list[float], first: float, last: float) -> list[float]:
    """Slopes at the knots of the clamped cubic spline: a tridiagonal system, solved by elimination."""
    n = len(gaps)
    if n == 1:
        return [first, last]
    upper, right = [0.0] * (n + 1), [0.0] * (n + 1)
    right[0] = first
    for i in range(1, n):
        h, k = gaps[i - 1], gaps[i]
        rhs = 3.0 * (k / h * (values[i] - values[i - 1]) + h / k * (values[i + 1] - values[i]))
        pivot = 2.0 * (h + k) - k * upper[i - 1]
        upper[i] = h / pivot
        right[i] = (rhs - k * right[i - 1]) / pivot
    slopes = [0.0] * (n + 1)
    slopes[n] = last
    for i in range(n - 1, -1, -1):
        slopes[i] = right[i] - upper[i] * slopes[i + 1]
    return slopes
