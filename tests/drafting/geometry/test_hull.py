"""What is told of curves by their control points alone, against the same worked out in another way."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise, product

import pytest

from drafting.geometry import Cubic, Curve, Line, Point, Vec, moved, point_at, polar, shift, split
from drafting.geometry.allowance import _one_line
from drafting.geometry.curve import velocity
from drafting.geometry.hull import (
    LEAST_SINE,
    NARROW,
    Box,
    Hull,
    apart,
    fan_apart,
    halves,
    hull_of,
    place_and_velocity,
    straight,
    transversal,
)
from drafting.geometry.meet import _boxes_that_meet, _chords_cross, _one_way, meetings
from drafting.geometry.tolerance import CROSSING, SAME_PLACE
from tests.drafting.geometry.shapes import random_cubics

ORIGIN = Point(0.0, 0.0)
LEVEL, UPRIGHT = Vec(1.0, 0.0), Vec(0.0, 1.0)
CURVES: list[Curve] = [
    *random_cubics(20, seed=5, size=60.0),
    *(Line(Point(k, 2.0 * k), Point(50.0 - k, 7.0)) for k in (0.0, 12.0, 30.0)),
]


def places(hull: Hull) -> list[Vec]:
    return [Vec(x, y) for x, y in zip(hull[::2], hull[1::2], strict=True)]


def gap(one: Hull, other: Hull, axis: Vec) -> float:
    """How far two hulls lie apart along an axis of 1 mm; below zero where they lap over."""
    a, b = [axis.dot(p) for p in places(one)], [axis.dot(p) for p in places(other)]
    return max(min(b) - max(a), min(a) - max(b))


def axes(one: Hull, other: Hull) -> Iterator[Vec]:
    """Level, upright, and square to the chord of either."""
    yield LEVEL
    yield UPRIGHT
    for start, *_, end in (places(one), places(other)):
        if start != end:
            yield (end - start).unit().left()


def test_two_hulls_are_apart_just_where_a_strip_of_their_own_directions_parts_them() -> None:
    told = set()
    for one, other in combinations(CURVES, 2):
        still = hull_of(one)
        widest = max(axes(still, hull_of(other)), key=lambda axis: gap(still, hull_of(other), axis))
        centre = sum((p.dot(widest) for p in places(still)), 0.0) < sum(p.dot(widest) for p in places(hull_of(other)))
        way = widest if centre else -widest
        for left in (0.95 * CROSSING, 1.05 * CROSSING, -1.0, 1.0):
            beside = hull_of(moved(other, shift(way * (left - gap(still, hull_of(other), widest)))))
            expected = max(gap(still, beside, axis) for axis in axes(still, beside)) > CROSSING
            assert apart(still, beside) is apart(beside, still) is expected
            told.add((left, expected))
    assert len(told) >= 6


@pytest.mark.parametrize("angle", [0.0, 90.0, 180.0, 270.0])
def test_hulls_exactly_as_far_apart_as_a_crossing_may_be_are_not(angle: float) -> None:
    across = polar(math.radians(angle))
    across = Vec(round(across.x), round(across.y))
    one = Line(ORIGIN - across.left() * 8.0, ORIGIN + across.left() * 8.0)
    for beside in (one, Line(one.start, one.end + across * 8.0)):
        assert not apart(hull_of(one), hull_of(moved(beside, shift(across * CROSSING))))
        assert not apart(hull_of(moved(beside, shift(across * CROSSING))), hull_of(one))


def test_a_hull_that_begins_where_it_ends_is_not_apart_from_what_crosses_it() -> None:
    drop = Cubic(ORIGIN, Point(60.0, 80.0), Point(-60.0, 80.0), ORIGIN)
    through = Line(Point(-50.0, 20.0), Point(50.0, 30.0))
    assert not apart(hull_of(drop), hull_of(through))
    assert len(meetings(drop, through)) == len(meetings(through, drop)) == 2


def _crossed(one: Hull, other: Hull) -> list[float]:
    """The sines between all legs of one and all of the other, as though all were as long as the longest."""
    legs, others = ([q - p for p, q in pairwise(at)] for at in (places(one), places(other)))
    longest = max(leg.norm() for leg in legs) * max(leg.norm() for leg in others)
    return [leg.cross(beside) / longest for leg, beside in product(legs, others)]


def test_curves_are_transversal_just_where_every_leg_lies_to_one_side_of_every_leg_of_the_other() -> None:
    wayward = random.Random(3)
    bent = []
    for _ in range(24):
        lean = wayward.uniform(-math.pi, math.pi)
        ends = [ORIGIN]
        for _ in range(3):
            ends.append(ends[-1] + polar(lean + wayward.uniform(-0.6, 0.6), wayward.uniform(0.3, 90.0)))
        bent.append(hull_of(Cubic(*ends)))
    told = []
    for one, other in product(bent, bent):
        sines = _crossed(one, other)
        expected = (min(sines) > LEAST_SINE) or (max(sines) < -LEAST_SINE)
        told.append(expected)
        assert transversal(one, other) is expected
    assert 0.2 < sum(told) / len(told) < 0.8


@pytest.mark.parametrize("side", [1.0, -1.0])
@pytest.mark.parametrize(("share", "expected"), [(0.95, False), (1.05, True), (0.0, False)])
def test_lines_that_part_by_a_thousandth_of_a_millimetre_in_a_metre_are_parallel(
    share: float, side: float, expected: bool
) -> None:
    for long, short in ((1.0, 1.0), (1000.0, 0.5), (0.5, 1000.0)):
        one, other = (
            hull_of(Line(ORIGIN, ORIGIN + way)) for way in (Vec(long, 0.0), polar(side * share * LEAST_SINE, short))
        )
        assert transversal(one, other) is expected


@pytest.mark.parametrize(("long", "other_long"), [(1.0, 1.0), (1000.0, 1.0), (1.0, 1000.0)])
@pytest.mark.parametrize("lean", [0.0, 1.0, 2.5, -2.0])
def test_two_lines_from_one_end_are_parted_by_a_line_between_them_but_not_where_they_run_together(
    lean: float, long: float, other_long: float
) -> None:
    one = Line(ORIGIN, ORIGIN + polar(lean, long))
    for angle, expected in ((0.0005, False), (0.01, True), (1.05, True), (2.8, True), (-1.05, True), (0.0, False)):
        other = Line(ORIGIN + polar(lean + angle, other_long), ORIGIN)
        assert fan_apart(one, other, ORIGIN) is fan_apart(other, one, ORIGIN) is expected


def test_curves_from_one_end_are_parted_only_where_no_handle_leans_over_to_the_other() -> None:
    level = Cubic(ORIGIN, Point(30.0, 3.0), Point(60.0, 3.0), Point(90.0, 0.0))
    for name, expected in (("c1", False), ("c2", False), ("end", False), ("", True)):
        at = {"c1": Point(3.0, 30.0), "c2": Point(3.0, 60.0), "end": Point(0.0, 90.0)}
        if name:
            at[name] = Point(40.0, -20.0)
        rises = Cubic(ORIGIN, **at)
        assert fan_apart(level, rises, ORIGIN) is fan_apart(rises, level, ORIGIN) is expected
    # a handle on the end tells nothing, nor does a curve all of which lies there
    assert fan_apart(Cubic(ORIGIN, ORIGIN, Point(9.0, 1.0), Point(20.0, 0.0)), Line(ORIGIN, Point(0.0, 9.0)), ORIGIN)
    dot = Line(ORIGIN, Point(0.1 * SAME_PLACE, 0.0))
    assert not fan_apart(dot, Line(ORIGIN, Point(0.0, 9.0)), ORIGIN)
    assert not fan_apart(Line(ORIGIN, Point(0.0, 9.0)), dot, ORIGIN)


def test_a_curve_is_straight_while_both_its_handles_keep_to_its_chord_and_lead_on_along_it() -> None:
    sag, chord = 0.25 * CROSSING, Vec(40.0, 30.0)
    end, across = ORIGIN + chord, chord.unit().left()
    for first, second in product((-1.05, -0.95, 0.0, 0.95, 1.05), repeat=2):
        c1, c2 = ORIGIN + chord * 0.3 + across * (first * sag), ORIGIN + chord * 0.6 + across * (second * sag)
        level = abs(first) < 1.0 and abs(second) < 1.0
        assert straight((hull_of(Cubic(ORIGIN, c1, c2, end)), 0.0, 1.0)) is level
    for first, second in ((-0.1, 0.6), (0.6, 0.3), (0.3, 1.1)):
        back = Cubic(ORIGIN, ORIGIN + chord * first, ORIGIN + chord * second, end)
        assert not straight((hull_of(back), 0.0, 1.0))
        assert straight((hull_of(back), 0.5, 0.5 + 0.9 * NARROW))
        assert not straight((hull_of(back), 0.5, 0.5 + 1.1 * NARROW))
    for size in (0.0, 0.9):  # of no length: only where all of it is a dot
        tiny = ORIGIN + Vec(size * sag, 0.0)
        assert straight((hull_of(Cubic(ORIGIN, ORIGIN, tiny, tiny)), 0.0, 1.0))
        assert not straight((hull_of(Cubic(ORIGIN, Point(1.1 * sag, 0.0), tiny, tiny)), 0.0, 1.0))


def test_the_halves_of_a_hull_are_those_of_its_curve_and_it_goes_as_the_curve_goes() -> None:
    for curve in CURVES:
        one, other = halves((hull_of(curve), 0.25, 0.75))
        assert (one[1:], other[1:]) == ((0.25, 0.5), (0.5, 0.75))
        for half, part in zip((one[0], other[0]), split(curve, 0.5), strict=True):
            assert half == pytest.approx(hull_of(part), abs=1e-12)
        for t in (0.0, 0.3, 1.0):
            x, y, u, v = place_and_velocity(hull_of(curve), t)
            assert point_at(curve, t).near(Point(x, y), 1e-10)
            assert (velocity(curve, t) - Vec(u, v)).norm() < 1e-9


def _boxes(seed: int) -> list[Box]:
    """Boxes whose sides often lie as far apart as still counts as touching, or a little further."""
    wayward = random.Random(seed)
    steps = (0.0, 0.95 * CROSSING, 1.05 * CROSSING, 1.0, 2.0)

    def span() -> tuple[float, float]:
        low = wayward.choice((0.0, 1.0, 2.0)) + wayward.choice(steps)
        return low, low + wayward.choice((0.0, 1.0))

    return [(x[0], y[0], x[1], y[1]) for x, y in ((span(), span()) for _ in range(9))]


@pytest.mark.parametrize("seed", range(12))
def test_the_sweep_finds_every_pair_of_boxes_that_are_no_further_apart_than_a_crossing(seed: int) -> None:
    boxes = _boxes(seed)

    def near(one: Box, other: Box) -> bool:
        return all(max(one[k] - other[k + 2], other[k] - one[k + 2]) <= CROSSING for k in (0, 1))

    expected = [(i, j) for i in range(9) for j in range(i, 9) if near(boxes[i], boxes[j])]
    assert sorted(_boxes_that_meet(boxes)) == expected


def test_a_curve_gets_on_along_its_chord_where_none_of_its_legs_leads_back() -> None:
    for curve, expected in (
        (Line(ORIGIN, Point(3.0, 4.0)), True),
        (Cubic(ORIGIN, Point(0.0, 5.0), Point(9.0, 5.0), Point(9.0, 0.0)), True),  # square to it is not back
        (Cubic(ORIGIN, Point(-1.0, 5.0), Point(9.0, 5.0), Point(9.0, 0.0)), False),
        (Cubic(ORIGIN, Point(5.0, 5.0), Point(4.0, 5.0), Point(9.0, 0.0)), False),
        (Cubic(ORIGIN, Point(0.0, 5.0), Point(10.0, 5.0), Point(9.0, 0.0)), False),
        (Cubic(ORIGIN, Point(0.0, 5.0), Point(10.0, 5.0), ORIGIN), False),
    ):
        assert _one_way(hull_of(curve)) is expected


def _pairs(curves: Sequence[Curve]) -> Iterator[tuple[Hull, Hull]]:
    for one, other in combinations(curves, 2):
        yield hull_of(one), hull_of(other)


def test_it_means_nothing_which_of_two_is_named_first() -> None:
    for one, other in _pairs(CURVES):
        crossing, same = _chords_cross(one, other), _chords_cross(other, one)
        assert (crossing is None) is (same is None)
        assert crossing is None or crossing == pytest.approx(same, abs=1e-9)
        assert transversal(one, other) is transversal(other, one)
    short = Line(ORIGIN, Point(0.03, 0.04))
    assert _one_line(short, Line(short.end, Point(0.06, 0.08)))  # however short they are
    lines = [Line(ORIGIN, ORIGIN + polar(0.5 * k * k, 3.0 + k)) for k in range(6)]
    lines += [Line(ORIGIN, ORIGIN + polar(k * 1e-6, 20.0)) for k in (1.0, 3.0)]
    for one, other in product(lines, lines):
        assert _one_line(one, other) is _one_line(other, one)
