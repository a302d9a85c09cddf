"""Each kind of corner of a cutting line, worked out on straight edges."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from drafting.geometry import Curve, Line, Point, Vec, polar
from drafting.geometry.allowance import offset_runs
from drafting.geometry.corner import Corner, Side, corner_between
from drafting.geometry.dart_mouth import Mouth
from drafting.geometry.offset import parallel_run

CORNER = Point(0.0, 0.0)
_LIMIT = 3.0


def side(run: tuple[Curve, ...], allowance: float, **more: object) -> Side:
    """The side of a cutting line of an edge so far outside."""
    return Side(parallel_run(run, allowance), allowance, run[0].start, run[-1].end, **more)  # type: ignore[arg-type]


def around(angle: float, one: float, other: float, first: dict[str, object], second: dict[str, object]) -> list[Side]:
    """Two sides of 200 mm: one arrives level at the corner, the next leaves it at an angle of cloth, degrees."""
    leaving = polar(math.radians(180.0 - angle), 200.0)
    return [
        side((Line(Point(-200.0, 0.0), CORNER),), one, **first),
        side((Line(CORNER, CORNER + leaving),), other, **second),
        side((Line(CORNER + leaving, Point(-200.0, 0.0)),), 0.0),
    ]


def between(
    angle: float,
    one: float,
    other: float,
    first: dict[str, object] | None = None,
    second: dict[str, object] | None = None,
) -> Corner:
    found = corner_between(around(angle, one, other, first or {}, second or {}), {}, 0, _LIMIT)
    assert found is not None
    return found


def places(corner: Corner) -> list[tuple[float, float]]:
    """Where the bridge goes, corner by corner."""
    run = corner.bridge
    return [
        (round(at.x, 6) + 0.0, round(at.y, 6) + 0.0) for at in (*(c.start for c in run), *(c.end for c in run[-1:]))
    ]


def test_both_lines_run_on_until_they_meet() -> None:
    corner = between(90.0, 10.0, 20.0)
    assert (corner.stop, corner.go) == (1.0, 0.0)
    assert places(corner) == [(0.0, -10.0), (20.0, -10.0), (20.0, 0.0)]


@pytest.mark.parametrize(("one", "other"), [(10.0, 10.0), (10.0, 4.0), (4.0, 10.0)])
def test_a_sharp_point_is_cut_off_at_three_times_the_wider_allowance(one: float, other: float) -> None:
    corner = between(20.0, one, other)
    far = 3.0 * max(one, other)
    start, on, back, end = (Point(*at) for at in places(corner))
    assert [(at - CORNER).norm() for at in (on, back)] == pytest.approx([far, far], abs=1e-5)
    assert start.near(Point(0.0, -one), 1e-5)
    assert (on.y, on.x) == (pytest.approx(-one, abs=1e-5), pytest.approx(math.sqrt(far**2 - one**2), abs=1e-5))
    along = polar(math.radians(160.0))
    assert along.cross(back - end) == pytest.approx(0.0, abs=1e-5)
    assert along.dot(end - back) > 0.0
    assert end.near(CORNER + along.right() * other, 1e-5)


def test_an_inward_corner_stops_both_where_they_cross() -> None:
    corner = between(270.0, 10.0, 20.0)
    assert corner.bridge == ()
    assert (corner.stop, corner.go) == (pytest.approx(1.0 - 20.0 / 200.0), pytest.approx(10.0 / 200.0))


@pytest.mark.parametrize("angle", [180.0, 179.0, 181.0])
@pytest.mark.parametrize(("one", "other"), [(30.0, 10.0), (10.0, 30.0), (30.0, 0.0), (0.0, 30.0)])
def test_of_two_allowances_on_one_line_the_wider_ends_square(angle: float, one: float, other: float) -> None:
    corner = between(angle, one, other)
    along = polar(math.radians(180.0 - angle))
    wide_end = Point(0.0, -one) if one > other else CORNER + along.right() * other
    assert any(Point(*at).near(wide_end, 1e-5) for at in places(corner))
    for here, there in zip(corner.bridge, corner.bridge[1:], strict=False):
        assert here.end.near(there.start)
    # from the corner of the wider straight to the sewing line, and on along the narrower
    square = Vec(0.0, 1.0) if one > other else along.left()
    steps = [(line.end - line.start) for line in corner.bridge]
    first = steps[0] if one > other else -steps[-1]
    assert abs(first.cross(square)) < 1e-6 * first.norm()
    assert first.norm() == pytest.approx(abs(one - other), abs=0.6)


@pytest.mark.parametrize("angle", [60.0, 120.0])
def test_beside_a_fold_the_line_stops_on_the_fold_run_on(angle: float) -> None:
    out, back = 10.0 / math.sin(math.radians(angle)), -10.0 / math.tan(math.radians(angle))
    corner = between(angle, 0.0, 10.0, {"fold": True})
    assert (corner.stop, corner.go) == (1.0, pytest.approx(max(0.0, back) / 200.0))
    assert places(corner)[:2] == [(0.0, 0.0), (round(out, 6), 0.0)]
    corner = between(angle, 10.0, 0.0, {}, {"fold": True})
    assert (corner.stop, corner.go) == (pytest.approx(1.0 - max(0.0, back) / 200.0), 0.0)
    tip, end = (Point(*at) for at in places(corner)[-2:])
    assert tip.near(CORNER + polar(math.radians(-angle), out), 1e-5)
    assert end.near(CORNER, 1e-5)


@pytest.mark.parametrize("by", [0.0, 4.0, 12.0])
@pytest.mark.parametrize("at_start", [False, True])
def test_a_square_end_reaches_so_far_past_the_corner_and_lands_on_the_other_side(by: float, at_start: bool) -> None:
    """The other edge leaves at 120 degrees of cloth, under 15 mm; what is drawn square comes down on its line."""
    if at_start:
        # the other way round: the second side begins square
        corner = between(120.0, 15.0, 10.0, {}, {"squares": (by, None)})
        along = polar(math.radians(60.0))
        tip = CORNER + along.right() * 10.0 - along * by
        end = corner.bridge[-1].end
        assert end.near(CORNER + along.right() * 10.0, 1e-5)
    else:
        corner = between(120.0, 10.0, 15.0, {"squares": (None, by)})
        tip = Point(by, -10.0)
        assert corner.bridge[0].start.near(Point(0.0, -10.0), 1e-5)
        assert corner.stop == 1.0
    assert any(Point(*at).near(tip, 1e-5) for at in places(corner))


def test_a_square_end_far_past_a_sharp_corner_lands_on_the_line_of_the_other_side_run_on() -> None:
    """At 5 degrees of cloth: 200 mm past the corner the other line has come down to 2.4 mm below the edge."""
    corner = between(5.0, 10.0, 15.0, {"squares": (None, 200.0)})
    *_, tip, landing, _ = (Point(*at) for at in places(corner))
    assert tip.near(Point(200.0, -10.0), 1e-5)
    way = polar(math.radians(175.0))
    assert landing.x == pytest.approx(200.0, abs=1e-5)
    assert (landing - CORNER).dot(way.right()) == pytest.approx(15.0, abs=1e-4)


def straight(*at: tuple[float, float]) -> tuple[Curve, ...]:
    """The straight lines from place to place."""
    points = [Point(*each) for each in at]
    return tuple(Line(p, q) for p, q in pairwise(points))


BEFORE = Side(straight((-200.0, -10.0), (-100.0, -10.0), (0.0, -10.0)), 10.0, Point(-200.0, 0.0), Point(0.0, 0.0))
FAR = Side(straight((300.0, 300.0), (-200.0, 300.0)), 0.0, Point(300.0, 300.0), Point(-200.0, 300.0))


@pytest.mark.parametrize(
    ("after", "stop", "go", "bridge"),
    [
        # what lies between is swallowed: the second line run back, or the first run on, stops on the other
        (straight((-25.0, -6.0), (-25.0, 94.0)), 1.75, 0.0, [(-25.0, -10.0), (-25.0, -6.0)]),
        (straight((-125.0, -6.0), (-125.0, 94.0)), 0.75, 0.0, [(-125.0, -10.0), (-125.0, -6.0)]),
        (straight((20.0, -30.0), (20.0, 70.0)), 2.0, 0.2, [(0.0, -10.0), (20.0, -10.0)]),
        (straight((20.0, -50.0), (20.0, -40.0), (20.0, 60.0)), 2.0, 1.3, [(0.0, -10.0), (20.0, -10.0)]),
        # and where it meets the other twice, on the nearer place
        (straight((20.0, -30.0), (20.0, 70.0), (40.0, 70.0), (40.0, -70.0)), 2.0, 0.2, [(0.0, -10.0), (20.0, -10.0)]),
    ],
)
def test_a_hollow_that_swallowed_the_edge_between_is_cut_straight_to_the_other_line(
    after: tuple[Curve, ...], stop: float, go: float, bridge: list[tuple[float, float]]
) -> None:
    second = Side(after, 10.0, Point(50.0, 0.0), Point(50.0, 100.0))
    found = corner_between([BEFORE, second, FAR], {}, 0, _LIMIT)
    assert found is not None
    assert (found.stop, found.go, places(found)) == (pytest.approx(stop), pytest.approx(go), bridge)


@pytest.mark.parametrize(("beside", "slant"), [(2.9, True), (3.1, False)])
def test_a_step_of_less_than_three_millimetres_is_cut_as_a_slant(beside: float, slant: bool) -> None:
    """What ends square at the corner never comes down on the other line, which begins so far beside it."""
    first, _, last = around(90.0, 10.0, 0.0, {"squares": (None, 0.0)}, {})
    second = Side((Line(Point(beside, 0.0), Point(beside, 200.0)),), 0.0, CORNER, Point(0.0, 200.0))
    found = corner_between([first, second, last], {}, 0, _LIMIT)
    assert found is not None
    assert (found.stop, found.go) == (1.0, 0.0)
    assert places(found) == [(0.0, -10.0), *([] if slant else [(0.0, 0.0)]), (beside, 0.0)]


@pytest.mark.parametrize("angle", [80.0, 90.0, 110.0])
def test_what_is_turned_in_lies_on_the_side_it_is_folded_onto(angle: float) -> None:
    """Below the fold the side's line goes on as its own mirror image."""
    for corner, hem_first in (
        (between(angle, 40.0, 10.0, {"turned": True}), True),
        (between(angle, 10.0, 40.0, {}, {"turned": True}), False),
    ):
        hem = Vec(1.0, 0.0) if hem_first else polar(math.radians(180.0 - angle))
        depths = [(Point(*at) - CORNER).dot(hem.right()) for at in places(corner)]
        assert max(depths) == pytest.approx(40.0, abs=1e-5)
        lean = 40.0 / math.tan(math.radians(angle))
        on_fold = 10.0 / math.sin(math.radians(angle))
        deepest = [Point(*at) - CORNER for at, deep in zip(places(corner), depths, strict=True) if deep > 39.9]
        outs = [at.dot(hem if hem_first else -hem) for at in deepest]
        assert any(out == pytest.approx(on_fold - lean, abs=1e-5) for out in outs)


def test_the_runs_of_an_edge_part_where_it_turns_by_more_than_a_hairline_shows() -> None:
    level = Line(Point(0.0, 0.0), Point(100.0, 0.0))
    for angle, allowance, many in (
        (0.0009, 10.0, 1),
        (0.0011, 10.0, 2),
        (0.0011, 5.0, 1),
        (0.5 * math.pi, 0.0, 2),
        (math.pi, 0.0, 2),
    ):
        bent = (level, Line(level.end, level.end + polar(angle, 50.0)))
        assert len(offset_runs(bent, allowance)) == many


@pytest.mark.parametrize("toward_before", [True, False])
def test_over_the_mouth_of_a_dart_both_sides_stop_on_the_lines_of_its_legs(toward_before: bool) -> None:
    apex = Point(0.0, 100.0)
    before = side((Line(Point(-200.0, 0.0), Point(-10.0, 0.0)),), 15.0)
    after = side((Line(Point(10.0, 0.0), Point(200.0, 0.0)),), 15.0)
    corner = corner_between([before, after], {0: Mouth(apex, toward_before)}, 0, _LIMIT)
    assert corner is not None
    run = corner.bridge
    start, end = before.run[0].start, after.run[0].start
    assert start.y == end.y == -15.0
    legs = [Point(-11.5, -15.0), Point(11.5, -15.0)]  # the legs run on 15 mm below the edge
    stops = [Point(-200.0 + 190.0 * corner.stop, -15.0), Point(10.0 + 190.0 * corner.go, -15.0)]
    assert stops[1].near(legs[1], 1e-6)
    assert any(each.near(legs[0], 1e-6) for each in (stops[0], *(curve.end for curve in run)))
    peak = min(run, key=lambda curve: curve.end.y).end
    assert peak.x == pytest.approx(0.0, abs=1e-6)
