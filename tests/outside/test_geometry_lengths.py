"""Lengths judged by strangers: scipy's adaptive quadrature, numpy's Gauss rules, and pi.

scipy.integrate.quad is QUADPACK (Piessens and others, 1983); its own estimate of its error is added to ours.
"""

from __future__ import annotations

import functools
import math
import warnings
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad

from drafting.geometry import Cubic, Point, arc, area, at_length, length, point_at, run_length
from drafting.geometry import arclength as rules
from drafting.geometry.curve import velocity
from tests.drafting.geometry.shapes import random_cubics

COUNT = 2000
AT_RANDOM = random_cubics(COUNT, seed=1988)


@functools.cache
def truth(k: int) -> tuple[float, float]:
    """The length of a random cubic by quadrature at 1e-12, and how far off that may be."""
    return length_by_quadrature(AT_RANDOM[k], 1.0)


def length_by_quadrature(curve: Cubic, end: float) -> tuple[float, float]:
    """The length from 0 to `end`, parted where the curve slows most and closely round it where it all but stops.

    Without that, quad reported an error of 9e-11 beside a cusp and was 1.3e-8 off (against a sum with 40 digits).
    """
    control = np.array([[p.x, p.y] for p in (curve.start, curve.c1, curve.c2, curve.end)])
    d0, d1, d2 = 3.0 * np.diff(control, axis=0)
    a, b, c = d0 - 2 * d1 + d2, 2 * (d1 - d0), d0
    (ax, ay), (bx, by), (cx, cy) = a.tolist(), b.tolist(), c.tolist()  # plain floats: asked for 400 times a curve

    def speed(t: float) -> float:
        return math.hypot((ax * t + bx) * t + cx, (ay * t + by) * t + cy)

    squared = np.poly1d([a[0], b[0], c[0]]) ** 2 + np.poly1d([a[1], b[1], c[1]]) ** 2
    stops = [0.0, end]
    for root in squared.deriv().roots:
        slow = float(root.real)
        near = (0.0, 1e-1, 1e-2, 1e-3, 1e-4, 1e-5) if speed(slow) < 0.1 * math.sqrt(squared.integ()(1.0)) else (0.0,)
        stops += [t for step in near for t in (slow - step, slow + step) if 0.0 < t < end]
    total = error = 0.0
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # quad warns where rounding stops it; its error estimate says so too
        for low, high in pairwise(sorted(stops)):
            if high > low:
                value, off = quad(speed, low, high, epsabs=1e-12, epsrel=1e-12, limit=200)
                total, error = total + value, error + off
    return total, error


@pytest.mark.parametrize("tol", [1.0, 1e-2, 1e-4, 1e-6, 1e-8])
def test_the_error_of_a_length_is_within_its_bound_on_every_curve(tol: float) -> None:
    worst = 0.0
    for k, curve in enumerate(AT_RANDOM):
        true, doubt = truth(k)
        assert doubt < 1e-8
        off = abs(length(curve, tol) - true)
        assert off <= tol + doubt + 1e-12 * true, (k, curve)
        worst = max(worst, off)
    assert worst > 0.0


def test_a_tenth_of_the_random_curves_all_but_stop_somewhere_on_their_way() -> None:
    slowest = [min(velocity(curve, k / 200).norm() for k in range(201)) / length(curve) for curve in AT_RANDOM]
    assert sum(pace < 1e-4 for pace in slowest) >= COUNT // 10


def test_the_parameter_at_a_length_cuts_off_that_length_by_quadrature() -> None:
    for k in range(0, COUNT, 4):
        curve = AT_RANDOM[k]
        wanted = truth(k)[0] * ((k * 37) % 101) / 101.0
        reached, doubt = length_by_quadrature(curve, at_length(curve, wanted))
        assert abs(reached - wanted) <= 1e-6 + doubt


@pytest.mark.parametrize(("order", "rule"), [(8, rules._GAUSS_8), (16, rules._GAUSS_16), (24, rules._GAUSS_24)])
def test_the_gauss_rules_are_those_of_numpy(order: int, rule: tuple[tuple[float, float], ...]) -> None:
    nodes, weights = np.polynomial.legendre.leggauss(order)
    assert np.array([x for x, _ in rule]) == pytest.approx(nodes[order // 2 :], abs=3e-16)
    # numpy 2.0 rounds one weight of the 24 off by 1.6e-15; newer ones agree to 1e-15
    assert np.array([w for _, w in rule]) == pytest.approx(weights[order // 2 :], abs=2e-15)


@pytest.mark.parametrize("sweep", [0.5 * math.pi, math.pi, 2.0 * math.pi, -1.5 * math.pi, 0.3])
def test_an_arc_strays_outward_from_its_circle_by_no_more_than_the_known_bound(sweep: float) -> None:
    # 2.7253e-4 of the radius for a quarter turn with the 4/3 tan handle (Goldapp 1991)
    centre, radius = Point(30.0, -20.0), 100.0
    strays = [
        math.hypot(p.x - centre.x, p.y - centre.y) / radius - 1.0
        for curve in arc(centre, radius, 0.7, sweep)
        for p in (point_at(curve, k / 1000) for k in range(1001))
    ]
    assert min(strays) >= -1e-12
    assert max(strays) <= 2.7254e-4
    if abs(sweep) >= 0.5 * math.pi:
        assert max(strays) >= 2.7252e-4


def test_a_whole_circle_of_arcs_has_the_circumference_and_area_of_pi() -> None:
    circle = arc(Point(5.0, 5.0), 100.0, 0.0, 2.0 * math.pi)
    # outward by less than 2.73e-4 everywhere, so by less than that in length and twice that in area
    assert 0.0 <= run_length(circle) / (200.0 * math.pi) - 1.0 <= 2.73e-4
    assert 0.0 <= area(circle) / (10000.0 * math.pi) - 1.0 <= 2 * 2.73e-4
