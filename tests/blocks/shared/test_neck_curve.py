"""The neck: square to the centre lines, one line over the shoulders, as long as the neck it goes round, one bend."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from blocks.shared.neck_curve import BACK_RISE, back_neck, front_neck, neck_width
from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Point, Vec, curvature, end_tangents, point_at

girths = st.floats(260.0, 600.0)
slopes = st.floats(math.radians(8.0), math.radians(30.0))
many = settings(deadline=None, max_examples=60)


def length_by_quad(curve: Cubic) -> float:
    """The length by scipy's adaptive quadrature of the speed, written out here from the control points."""
    steps = [(b.x - a.x, b.y - a.y) for a, b in ((curve.start, curve.c1), (curve.c1, curve.c2), (curve.c2, curve.end))]

    def speed(t: float) -> float:
        shares = ((1 - t) ** 2, 2 * t * (1 - t), t * t)
        return 3.0 * math.hypot(
            sum(k * x for k, (x, _) in zip(shares, steps, strict=True)),
            sum(k * y for k, (_, y) in zip(shares, steps, strict=True)),
        )

    return float(quad(speed, 0.0, 1.0, epsabs=1e-9)[0])


@many
@given(girths, slopes, slopes)
def test_the_whole_neck_edge_is_as_long_as_was_asked(girth: float, front: float, back: float) -> None:
    width = neck_width(girth, front, back)
    curves = front_neck(Point(0.0, 300.0), width, front), back_neck(Point(0.0, 400.0), width, back)
    assert 2.0 * sum(map(length_by_quad, curves)) == pytest.approx(girth, abs=1e-5)
    assert neck_width(girth, front, back) == neck_width.__wrapped__(girth, front, back)  # kept, as worked out anew


@many
@given(girths, slopes, slopes)
def test_the_neck_leaves_the_centre_square_and_makes_one_line_over_the_shoulder(
    girth: float, front: float, back: float
) -> None:
    width = neck_width(girth, front, back)
    corners = []
    for curve, slope in (
        (front_neck(Point(0.0, 300.0), width, front), front),
        (back_neck(Point(0.0, 400.0), width, back), back),
    ):
        leaving, arriving = end_tangents(curve)
        assert leaving.cross(Vec(1.0, 0.0)) == pytest.approx(0.0, abs=1e-12)
        shoulder = Vec(math.cos(slope), -math.sin(slope))
        corners.append(abs((-arriving).angle_to(shoulder)))
    assert sum(corners) == pytest.approx(math.pi, abs=1e-12)


@many
@given(girths, slopes, slopes)
def test_the_front_neck_bends_one_way_only(girth: float, front: float, back: float) -> None:
    curve = front_neck(Point(0.0, 0.0), neck_width(girth, front, back), front)
    assert all(curvature(curve, i / 40) > -1e-12 for i in range(41))
    heights = [point_at(curve, i / 40).y for i in range(41)]
    assert heights == sorted(heights)


@many
@given(girths, slopes, slopes)
def test_the_back_neck_is_one_even_shallow_curve(girth: float, front: float, back: float) -> None:
    """Ever more bent from the nape to the shoulder, and never straight for long and then up in a corner."""
    width = neck_width(girth, front, back)
    curve = back_neck(Point(0.0, 0.0), width, back)
    bends = [curvature(curve, i / 40) for i in range(41)]
    assert min(bends) > -1e-12
    # an arc that turns as far within the same rise is the widest bend there can be
    widest = BACK_RISE / (1.0 - math.sin(back + math.radians(16.0)))
    assert max(bends) < 1.6 / widest
    # by the middle of its width it has left the level
    middle = min((point_at(curve, i / 400) for i in range(401)), key=lambda p: abs(p.x - 0.5 * width))
    assert middle.y > 0.015 * BACK_RISE


def test_the_side_neck_stands_above_the_nape_by_the_rise() -> None:
    assert back_neck(Point(0.0, 400.0), 72.0, 0.3).end == Point(72.0, 400.0 + BACK_RISE)


@pytest.mark.parametrize("girth", [0.0, 149.0, 901.0, math.nan])
def test_what_is_no_neck_is_refused(girth: float) -> None:
    with pytest.raises(NotAPattern):
        neck_width(girth, 0.28, 0.3)
