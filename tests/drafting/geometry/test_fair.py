"""Fair curves: ends and directions kept, no join to be felt, the same at any size and place, mirrored alike."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Point,
    Vec,
    curvature,
    distance,
    end_tangents,
    fair,
    fair_through,
    fair_touching,
    moved,
    polar,
    turn,
)
from drafting.geometry.bending import bending

angles = st.floats(-1.2, 1.4)
sizes = st.floats(5.0, 900.0)


def ends_of(a: float, b: float, size: float) -> tuple[Point, Vec, Point, Vec]:
    """Ends `size` apart with the angle a before the chord and b after it."""
    return Point(3.0, -7.0), polar(-a), Point(3.0 + size, -7.0), polar(b)


@given(a=angles, b=angles, size=sizes)
def test_a_fair_curve_keeps_its_ends_and_directions(a: float, b: float, size: float) -> None:
    start, leaving, end, arriving = ends_of(a, b, size)
    curve = fair(start, leaving, end, arriving)
    assert (curve.start, curve.end) == (start, end)
    one, other = end_tangents(curve)
    assert one.angle_to(leaving) == pytest.approx(0.0, abs=1e-9)
    assert other.angle_to(arriving) == pytest.approx(0.0, abs=1e-9)


@given(a=angles, b=angles, size=sizes, turned=st.floats(-3.0, 3.0), stretched=st.floats(0.1, 10.0))
def test_it_is_the_same_shape_wherever_and_however_large_it_is_drawn(
    a: float, b: float, size: float, turned: float, stretched: float
) -> None:
    start, leaving, end, arriving = ends_of(a, b, size)
    move = turn(Point(50.0, 20.0), turned)
    there = fair(move.point(start), move.vec(leaving) * 7.0, move.point(end), move.vec(arriving))
    here = moved(fair(start, leaving, end, arriving), move)
    assert isinstance(here, Cubic)
    assert distance(here.c1, there.c1) + distance(here.c2, there.c2) < 1e-9 * size
    larger = fair(*ends_of(a, b, size * stretched))
    assert distance(larger.start, larger.c1) == pytest.approx(stretched * distance(here.start, here.c1), rel=1e-9)


@given(a=st.floats(0.05, 0.7), share=st.floats(0.75, 1.3))
def test_it_turns_one_way_where_neither_angle_is_much_the_larger(a: float, share: float) -> None:
    curve = fair(*ends_of(a, a * share, 100.0))
    assert all(curvature(curve, k / 40) > 0.0 for k in range(41))


@given(a=st.floats(0.1, 1.2), share=st.floats(0.2, 1.0), mirrored=st.booleans())
def test_a_steady_curve_does_not_turn_back(a: float, share: float, mirrored: bool) -> None:
    angles = (a * share, a) if mirrored else (a, a * share)
    curve = fair(*ends_of(*angles, 100.0), steady=True)
    assert all(curvature(curve, k / 40) > -1e-9 for k in range(41))


@given(
    wide=st.floats(30.0, 90.0),
    low=st.floats(60.0, 100.0),
    high=st.floats(60.0, 100.0),
    out=st.floats(-5.0, 35.0),
    more=st.floats(0.1, 0.3),
)
def test_no_join_is_felt_where_a_curve_goes_through_a_place(
    wide: float, low: float, high: float, out: float, more: float
) -> None:
    place, end = Point(0.0, low), Point(out, low + high)
    lean = math.atan2(out, high) + more
    one, other = fair_through(Point(wide, 0.0), Vec(-1.0, 0.0), place, end, Vec(math.sin(lean), math.cos(lean)))
    assert one.end == other.start == place
    assert end_tangents(one)[1].angle_to(end_tangents(other)[0]) == pytest.approx(0.0, abs=1e-9)
    assert curvature(one, 1.0) == pytest.approx(curvature(other, 0.0), abs=1e-8)


@given(wide=st.floats(34.0, 90.0), high=st.floats(110.0, 200.0), lean=st.floats(0.4, 0.8), reach=st.floats(0.4, 0.65))
def test_a_curve_that_touches_a_line_comes_no_nearer_and_no_join_is_felt(
    wide: float, high: float, lean: float, reach: float
) -> None:
    end = Point(reach * high * math.tan(lean), high)
    one, other = fair_touching(
        Point(wide, 0.0), Vec(-1.0, 0.0), Point(0.0, 999.0), Vec(0.0, 1.0), end, Vec(math.sin(lean), math.cos(lean))
    )
    assert one.end == other.start
    assert one.end.x == pytest.approx(0.0, abs=1e-9)
    assert abs(one.c2.x) < 1e-9
    assert abs(other.c1.x) < 1e-9
    assert 0.05 * high < one.end.y < 0.95 * high
    assert curvature(one, 1.0) == pytest.approx(curvature(other, 0.0), rel=1e-6)


def test_a_curve_drawn_halfway_to_a_spline_touches_too_and_bends_less_than_one_of_one_bend() -> None:
    # leaves so nearly towards the line that a spline would turn back: measured by quadrature, not by its own rule
    ends = (Point(60.0, 0.0), Vec(-0.62, 0.78), Point(0.0, 999.0), Vec(0.0, 1.0), Point(50.0, 150.0), Vec(1.0, 0.0))
    strict, halfway = fair_touching(*ends), fair_touching(*ends, halfway=True)
    assert halfway[0].end.x == pytest.approx(0.0, abs=1e-9)
    assert curvature(halfway[0], 1.0) == pytest.approx(curvature(halfway[1], 0.0), rel=1e-6)
    assert bending(halfway) < bending(strict)


def test_what_cannot_be_drawn_is_refused() -> None:
    here = Point(1.0, 2.0)
    with pytest.raises(NotAPattern):
        fair(here, Vec(1.0, 0.0), here, Vec(0.0, 1.0))
    with pytest.raises(NotAPattern):
        fair_touching(here, Vec(-1.0, 0.0), here, Vec(0.0, 1.0), Point(50.0, -90.0), Vec(0.0, 1.0))
