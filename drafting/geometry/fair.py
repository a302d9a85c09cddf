"""The fairest curve that keeps what is given: the one of least bending, by formulas in its angles alone.

Bending is the integral along the curve of curvature squared, 1/mm: what a thin wooden spline held at its ends makes as
small as it can (D. Bernoulli to Euler, 1742). It depends on the size of a curve only by 1 / chord, so between two ends
it is a number of two angles: from the leaving direction to the chord and from the chord to the arriving one. The
handles of the cubic of least bending were computed for all pairs of angles from -50 to 90 degrees, 10 apart, and are
kept here as a fitted formula. A cubic drawn by it bends 0.6 % more than the best cubic
on average, 7 % more at worst, up to 80 degrees (`tests/outside/test_fair_curves.py` computes it again).

A spline turns back where one angle is more than about twice the other. Where it is not to, `steady`, the best cubic
that does not has one handle that ends where its tangent lines meet. Drawn so it turns back by 0.6 degrees at most,
less than a pencil line does over any armhole.

Where two such curves meet, what was left free there is found in a few secant steps: the place or direction at which
both bend alike, because a spline has the same moment on both sides of a place that only holds it. So no join can be
felt.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry.curve import Cubic
from drafting.geometry.point import Point, Vec
from drafting.geometry.solve import root_between

__all__ = ["fair", "fair_through", "fair_touching"]

# the logarithm of a handle as a share of the chord, a the angle at its own end and b at the other, radians:
# of 1, a^2, ab, b^2, a^4, a^3 b, a^2 b^2, a b^3, b^4
_HANDLE: Final = (-1.1075, 0.2897, 0.0318, -0.0584, -0.0607, -0.0338, 0.1094, 0.0474, 0.0023)
_WIDEST: Final = math.radians(100.0)
"""The formula is not asked beyond this: a curve with a wider angle takes the handles of this one."""
_SHORTEST: Final = 0.1
"""No handle is cut shorter than this share of the chord: where tangent lines meet sooner a curve that does not turn
back would have a corner nearly, and a little waver is the lesser evil."""
_NEAR_END: Final = 0.02
"""Two curves meet no nearer to where no line of one bend can be drawn than this share of the range in between."""

_HINT: Final = 1e-6
"""Curves that may not turn back are straight in a place in more than one direction, where they would turn back: the
spline that may has the say there, by so much that nothing else is changed by it."""

_ROOT: Final = 1e-11
"""How near what was left free comes to where both bend alike, as a share of its range."""

_Shares = tuple[float, float]
"""Both handles of a curve as shares of its chord."""

_Kept = Callable[[float, float, _Shares], _Shares]
"""The handles, for the angles at either end, of a curve that is kept from turning back, from those of the spline."""


def fair(start: Point, leaving: Vec, end: Point, arriving: Vec, *, steady: bool = False) -> Cubic:
    """The cubic of least bending from start to end that leaves and arrives in the given directions.

    steady: whether it must hardly turn back where its tangent lines meet ahead of the start and behind the end
    Raises NotAPattern where both ends are one place.
    """
    return _drawn(start, leaving, end, arriving, _steady if steady else _spline)


def fair_through(
    start: Point, leaving: Vec, place: Point, end: Point, arriving: Vec, *, steady: bool = False
) -> tuple[Cubic, Cubic]:
    """Two cubics that meet in `place` without a corner or a jump of bending, its direction left free.

    The direction is the one in which both bend alike, which is where the bending of a spline is least. Raises
    NotAPattern where two of the three places are one.
    """
    chord, a, _ = _angles(start, leaving, place, place - start)
    beyond, _, b = _angles(place, end - place, end, arriving)
    turn = (place - start).angle_to(end - place)
    kept = _steady if steady else _spline

    def moment(at: float, other: float) -> float:
        spline = _splined(at, other)
        hint, shares = _moment(at, other, spline), kept(at, other, spline)
        return (hint if shares is spline else _moment(at, other, shares)) + _HINT * hint

    def rate(off: float) -> float:
        # `off` is how far the direction in the place has turned from the chord before it
        return moment(off, a) / chord - moment(turn - off, b) / beyond

    widest = math.radians(85.0)
    off = root_between(rate, max(-widest, turn - widest), min(widest, turn + widest), near=_ROOT)
    through = (place - start).turned(off).unit()
    return _drawn(start, leaving, place, through, kept), _drawn(place, through, end, arriving, kept)


def fair_touching(
    start: Point, leaving: Vec, place: Point, along: Vec, end: Point, arriving: Vec, *, halfway: bool = False
) -> tuple[Cubic, Cubic]:
    """Two cubics that meet on the line through `place`, running along it there; where on the line is left free.

    So a curve comes as near to a line as is asked and no nearer: narrowest at x = c, at the height where both bend
    alike. It turns one way only. along: the direction of the line and of travel on it. Raises NotAPattern where no
    curve of one bend leaves, touches the line and arrives so.
    halfway: whether it is drawn halfway between that and a spline, which bends less and may turn back
    """
    kept = _halfway if halfway else _one_way
    on = along.unit()
    turning = math.copysign(1.0, on.cross(end - place))
    first = (start - place).dot(on) + _ahead(start - place, leaving, on)
    last = (end - place).dot(on) - _ahead(end - place, -arriving, -on)
    margin = _NEAR_END * (last - first)
    if margin <= 0.0 or turning * on.cross(start - place) < 0.0:
        raise NotAPattern("the line", reason="no smooth line can be drawn there between its two ends")

    def rate(s: float) -> float:
        touch = place + on * s
        chord, a, b = _angles(start, leaving, touch, on)
        beyond, c, d = _angles(touch, on, end, arriving)
        after, before = _moment(c, d, kept(c, d, _splined(c, d))), _moment(b, a, kept(b, a, _splined(b, a)))
        return turning * (after / beyond - before / chord)

    touch = place + on * root_between(rate, first + margin, last - margin, near=_ROOT)
    return _drawn(start, leaving, touch, on, kept), _drawn(touch, on, end, arriving, kept)


def _drawn(start: Point, leaving: Vec, end: Point, arriving: Vec, kept: _Kept) -> Cubic:
    chord, a, b = _angles(start, leaving, end, arriving)
    one, other = kept(a, b, _splined(a, b))
    first, last = chord * one / leaving.norm(), chord * other / arriving.norm()
    return Cubic(start, start + leaving * first, end - arriving * last, end)


def _angles(start: Point, leaving: Vec, end: Point, arriving: Vec) -> tuple[float, float, float]:
    """(chord, mm; how far the chord is turned from the leaving direction, and the arriving one from the chord)."""
    x, y = end.x - start.x, end.y - start.y
    chord = math.hypot(x, y)
    if chord <= 0.0:
        raise NotAPattern("the line", reason="both its ends are one place")
    a = math.atan2(leaving.x * y - leaving.y * x, leaving.x * x + leaving.y * y)
    b = math.atan2(x * arriving.y - y * arriving.x, x * arriving.x + y * arriving.y)
    return chord, a, b


def _splined(a: float, b: float) -> _Shares:
    """The handles of the best cubic however it turns, for the angles at either end."""
    a, b = min(_WIDEST, max(-_WIDEST, a)), min(_WIDEST, max(-_WIDEST, b))
    return _handle(a, b), _handle(b, a)


def _spline(_a: float, _b: float, spline: _Shares) -> _Shares:
    """The handles of a curve that may turn back."""
    return spline


def _steady(a: float, b: float, spline: _Shares) -> _Shares:
    """The handles of a curve that hardly turns back."""
    return _one_way(a, b, spline, _SHORTEST)


def _one_way(a: float, b: float, spline: _Shares, shortest: float = 0.0) -> _Shares:
    """The handles of a curve that turns one way only as long as no handle is `shortest`."""
    one, other = spline
    whole = math.sin(a + b)
    if a * b <= 0.0 or whole * a <= 0.0:
        return spline
    # the ways from either end to where the tangent lines meet
    to_meet, from_meet = math.sin(b) / whole, math.sin(a) / whole
    if one > max(to_meet, shortest):
        return max(to_meet, shortest), max(other, from_meet * _run_in(a, b / a))
    if other > max(from_meet, shortest):
        return max(one, to_meet * _run_in(b, a / b)), max(from_meet, shortest)
    return spline


def _halfway(a: float, b: float, spline: _Shares) -> _Shares:
    """The handles of a curve that turns back about half as far as a spline."""
    (one, other), (first, last) = _one_way(a, b, spline), spline
    return math.sqrt(one * first), math.sqrt(other * last)


def _run_in(larger: float, share: float) -> float:
    """The handle at the smaller angle, as a share of the way to the meeting, where the other goes all of its way.

    share: the smaller angle by the larger. Fitted to the best cubics for 10 to 70 degrees, within 0.01.
    """
    square = larger * larger
    return 1.0 - share * (0.76 + 0.78 * share - 0.55 * share * share) * (1.0 + 0.41 * square + 0.07 * square * square)


def _handle(a: float, b: float) -> float:
    """The handle at the end where the angle is a, as a share of the chord, of the best cubic however it turns."""
    aa, ab, bb = a * a, a * b, b * b
    k = _HANDLE
    low = k[0] + k[1] * aa + k[2] * ab + k[3] * bb
    return math.exp(low + k[4] * aa * aa + k[5] * aa * ab + k[6] * aa * bb + k[7] * ab * bb + k[8] * bb * bb)


def _moment(a: float, b: float, shares: _Shares) -> float:
    """Curvature at the end where the angle is a, times chord: of the cubic with these handles, its own first."""
    one, other = shares
    return 2.0 / 3.0 * (math.sin(a) - other * math.sin(a + b)) / (one * one)


def _ahead(away: Vec, direction: Vec, on: Vec) -> float:
    """How far along `on` a line from a place `away` from another runs before it meets that one's line; 0 for never."""
    steep = -direction.cross(on)
    gone = away.cross(on) / steep if steep else 0.0
    return max(0.0, gone * direction.dot(on))
