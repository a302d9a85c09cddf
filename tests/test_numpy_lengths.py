from __future__ import annotations

import numpy as np
import pytest

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, length
from tests.bench.numpy_lengths import _gauss_bound, control_points, lengths
from tests.drafting.geometry.shapes import random_cubics


@pytest.mark.parametrize("tol", [1e-2, 1e-4, 1e-8])
def test_lengths_of_many_agree_with_each_by_itself(tol: float) -> None:
    curves: list[Curve] = [*random_cubics(300, seed=5), Line(Point(0, 0), Point(3, 4)), Line(Point(1, 1), Point(1, 1))]
    exact = np.array([length(curve, 1e-11) for curve in curves])
    assert np.abs(lengths(curves, tol) - exact).max() <= tol


def test_the_bound_of_the_quadrature_is_that_of_the_ellipse_free_of_roots() -> None:
    """The bound of L. N. Trefethen, Approximation Theory and Approximation Practice, theorem 19.3, for 16 nodes."""
    curves = random_cubics(200, seed=7)
    p = control_points(curves)
    legs = (3.0 * np.diff(p[..., 0] + 1j * p[..., 1], axis=1)).astype(np.complex128)
    for leg, bound in zip(legs, _gauss_bound(legs), strict=True):
        d0, d1, d2 = leg
        quadratic = np.array([d0 - 2.0 * d1 + d2, 2.0 * (d2 - d0), d0 + 2.0 * d1 + d2]) / 8.0
        foci = [0.5 * (abs(root - 1.0) + abs(root + 1.0)) for root in np.roots(quadratic)]
        half_axis = min([*foci, 0.5 * (64.0 + 1.0 / 64.0)])
        if half_axis < 1.001:  # a root on the interval, nearly: nothing is proven there, and halving is
            assert bound > 1e3
            continue
        rho = half_axis + np.sqrt(half_axis**2 - 1.0)
        most = np.polyval(np.abs(quadratic), half_axis)
        assert bound == pytest.approx((64.0 / 15.0) * most / ((1.0 - rho**-2) * rho**30), rel=1e-6)


def test_no_curves_have_no_lengths() -> None:
    assert lengths([]).shape == (0,)


@pytest.mark.parametrize("tol", [0.0, -1.0, float("nan")])
def test_lengths_within_nothing_are_refused(tol: float) -> None:
    with pytest.raises(NotAPattern, match="cannot be had within"):
        lengths([Line(Point(0, 0), Point(3, 4))], tol)
