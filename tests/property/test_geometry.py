"""Laws of geometry that hold for every curve, outline and piece of paper."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Move,
    Point,
    Vec,
    area,
    at_length,
    bounds,
    curvature,
    distance,
    end_tangents,
    flatten,
    length,
    mirror,
    moved,
    moved_all,
    point_at,
    polar,
    reverse,
    run_reversed,
    shift,
    smooth_through,
    split,
    turn,
)
from drafting.geometry.allowance import Margin, cutting_outline
from drafting.geometry.curve import velocity
from drafting.geometry.meet import meetings, outline_crossings
from drafting.geometry.offset import parallel_run
from drafting.geometry.tolerance import CROSSING, LENGTH, OFFSET, PROMISE, SOLVED
from tests.drafting.geometry.shapes import garment_curve, rose


def _bends(curve: Cubic) -> bool:
    """Whether a cubic is far from straight and from turning back on itself, where a meeting is no one place."""
    first, second, third = curve.c1 - curve.start, curve.c2 - curve.c1, curve.end - curve.c2
    size = max(first.norm(), second.norm(), third.norm(), 1.0)
    return min(abs(first.cross(second)), abs(second.cross(third)), abs(first.cross(third))) > 0.01 * size * size


laws = settings(deadline=None, max_examples=40)

coordinates = st.floats(-1000.0, 1000.0, allow_nan=False, allow_infinity=False)
points = st.builds(Point, coordinates, coordinates)
cubics = st.builds(Cubic, points, points, points, points)
bent = cubics.filter(_bends)
curves: st.SearchStrategy[Curve] = st.one_of(cubics, st.builds(Line, points, points))
angles = st.floats(-math.pi, math.pi)
shares = st.floats(0.0, 1.0)
directions = angles.map(polar)
moves: st.SearchStrategy[Move] = st.one_of(
    st.builds(lambda x, y: shift(Vec(x, y)), coordinates, coordinates),
    st.builds(turn, points, angles),
    st.builds(mirror, points, directions),
)
seam_curves = st.builds(garment_curve, st.floats(50.0, 600.0), st.floats(-0.9, 0.9), st.floats(-0.9, 0.9))
roses = st.lists(st.floats(80.0, 300.0), min_size=3, max_size=9).map(rose)
allowances = st.floats(0.0, 40.0)


@laws
@given(curves)
def test_reversing_keeps_the_length_and_twice_is_the_curve(curve: Curve) -> None:
    assert abs(length(reverse(curve)) - length(curve)) <= 2 * LENGTH
    assert reverse(reverse(curve)) == curve


@laws
@given(curves, shares)
def test_the_parts_of_a_split_add_up_and_meet(curve: Curve, t: float) -> None:
    first, second = split(curve, t)
    assert first.end == second.start
    assert abs(length(first) + length(second) - length(curve)) <= 3 * LENGTH
    assert first.end.near(point_at(curve, t), 1e-9)


@laws
@given(curves, moves)
def test_moves_keep_lengths(curve: Curve, move: Move) -> None:
    assert abs(length(moved(curve, move)) - length(curve)) <= 2 * LENGTH
    assert distance(move.point(curve.start), move.point(curve.end)) == pytest.approx(
        distance(curve.start, curve.end), abs=PROMISE
    )


@laws
@given(roses, moves)
def test_moves_keep_areas_and_mirrors_change_their_sign(outline: tuple[Curve, ...], move: Move) -> None:
    sign = -1.0 if move.mirrors else 1.0
    assert area(moved_all(outline, move)) == pytest.approx(sign * area(outline), rel=1e-9)
    assert area(run_reversed(outline)) == pytest.approx(-area(outline), rel=1e-12)


@laws
@given(curves)
def test_a_curve_lies_within_its_bounds_and_touches_all_four(curve: Curve) -> None:
    left, bottom, right, top = bounds(curve)
    places = flatten(curve, 0.05)
    assert all(left - 1e-9 <= p.x <= right + 1e-9 and bottom - 1e-9 <= p.y <= top + 1e-9 for p in places)
    reach = [min(p.x for p in places), min(p.y for p in places), max(p.x for p in places), max(p.y for p in places)]
    assert reach == pytest.approx([left, bottom, right, top], abs=0.05)


@laws
@given(cubics, shares)
def test_the_parameter_at_a_length_cuts_off_that_length(curve: Cubic, share: float) -> None:
    wanted = share * length(curve, 1e-9)
    t = at_length(curve, wanted)
    assert length(split(curve, t)[0], 1e-8) == pytest.approx(wanted, abs=SOLVED + 1e-7)


@laws
@given(
    st.lists(st.tuples(st.floats(10.0, 80.0), st.floats(-60.0, 60.0)), min_size=1, max_size=6),
    st.floats(-1.0, 1.0),
    st.floats(-1.0, 1.0),
)
def test_a_smooth_curve_passes_its_points_with_no_jump_in_direction_or_curvature(
    steps: list[tuple[float, float]], out: float, into: float
) -> None:
    places, at = [Point(0.0, 0.0)], Point(0.0, 0.0)
    for x, y in steps:
        at = at + Vec(x, y)
        places.append(at)
    run = smooth_through(places, polar(out), polar(into))
    assert [curve.start for curve in run] + [run[-1].end] == places
    assert end_tangents(run[0])[0].cross(polar(out)) == pytest.approx(0.0, abs=1e-9)
    assert end_tangents(run[-1])[1].cross(polar(into)) == pytest.approx(0.0, abs=1e-9)
    for one, other in pairwise(run):
        # at a cusp there is no direction to compare
        if velocity(one, 1.0).norm() < 1e-3 * distance(one.start, one.end):
            continue
        assert abs(end_tangents(one)[1].cross(end_tangents(other)[0])) < 1e-9
        assert curvature(one, 1.0) == pytest.approx(curvature(other, 0.0), rel=1e-6, abs=1e-9)


@laws
@given(cubics, cubics)
def test_what_is_called_a_meeting_is_one(a: Cubic, b: Cubic) -> None:
    for meeting in meetings(a, b):
        assert distance(point_at(a, meeting.at_a), point_at(b, meeting.at_b)) <= CROSSING


@laws
@given(bent, bent)
def test_both_curves_agree_on_where_they_meet(a: Cubic, b: Cubic) -> None:
    found, other = meetings(a, b), meetings(b, a)
    assert len(found) == len(other) <= 9  # Bezout
    for meeting in found:
        assert any(meeting.point.near(same.point, 1e-3) for same in other)


@laws
@given(cubics, st.floats(0.05, 0.95), directions, st.floats(1.0, 500.0))
def test_a_line_through_a_point_of_a_curve_is_found_to_meet_it_there(
    curve: Cubic, t: float, direction: Vec, reach: float
) -> None:
    pace = velocity(curve, t)
    assume(abs(pace.cross(direction)) > 1e-3 * pace.norm() > 0.0)  # else they may run together
    at = point_at(curve, t)
    needle = Line(at - direction * reach, at + direction * reach)
    assert any(meeting.point.near(at, 1e-3) for meeting in meetings(curve, needle))


@laws
@given(seam_curves, st.floats(-40.0, 40.0))
def test_a_parallel_curve_is_its_distance_away_and_swings_out_by_what_the_curve_turns(
    curve: Cubic, to_right: float
) -> None:
    try:
        bends = [curvature(curve, k / 200) for k in range(201)]
    except NotAPattern:
        assume(False)
    assume(min(1.0 + to_right * bend for bend in bends) > 0.05)
    run = parallel_run((curve,), to_right)
    for piece in run:
        for k in range(9):
            place = point_at(piece, k / 8)
            assert abs(_distance_to(curve, place) - abs(to_right)) <= OFFSET
    # Steiner: the length grows by the distance times the angle turned through
    out, into = end_tangents(curve)
    turned = math.atan2(out.cross(into), out.dot(into))
    total = sum(length(piece) for piece in run)
    assert total == pytest.approx(length(curve) + to_right * turned, abs=0.05)


@laws
@given(roses, st.data())
def test_the_cutting_line_is_simple_and_encloses_the_sewing_line(
    outline: tuple[Curve, ...], data: st.DataObject
) -> None:
    margins = [Margin((curve,), data.draw(allowances)) for curve in outline]
    cut = cutting_outline(margins)
    assert all(cut[k - 1].end == curve.start for k, curve in enumerate(cut))
    assert outline_crossings(cut) == []
    assert area(cut) >= area(outline) - 1e-6
    for curve in outline:
        for k in range(9):
            assert _inside_or_on(cut, point_at(curve, k / 8))


def _distance_to(curve: Cubic, place: Point) -> float:
    """The distance from a place to a curve: from its polyline, whose sag is far below what is asked."""
    chords = flatten(curve, 1e-3)
    return min(_to_chord(place, p, q) for p, q in pairwise(chords))


def _to_chord(place: Point, p: Point, q: Point) -> float:
    along = q - p
    size = along.dot(along)
    share = 0.0 if size == 0.0 else min(1.0, max(0.0, (place - p).dot(along) / size))
    return distance(place, p + along * share)


def _inside_or_on(outline: tuple[Curve, ...], place: Point) -> bool:
    """Whether a place lies within a closed outline or no more than 1e-6 mm outside: by the angle swept round it."""
    swept = 0.0
    for curve in outline:
        chords = flatten(curve, 1e-3)
        for p, q in pairwise(chords):
            if _to_chord(place, p, q) <= 1e-3:
                return True
            u, v = p - place, q - place
            swept += math.atan2(u.cross(v), u.dot(v))
    return abs(swept - 2.0 * math.pi) < 1e-6
