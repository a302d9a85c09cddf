"""The centre line of a bodice led on to the point of its waist."""

from __future__ import annotations

import pytest

from drafting.alterations.skirt.pointed_bodice import _extended_to
from drafting.geometry import Cubic, Curve, Line, Point, distance
from drafting.pattern import Edge

STRAIGHT = (Line(Point(0.0, 300.0), Point(0.0, 200.0)), Line(Point(0.0, 200.0), Point(0.0, 100.0)))
BENT = (Cubic(Point(0.0, 300.0), Point(9.0, 250.0), Point(9.0, 220.0), Point(0.0, 200.0)), STRAIGHT[1])
CURVED = (STRAIGHT[0], Cubic(Point(0.0, 200.0), Point(9.0, 180.0), Point(9.0, 130.0), Point(0.0, 100.0)))


def turned_round(run: tuple[Curve, ...]) -> tuple[Curve, ...]:
    def reverse(each: Curve) -> Curve:
        if isinstance(each, Line):
            return Line(each.end, each.start)
        return Cubic(each.end, each.c2, each.c1, each.start)

    return tuple(reverse(each) for each in reversed(run))


@pytest.mark.parametrize("backward", [False, True])
@pytest.mark.parametrize("run", [STRAIGHT, BENT, CURVED])
@pytest.mark.parametrize(("goal", "straight_on"), [(Point(0.0, 40.0), True), (Point(2.0, 40.0), False)])
def test_it_is_longer_by_the_way_to_the_point_and_the_rest_of_it_as_it_was(
    goal: Point, straight_on: bool, run: tuple[Curve, ...], backward: bool
) -> None:
    edge = Edge("centre front", turned_round(run) if backward else run, allowance=7.0)
    at, far = Point(0.0, 100.0), Point(0.0, 300.0)
    made = _extended_to(edge, at, goal)
    assert (made.start, made.end) == ((goal, far) if backward else (far, goal))
    assert made.length == pytest.approx(edge.length + distance(at, goal), abs=1e-6)
    assert (made.name, made.allowance) == ("centre front", 7.0)
    # straight on from a line it is one line with that, else a line more
    one_line = straight_on and isinstance(run[-1], Line)
    assert len(made.curves) == (2 if one_line else 3)
    kept = run[:1] if one_line else run
    now = turned_round(made.curves) if backward else made.curves
    assert now[: len(kept)] == kept
