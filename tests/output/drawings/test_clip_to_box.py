from __future__ import annotations

import pytest

from drafting.geometry import Cubic, Line, Point, length, point_at, run_length
from output.drawings.clip_to_box import curve_within, within
from output.drawings.drawing import Box

BOX = Box(0, 0, 10, 10)


def test_a_line_through_the_box_is_cut_at_both_sides() -> None:
    assert curve_within(Line(Point(-5, 5), Point(25, 5)), BOX) == (Line(Point(0, 5), Point(10, 5)),)


def test_what_lies_inside_comes_back_as_it_was() -> None:
    curve = Cubic(Point(1, 1), Point(2, 9), Point(8, 9), Point(9, 1))
    assert curve_within(curve, BOX) == (curve,)


def test_what_lies_outside_is_dropped() -> None:
    assert curve_within(Line(Point(-1, -1), Point(-1, 20)), BOX) == ()
    # its box reaches into ours, the line itself does not
    assert curve_within(Line(Point(-6, 5), Point(5, 16.5)), BOX) == ()


def test_a_line_along_a_side_belongs_to_the_box() -> None:
    assert run_length(curve_within(Line(Point(0, -5), Point(0, 15)), BOX)) == pytest.approx(10.0)


def test_a_curve_that_leaves_and_comes_back_is_in_two_parts() -> None:
    curve = Cubic(Point(2, 2), Point(4, 20), Point(6, 20), Point(8, 2))
    first, second = curve_within(curve, BOX)
    assert first.start == curve.start
    assert second.end == curve.end
    assert first.end.y == pytest.approx(10.0)
    assert second.start.y == pytest.approx(10.0)
    whole = sum(length(part) for part in curve_within(curve, Box(0, 10, 10, 100)))
    assert length(first) + length(second) + whole == pytest.approx(length(curve), abs=1e-3)


def test_the_parts_lie_on_the_curve() -> None:
    curve = Cubic(Point(-5, 3), Point(5, 30), Point(6, -22), Point(14, 8))
    for part in curve_within(curve, BOX):
        middle = point_at(part, 0.5)
        nearest = min((point_at(curve, k / 20000) - middle).norm() for k in range(20001))
        assert nearest < 2e-3
        assert BOX.grown(1e-9).holds(middle)


def test_the_order_and_direction_of_a_run_are_kept() -> None:
    run = (Line(Point(12, 1), Point(5, 1)), Line(Point(5, 1), Point(5, -3)))
    assert within(run, BOX) == (Line(Point(10, 1), Point(5, 1)), Line(Point(5, 1), Point(5, 0)))
