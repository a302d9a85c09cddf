"""The armhole through a point: one way only, and no join to be felt where its two curves meet."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from blocks.parts.armhole import armhole_through, lean, leaning
from drafting.errors import NotAPattern
from drafting.geometry import Point, Vec, curvature, end_tangents

many = settings(deadline=None, max_examples=60)


@given(st.floats(-1.5, 1.5))
def test_a_direction_leans_by_the_angle_it_was_made_from(angle: float) -> None:
    assert lean(leaning(angle)) == pytest.approx(angle, abs=1e-12)


@many
@given(
    tip_out=st.floats(5.0, 40.0),
    upper=st.floats(60.0, 130.0),
    lower=st.floats(60.0, 130.0),
    under_out=st.floats(45.0, 100.0),
    off=st.floats(0.02, 0.3),
    hollow=st.floats(0.4, 0.65),
)
def test_the_armhole_turns_one_way_only_and_its_join_cannot_be_felt(
    tip_out: float, upper: float, lower: float, under_out: float, off: float, hollow: float
) -> None:
    pass_by = Point(180.0, 0.0)
    tip, under = Point(180.0 + tip_out, upper), Point(180.0 + under_out, -lower)
    leaving = lean(pass_by - tip) + off
    one, other = armhole_through(tip, leaving, pass_by, under, Vec(1.0, 0.0), hollow)
    assert (one.start, one.end, other.start, other.end) == (tip, pass_by, pass_by, under)
    assert end_tangents(one)[1].cross(end_tangents(other)[0]) == pytest.approx(0.0, abs=1e-9)
    bends = [curvature(curve, i / 40) for curve in (one, other) for i in range(41)]
    assert min(bends) > 0.0
    ratio = curvature(one, 1.0) / curvature(other, 0.0)
    # where no direction at the point makes both bend alike the nearer end of the range is taken
    assume(abs(math.log(ratio)) < 1.0)
    assert ratio == pytest.approx(1.0, abs=0.02)


def test_an_armhole_that_would_leave_the_shoulder_away_from_its_point_is_refused() -> None:
    tip, pass_by = Point(200.0, 100.0), Point(180.0, 0.0)
    with pytest.raises(NotAPattern):
        armhole_through(tip, lean(pass_by - tip) - 0.2, pass_by, Point(250.0, -90.0), Vec(1.0, 0.0), 0.5)
