from __future__ import annotations

import math
from itertools import pairwise

import pytest

from drafting.geometry import Cubic, Line, Point, curvature, end_tangents, polar, run_length
from output.dxf.close_outlines import Spots, Strand, outer_loop, split_at
from output.dxf.smooth_polylines import curves_through

ORIGIN = Point(0.0, 0.0)


def ring(*corners: tuple[float, float]) -> list[Strand]:
    points = [Point(x, y) for x, y in corners]
    return [Strand((a, b)) for a, b in zip(points, points[1:] + points[:1], strict=True)]


@pytest.mark.parametrize("sag", [0.02, 0.002])
def test_points_on_an_arc_come_back_as_the_arc(sag: float) -> None:
    radius, steps = 100.0, math.ceil(math.pi / math.sqrt(8.0 * sag / 100.0))
    points = [ORIGIN + polar(math.pi * i / steps, radius) for i in range(steps + 1)]
    arc = curves_through(points, Spots(points))
    assert run_length(arc) == pytest.approx(math.pi * radius, abs=1e-4)  # a half circle
    leaving = end_tangents(arc[0])[0]
    assert (leaving.x, leaving.y) == pytest.approx((0.0, 1.0), abs=1e-6)
    assert curvature(arc[0], 0.5) == pytest.approx(1.0 / radius, rel=1e-3)


def test_points_that_are_on_no_curve_stay_corners() -> None:
    points = [Point(0.0, 0.0), Point(10.0, 0.0), Point(10.0, 10.0)]
    assert curves_through(points, Spots([])) == (Line(points[0], points[1]), Line(points[1], points[2]))


def test_a_long_straight_that_runs_into_a_curve_stays_straight_and_the_curve_leaves_in_its_direction() -> None:
    bend = [Point(300.0, 0.0) + polar(-math.pi / 2 + 0.05 * i, 100.0) for i in range(1, 6)]
    points = [Point(0.0, -100.0), Point(300.0, -100.0), *bend]
    straight, first, *_ = curves_through(points, Spots(points))
    assert isinstance(straight, Line)
    assert isinstance(first, Cubic)
    assert end_tangents(first)[0].y == pytest.approx(0.0, abs=1e-9)


def test_lines_drawn_in_any_order_and_direction_close_to_one_outline_anticlockwise() -> None:
    a, b, c, d = ring((0, 0), (0, 100), (100, 100), (100, 0))
    loop = outer_loop([a, c.turned(), d, b])
    assert isinstance(loop, tuple)
    corners = [strand.points[0] for strand in loop]
    assert len(corners) == 4
    assert all(strand.points[-1] == after for strand, after in zip(loop, corners[1:] + corners[:1], strict=True))
    assert sum(one.x * other.y - other.x * one.y for one, other in pairwise(corners)) > 0.0


def test_of_two_loops_the_outline_is_the_one_round_the_other_and_a_longer_gap_is_not_passed_over() -> None:
    pocket, outline = ring((10, 10), (30, 10), (30, 30)), ring((0, 0), (100, 0), (100, 100), (0, 100))
    loop = outer_loop([*pocket, *outline])
    assert isinstance(loop, tuple)
    assert {strand.points for strand in loop} == {strand.points for strand in outline}
    assert outer_loop([*pocket, *outline[:3]]) == Point(0.0, 100.0)
    assert outer_loop([]) is None


def test_an_outline_in_one_line_is_cut_at_its_turn_points() -> None:
    square = Strand(tuple(Point(x, y) for x, y in [(0, 0), (50, 0), (100, 0), (100, 100), (0, 0)]))
    parts = split_at(square, Spots([Point(100.0, 0.001), Point(100.0, 100.0), Point(0.0, 0.0)]))
    assert [len(part.points) for part in parts] == [3, 2, 2]
    assert split_at(square, Spots([Point(100.0, 0.0)])) == (square,)
