"""The fairest curve that keeps what is given: the one of least bending, by formulas in its angles alone.

Bending is the integral along the curve of curvature squared, 1/mm: what a thin wooden spline held at its ends makes as
small as it can (D. Bernoulli to Euler, 1742). It depends on the size of a curve only by 1 / chord, so between two ends
it is a number of two angles: from the leaving direction to the chord and from the chord to the arriving one. The
handles of the cubic of least bending, and how much it bends, were computed for all pairs of angles from -50 to 90
degrees, 10 apart, and are kept here as fitted formulas. A cubic drawn by them bends 0.6 % more than the best cubic
on average, 7 % more at worst, up to 80 degrees; at 90, 11 % (`tests/outside/test_fair_curves.py` computes it anew).

Where two such curves meet, what was left free is found in a few secant steps: the direction is the one in which both
bend alike (a spline's moment is the same on both sides of a place that only holds it), the place is where the sum of
both is least. There too both would bend alike if cubics were true splines; the handles beside it are evened out until
they do. So no join can be felt.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry.curve import Cubic, length
from drafting.geometry.point import Point, Vec
from drafting.geometry.tolerance import SOLVED

__all__ = ["fair", "fair_of_length", "fair_through", "fair_touching", "least_bending"]

# the logarithm of a handle as a share of the chord, a the angle at its own end and b at the other, radians:
# of 1, a^2, ab, b^2, a^4, a^3 b, a^2 b^2, a b^3, b^4
_HANDLE: Final = (-1.1075, 0.2897, 0.0318, -0.0584, -0.0607, -0.0338, 0.1094, 0.0474, 0.0023)
# the logarithm of bending times chord over 4 (a^2 - ab + b^2), which it is where both angles are small:
# of a^2 + b^2, ab, a^4 + b^4, a^2 b^2, ab (a^2 + b^2)
_BENDING: Final = (-0.0822, -0.0296, 0.0198, -0.0037, -0.0206)
_WIDEST: Final = math.radians(100.0)
"""The formulas are not asked beyond this: a curve with a wider angle takes the handles of this one."""
_NEAR_END: Final = 0.05
"""Two curves meet no nearer to the level of either end than this share of the way between them."""
_MOST_UNEVEN: Final = 6.0
"""Bending so many times apart, or turned the other way, is no join to be smoothed: the handles stay as they are."""


def fair(start: Point, leaving: Vec, end: Point, arriving: Vec) -> Cubic:
    """The cubic of least bending from start to end that leaves and arrives in the given directions.

    It turns one way only where neither angle is more than about twice the other, else it is an S as a spline would
    be. Raises NotAPattern where both ends are one place.
    """
    chord, a, b = _angles(start, leaving, end, arriving)
    first, last = chord * _handle(a, b) / leaving.norm(), chord * _handle(b, a) / arriving.norm()
    return Cubic(start, start + leaving * first, end - arriving * last, end)


def least_bending(start: Point, leaving: Vec, end: Point, arriving: Vec) -> float:
    """The bending of that curve, 1/mm, within 3 % up to angles of 80 degrees."""
    chord, a, b = _angles(start, leaving, end, arriving)
    return _bending(a, b) / chord


def fair_through(start: Point, leaving: Vec, place: Point, end: Point, arriving: Vec) -> tuple[Cubic, Cubic]:
    """Two cubics that meet in `place` without a corner or a jump of bending, its direction left free.

    The direction is the one in which both bend alike, which is where the bending of a spline is least. Raises
    NotAPattern where two of the three places are one.
    """
    chord, a, _ = _angles(start, leaving, place, place - start)
    beyond, _, b = _angles(place, end - place, end, arriving)
    turn = (place - start).angle_to(end - place)

    def rate(off: float) -> float:
        # `off` is how far the direction in the place has turned from the chord before it
        return _moment(off, a) / chord - _moment(turn - off, b) / beyond

    widest = math.radians(85.0)
    off = _root(rate, max(-widest, turn - widest), min(widest, turn + widest))
    through = (place - start).turned(off).unit()
    return _evened(fair(start, leaving, place, through), fair(place, through, end, arriving))


def fair_touching(
    start: Point, leaving: Vec, place: Point, along: Vec, end: Point, arriving: Vec
) -> tuple[Cubic, Cubic]:
    """Two cubics that meet on the line through `place`, running along it there; where on the line is left free.

    So a curve comes nearest to a line and no nearer: narrowest at x = c, at the height where the least bending of the
    two together is least. along: the direction of the line and of travel on it. Raises NotAPattern where the line
    offers no room between the levels of both ends.
    """
    on = along.unit()
    first, last = (start - place).dot(on), (end - place).dot(on)
    if last - first <= SOLVED:
        raise NotAPattern("curve", "it has no room to run along the line that it is to touch")

    def rate(s: float) -> float:
        touch = place + on * s
        chord, a, b = _angles(start, leaving, touch, on)
        beyond, c, d = _angles(touch, on, end, arriving)
        # the place moves by ds: each chord grows by its share along the line and turns by its share across it
        grown, turned = math.cos(b) / chord, math.sin(b) / chord
        shrunk, swung = -math.cos(c) / beyond, math.sin(c) / beyond
        before = (_rate(a, b) - _rate(b, a)) * turned - _bending(a, b) * grown
        after = (_rate(c, d) - _rate(d, c)) * swung - _bending(c, d) * shrunk
        return before / chord + after / beyond

    margin = _NEAR_END * (last - first)
    touch = place + on * _root(rate, first + margin, last - margin)
    return _evened(fair(start, leaving, touch, on), fair(touch, on, end, arriving))


def fair_of_length(start: Point, leaving: Vec, end: Point, arriving: Vec, *, wanted: float) -> Cubic:
    """The fair curve made `wanted` mm long within 1e-8 mm, both its handles grown by one factor.

    Raises NotAPattern when no such curve is to be had: shorter than the straight line, or longer than handles three
    times those of the fair curve make it.
    """
    from scipy.optimize import brentq

    whole = fair(start, leaving, end, arriving)
    first, last = whole.c1 - start, whole.c2 - end

    def drawn(factor: float) -> Cubic:
        return Cubic(start, start + first * factor, end + last * factor, end)

    def surplus(factor: float) -> float:
        return length(drawn(factor), SOLVED / 100) - wanted

    if surplus(0.05) > 0.0 or surplus(3.0) < 0.0:
        raise NotAPattern("curve", f"no fair curve {wanted:.1f} mm long joins its ends in their directions")
    return drawn(float(brentq(surplus, 0.05, 3.0, xtol=1e-13, rtol=1e-14)))


def _angles(start: Point, leaving: Vec, end: Point, arriving: Vec) -> tuple[float, float, float]:
    """(chord, mm; how far the chord is turned from the leaving direction, and the arriving one from the chord)."""
    x, y = end.x - start.x, end.y - start.y
    chord = math.hypot(x, y)
    if chord <= 0.0:
        raise NotAPattern("curve", "both its ends are one place")
    a = math.atan2(leaving.x * y - leaving.y * x, leaving.x * x + leaving.y * y)
    b = math.atan2(x * arriving.y - y * arriving.x, x * arriving.x + y * arriving.y)
    return chord, a, b


def _handle(a: float, b: float) -> float:
    a, b = _held(a), _held(b)
    aa, ab, bb = a * a, a * b, b * b
    k = _HANDLE
    low = k[0] + k[1] * aa + k[2] * ab + k[3] * bb
    return math.exp(low + k[4] * aa * aa + k[5] * aa * ab + k[6] * aa * bb + k[7] * ab * bb + k[8] * bb * bb)


def _moment(a: float, b: float) -> float:
    """Curvature at the end where the angle is a, times chord: of the cubic with these handles."""
    return 2.0 / 3.0 * (math.sin(a) - _handle(b, a) * math.sin(a + b)) / _handle(a, b) ** 2


def _excess(a: float, b: float) -> float:
    a, b = _held(a), _held(b)
    k, aa, ab, bb = _BENDING, a * a, a * b, b * b
    return k[0] * (aa + bb) + k[1] * ab + k[2] * (aa * aa + bb * bb) + k[3] * aa * bb + k[4] * ab * (aa + bb)


def _bending(a: float, b: float) -> float:
    """Bending times chord for these angles."""
    return 4.0 * (a * a - a * b + b * b) * math.exp(_excess(a, b))


def _rate(a: float, b: float) -> float:
    """How fast bending times chord grows with the angle a."""
    a, b = _held(a), _held(b)
    k, aa, ab, bb = _BENDING, a * a, a * b, b * b
    grows = 2.0 * k[0] * a + k[1] * b + 4.0 * k[2] * a * aa + 2.0 * k[3] * a * bb + k[4] * b * (3.0 * aa + bb)
    return 4.0 * math.exp(_excess(a, b)) * (2.0 * a - b + (aa - ab + bb) * grows)


def _held(angle: float) -> float:
    return min(_WIDEST, max(-_WIDEST, angle))


def _root(rate: Callable[[float], float], low: float, high: float) -> float:
    """Where a rate that grows from below nought to above it is nought; the end it points to where it is not."""
    at_low, at_high = rate(low), rate(high)
    if at_low >= 0.0 or at_high <= 0.0:
        return low if at_low >= 0.0 else high
    near = 1e-11 * (high - low)
    was, at_was, at, value = low, at_low, high, at_high
    for _ in range(60):
        if value < 0.0:
            low = max(low, at)
        else:
            high = min(high, at)
        # the secant through the last two; where that leaves what is left of the range, its middle
        step = at - value * (at - was) / (value - at_was) if value != at_was else low
        following = step if low < step < high else 0.5 * (low + high)
        if abs(following - at) <= near:
            break
        was, at_was, at, value = at, value, following, rate(following)
    return at


def _evened(one: Cubic, other: Cubic) -> tuple[Cubic, Cubic]:
    """Both curves with the handles beside their join changed so that they bend alike there."""
    back, ahead = one.end - one.c2, other.c1 - other.start
    # two thirds of these are the curvatures at the join; a handle grown by f makes its own 1 / f^2 as much
    left = back.cross(one.c1 - one.end) / back.norm() ** 3
    right = ahead.cross(other.c2 - other.start) / ahead.norm() ** 3
    if left * right <= 0.0 or not 1.0 / _MOST_UNEVEN < left / right < _MOST_UNEVEN:
        return one, other
    longer = (left / right) ** 0.25
    return (
        Cubic(one.start, one.c1, one.end - back * longer, one.end),
        Cubic(other.start, other.start + ahead * (1.0 / longer), other.c2, other.end),
    )
