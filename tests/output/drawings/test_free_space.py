from __future__ import annotations

import math

import pytest

from drafting.geometry import Line, Point
from output.drawings.drawing import Box, LineKind, Stroke, Text, path, rectangle
from output.drawings.free_space import (
    Obstacles,
    crowding,
    first_clear,
    grid,
    inside,
    least_crowded,
    obstacles,
    together,
)


def lines(*curves: Line) -> Obstacles:
    return obstacles([Stroke(LineKind.CUTTING, curves)])


ACROSS = Line(Point(0, 0), Point(100, 100))


def test_a_slanted_line_is_met_only_where_it_passes() -> None:
    segments = lines(ACROSS)
    # the box around the line holds both places; the line passes only the first
    met = crowding(segments, [Point(50, 50), Point(80, 20)], (10, 10))
    assert met.tolist() == [1, 0]


def test_a_rectangle_just_clear_of_a_corner_is_clear_and_just_over_it_is_not() -> None:
    segments = lines(Line(Point(0, 0), Point(10, 0)))
    assert first_clear(segments, [Point(13.01, 0)], (6, 2)) == Point(13.01, 0)
    assert first_clear(segments, [Point(12.99, 0)], (6, 2)) is None


def test_a_turned_rectangle_is_judged_turned() -> None:
    segments = lines(Line(Point(0, 5), Point(100, 5)))
    assert first_clear(segments, [Point(50, 0)], (40, 4)) is not None
    assert first_clear(segments, [Point(50, 0)], (40, 4), angle=90.0) is None


def test_the_first_clear_place_is_taken_however_many_there_are() -> None:
    segments = lines(Line(Point(0, 0), Point(450, 0)))
    places = [Point(float(x), 0.0) for x in range(600)]
    assert first_clear(segments, places, (2, 2)) == Point(452, 0)
    assert first_clear(segments, [], (2, 2)) is None


def test_the_least_crowded_place_is_the_first_with_the_fewest_lines() -> None:
    segments = lines(Line(Point(0, 0), Point(10, 0)), Line(Point(0, 1), Point(3, 1)))
    assert least_crowded(segments, [Point(1, 0), Point(6, 0), Point(7, 0)], (1, 4)) == Point(6, 0)


def test_writing_is_an_obstacle() -> None:
    segments = obstacles([Text("words", Point(0, 0), 5.0)])
    assert first_clear(segments, [Point(6, 2)], (2, 2)) is None
    assert first_clear(segments, [Point(6, 12)], (1, 1)) is not None


def test_a_test_square_is_taken_up_whole_and_a_piece_is_not() -> None:
    square = rectangle(Box(0, 0, 100, 100))
    centre = [Point(50, 77)]
    assert first_clear(obstacles([Stroke(LineKind.SQUARE, square)]), centre, (60, 8)) is None
    assert first_clear(obstacles([Stroke(LineKind.CUTTING, square)]), centre, (60, 8)) == centre[0]


def test_nothing_drawn_is_no_obstacle() -> None:
    nothing = obstacles([])
    assert len(nothing) == 0
    assert first_clear(nothing, [Point(0, 0)], (10, 10)) == Point(0, 0)
    assert len(together(nothing, lines(ACROSS))) == 1


def test_the_box_around_obstacles_holds_all_of_them() -> None:
    assert together(lines(ACROSS), lines(Line(Point(300, -5), Point(310, 0)))).box == Box(0, -5, 310, 100)


def test_a_grid_covers_its_box_the_nearest_place_first() -> None:
    places = grid(Box(0, 0, 10, 20), 5.0, near=Point(0, 20))
    assert places[0].tolist() == [0, 20]
    assert set(map(tuple, places.tolist())) == {(x, y) for x in (0, 5, 10) for y in (0, 5, 10, 15, 20)}
    distances = [math.hypot(x, y - 20) for x, y in places.tolist()]
    assert distances == sorted(distances)
    assert grid(Box(0, 0, -1, 20), 5.0, near=Point(0, 0)).tolist() == []


@pytest.mark.parametrize(("place", "within"), [((1, 1), True), ((5, 5), False), ((9, 1), True), ((-1, 1), False)])
def test_inside_counts_bays_as_outside(place: tuple[float, float], within: bool) -> None:
    bay = [Point(*xy) for xy in ((0, 0), (10, 0), (10, 10), (8, 10), (8, 2), (2, 2), (2, 10), (0, 10))]
    assert inside(bay, [Point(*place)]).tolist() == [within]


def test_a_polyline_of_points_is_as_many_segments_as_it_has_sides() -> None:
    assert len(obstacles([Stroke(LineKind.MAP, path(Point(0, 0), Point(1, 0), Point(1, 1)))])) == 2
