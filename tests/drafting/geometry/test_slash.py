from __future__ import annotations

import math
from collections.abc import Sequence

import pytest

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, Vec, area, distance, length, run_bounds
from drafting.geometry.meet import outline_crossings
from drafting.geometry.slash import Laid, Part, Tagged, hinge, slash, spread
from tests.drafting.geometry.shapes import polygon, skirt

ACROSS = Vec(1.0, 0.0)


def tagged(outline: Sequence[Curve]) -> list[Tagged]:
    return [Tagged(curve, f"edge {k}") for k, curve in enumerate(outline)]


def skirt_tagged() -> list[Tagged]:
    return [Tagged(curve, edge.name) for edge in skirt().edges for curve in edge.curves]


def outline_of(laid: Sequence[Laid]) -> tuple[Curve, ...]:
    return tuple(item.curve for item in laid)


def closes(laid: Sequence[Laid]) -> bool:
    curves = outline_of(laid)
    return all(curves[k - 1].end == curve.start for k, curve in enumerate(curves))


BOX = polygon((0, 0), (100, 0), (100, 60), (0, 60))


def test_a_slash_says_which_part_stays_and_which_moves() -> None:
    runs = slash(tagged(BOX), Point(0, 20), ACROSS)
    parts = [{item.part for item in run} for run in runs]
    assert sorted(parts, key=str) == sorted([{Part.STAYS}, {Part.MOVES}], key=str)
    (moves,) = [run for run in runs if run[0].part is Part.MOVES]
    assert [item.tag for item in moves] == ["edge 1", "edge 2", "edge 3"]
    assert min(min(item.curve.start.y, item.curve.end.y) for item in moves) == pytest.approx(20)


def test_a_spread_box_is_higher_by_what_was_spread() -> None:
    laid = spread(tagged(BOX), Point(0, 20), ACROSS, 15.0)
    assert closes(laid)
    assert run_bounds(outline_of(laid)) == (0, 0, 100, 75)
    assert area(outline_of(laid)) == pytest.approx(100 * 75)
    assert [(item.tag, item.part) for item in laid if item.part is Part.NEW] == [
        ("edge 1", Part.NEW),
        ("edge 3", Part.NEW),
    ]


def test_what_is_not_cut_keeps_its_shape_and_the_far_side_moves_whole() -> None:
    before = skirt_tagged()
    laid = spread(before, Point(0, 200), ACROSS, 30.0)
    assert closes(laid)
    kept = [item for item in laid if item.part is not Part.NEW]
    for tag in {item.tag for item in before}:
        old = sum(length(item.curve, 1e-9) for item in before if item.tag == tag)
        assert sum(length(item.curve, 1e-9) for item in kept if item.tag == tag) == pytest.approx(old, abs=1e-6)
    for item in before:
        if item.curve.start.y > 200 and item.curve.end.y > 200:
            (new,) = [other for other in kept if other.curve.end.near(item.curve.end + Vec(0, 30.0))]
            assert new.part is Part.MOVES
            assert new.curve.start == item.curve.start + Vec(0, 30.0)


def test_a_slash_across_a_dart_bridges_both_legs_and_keeps_the_intake() -> None:
    laid = spread(skirt_tagged(), Point(0, 550), ACROSS, 10.0)
    bridged = sorted(item.tag for item in laid if item.part is Part.NEW)
    assert bridged == ["centre front", "dart leg, centre", "dart leg, side", "side seam"]
    assert closes(laid)
    mouth = [
        next(i.curve.start for i in laid if i.tag == "dart leg, side"),
        next(i.curve.end for i in reversed(laid) if i.tag == "dart leg, centre"),
    ]
    legs = [edge for edge in skirt().edges if edge.name.startswith("dart")]
    assert distance(*mouth) == pytest.approx(distance(legs[0].start, legs[1].end))
    assert outline_crossings(outline_of(laid)) == []


def test_taking_a_strip_out_undoes_putting_one_in() -> None:
    wider = [Tagged(item.curve, item.tag) for item in spread(tagged(BOX), Point(0, 20), ACROSS, 15.0)]
    back = spread(wider, Point(0, 20), ACROSS, -15.0)
    assert closes(back)
    assert area(outline_of(back)) == pytest.approx(area(BOX))
    assert run_bounds(outline_of(back)) == (0, 0, 100, 60)


def test_taking_a_strip_out_of_slanting_sides_leaves_a_step_along_the_line_to_redraw() -> None:
    outline = polygon((0, 0), (100, 0), (80, 60), (20, 60))
    laid = spread(tagged(outline), Point(0, 20), ACROSS, -10.0)
    assert closes(laid)
    new = [item for item in laid if item.part is Part.NEW]
    assert [item.tag for item in new] == ["edge 1", "edge 3"]
    assert all(item.curve.start.y == pytest.approx(20) and item.curve.end.y == pytest.approx(20) for item in new)
    assert run_bounds(outline_of(laid))[3] == pytest.approx(50)


def test_a_hinge_keeps_its_point_and_opens_a_wedge_of_the_angle_at_the_other_end() -> None:
    at, to = Point(0, 20), Point(100, 20)
    laid = hinge(tagged(BOX), at, to, math.radians(6))
    assert closes(laid)
    (new,) = [item for item in laid if item.part is Part.NEW]
    assert new.tag == "edge 1"
    assert new.curve.start.near(to, 1e-9)
    assert length(new.curve) == pytest.approx(2 * 100 * math.sin(math.radians(3)))
    assert any(item.curve.start.near(at, 1e-9) for item in laid)
    assert area(outline_of(laid)) == pytest.approx(6000 + 0.5 * 100 * 100 * math.sin(math.radians(6)))


def test_a_hinge_that_closes_takes_a_wedge_out() -> None:
    laid = hinge(tagged(BOX), Point(0, 20), Point(100, 20), math.radians(-6))
    assert closes(laid)
    wedge = 0.5 * 100 * 100 * math.tan(math.radians(6))
    assert area(outline_of(laid)) == pytest.approx(6000 - wedge, abs=30)
    assert outline_crossings(outline_of(laid)) == []


def test_a_dart_is_moved_by_hinging_about_its_point() -> None:
    piece = skirt()
    dart = piece.darts[0]
    legs = [edge for edge in piece.edges if edge.name.startswith("dart")]
    side = piece.edge("side seam").curves
    to = side[1].start  # the hip, a join on the side seam
    u, v = legs[0].start - dart.apex, legs[1].end - dart.apex
    # what lies left of the slash from the point out to the hip runs from the hip over the waist to the side leg
    laid = hinge(skirt_tagged(), dart.apex, to, v.angle() - u.angle())
    closed_leg = next(item.curve for item in laid if item.tag == "dart leg, side")
    assert closed_leg.start.near(legs[1].end, 1e-6)
    opened = next(item.curve for item in laid if item.part is Part.NEW)
    reach, angle = distance(dart.apex, to), v.angle() - u.angle()
    assert length(opened) == pytest.approx(2 * reach * math.sin(angle / 2))


@pytest.mark.parametrize(
    ("at", "to", "reason"),
    [
        (Point(0, 20), Point(50, 30), "not on the outline"),
        (Point(-1, 20), Point(100, 20), "not on the outline"),
        (Point(0, 20), Point(0, 20), "one place"),
    ],
)
def test_a_hinge_off_the_outline_is_refused(at: Point, to: Point, reason: str) -> None:
    with pytest.raises(NotAPattern, match=f"^slash: .*{reason}"):
        hinge(tagged(BOX), at, to, 0.1)


def test_a_slash_that_leaves_the_piece_is_refused() -> None:
    hollow = polygon((0, 0), (100, 0), (100, 60), (60, 60), (50, 10), (40, 60), (0, 60))
    with pytest.raises(NotAPattern, match="leaves the piece"):
        hinge(tagged(hollow), Point(0, 40), Point(100, 40), 0.1)
    with pytest.raises(NotAPattern, match="outside"):
        hinge(tagged(hollow), Point(60, 60), Point(40, 60), 0.1)


def test_a_line_that_misses_the_piece_is_refused() -> None:
    with pytest.raises(NotAPattern, match="does not cut"):
        spread(tagged(BOX), Point(0, 200), ACROSS, 10.0)


def test_a_line_that_only_touches_a_corner_is_no_cut() -> None:
    with pytest.raises(NotAPattern, match="does not cut"):
        slash(tagged(BOX), Point(100, 60), Vec(1.0, -1.0))


def test_a_cut_through_a_corner_bridges_it_for_neither_edge() -> None:
    laid = spread(tagged(BOX), Point(0, 0), Vec(1.0, 0.6), 10.0)
    new = [item for item in laid if item.part is Part.NEW]
    assert [item.tag for item in new] == ["", ""]
    assert all(isinstance(item.curve, Line) and length(item.curve) == pytest.approx(10.0) for item in new)
