from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Line,
    Point,
    Vec,
    area,
    distance,
    lerp,
    mirror,
    moved_all,
    run_bounds,
    run_hits,
    run_reversed,
)
from drafting.geometry.allowance import MITRE_LIMIT, Margin, _mouths_without, cutting_outline
from drafting.geometry.dart_mouth import Mouth, mouth_roof
from drafting.geometry.meet import outline_crossings
from tests.drafting.geometry.shapes import polygon


def margins(outline: tuple[Curve, ...], *allowances: float) -> list[Margin]:
    return [Margin((curve,), allowance) for curve, allowance in zip(outline, allowances, strict=True)]


def corners(outline: tuple[Curve, ...]) -> set[tuple[float, float]]:
    return {(round(curve.start.x, 6), round(curve.start.y, 6)) for curve in outline}


def test_each_side_of_a_rectangle_moves_out_by_its_own_allowance() -> None:
    cut = cutting_outline(margins(polygon((0, 0), (100, 0), (100, 60), (0, 60)), 40, 15, 10, 0))
    assert corners(cut) == {(0, -40), (115, -40), (115, 70), (0, 70)}
    assert area(cut) == pytest.approx(115 * 110)


def test_a_hollow_corner_stops_both_lines_where_they_cross() -> None:
    cut = cutting_outline(margins(polygon((0, 0), (100, 0), (100, 40), (50, 40), (50, 90), (0, 90)), *[10.0] * 6))
    assert (60, 50) in corners(cut)
    assert len(cut) == 6


def test_a_mitre_within_the_limit_is_a_point_and_beyond_it_is_cut_off_square() -> None:
    allowance = 10.0
    for half_angle, blunt in ((21.0, False), (18.0, True)):  # the limit of 3 is reached at asin(1/3) = 19.47 degrees
        spread = 200.0 * math.tan(math.radians(half_angle))
        cut = cutting_outline(margins(polygon((0, -spread), (200, 0), (0, spread)), *[allowance] * 3))
        furthest = run_bounds(cut)[2] - 200.0
        if blunt:
            assert furthest < MITRE_LIMIT * allowance
            assert len(cut) > 3
        else:
            assert furthest == pytest.approx(allowance / math.sin(math.radians(half_angle)))


@pytest.mark.parametrize(("first", "second"), [(10.0, 30.0), (30.0, 10.0)])
@pytest.mark.parametrize("bend", [2.0, 0.0, -2.0])
def test_two_allowances_on_edges_nearly_in_line_meet_in_a_step_that_does_not_run_away(
    first: float, second: float, bend: float
) -> None:
    # 10 and 30 mm on edges 2 degrees off straight would meet 573 mm away if both lines ran on (30 - 10) / sin 2 degrees
    lift = 200.0 * math.tan(math.radians(bend))
    outline = polygon((0, 0), (200, 0), (400, lift), (400, 150), (0, 150))
    cut = cutting_outline(margins(outline, first, second, 10.0, 10.0, 10.0))
    near = [p for p in corners(cut) if abs(p[0] - 200.0) < 60.0 and p[1] < 50.0]
    assert len(near) >= 2
    assert all(distance(Point(*p), Point(200, 0)) <= 31.0 for p in near)
    assert all(abs(p[0] - 200.0) <= 1.5 for p in near)
    assert outline_crossings(cut) == []


def test_a_short_edge_in_a_hollow_vanishes() -> None:
    # a notch in the side, 6 mm wide at its bottom: allowances of 10 mm fill it
    outline = polygon((0, 0), (100, 0), (100, 40), (80, 47), (80, 53), (100, 60), (100, 100), (0, 100))
    cut = cutting_outline(margins(outline, *[10.0] * 8))
    assert outline_crossings(cut) == []
    assert len(cut) < 8 + 2


def test_allowances_that_overlap_are_cut_as_one() -> None:
    # a slit 12 mm wide and 60 deep between two tongues: allowances of 10 mm meet in it
    outline = polygon((0, 0), (112, 0), (112, 80), (62, 80), (62, 20), (50, 20), (50, 80), (0, 80))
    cut = cutting_outline(margins(outline, *[10.0] * 8))
    assert corners(cut) == {(-10, -10), (122, -10), (122, 90), (-10, 90)}


def test_below_the_fold_line_of_a_hem_the_side_is_mirrored() -> None:
    # sides that lean in by 10 degrees going up: below the hem line the cut leans in going down
    lean = 100.0 * math.tan(math.radians(10))
    outline = polygon((0, 0), (300, 0), (300 - lean, 100), (lean, 100))
    pieces = [Margin((outline[0],), 40.0, turned=True), *margins(outline, 0, 15, 10, 15)[1:]]
    cut = cutting_outline(pieces)
    at_fold = 15.0 / math.cos(math.radians(10))
    drawn_in = 40.0 * math.tan(math.radians(10))
    left, bottom, right, _ = run_bounds(cut)
    assert (left, bottom, right) == pytest.approx((-at_fold, -40.0, 300 + at_fold))
    assert (round(300 + at_fold - drawn_in, 6), -40.0) in corners(cut)
    assert (round(drawn_in - at_fold, 6), -40.0) in corners(cut)


@pytest.mark.parametrize("rises", [-6.0, -0.1, 0.1, 6.0])
def test_a_hem_not_quite_square_to_the_fold_stops_on_the_fold_line(rises: float) -> None:
    # the fold lies at the right; whatever lay beyond it would cross its own other half
    outline = polygon((0, 0), (200, rises), (200, 200), (0, 200))
    hem, fold, top, side = margins(outline, 40, 0, 15, 15)
    cut = cutting_outline([replace(hem, turned=True), replace(fold, fold=True), top, side])
    assert run_bounds(cut)[2] == pytest.approx(200.0, abs=1e-9)
    low = rises - 40.0 / math.cos(math.atan(rises / 200.0))
    assert any(distance(curve.start, Point(200.0, low)) < 1e-6 for curve in cut)


def test_a_hem_on_a_slant_is_mirrored_in_its_own_line() -> None:
    outline = polygon((0, 0), (200, 40), (200, 200), (0, 200))
    cut = cutting_outline([Margin((outline[0],), 30.0, turned=True), *margins(outline, 0, 10, 10, 0)[1:]])
    along = (outline[0].end - outline[0].start).unit()
    # the fold edge at the left goes on below the hem as its mirror image, which leans away from it
    low = min(corners(cut), key=lambda p: p[1])
    mirrored_up = Point(0, 0) + along * (2 * along.dot(Point(*low) - Point(0, 0))) - (Point(*low) - Point(0, 0))
    assert mirrored_up.x == pytest.approx(0.0, abs=1e-6)
    assert along.left().dot(Point(*low) - Point(0, 0)) == pytest.approx(-30.0)


@pytest.mark.parametrize("toward_before", [True, False])
def test_the_roof_of_a_dart_lies_on_the_cutting_line_when_it_is_folded(toward_before: bool) -> None:
    apex, start, end = Point(0, 0), Point(15, 100), Point(-15, 100)
    before = (Line(Point(200, 60), Point(16.5, 110)),)
    after = (Line(Point(-16.5, 110), Point(-200, 60)),)
    before = (Line(before[0].start, lerp(apex, start, 1.1)),)
    after = (Line(lerp(apex, end, 1.1), after[0].end),)
    roof = mouth_roof(before, Mouth(apex, toward_before), after)
    assert (roof[0].start, roof[-1].end) == (before[0].end, after[0].start)
    peak = max((curve.end for curve in roof), key=lambda p: p.y)
    assert peak.x == pytest.approx(0.0, abs=1e-9)
    # folding the half next to the pressed-over side about its leg must lay the peak on that side's line
    leg, line = (start, before[0]) if toward_before else (end, after[0])
    u = (leg - apex).unit()
    folded = apex + u * (2 * u.dot(peak - apex)) - (peak - apex)
    direction = (line.end - line.start).unit()
    assert direction.cross(folded - line.start) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("size", [0.004, 0.1, 30.0])
@pytest.mark.parametrize("toward_before", [True, False])
def test_the_roof_of_a_dart_is_the_same_at_any_size(toward_before: bool, size: float) -> None:
    def roof(k: float) -> tuple[Curve, ...]:
        before, after = (
            (Line(Point(200 * k, 60 * k), Point(16.5 * k, 110 * k)),),
            (Line(Point(-16.5 * k, 110 * k), Point(-200 * k, 60 * k)),),
        )
        return mouth_roof(before, Mouth(Point(0, 0), toward_before), after)

    assert len(roof(size)) == len(roof(1.0)) > 1
    for one, other in zip(roof(size), roof(1.0), strict=True):
        assert one.end.near(Point(other.end.x * size, other.end.y * size), 1e-9)


def test_the_roof_stands_out_further_than_the_straight_line_between_the_legs() -> None:
    before, after = (Line(Point(200, 110), Point(16.5, 110)),), (Line(Point(-16.5, 110), Point(-200, 110)),)
    roof = mouth_roof(before, Mouth(Point(0, 0), toward_before=True), after)
    assert max(curve.end.y for curve in roof) > 111.0


def test_two_darts_with_no_edge_between_are_refused() -> None:
    outline = polygon((0, 0), (100, 0), (100, 60), (0, 60))
    dart = Mouth(Point(50, 30), toward_before=True)
    with pytest.raises(NotAPattern, match="two darts"):
        cutting_outline([Margin(outline[:3], 10.0), dart, dart, Margin(outline[3:], 10.0)])


def test_an_edge_of_several_curves_gets_its_inner_corners_too() -> None:
    outline = polygon((0, 0), (100, 0), (100, 60), (0, 60))
    together = cutting_outline([Margin(outline, 10.0)])
    assert corners(together) == {(-10, -10), (110, -10), (110, 70), (-10, 70)}


def test_beside_a_fold_the_cutting_line_stops_on_the_fold_line() -> None:
    # a V neck cut on the fold: half of it leans 30 degrees off the fold, its point 60 mm up; unfolded, both halves'
    # cutting lines cross at the allowance / sin 30 degrees above the point of the V (plane geometry)
    run = 60.0 / math.tan(math.radians(60.0))
    outline = polygon((0, 0), (100, 0), (100, 60), (100 - run, 120), (0, 120))
    allowances = (10.0, 0.0, 10.0, 10.0, 10.0)
    sides = [
        Margin((curve,), allowance, fold=k == 1)
        for k, (curve, allowance) in enumerate(zip(outline, allowances, strict=True))
    ]
    cut = cutting_outline(sides)
    assert run_bounds(cut)[2] == pytest.approx(100.0, abs=1e-9)
    assert (100.0, 80.0) in corners(cut)
    mirrored = polygon((0, 0), (100 - run, 0), (100, 60), (100, 120), (0, 120))
    flipped = [
        Margin((curve,), allowance, fold=k == 2)
        for k, (curve, allowance) in enumerate(zip(mirrored, (10.0, 10.0, 0.0, 10.0, 10.0), strict=True))
    ]
    assert run_bounds(cutting_outline(flipped))[2] == pytest.approx(100.0, abs=1e-9)
    assert (100.0, 40.0) in corners(cutting_outline(flipped))


@pytest.mark.parametrize("angle", [35.0, 60.0, 80.0, 90.0, 100.0, 120.0, 145.0])
@pytest.mark.parametrize("at_start", [True, False])
def test_an_allowance_ends_square_as_far_past_its_corner_as_it_is_told(angle: float, at_start: bool) -> None:
    # a seam along the bottom, 200 long, and a side that leaves it at this angle of cloth, both under 15 mm
    side = Point(200.0 - 150.0 * math.cos(math.radians(angle)), 150.0 * math.sin(math.radians(angle)))
    outline = polygon((0, 0), (200, 0), (side.x, side.y), (0, side.y))
    past = 15.0 / math.sin(math.radians(angle))
    squares = [(None, past) if k == 0 else (None, None) for k in range(4)]
    if at_start:
        outline = run_reversed(moved_all(outline, mirror(Point(100.0, 0.0), Vec(0.0, 1.0))))
        squares = [(past, None) if k == 3 else (None, None) for k in range(4)]
    cut = cutting_outline([Margin((c,), 15.0, squares=s) for c, s in zip(outline, squares, strict=True)])
    assert outline_crossings(cut) == []
    tip, foot = (200.0 + past, -15.0), (200.0 + past, 0.0)
    if at_start:
        tip, foot = (200.0 - tip[0], tip[1]), (200.0 - foot[0], foot[1])
    assert any(distance(Point(*corner), Point(*tip)) < 1e-6 for corner in corners(cut))
    # it ends there square to the seam: the cutting line goes straight up from the tip as far as the sewing line's level
    assert any(
        {(round(c.start.x, 4), round(c.start.y, 4)), (round(c.end.x, 4), round(c.end.y, 4))}
        >= {(round(tip[0], 4), -15.0)}
        and abs(c.start.x - c.end.x) < 1e-6
        and max(c.start.y, c.end.y) >= foot[1] - 1e-6
        for c in cut
    )


def test_of_two_corners_that_make_one_line_both_allowances_end_alike() -> None:
    # 80 and 100 degrees: mitred they would end 2 x 15 x cot 80 = 5.3 mm apart
    mitred, squared = [], []
    for angle in (80.0, 100.0):
        top = Point(200.0 - 150.0 * math.cos(math.radians(angle)), 150.0 * math.sin(math.radians(angle)))
        outline = polygon((0, 0), (200, 0), (top.x, top.y), (0, top.y))
        past = 15.0 / math.sin(math.radians(angle))
        for ends, squares in ((mitred, (None, None)), (squared, (None, past))):
            sides = [Margin((c,), 15.0, squares=squares if c is outline[0] else (None, None)) for c in outline]
            cut = cutting_outline(sides)
            ends.append(max(hit.along for _, hit in run_hits(cut, Point(200.0, -14.9999), Vec(1.0, 0.0))))
    assert mitred[0] - mitred[1] == pytest.approx(30.0 / math.tan(math.radians(80.0)), abs=1e-3)
    assert squared[0] == pytest.approx(squared[1], abs=1e-3)


def test_the_dart_of_a_side_that_is_lost_follows_the_side_before_it() -> None:
    one, other = Mouth(Point(0, 0), True), Mouth(Point(9, 9), True)
    assert _mouths_without({0: one, 2: other}, lost=2, count=4) == {0: one, 1: other}
    assert _mouths_without({1: one, 3: other}, lost=0, count=4) == {0: one, 2: other}
    # the sides run round the piece: before the first comes the last, which is the third once one of four is gone
    assert _mouths_without({0: one}, lost=0, count=4) == {2: one}
    # where a dart follows that side already, that one stays
    assert _mouths_without({0: one, 1: other}, lost=1, count=4)[0] is one
