"""How a line bends, against circles, against many looks, and against the sum of small turns."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest

from drafting.geometry import Cubic, Line, Point, arc, bend, curvature, tangent
from drafting.geometry.bending import inflections, kinks, most_turning_within, tightest, turns
from drafting.geometry.point import Vec

WAYWARD = random.Random(7)
CUBICS = [
    Cubic(*(Point(WAYWARD.uniform(-100.0, 100.0), WAYWARD.uniform(-100.0, 100.0)) for _ in range(4))) for _ in range(60)
]

ORIGIN = Point(0.0, 0.0)


@pytest.mark.parametrize("radius", [5.0, 22.0, 400.0])
def test_an_arc_bends_as_its_circle(radius: float) -> None:
    right, left = tightest(arc(ORIGIN, radius, 0.3, 2.0))
    assert left.radius == pytest.approx(radius, rel=0.01)
    assert right.radius == math.inf
    right, left = tightest(arc(ORIGIN, radius, 0.3, -2.0))
    assert right.radius == pytest.approx(radius, rel=0.01)
    assert right.curvature < 0.0
    assert left.radius == math.inf


@pytest.mark.parametrize("curve", CUBICS)
def test_no_place_bends_more_than_the_tightest(curve: Cubic) -> None:
    right, left = tightest((curve,))
    looks = [curvature(curve, k / 2000) for k in range(2001)]
    assert min(looks) >= right.curvature * (1.0 + 1e-9)
    assert max(looks) <= left.curvature * (1.0 + 1e-9)
    for worst in (right, left):
        if worst.curvature:
            assert curvature(curve, worst.t) == pytest.approx(worst.curvature, rel=1e-6)


@pytest.mark.parametrize("curve", CUBICS)
def test_turns_add_up_and_part_where_the_bend_changes_sides(curve: Cubic) -> None:
    along = [tangent(curve, k / 4000) for k in range(4001)]
    steps = [one.angle_to(other) for one, other in pairwise(along)]
    found = turns((curve,))
    assert sum(turn.angle for turn in found) == pytest.approx(sum(steps), abs=1e-6)
    assert sum(abs(turn.angle) for turn in found) == pytest.approx(sum(map(abs, steps)), abs=1e-3)
    assert len(found) == len(inflections(curve)) + 1
    for t in inflections(curve):
        assert curvature(curve, t - 1e-5) * curvature(curve, t + 1e-5) < 0.0


def test_an_even_bend_is_crowded_by_what_the_span_is_of_it() -> None:
    quarter = arc(ORIGIN, 50.0, 0.0, 0.5 * math.pi)
    assert most_turning_within(quarter, 20.0) == pytest.approx(20.0 / (25.0 * math.pi), rel=0.01)
    straight = (Line(Point(50.0, -100.0), Point(50.0, 0.0)), *quarter)
    assert most_turning_within(straight, 20.0) == pytest.approx(20.0 / (25.0 * math.pi), rel=0.01)
    assert most_turning_within(quarter, 200.0) == pytest.approx(1.0)
    assert most_turning_within(straight[:1], 20.0) == 0.0


def test_a_corner_is_seen_as_one_and_counts_as_turning() -> None:
    run = (Line(ORIGIN, Point(30.0, 0.0)), Line(Point(30.0, 0.0), Point(30.0, 30.0)))
    ((angle, at),) = kinks(run)
    assert (angle, at) == (pytest.approx(0.5 * math.pi), Point(30.0, 0.0))
    assert [turn.angle for turn in turns(run)] == [pytest.approx(0.5 * math.pi)]
    assert most_turning_within(run, 1.0) == 1.0


def test_a_straight_line_and_a_straight_cubic_do_not_bend() -> None:
    for run in ((Line(ORIGIN, Point(9.0, 3.0)),), (Cubic(ORIGIN, Point(3.0, 1.0), Point(6.0, 2.0), Point(9.0, 3.0)),)):
        assert [each.radius > 1e9 for each in tightest(run)] == [True, True]


def test_a_curve_of_one_bend_turns_one_way() -> None:
    one = bend(ORIGIN, Vec(1.0, 0.0), Point(60.0, 120.0), Vec(0.0, 1.0))
    assert [round(math.degrees(turn.angle), 6) for turn in turns((one,))] == [90.0]


def test_a_cusp_where_the_turning_only_touches_zero_is_no_inflection() -> None:
    assert inflections(Cubic(ORIGIN, Point(64.0, 64.0), Point(0.0, 64.0), Point(64.0, 0.0))) == ()
