"""How far a back neck is eased for its allowance, and the grain line that is put in the middle of a piece."""

from __future__ import annotations

import math

import pytest

from drafting.alterations.techniques.marks.grain_line import grain_in_middle
from drafting.alterations.techniques.redrawing.fair_neck import eased_rise, neck_drawn
from drafting.geometry import Line, Point, Vec, distance, lerp, point_at


@pytest.mark.parametrize("angle", [0.6, 0.9, 1.2])
@pytest.mark.parametrize("allowance", [6.0, 10.0, 15.0])
def test_a_back_neck_is_eased_only_where_it_bends_tighter_than_its_allowance_and_3_mm(
    angle: float, allowance: float
) -> None:
    into, square = Vec(math.cos(angle), math.sin(angle)), Vec(1.0, 0.0)
    for rise in (8.0, 15.0, 30.0):
        across = Vec(75.0, rise)
        eased = eased_rise(square, into, across, allowance, 1.0)
        # a reader of its own: the circle through three near points of a dense polyline
        bends = [tightest_by_circles(square, turned, across) for turned in (into, into.turned(-eased))]
        if eased:
            assert bends[0] < allowance + 3.0
            assert bends[1] == pytest.approx(allowance + 3.0, rel=0.02) or eased == 1.0
        else:
            assert bends[0] >= allowance + 2.99


def tightest_by_circles(square: Vec, into: Vec, across: Vec) -> float:
    """The least radius of the circles through three neighbours of a polyline laid along the neck."""
    (curve,) = neck_drawn(Point(0.0, 0.0), square, Point(across.x, across.y), into)
    places = [point_at(curve, i / 1000) for i in range(1001)]
    radii = []
    for a, b, c in zip(places, places[1:], places[2:], strict=False):
        area = abs((b - a).cross(c - a))
        radii.append(distance(a, b) * distance(b, c) * distance(a, c) / (2.0 * area) if area else math.inf)
    return min(radii)


@pytest.mark.parametrize("angle", [0.0, 0.3, math.pi / 4, math.pi / 2])
def test_a_grain_line_in_the_middle_of_a_rectangle_has_the_middle_of_it_in_its_own(angle: float) -> None:
    corners = [Point(20.0, 50.0), Point(320.0, 50.0), Point(320.0, 550.0), Point(20.0, 550.0)]
    sides = [Line(one, other) for one, other in zip(corners, [*corners[1:], corners[0]], strict=True)]
    grain = grain_in_middle(sides, Vec(math.cos(angle), math.sin(angle)))
    assert grain is not None
    assert (grain.end - grain.start).angle_to(Vec(math.cos(angle), math.sin(angle))) == pytest.approx(0.0)
    assert lerp(grain.start, grain.end, 0.5).near(Point(170.0, 300.0))
    across = min(300.0 / max(math.cos(angle), 1e-9), 500.0 / max(math.sin(angle), 1e-9))
    assert distance(grain.start, grain.end) == pytest.approx(0.6 * across)
