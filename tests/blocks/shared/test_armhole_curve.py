"""Both armholes: level at the side seam, what is given kept, no join felt, one line over the shoulder."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from blocks.shared.armhole_curve import Tip, armhole_in_front, armhole_through, lean, leaning, off_square
from drafting.errors import NotAPattern
from drafting.geometry import Point, Vec, curvature, end_tangents, point_at

LEVEL = Vec(1.0, 0.0)


@given(st.floats(-1.5, 1.5))
def test_a_direction_leans_by_the_angle_it_was_made_from(angle: float) -> None:
    assert lean(leaning(angle)) == pytest.approx(angle, abs=1e-12)


@given(
    tip_out=st.floats(0.0, 35.0),
    upper=st.floats(65.0, 100.0),
    lower=st.floats(65.0, 100.0),
    under_out=st.floats(35.0, 90.0),
    off=st.floats(0.05, 0.2),
)
def test_the_back_armhole_keeps_the_width_of_the_back_and_arrives_level(
    tip_out: float, upper: float, lower: float, under_out: float, off: float
) -> None:
    pass_by = Point(180.0, 0.0)
    tip, under = Point(180.0 + tip_out, upper), Point(180.0 + under_out, -lower)
    one, other = armhole_through(tip, lean(pass_by - tip) + off, pass_by, under)
    assert (one.start, one.end, other.start, other.end) == (tip, pass_by, pass_by, under)
    assert end_tangents(one)[1].angle_to(end_tangents(other)[0]) == pytest.approx(0.0, abs=1e-9)
    assert end_tangents(other)[1].angle_to(LEVEL) == pytest.approx(0.0, abs=1e-9)
    assert curvature(one, 1.0) == pytest.approx(curvature(other, 0.0), abs=1e-8)


@given(
    high=st.floats(105.0, 200.0), wide=st.floats(34.0, 75.0), slope=st.floats(0.45, 0.85), reach=st.floats(0.3, 0.55)
)
def test_the_front_armhole_is_narrowest_where_its_curves_meet_and_arrives_level(
    high: float, wide: float, slope: float, reach: float
) -> None:
    chest = 170.0
    tip, under = Point(chest + reach * high * math.tan(slope), high), Point(chest + wide, 0.0)
    upper, lower = armhole_in_front(tip, slope, under, chest)
    assert (upper.start, lower.end) == (tip, under)
    assert upper.end == lower.start
    assert upper.end.x == pytest.approx(chest, abs=1e-9)
    assert min(point_at(curve, k / 60).x for curve in (upper, lower) for k in range(61)) > chest - 1e-9
    assert end_tangents(lower)[1].angle_to(LEVEL) == pytest.approx(0.0, abs=1e-9)
    assert curvature(upper, 1.0) == pytest.approx(curvature(lower, 0.0), rel=1e-6)
    assert upper.end.y > 0.12 * high


@given(back_out=st.floats(5.0, 25.0), square_back=st.floats(0.35, 0.6), square_front=st.floats(0.4, 0.7))
def test_within_its_bounds_the_armhole_bends_alike_on_both_sides_of_the_shoulder(
    back_out: float, square_back: float, square_front: float
) -> None:
    """Nearly: the equation is that of small angles, and where the front is narrowest is only guessed for it."""
    front = Tip(Point(240.0, 150.0), square_front, Point(180.0, 50.0))
    back = Tip(Point(180.0 + back_out, 160.0), square_back, Point(180.0, 80.0))
    under = Point(240.0, 0.0)
    turned = off_square(front, back, under)
    if abs(turned) > math.radians(11.9):
        return
    upper, _ = armhole_in_front(front.tip, square_front - turned, Point(230.0, 0.0), 180.0)
    behind, _ = armhole_through(back.tip, square_back + turned, back.onward, under)
    assert curvature(upper, 0.0) == pytest.approx(curvature(behind, 0.0), abs=0.009)


def test_an_armhole_below_its_underarm_is_refused() -> None:
    with pytest.raises(NotAPattern):
        armhole_in_front(Point(200.0, -10.0), 0.6, Point(240.0, 0.0), 180.0)
