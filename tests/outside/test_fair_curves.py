"""How fair the fair curves are: a general minimiser, and bending by quadrature, that share no code with them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import minimize

from drafting.geometry import Cubic, Point, Vec, fair, fair_through, fair_touching, polar

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(40)
_T = 0.5 * (_NODES + 1.0)[:, None]

Places = NDArray[np.float64]


def bending(p: Places) -> float:
    """The integral of curvature squared along a cubic given by its four places."""
    d = 3 * ((1 - _T) ** 2 * (p[1] - p[0]) + 2 * (1 - _T) * _T * (p[2] - p[1]) + _T**2 * (p[3] - p[2]))
    e = 6 * ((1 - _T) * (p[2] - 2 * p[1] + p[0]) + _T * (p[3] - 2 * p[2] + p[1]))
    speed = np.hypot(d[:, 0], d[:, 1])
    curvature = (d[:, 0] * e[:, 1] - d[:, 1] * e[:, 0]) / speed**3
    return float((curvature**2 * speed) @ (0.5 * _WEIGHTS))


def places(curve: Cubic) -> Places:
    return np.array([(p.x, p.y) for p in (curve.start, curve.c1, curve.c2, curve.end)])


def least(a: float, b: float) -> float:
    """The bending of the best cubic over a chord of 1 mm with these angles, sought from several first handles."""

    def drawn(logs: Places) -> float:
        one, other = np.exp(logs)
        if max(one, other) > 1.2:
            return 1e3
        ends = np.array([(0, 0), (one * math.cos(a), -one * math.sin(a)), (1 - other * math.cos(b), 0), (1, 0)])
        ends[2, 1] = -other * math.sin(b)
        return bending(ends)

    firsts = ((0.36, 0.36), (0.5, 0.3), (0.3, 0.5), (0.55, 0.5))
    return min(float(minimize(drawn, np.log(first), method="Nelder-Mead").fun) for first in firsts)


@pytest.mark.parametrize("a", range(-40, 81, 24))
@pytest.mark.parametrize("b", range(0, 81, 16))
def test_a_fair_cubic_bends_hardly_more_than_the_best_there_is(a: int, b: int) -> None:
    if a + b < 0 or (a, b) == (0, 0):
        return
    one, other = math.radians(a), math.radians(b)
    ends = Point(0.0, 0.0), polar(-one), Point(1.0, 0.0), polar(other)
    best, mine = least(one, other), bending(places(fair(*ends)))
    assert best * 0.999 < mine < best * 1.075


@pytest.mark.parametrize(
    ("wide", "high", "out", "lean"), [(34, 120, 50, 35), (45, 140, 70, 38), (60, 160, 75, 35), (50, 200, 80, 32)]
)
def test_the_free_height_of_the_narrowest_place_is_that_of_least_bending_without_turning_back(
    wide: float, high: float, out: float, lean: float
) -> None:
    into = np.array([math.sin(math.radians(lean)), math.cos(math.radians(lean))])

    def whole(logs: Places) -> float:
        p, q, a, b, h = np.exp(logs)
        top = np.array([out, high], dtype=float)
        # no handle past the place where its tangent lines meet: the curve may not turn back
        meet = h + a - high + out * into[1] / into[0]
        if h > 0.9 * high or meet > 0.0 or b > (out / into[0]) or p > wide or q > h:
            return 1e3
        low = np.array([(wide, 0), (wide - p, 0), (0, h - q), (0, h)], dtype=float)
        return bending(low) + bending(np.array([(0, h), (0, h + a), top - b * into, top]))

    first = np.log([0.55 * wide, 0.1 * high, 0.05 * high, 0.5 * high, 0.25 * high])
    best = minimize(whole, first, method="Nelder-Mead", options={"maxiter": 6000, "maxfev": 6000})
    low, upper = fair_touching(
        Point(wide, 0.0), Vec(-1.0, 0.0), Point(0.0, 0.0), Vec(0.0, 1.0), Point(out, high), Vec(*into)
    )
    assert bending(places(low)) + bending(places(upper)) < 1.03 * best.fun
    assert low.end.y == pytest.approx(float(np.exp(best.x[4])), abs=5.0)


@pytest.mark.parametrize(("out", "lean"), [(5, 15), (15, 22), (25, 30), (-5, 10)])
def test_a_curve_through_a_place_takes_the_direction_of_least_bending(out: float, lean: float) -> None:
    start, place, end, into = Point(55.0, 0.0), Point(0.0, 80.0), Point(out, 165.0), polar(math.radians(90.0 - lean))
    low, upper = fair_through(start, Vec(-1.0, 0.0), place, end, into)
    mine = bending(places(low)) + bending(places(upper))

    def with_direction(turn: float) -> float:
        through = polar(turn)
        one, other = fair(start, Vec(-1.0, 0.0), place, through), fair(place, through, end, into)
        return bending(places(one)) + bending(places(other))

    assert mine < 1.05 * min(with_direction(math.radians(d)) for d in range(60, 131))
