from __future__ import annotations

import math
from itertools import pairwise

import pytest
from shapely import LineString

from drafting.geometry import Cubic, Line, Point, Vec, distance, flatten, point_at, polar, reverse, split
from drafting.geometry.crossing import run_hits
from drafting.geometry.hull import hull_of
from drafting.geometry.meet import _chords_cross, meetings, outline_crossings, run_meetings, self_crossings
from drafting.geometry.outline import stretch
from drafting.geometry.tolerance import CROSSING
from drafting.pattern import Piece
from tests.drafting.geometry.shapes import bodice, polygon, random_cubics, skirt

HILL = Cubic(Point(0, 0), Point(30, 60), Point(70, 60), Point(100, 0))
LOOP = Cubic(Point(0, 0), Point(150, 100), Point(-50, 100), Point(100, 0))


def line(x0: float, y0: float, x1: float, y1: float) -> Line:
    return Line(Point(x0, y0), Point(x1, y1))


def test_crossing_lines_meet_once_at_the_right_shares() -> None:
    (found,) = meetings(line(0, 0, 10, 10), line(0, 10, 5, 5 / 3))
    assert found.point.near(Point(3.75, 3.75), 1e-9)
    assert found.at_a == pytest.approx(0.375)
    assert found.at_b == pytest.approx(0.75)


def test_lines_that_stop_short_do_not_meet() -> None:
    assert meetings(line(0, 0, 10, 10), line(0, 10, 4.9, 5.1 - 1e-3)) == []


def test_a_line_through_a_hill_meets_it_twice_in_order() -> None:
    first, second = meetings(HILL, line(-10, 30, 200, 30))
    assert first.at_a < second.at_a
    assert first.point.y == pytest.approx(30, abs=CROSSING)
    assert second.point.x == pytest.approx(100 - first.point.x, abs=1e-6)


def test_a_touch_is_one_meeting() -> None:
    (found,) = meetings(HILL, line(-10, 45, 200, 45))
    assert found.point.near(Point(50, 45), 0.05)


def test_a_line_a_hair_above_a_touch_does_not_meet() -> None:
    assert meetings(HILL, line(-10, 45 + 1e-5, 200, 45 + 1e-5)) == []


def test_the_nine_crossings_of_two_wavy_cubics_are_all_found() -> None:
    # Bezout: two cubics meet nine times at most. These are a Chebyshev polynomial, 4x^3 - 3x, in a box 100 mm wide
    # and a little more high, and its mirror image in the diagonal; each swings right across the other three times
    wave = Cubic(Point(-50, -51), Point(-50 / 3, 255), Point(50 / 3, -255), Point(50, 51))
    mirrored = Cubic(*(Point(p.y, p.x) for p in (wave.start, wave.c1, wave.c2, wave.end)))
    found = meetings(wave, mirrored)
    assert len(found) == 9
    for meeting in found:
        assert distance(meeting.point, point_at(mirrored, meeting.at_b)) <= CROSSING


def test_a_curve_and_a_part_of_it_run_together_between_the_ends_of_the_part() -> None:
    part = split(split(HILL, 0.3)[1], 0.5)[0]
    first, last = meetings(HILL, part)
    assert (first.at_a, last.at_a) == pytest.approx((0.3, 0.65))
    assert (first.at_b, last.at_b) == pytest.approx((0.0, 1.0))


def test_two_parts_of_a_curve_share_only_their_end() -> None:
    before, after = split(HILL, 0.3)
    (found,) = meetings(before, after)
    assert (found.at_a, found.at_b) == (1.0, 0.0)


def test_overlapping_lines_run_together_over_the_overlap() -> None:
    first, last = meetings(line(0, 0, 10, 0), line(14, 0, 5, 0))
    assert first.point.near(Point(5, 0), 1e-9)
    assert last.point.near(Point(10, 0), 1e-9)


def test_two_runs_meet_in_order_along_the_first_whichever_curve_of_the_second_it_is() -> None:
    first = [line(0, 0, 10, 0), line(10, 0, 20, 0)]
    second = [line(8, -1, 8, 1), line(2, -1, 2, 1), line(15, -1, 15, 1)]
    assert [(i, j, round(m.point.x, 9)) for i, j, m in run_meetings(first, second)] == [
        (0, 1, 2),
        (0, 0, 8),
        (1, 2, 15),
    ]


def test_a_loop_crosses_itself_once_where_both_parameters_agree() -> None:
    (found,) = self_crossings(LOOP)
    assert distance(point_at(LOOP, found.at_a), point_at(LOOP, found.at_b)) < 1e-9
    assert found.point.x == pytest.approx(50)


def test_a_cusp_and_a_hill_do_not_cross_themselves() -> None:
    assert self_crossings(Cubic(Point(0, 0), Point(100, 100), Point(0, 100), Point(100, 0))) == []
    assert self_crossings(HILL) == []


def test_a_straight_curve_that_turns_back_meets_itself_where_it_turns() -> None:
    found = self_crossings(Cubic(Point(0, 0), Point(150, 0), Point(-50, 0), Point(100, 0)))
    assert len(found) == 2


@pytest.mark.parametrize("piece", [skirt(), bodice()], ids=lambda p: p.name)
def test_a_sound_piece_is_simple_darts_and_all(piece: Piece) -> None:
    assert outline_crossings(piece.outline) == []


def test_a_bow_tie_crosses_in_its_knot() -> None:
    (found,) = outline_crossings(polygon((0, 0), (10, 10), (10, 0), (0, 10)))
    assert found[:2] == (0, 2)
    assert found[2].point.near(Point(5, 5))


def test_a_corner_that_touches_the_far_edge_is_reported() -> None:
    found = outline_crossings(polygon((0, 0), (20, 0), (20, 10), (10, 0), (0, 10)))
    assert {place.point for _, _, place in found} == {Point(10, 0)}


def test_a_dart_with_no_width_is_reported_as_legs_that_run_together() -> None:
    found = outline_crossings(polygon((0, 0), (20, 0), (20, 10), (10, 10), (10, 4), (10, 10), (0, 10)))
    assert any(first + 1 == second and place.point == Point(10, 10) for first, second, place in found)


def test_a_dart_a_tenth_of_a_millimetre_wide_is_simple() -> None:
    assert outline_crossings(polygon((0, 0), (20, 0), (20, 10), (10.1, 10), (10, 4), (10, 10), (0, 10))) == []


def test_a_looped_edge_is_reported_once() -> None:
    ground = [Line(LOOP.end, Point(100, -50)), Line(Point(100, -50), Point(0, -50)), Line(Point(0, -50), LOOP.start)]
    found = outline_crossings([LOOP, *ground])
    assert [(first, second) for first, second, _ in found] == [(0, 0)]


def test_a_lens_of_two_curves_that_share_both_ends_is_simple() -> None:
    below = Cubic(HILL.start, Point(30, -60), Point(70, -60), HILL.end)
    assert outline_crossings([below, reverse(HILL)]) == []


def test_lines_that_lie_on_each_other_from_a_common_end_meet_at_both_ends_of_what_they_share() -> None:
    long, short = Line(Point(0.0, 0.0), Point(10.0, 0.0)), Line(Point(0.0, 0.0), Point(5.0, 0.0))
    for one, other in ((long, short), (short, long), (reverse(long), short)):
        assert sorted(round(each.point.x, 9) for each in meetings(one, other)) == [0.0, 5.0]


def test_a_level_line_meets_a_parabola_before_and_behind_its_top() -> None:
    # its height is 1200 t (1 - t): a cubic whose third power is zero, so that its top is found by one division
    parabola = Cubic(Point(0, 0), Point(100, 400), Point(200, 400), Point(300, 0))
    found = sorted(hit.t for _, hit in run_hits([parabola], Point(0, 200), Vec(1, 0)))
    assert found == pytest.approx([0.5 - 12**-0.5, 0.5 + 12**-0.5])


@pytest.mark.parametrize("swapped", [False, True])
@pytest.mark.parametrize(("low", "high"), [(-100.0, -5.0), (5.0, 100.0), (-100.0, -0.01)])
def test_a_chord_that_ends_short_of_another_does_not_cross_it(low: float, high: float, swapped: bool) -> None:
    level = hull_of(Line(Point(0.0, 0.0), Point(100.0, 0.0)))
    for x in (0.0, 50.0, 100.0):
        short, through = (hull_of(Line(Point(x, low), Point(x, to))) for to in (high, low + 200.0 + 2.0 * abs(low)))
        pair = (short, level) if swapped else (level, short)
        assert _chords_cross(*pair) is None
        if low < 0.0:
            assert _chords_cross(level, through) == pytest.approx((x, 0.0), abs=1e-9)
    for x in (-5.0, 105.0):
        assert _chords_cross(level, hull_of(Line(Point(x, -10.0), Point(x, 10.0)))) is None


def test_one_closed_curve_is_an_outline_and_two_from_one_place_touch_themselves_there() -> None:
    start = Point(0.0, 0.0)
    above = Cubic(start, Point(60.0, 80.0), Point(-60.0, 80.0), start)
    below = Cubic(start, Point(60.0, -80.0), Point(-60.0, -80.0), start)
    assert outline_crossings((above,)) == []
    assert [(i, j, each.point) for i, j, each in outline_crossings((above, below))] == [(0, 0, start), (1, 1, start)]


@pytest.mark.parametrize("skip", [2, 3])
def test_looking_ends_once_so_many_crossings_are_found(skip: int) -> None:
    """A star of seven points: each side crosses two, or four, of the others."""
    tips = [polar(math.tau * skip * k / 7.0, 100.0) for k in range(7)]
    star = polygon(*((tip.x, tip.y) for tip in tips))
    all_of_them = outline_crossings(star)
    assert len(all_of_them) == 7 * (skip - 1)
    for most in (1, 2, 3, 5):
        found = outline_crossings(star, most=most)
        assert len(found) == most
        assert set(found) <= set(all_of_them)


def test_every_crossing_of_two_bent_curves_is_found_where_another_library_sees_their_chords_cross() -> None:
    curves = [curve for curve in random_cubics(40, seed=31, size=80.0) if not self_crossings(curve)]
    many = 0
    for one, other in pairwise(curves):
        chords = [LineString([(at.x, at.y) for at in flatten(curve, 1e-3)]) for curve in (one, other)]
        seen = chords[0].intersection(chords[1])
        places = [Point(at.x, at.y) for at in getattr(seen, "geoms", [seen]) if not at.is_empty]
        found = meetings(one, other)
        assert len(found) == len(places)
        for meeting in found:
            assert min(distance(meeting.point, place) for place in places) < 0.1
            assert distance(point_at(one, meeting.at_a), point_at(other, meeting.at_b)) <= CROSSING
        assert [meeting.at_a for meeting in found] == sorted(meeting.at_a for meeting in found)
        many += len(found)
    assert many > 20


@pytest.mark.parametrize("side", [1.0, -1.0])
@pytest.mark.parametrize(("low", "high"), [(0.0, 1.0), (0.0, 0.4), (0.6, 1.0), (0.2, 0.9)])
def test_two_curves_share_what_a_part_of_one_is_of_the_other_whichever_way_it_runs(
    low: float, high: float, side: float
) -> None:
    whole = Cubic(Point(0, 0), Point(30, 60 * side), Point(70, 50), Point(120, 0))
    part = stretch((whole,), low, high)[0]
    for other, ends in ((part, (0.0, 1.0)), (reverse(part), (1.0, 0.0))):
        first, last = meetings(whole, other)
        assert (first.at_a, last.at_a) == pytest.approx((low, high))
        assert (first.at_b, last.at_b) == pytest.approx(ends)
        assert len(meetings(other, whole)) == 2


def test_what_runs_together_for_less_than_half_a_millimetre_touches_in_one_place() -> None:
    level = line(0, 0, 100, 0)
    for over, many in ((0.4, 1), (0.6, 2)):
        assert len(meetings(level, line(100.0 - over, 0, 200, 0))) == many
        assert len(meetings(line(100.0 - over, 0, 200, 0), level)) == many
    (joint,) = meetings(level, line(100, 0, 200, 0))
    assert (joint.at_a, joint.at_b) == (1.0, 0.0)
