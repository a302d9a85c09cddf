from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest
from shapely import LineString
from shapely import Point as Spot

from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    arc,
    blend,
    distance,
    end_tangents,
    flatten,
    point_at,
    polar,
    polyline,
    run_length,
    tangent,
)
from drafting.geometry.curve import curvature
from drafting.geometry.offset import _bends_gently, folds, parallel_run
from drafting.geometry.outline import stretch
from drafting.geometry.tolerance import OFFSET
from tests.drafting.geometry.shapes import garment_curve, random_cubics

SAMPLES = [k / 40 for k in range(41)]


def test_a_parallel_to_a_line_is_the_line_moved_to_the_right() -> None:
    assert parallel_run((Line(Point(0, 0), Point(100, 0)),), 15.0) == (Line(Point(0, -15), Point(100, -15)),)


def test_no_distance_gives_the_curve_itself() -> None:
    curve = garment_curve(200, 0.5, -0.5)
    assert parallel_run((curve,), 0.0) == (curve,)


@pytest.mark.parametrize("to_right", [10.0, -10.0, 25.0])
def test_a_parallel_to_an_arc_keeps_the_radius_plus_the_distance(to_right: float) -> None:
    (quarter,) = arc(Point(0, 0), 100.0, 0.3, 1.2)
    for curve in parallel_run((quarter,), to_right):
        for t in SAMPLES:
            # the arc itself strays 2.73e-4 of its radius from the circle
            radius = distance(Point(0, 0), point_at(curve, t))
            assert radius == pytest.approx(100.0 + to_right, abs=OFFSET + 2.8e-2)


def test_ends_are_square_to_the_ends_of_the_curve_and_turn_with_it() -> None:
    curve = garment_curve(300, 0.7, -0.4)
    run = parallel_run((curve,), 20.0)
    leaving, arriving = end_tangents(curve)
    assert run[0].start.near(curve.start + leaving.right() * 20.0, 1e-9)
    assert run[-1].end.near(curve.end + arriving.right() * 20.0, 1e-9)
    assert end_tangents(run[0])[0].cross(leaving) == pytest.approx(0.0, abs=1e-9)
    assert end_tangents(run[-1])[1].cross(arriving) == pytest.approx(0.0, abs=1e-9)


def test_a_seam_like_curve_takes_few_pieces() -> None:
    assert len(parallel_run((garment_curve(250, 0.4, -0.4),), 15.0)) <= 2


def test_a_hollow_tighter_than_the_distance_is_a_fold_on_that_side_only() -> None:
    hollow = Cubic(Point(0, 0), Point(60, 0), Point(60, 30), Point(0, 30))  # bends left round (25, 15) or so
    assert folds(hollow, -30.0) != []
    assert folds(hollow, 30.0) == []
    assert folds(hollow, -3.0) == []


def test_a_fold_is_cut_out_where_its_two_sides_cross() -> None:
    valley = Cubic(Point(0, 60), Point(70, -60), Point(30, -60), Point(100, 60))
    run = parallel_run((valley,), -20.0)
    assert len(folds(valley, -20.0)) == 1
    corners = [abs(end_tangents(one)[1].cross(end_tangents(other)[0])) for one, other in pairwise(run)]
    assert max(corners) > 0.1  # the one corner left is where the sides meet
    meets = run[corners.index(max(corners))].end
    assert meets.x == pytest.approx(50.0, abs=0.01)  # the valley is symmetrical
    for curve in run:
        for t in SAMPLES:
            place = point_at(curve, t)
            nearest = min(distance(place, point_at(valley, k / 2000)) for k in range(2001))
            assert nearest >= 20.0 - OFFSET


def test_a_hollow_that_is_tighter_than_the_distance_all_over_leaves_nothing() -> None:
    (quarter,) = arc(Point(0, 0), 20.0, 0.0, 1.0)
    assert parallel_run((quarter,), -30.0) == ()


def test_a_smooth_run_stays_joined() -> None:
    run = arc(Point(0, 0), 80.0, 0.0, math.pi)
    offset = parallel_run(run, 12.0)
    assert all(one.end.near(other.start, 1e-9) for one, other in pairwise(offset))
    assert run_length(offset) == pytest.approx(math.pi * 92.0, abs=0.1)


def test_a_stretch_between_two_positions_has_the_length_between_them() -> None:
    run = (Line(Point(0, 0), Point(10, 0)), Line(Point(10, 0), Point(10, 30)))
    part = stretch(run, 0.5, 1.5)
    assert part == (Line(Point(5, 0), Point(10, 0)), Line(Point(10, 0), Point(10, 15)))
    assert stretch(run, 1.0, 1.0) == ()


@pytest.mark.parametrize("to_right", [-30.0, -8.0, 8.0, 30.0])
def test_no_hollow_of_a_curve_that_bends_gently_has_less_than_twice_the_distance_as_its_radius(to_right: float) -> None:
    curves = [*random_cubics(300, seed=11), *(garment_curve(200, 0.1 * k, -0.05 * k) for k in range(-10, 11))]
    gentle = [curve for curve in curves if isinstance(curve, Cubic) and _bends_gently(curve, to_right)]
    assert 20 < len(gentle) < len(curves)
    for curve in gentle:
        bends = [curvature(curve, k / 200) for k in range(201)]
        # a line that turns back on itself has a cusp, where no radius is
        assert min(1.0 + to_right * bend for bend in bends if math.isfinite(bend)) > 0.5
        assert folds(curve, to_right) == []


def _bent(seed: int) -> tuple[Curve, ...]:
    """A smooth run of two curves, some of whose hollows are tighter than what is asked of them."""
    wayward = random.Random(seed)
    middle, end = Point(90.0, wayward.uniform(-30.0, 30.0)), Point(180.0, 0.0)
    ways = [polar(wayward.uniform(-1.3, 1.3)) for _ in range(3)]
    return (blend(Point(0.0, 0.0), ways[0], middle, ways[1]), blend(middle, ways[1], end, ways[2]))


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("to_right", [18.0, -18.0])
def test_no_place_of_a_parallel_lies_nearer_than_its_distance_and_its_parts_join(seed: int, to_right: float) -> None:
    run = _bent(seed)
    parallel = parallel_run(run, to_right)
    drawn = LineString([(at.x, at.y) for at in polyline(run, 5e-3)])
    for at in (point_at(curve, t) for curve in parallel for t in SAMPLES[::4]):
        beside_an_end = drawn.project(Spot(at.x, at.y)) in (0.0, drawn.length)  # there it stops on what is square to it
        assert beside_an_end or drawn.distance(Spot(at.x, at.y)) >= 18.0 - OFFSET - 5e-3
    assert all(one.end.near(other.start, 1e-9) for one, other in pairwise(parallel))
    # it reaches all places from which nothing of the edge is nearer
    for here, t in ((here, t) for here in run for t in SAMPLES[::4]):
        at = point_at(here, t) + tangent(here, t).right() * to_right
        if drawn.distance(Spot(at.x, at.y)) > 18.0 - 1e-3:
            assert min(_off(each, at) for each in parallel) < OFFSET + 1e-2


def _off(curve: Curve, place: Point) -> float:
    return float(LineString([(at.x, at.y) for at in flatten(curve, 5e-3)]).distance(Spot(place.x, place.y)))
