"""Side seams: upright at hip and underarm, the same for front and back, going in as they are told."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blocks.shared.side_curve import bodice_side, hip_side, side_share
from drafting.geometry import Point, Vec, end_tangents, point_at

many = settings(deadline=None, max_examples=60)


@many
@given(st.floats(150.0, 400.0), st.floats(-60.0, 90.0), st.floats(-20.0, 25.0))
def test_the_skirts_side_runs_into_the_upright_seam_without_a_corner(hip: float, inset: float, raised: float) -> None:
    side = hip_side(Point(hip, -200.0), Point(hip - inset, raised))
    leaving = end_tangents(side)[0]
    assert leaving.cross(Vec(0.0, 1.0)) == pytest.approx(0.0, abs=1e-12)
    assert leaving.y > 0.0


@many
@given(st.floats(-60.0, 90.0), st.floats(0.02, 0.98))
def test_the_bodices_side_goes_in_by_the_share_it_says(slant: float, share: float) -> None:
    side = bodice_side(Point(200.0, 0.0), Point(200.0 + slant, 180.0))
    at = point_at(side, share)
    assert at.y == pytest.approx(180.0 * share, abs=1e-9)
    assert end_tangents(side)[1].cross(Vec(0.0, 1.0)) == pytest.approx(0.0, abs=1e-12)
    assert 200.0 + slant - at.x == pytest.approx(slant * side_share(share), abs=1e-9)


@many
@given(st.floats(100.0, 300.0), st.floats(-60.0, 90.0))
def test_front_and_back_are_the_same_line_wherever_they_stand(across: float, slant: float) -> None:
    front = bodice_side(Point(across, 0.0), Point(across + slant, 180.0))
    back = bodice_side(Point(0.0, 0.0), Point(slant, 180.0))
    for i in range(11):
        assert (point_at(front, i / 10) - point_at(back, i / 10)).x == pytest.approx(across, abs=1e-9)
