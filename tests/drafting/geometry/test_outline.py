from __future__ import annotations

import math

import pytest

from drafting.geometry import (
    STAY,
    Cubic,
    Line,
    Point,
    Vec,
    arc,
    area,
    corner_turn,
    cut_run,
    encloses,
    line_hits,
    mirror,
    moved_all,
    polyline,
    run_at,
    run_bounds,
    run_ends,
    run_hits,
    run_length,
    run_place,
    run_reversed,
    run_tangent,
    shift,
    turn,
)
from drafting.geometry.outline import starting_at, straight_run, stretch
from tests.drafting.geometry.shapes import polygon

BOX = polygon((0, 0), (100, 0), (100, 60), (0, 60))
STEPS = straight_run(Point(0, 0), Point(30, 0), Point(30, 40))


def test_a_run_is_as_long_as_its_parts() -> None:
    assert run_length(STEPS) == 70.0
    assert run_reversed(STEPS)[0] == Line(Point(30, 40), Point(30, 0))


def test_a_place_and_a_direction_along_a_run() -> None:
    assert run_at(STEPS, 50.0) == Point(30, 20)
    assert run_tangent(STEPS, 50.0) == Vec(0, 1)
    assert run_at(STEPS, 1e6) == Point(30, 40)
    assert run_at(STEPS, -1.0) == Point(0, 0)
    for along in (-1.0, 0.0, 30.0, 50.0, 1e6):
        assert run_place(STEPS, along) == (run_at(STEPS, along), run_tangent(STEPS, along))


def test_a_run_leaves_its_start_and_arrives_at_its_end() -> None:
    assert run_ends(STEPS) == (Vec(1, 0), Vec(0, 1))
    assert run_ends(STEPS[1:]) == (Vec(0, 1), Vec(0, 1))


@pytest.mark.parametrize("angle", [-3.0, -1.0, 0.0, 0.5, 3.0])
def test_a_direction_turned_by_an_angle_lies_at_that_angle_to_what_it_was(angle: float) -> None:
    was = Vec(3.0, -4.0)
    assert was.angle_to(was.turned(angle) * 2.0) == pytest.approx(angle)


def test_a_corner_to_the_left_turns_the_line_anticlockwise() -> None:
    assert corner_turn(STEPS[:1], STEPS[1:]) == pytest.approx(math.pi / 2)
    back = run_reversed(STEPS)
    assert corner_turn(back[:1], back[1:]) == pytest.approx(-math.pi / 2)
    assert corner_turn(STEPS[:1], STEPS[:1]) == 0.0


@pytest.mark.parametrize("at", [0.0, 10.0, 30.0, 55.0, 70.0])
def test_cutting_a_run_loses_nothing(at: float) -> None:
    before, after = cut_run(STEPS, at)
    assert sum(run_length([c]) for c in before) == pytest.approx(at)
    assert sum(run_length([c]) for c in after) == pytest.approx(70.0 - at)


def test_area_is_positive_anticlockwise() -> None:
    assert area(BOX) == 6000.0
    assert area(run_reversed(BOX)) == -6000.0


def test_bounds_and_polyline_of_a_run() -> None:
    assert run_bounds(STEPS) == (0, 0, 30, 40)
    assert polyline(STEPS) == [Point(0, 0), Point(30, 0), Point(30, 40)]


def test_a_stretch_of_a_run_by_position() -> None:
    assert stretch(STEPS, 0.5, 1.25) == straight_run(Point(15, 0), Point(30, 0), Point(30, 10))
    assert stretch(STEPS, 2.0, 2.0) == ()


def test_moving_a_start_keeps_the_direction_it_leaves_in() -> None:
    (curve,) = arc(Point(0, 0), 10.0, 0.0, 1.0)
    nudged = starting_at(curve, curve.start + Vec(1e-7, 0))
    assert nudged.end == curve.end
    assert nudged.c1 - nudged.start == curve.c1 - curve.start  # type: ignore[union-attr]


def test_lines_of_no_length_are_left_out_of_a_straight_run() -> None:
    assert straight_run(Point(0, 0), Point(0, 0), Point(1, 0)) == (Line(Point(0, 0), Point(1, 0)),)


def test_a_line_through_a_box_hits_two_sides_and_says_how_far_along() -> None:
    hits = run_hits(BOX, Point(-10, 20), Vec(1, 0))
    assert sorted((i, hit.along) for i, hit in hits) == [(1, 110.0), (3, 10.0)]


def test_a_line_through_a_corner_is_one_hit() -> None:
    assert len(run_hits(BOX, Point(-10, -10), Vec(1, 1))) == 2  # the corner, and the top


def test_a_curve_in_the_line_is_not_hit_and_one_beside_it_neither() -> None:
    assert line_hits(Line(Point(0, 0), Point(9, 0)), Point(0, 0), Vec(1, 0)) == []
    assert line_hits(Line(Point(0, 1), Point(9, 1)), Point(0, 0), Vec(1, 0)) == []


def test_a_line_that_touches_a_cubic_hits_it_once() -> None:
    quarter = arc(Point(0, 0), 50.0, 0.0, math.pi)[0]
    (touch,) = line_hits(quarter, Point(50.0, 0.0), Vec(0, 1))
    assert touch.point == Point(50.0, 0.0)


def test_a_line_can_hit_a_cubic_three_times_in_order() -> None:
    wave = Cubic(Point(0, -1), Point(30, 60), Point(60, -60), Point(90, 1))
    hits = line_hits(wave, Point(0, 0), Vec(1, 0))
    assert len(hits) == 3
    assert [hit.t for hit in hits] == sorted(hit.t for hit in hits)
    assert all(abs(hit.point.y) < 1e-9 for hit in hits)


def test_moves_do_what_they_say_and_follow_each_other() -> None:
    assert shift(Vec(1, 2)).point(Point(3, 4)) == Point(4, 6)
    assert turn(Point(1, 0), math.pi / 2).point(Point(2, 0)).near(Point(1, 1), 1e-12)
    assert mirror(Point(0, 5), Vec(1, 0)).point(Point(3, 7)).near(Point(3, 3), 1e-12)
    both = turn(Point(0, 0), math.pi / 2).then(shift(Vec(10, 0)))
    assert both.point(Point(1, 0)).near(Point(10, 1), 1e-12)
    assert not both.mirrors
    assert both.then(mirror(Point(0, 0), Vec(0, 1))).mirrors
    assert moved_all(BOX, STAY) == BOX
    assert turn(Point(5, 5), 1.0).vec(Vec(1, 0)).norm() == pytest.approx(1.0)


@pytest.mark.parametrize("over", [1e-13, 1e-9])
def test_a_trifle_of_a_curve_at_an_end_of_a_stretch_is_left_out(over: float) -> None:
    run = straight_run(Point(0, 0), Point(30, 0), Point(30, 40), Point(70, 40))
    assert stretch(run, 1.0 - over, 2.0 + over) == run[1:2]
    assert stretch(run, 1.0 - over, 3.0) == run[1:]
    assert stretch(run, 0.0, 2.0 + over) == run[:2]
    assert stretch(run, 0.0, 1.0 + over) == run[:1]
    assert stretch(run, 0.5, 1.0 + 2.0**-10) == straight_run(Point(15, 0), Point(30, 0), Point(30, 40 / 1024))
    assert stretch(run, 1.5, 3.0) == straight_run(Point(30, 20), Point(30, 40), Point(70, 40))
    assert stretch(run, 0.25, 0.75) == straight_run(Point(7.5, 0), Point(22.5, 0))


@pytest.mark.parametrize("near", [0.0, 2.0])
def test_a_run_is_cut_at_a_joint_where_that_is_near_enough(near: float) -> None:
    run = straight_run(Point(0, 0), Point(30, 0), Point(30, 40))
    for at in (30.0, 30.0 - 0.9 * near, 30.0 + 0.9 * near):
        assert cut_run(run, at, near=near) == (run[:1], run[1:])
    for at in (30.0 - 1.1 * near - 0.1, 30.0 + 1.1 * near + 0.1):
        before, after = cut_run(run, at, near=near)
        assert len(before) + len(after) == 3
        assert run_length(before) == pytest.approx(at)
    assert cut_run(run, 0.5 * near, near=near) == ((), run)
    assert cut_run(run, 70.0 - 0.5 * near, near=near) == cut_run(run, 99.0) == (run, ())


def test_a_place_lies_inside_a_polygon_or_not_whichever_corner_is_level_with_it() -> None:
    shape = [Point(0, 0), Point(40, 0), Point(40, 30), Point(20, 10), Point(0, 30)]
    for x, y, inside in (
        (20, 5, True),
        (20, 15, False),
        (5, 20, True),
        (35, 20, True),
        (-1, 10, False),
        (41, 10, False),
        (10, 10, True),  # level with the corner in the middle
        (30, 10, True),
        (45, 10, False),
        (20, -1, False),
        (20, 31, False),
        (-5, 0, False),
        (-5, 30, False),
    ):
        for k in range(5):
            turned = shape[k:] + shape[:k]
            assert encloses(turned, Point(x, y)) is encloses(turned[::-1], Point(x, y)) is inside, (x, y)
