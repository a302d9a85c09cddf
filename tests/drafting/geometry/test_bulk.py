from __future__ import annotations

import numpy as np
import pytest

from drafting.geometry import Curve, Line, Point, length, point_at
from drafting.geometry.bulk import control_points, lengths, points_at
from tests.drafting.geometry.shapes import random_cubics


@pytest.mark.parametrize("tol", [1e-2, 1e-4, 1e-8])
def test_lengths_of_many_agree_with_each_by_itself(tol: float) -> None:
    curves: list[Curve] = [*random_cubics(300, seed=5), Line(Point(0, 0), Point(3, 4)), Line(Point(1, 1), Point(1, 1))]
    exact = np.array([length(curve, 1e-11) for curve in curves])
    assert np.abs(lengths(curves, tol) - exact).max() <= tol


def test_no_curves_have_no_lengths() -> None:
    assert lengths([]).shape == (0,)


def test_places_of_many_agree_with_each_by_itself() -> None:
    curves: list[Curve] = [*random_cubics(20, seed=6), Line(Point(0, 0), Point(3, 4))]
    ts = np.linspace(0.0, 1.0, 7)
    places = points_at(control_points(curves), ts)
    assert places.shape == (21, 7, 2)
    for curve, row in zip(curves, places, strict=True):
        for t, (x, y) in zip(ts, row, strict=True):
            assert point_at(curve, float(t)).near(Point(float(x), float(y)), 1e-9)
