from __future__ import annotations

import math

import pytest

from drafting.errors import NotAPattern
from drafting.geometry import (
    Point,
    Vec,
    blend,
    curvature,
    distance,
    end_tangents,
    length,
    point_at,
    polar,
    smooth_through,
)
from drafting.geometry.fit import bend


def test_two_directions_that_a_circle_can_join_are_joined_by_it() -> None:
    quarter = blend(Point(100, 0), Vec(0, 1), Point(0, 100), Vec(-1, 0))
    for k in range(21):
        assert distance(Point(0, 0), point_at(quarter, k / 20)) == pytest.approx(100.0, rel=2.8e-4)


def test_fullness_lengthens_the_curve_and_keeps_its_ends() -> None:
    ends = (Point(0, 0), polar(0.5), Point(100, 0), polar(-0.5))
    assert length(blend(*ends, fullness=1.5)) > length(blend(*ends))
    assert end_tangents(blend(*ends, fullness=1.5))[0].cross(polar(0.5)) == pytest.approx(0.0, abs=1e-12)


def test_a_bend_turns_one_way_only() -> None:
    curve = bend(Point(0, 0), Vec(1, 0), Point(60, 90), Vec(0.2, 1), tight=0.8)
    assert all(curvature(curve, k / 50) >= 0.0 for k in range(1, 50))


def test_no_bend_goes_where_its_tangent_lines_do_not_meet() -> None:
    with pytest.raises(NotAPattern):
        bend(Point(0, 0), Vec(1, 0), Point(60, 90), Vec(0.2, -1))


def test_a_curve_through_points_on_a_line_is_the_line() -> None:
    run = smooth_through([Point(0, 0), Point(10, 0), Point(40, 0)], Vec(1, 0), Vec(1, 0))
    assert sum(length(curve) for curve in run) == pytest.approx(40.0, abs=1e-3)


def test_a_curve_through_points_of_a_circle_is_nearly_the_circle() -> None:
    places = [Point(0, 0) + polar(k * math.pi / 12, 100.0) for k in range(7)]
    run = smooth_through(places, Vec(0, 1), Vec(-1, 0))
    for curve in run:
        assert distance(Point(0, 0), point_at(curve, 0.5)) == pytest.approx(100.0, abs=0.05)


@pytest.mark.parametrize("places", [[Point(0, 0)], [Point(0, 0), Point(0, 0)]])
def test_too_few_points_are_refused(places: list[Point]) -> None:
    with pytest.raises(NotAPattern):
        smooth_through(places, Vec(1, 0), Vec(1, 0))
