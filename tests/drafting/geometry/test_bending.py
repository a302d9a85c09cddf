"""How a line bends, against circles, against many looks, and against the sum of small turns."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest

from drafting.geometry import Cubic, Curve, Line, Point, arc, bend, curvature, distance, point_at, polar, tangent
from drafting.geometry.bending import bending, inflections, kinks, most_turning_within, tightest, turns
from drafting.geometry.curve import velocity
from drafting.geometry.point import Vec
from tests.drafting.geometry.shapes import bodice, garment_curve, skirt

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


def _dense(run: tuple[Curve, ...], many: int) -> tuple[list[float], list[float]]:
    """How far along a run it is, mm, and how far it has turned either way, radians, at many places; corners counted."""
    gone, turned = [0.0], [0.0]
    last: tuple[Point, Vec] | None = None
    for curve in run:
        for k in range(many + 1):
            here = point_at(curve, k / many), tangent(curve, k / many)
            if last is not None:
                gone.append(gone[-1] + distance(last[0], here[0]))
                turned.append(turned[-1] + abs(last[1].angle_to(here[1])))
            last = here
    return gone, turned


RUNS = [
    (garment_curve(120.0, 0.9, -0.4),),
    (garment_curve(60.0, -0.3, 1.1), Line(Point(60.0, 0.0), Point(90.0, 0.0))),
    (Line(Point(-40.0, 0.0), ORIGIN), garment_curve(80.0, 0.5, 0.8)),
    (*arc(ORIGIN, 30.0, 0.0, 1.0), *arc(ORIGIN, 30.0, 1.0, 0.7)),
    skirt().outline,
    bodice().outline,
]


@pytest.mark.parametrize("span", [5.0, 20.0, 60.0])
@pytest.mark.parametrize("run", RUNS)
def test_the_most_turning_within_a_span_is_that_of_many_looks(run: tuple[Curve, ...], span: float) -> None:
    gone, turned = _dense(run, 120)
    most, k = 0.0, 0
    for j in range(len(gone)):
        while gone[j] - gone[k] > span:
            k += 1
        most = max(most, turned[j] - turned[k])
    assert most_turning_within(run, span) == pytest.approx(most / turned[-1], abs=0.02)


@pytest.mark.parametrize("run", RUNS[:4])
def test_bending_is_the_integral_of_curvature_squared(run: tuple[Curve, ...]) -> None:
    total = 0.0
    for curve in run:
        for k in range(2000):
            t = (k + 0.5) / 2000
            total += curvature(curve, t) ** 2 * velocity(curve, t).norm() / 2000
    assert bending(run) == pytest.approx(total, rel=1e-3)


def test_a_turn_that_is_not_felt_is_passed_over_and_its_neighbours_are_one() -> None:
    """A zigzag of 30 degrees to the left, 2 to the right, 30 to the left."""
    at, lines = ORIGIN, []
    for way in (0.0, 30.0, 28.0, 58.0):
        step = polar(math.radians(way), 20.0)
        lines.append(Line(at, at + step))
        at = at + step
    assert [math.degrees(each.angle) for each in turns(lines)] == pytest.approx([30.0, -2.0, 30.0])
    (one,) = turns(lines, felt=math.radians(2.1))
    assert (math.degrees(one.angle), one.start, one.end) == (pytest.approx(60.0), lines[1].start, lines[3].start)
    assert len(turns(lines, felt=math.radians(1.9))) == 3
    assert (
        len(turns(lines, felt=min(abs(each.angle) for each in turns(lines)))) == 3
    )  # what turns by just so much is felt
    assert turns(lines, felt=math.radians(31.0)) == ()
    assert [round(math.degrees(angle), 9) for angle, _ in kinks(lines)] == [30.0, -2.0, 30.0]
    assert [place for _, place in kinks(lines)] == [line.start for line in lines[1:]]


def test_a_joint_that_turns_by_less_than_a_hundredth_of_a_degree_is_none() -> None:
    for degrees, many in ((0.009, 0), (0.011, 1), (-0.011, 1)):
        bent = (Line(Point(-9.0, 0.0), ORIGIN), Line(ORIGIN, ORIGIN + polar(math.radians(degrees), 9.0)))
        assert len(kinks(bent)) == len(turns(bent)) == many
        assert most_turning_within(bent, 1.0) == float(many)


def test_a_curve_that_turns_by_more_than_half_a_circle_is_told_the_way_it_bends() -> None:
    """From level to the left over the top and down again, and on: 240 degrees in one curve, both ways."""
    ends = Point(0.0, 0.0), Point(20.0, 0.0)
    for side in (1.0, -1.0):
        ways = [polar(side * math.radians(angle)) for angle in (-30.0, 210.0)]
        loop = Cubic(ends[0], ends[0] + ways[0] * 90.0, ends[1] - ways[1] * 90.0, ends[1])
        (turn,) = turns((loop,))
        assert math.degrees(turn.angle) == pytest.approx(side * 240.0)
        assert (turn.start, turn.end) == ends
