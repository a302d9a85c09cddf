r"""Where an endless straight line meets curves.

How far a place of a curve lies beside the line is a polynomial of the curve's parameter t, of degree one or three.
Its Bernstein coefficients are how far the curve's control points lie beside the line:

         c1 o-------o c2        All on one side: the line is not met, and that is how most curves are done with.
           /  .---.  \          Else the cubic is cut at its turning points (T). Between two of them it only rises or
    ------/--x--T--x--\-----    only falls, so a stretch whose ends lie on both sides of the line holds one root (x):
         /  /       \  \        Newton's method finds it, held within what is left of the stretch. A turning point
   start o-'         '-o end    that lies on the line is a touch, and counts once.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from drafting.dataclass import dataclass
from drafting.geometry.curve import Curve, Line, point_at
from drafting.geometry.point import Point, Vec

__all__ = ["Hit", "line_hits", "run_hits"]


@dataclass(frozen=True, slots=True)
class Hit:
    """A place where a straight line meets a curve.

    t:     the curve's parameter there
    along: the signed distance from the line's own point, mm, in its direction
    """

    t: float
    along: float
    point: Point


def line_hits(curve: Curve, through: Point, direction: Vec) -> list[Hit]:
    """Where the endless straight line meets the curve, in order along the curve.

    A touch counts once; a curve that lies in the line meets it nowhere.
    """
    return _hits_of_unit(curve, through, direction.unit())


def run_hits(run: Sequence[Curve], through: Point, direction: Vec) -> list[tuple[int, Hit]]:
    """Where the endless line meets a run of curves: (which curve, the hit), joins counted once."""
    along = direction.unit()
    found: list[tuple[int, Hit]] = []
    for i, curve in enumerate(run):
        for hit in _hits_of_unit(curve, through, along):
            if found and found[-1][1].point.near(hit.point):
                continue
            found.append((i, hit))
    if len(found) > 1 and run[0].start == run[-1].end and found[0][1].point.near(found[-1][1].point):
        found.pop()
    return found


def _hits_of_unit(curve: Curve, through: Point, along: Vec) -> list[Hit]:
    """The hits of a line whose direction is a unit: heights of the control points above it first, as plain numbers."""
    x, y, nx, ny = through.x, through.y, along.x, along.y
    start, end = curve.start, curve.end
    p, s = nx * (start.y - y) - ny * (start.x - x), nx * (end.y - y) - ny * (end.x - x)
    if isinstance(curve, Line):
        low, high = (p, s) if p < s else (s, p)
        if low > 1e-12 * high or high < 1e-12 * low:
            return []
        ts = _straight_root(p, s)
    else:
        c1, c2 = curve.c1, curve.c2
        q, r = nx * (c1.y - y) - ny * (c1.x - x), nx * (c2.y - y) - ny * (c2.x - x)
        low, high = min(p, q, r, s), max(p, q, r, s)
        if low > 1e-12 * high or high < 1e-12 * low:  # all on one side: what most curves do to most lines
            return []
        ts = _bernstein_roots([p, q, r, s])
    return [Hit(t, along.dot(place - through), place) for t in ts for place in (point_at(curve, t),)]


def _straight_root(a: float, b: float) -> list[float]:
    if a == b:
        return []
    t = a / (a - b)
    return [t] if 0.0 <= t <= 1.0 else []


def _bernstein_roots(h: list[float]) -> list[float]:
    """The roots in [0, 1] of a cubic in Bernstein form.

    Between the turning points the cubic is monotone, so each stretch whose ends differ in sign holds one root,
    found by bisection guarded Newton. A turning point that touches zero is a root too.
    """
    p, q, r, s = h
    size = max(abs(p), abs(q), abs(r), abs(s))
    if size < 1e-12:
        return []
    a, b, c, d = s - 3 * r + 3 * q - p, 3 * (r - 2 * q + p), 3 * (q - p), p
    least = 1e-13 * size
    if (p < 0.0) != (s < 0.0) and ((p < 0.0) == (q < 0.0) or (r < 0.0) == (s < 0.0)) and min(abs(p), abs(s)) > least:
        # the coefficients change sign once, so there is one root: no more than they do (Descartes)
        return [_bracketed(a, b, c, d, 0.0, 1.0, p)]
    stops = [0.0, *sorted(_quadratic_roots(3 * a, 2 * b, c)), 1.0]
    roots: list[float] = []
    for low, high in pairwise(stops):
        f_low, f_high = ((a * low + b) * low + c) * low + d, ((a * high + b) * high + c) * high + d
        if abs(f_low) <= least:
            t = low
        elif abs(f_high) <= least:
            t = high
        elif (f_low < 0.0) != (f_high < 0.0):
            t = _bracketed(a, b, c, d, low, high, f_low)
        else:
            continue
        if not roots or t - roots[-1] > 1e-12:
            roots.append(t)
    return roots


def _bracketed(a: float, b: float, c: float, d: float, low: float, high: float, f_low: float) -> float:
    """The root of a cubic polynomial between `low` and `high`, where its sign changes: Newton's steps, else halving.

    f_low: the value at `low`, of which only the sign counts
    """
    rising = f_low < 0.0
    t = 0.5 * (low + high)
    for _ in range(80):
        f = ((a * t + b) * t + c) * t + d
        if (f < 0.0) == rising:
            low = t
        else:
            high = t
        slope = (3 * a * t + 2 * b) * t + c
        step = t - f / slope if slope != 0.0 else -1.0
        following = step if low <= step <= high else 0.5 * (low + high)
        if abs(following - t) <= 1e-15:
            return following
        t = following
    return t


def _quadratic_roots(a: float, b: float, c: float) -> list[float]:
    """The turning points strictly inside (0, 1)."""
    if abs(a) < 1e-14 * (abs(b) + abs(c) + 1e-300):
        roots = [-c / b] if b != 0.0 else []
    else:
        disc = b * b - 4 * a * c
        if disc <= 0.0:
            return []
        w = -0.5 * (b + math.copysign(math.sqrt(disc), b))
        roots = [w / a] + ([c / w] if w != 0.0 else [])
    return [t for t in roots if 0.0 < t < 1.0]
