from __future__ import annotations

import math

import pytest

from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    at_length,
    bounds,
    curvature,
    distance,
    flatten,
    length,
    lerp,
    point_at,
    polar,
    polyline,
    reverse,
    run_length,
    split,
    tangent,
)
from drafting.geometry.curve import handles, stationary, velocity
from drafting.pattern import Edge, Role

HILL = Cubic(Point(0, 0), Point(0, 40), Point(100, 40), Point(100, 0))


def test_places_move_by_displacements_and_differ_by_them() -> None:
    assert Point(3, 4) + Vec(1, -1) == Point(4, 3)
    assert Point(3, 4) - Point(1, 1) == Vec(2, 3)
    assert Point(3, 4) - Vec(1, 1) == Point(2, 3)
    assert distance(Point(0, 0), Point(3, 4)) == 5.0
    assert lerp(Point(0, 0), Point(10, 20), 1.5) == Point(15, 30)


def test_left_is_a_quarter_turn_anticlockwise() -> None:
    assert Vec(1, 0).left() == Vec(0, 1)
    assert Vec(1, 0).right() == Vec(0, -1)
    assert Vec(1, 0).cross(Vec(0, 1)) == 1.0
    assert polar(math.radians(30), 2.0).angle() == pytest.approx(math.radians(30))


def test_equal_means_equal_and_near_says_how_near() -> None:
    assert Point(1, 1) != Point(1, 1 + 1e-9)
    assert Point(1, 1).near(Point(1, 1 + 1e-9))
    assert not Point(1, 1).near(Point(1, 1.1), 0.05)


def test_a_curve_begins_and_ends_where_it_says() -> None:
    assert (point_at(HILL, 0.0), point_at(HILL, 1.0)) == (HILL.start, HILL.end)
    assert point_at(HILL, 0.5) == Point(50, 30)


def test_a_handle_on_its_end_leaves_the_limit_direction() -> None:
    curve = Cubic(Point(0, 0), Point(0, 0), Point(0, 40), Point(100, 40))
    assert tangent(curve, 0.0) == Vec(0, 1)
    assert tangent(curve, 1.0) == Vec(1, 0)


def test_a_point_has_no_direction() -> None:
    with pytest.raises(NotAPattern):
        tangent(Line(Point(1, 1), Point(1, 1)), 0.5)
    with pytest.raises(NotAPattern):
        tangent(Cubic(*[Point(1, 1)] * 4), 0.0)


def test_curvature_is_positive_to_the_left_and_nought_on_a_line() -> None:
    assert curvature(HILL, 0.5) < 0.0
    assert curvature(Line(Point(0, 0), Point(9, 9)), 0.3) == 0.0


def test_a_line_is_as_long_as_it_is() -> None:
    assert length(Line(Point(0, 0), Point(30, 40))) == 50.0


def test_a_cubic_drawn_along_a_line_is_as_long_as_the_line() -> None:
    assert length(Cubic(Point(0, 0), Point(10, 0), Point(20, 0), Point(30, 0))) == pytest.approx(30.0, abs=1e-4)


@pytest.mark.parametrize("wanted", [-5.0, 0.0])
def test_no_length_is_the_start_and_too_much_is_the_end(wanted: float) -> None:
    assert at_length(HILL, wanted) == 0.0
    assert at_length(HILL, 1e6) == 1.0
    assert at_length(Line(Point(0, 0), Point(0, 0)), 1.0) == 1.0


def test_half_the_length_of_a_symmetrical_curve_is_its_middle() -> None:
    assert at_length(HILL, 0.5 * length(HILL, 1e-9)) == pytest.approx(0.5, abs=1e-7)


def test_a_length_is_found_also_where_the_first_place_looked_at_is_one_where_the_curve_stands_still() -> None:
    """It runs 137.5 mm to the right, turns in the middle of its parameter, and runs 87.5 mm back."""
    turning = Cubic(Point(0, 0), Point(200, 0), Point(150, 0), Point(50, 0))
    whole = length(turning, 1e-9)
    assert whole == pytest.approx(225.0)
    assert velocity(turning, 0.5) == Vec(0, 0)
    for gone, x in ((112.5, 112.5), (137.5, 137.5), (150.0, 125.0)):
        assert point_at(turning, at_length(turning, gone)).x == pytest.approx(x, abs=1e-5)
    assert at_length(turning, 0.5 * whole) == pytest.approx(at_length(turning, 112.5), abs=1e-6)


def test_the_two_parts_of_a_split_meet_in_one_point_and_keep_the_outer_ends() -> None:
    first, second = split(HILL, 0.25)
    assert first.start == HILL.start
    assert first.end == second.start
    assert second.end == HILL.end


@pytest.mark.parametrize(
    ("heights", "level"),
    [
        ((0.0, 1.0, 0.0, 1.0), {0.5}),  # it stands still there, and goes on
        ((0.0, 40.0, 40.0, 0.0), {0.5}),
        ((0.0, 0.0, 1.0, 1.0), set()),  # at its very ends
        ((0.0, 1.0, 2.0, 3.0), set()),
        ((0.0, 200.0, 150.0, 50.0), {0.5}),  # the other place lies beyond
        ((5.0, 5.0, 5.0, 5.0), set()),
    ],
)
def test_a_coordinate_stands_still_where_its_derivative_is_zero_between_the_ends(
    heights: tuple[float, float, float, float], level: set[float]
) -> None:
    for order in (heights, heights[::-1]):
        found = stationary(*order)
        expected = level if order == heights else {1.0 - t for t in level}
        assert {round(t, 9) for t in found} == {round(t, 9) for t in expected}


def test_bounds_hold_the_bulge_and_not_the_handles() -> None:
    assert bounds(HILL) == (0.0, 0.0, 100.0, 30.0)


@pytest.mark.parametrize("tol", [1.0, 0.01])
def test_a_flattened_curve_strays_no_more_than_asked(tol: float) -> None:
    chords = flatten(HILL, tol)
    assert (chords[0], chords[-1]) == (HILL.start, HILL.end)
    for k in range(len(chords) - 1):
        middle = point_at(HILL, (k + 0.5) / (len(chords) - 1))
        along = (chords[k + 1] - chords[k]).unit()
        assert abs(along.cross(middle - chords[k])) <= tol


def test_a_curve_drawn_along_a_line_is_flattened_to_its_ends() -> None:
    ends = [Point(0, 0), Point(30, 0)]
    assert flatten(Cubic(ends[0], Point(10, 0), Point(20, 0), ends[1]), 0.01) == flatten(Line(*ends), 0.01) == ends


@pytest.mark.parametrize("tol", [0, 0.0, -1.0, math.nan])
@pytest.mark.parametrize("curve", [HILL, Line(HILL.start, HILL.end)])
def test_a_length_or_a_polyline_within_nothing_is_refused(curve: Curve, tol: float) -> None:
    for measure, what in ((length, "a length: it"), (flatten, "points along a line: they")):
        with pytest.raises(NotAPattern, match=f"^{what} cannot be had within {tol} mm$"):
            measure(curve, tol)  # type: ignore[operator]
    for measure_all in (polyline, run_length):
        with pytest.raises(NotAPattern, match="cannot be had within"):
            measure_all([curve], tol)
    with pytest.raises(NotAPattern, match="cannot be had within"):
        Edge("hem", (curve,), Role.HEM).length_within(tol)


def test_a_length_is_as_near_as_a_float_can_hold_however_little_is_asked_for() -> None:
    assert length(HILL, 1e-300) == pytest.approx(length(HILL, 1e-9), abs=1e-9)


@pytest.mark.parametrize("place", [Point(math.nan, 0.0), Point(math.inf, 0.0)])
def test_the_length_of_what_is_no_curve_is_no_number(place: Point) -> None:
    assert not math.isfinite(length(Cubic(place, HILL.c1, HILL.c2, HILL.end)))


def test_a_line_is_split_and_turned_round_as_a_curve_is() -> None:
    line = Line(Point(0, 0), Point(40, 80))
    assert split(line, 0.25) == (Line(Point(0, 0), Point(10, 20)), Line(Point(10, 20), Point(40, 80)))
    assert reverse(line) == Line(Point(40, 80), Point(0, 0))
    assert bounds(reverse(line)) == bounds(line) == (0, 0, 40, 80)
    assert at_length(line, 0.25 * length(line)) == 0.25
    third = (Point(40, 80) - Point(0, 0)) * (1.0 / 3.0)
    assert handles(line) == (third, third)
    assert handles(HILL) == (Vec(0, 40), Vec(0, -40))
