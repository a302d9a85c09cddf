"""Redrawing runs and stretches with darts: led runs, lengths that are solved for, darts folded and opened."""

from __future__ import annotations

import math

import pytest

from drafting.alterations.techniques.pivoting.fold_darts import (
    apex_for,
    drawn_between,
    folds,
    rebuilt,
    stretch_of,
    unfolded,
    unfolds,
)
from drafting.alterations.techniques.redrawing.fair_armhole import turned_against
from drafting.alterations.techniques.redrawing.fair_neck import MORE_BEHIND, eased_rise, neck_drawn
from drafting.alterations.techniques.redrawing.redraw_run import (
    bent_at_start,
    cut_near_joint,
    ends_moved,
    exact_length,
    move_between,
    with_handles_scaled,
    with_length_kept,
)
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import (
    STAY,
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    distance,
    end_tangents,
    mirror,
    moved_all,
    point_at,
    run_reversed,
    shift,
    split,
    turn,
)
from drafting.geometry.bending import tightest_radius
from drafting.pattern import Place, dart_angle
from tests.drafting.dress import dress
from tests.drafting.geometry.shapes import garment_curve

QUARTER = Cubic(Point(0.0, 0.0), Point(40.0, 0.0), Point(70.0, 30.0), Point(70.0, 80.0))
RUN: tuple[Curve, ...] = split(QUARTER, 0.4)


def test_a_led_run_arrives_where_and_as_the_moves_of_its_ends_say() -> None:
    end = move_between(RUN[-1].end, RUN[-1].end + Vec(6.0, -3.0), 0.1)
    new = ends_moved(RUN, STAY, end)
    assert new[0].start == RUN[0].start
    assert new[-1].end.near(RUN[-1].end + Vec(6.0, -3.0), 1e-9)
    assert end_tangents(new[0])[0].cross(end_tangents(RUN[0])[0]) == pytest.approx(0.0, abs=1e-9)
    was, now = end_tangents(RUN[-1])[1], end_tangents(new[-1])[1]
    assert math.atan2(was.cross(now), was.dot(now)) == pytest.approx(0.1, abs=1e-9)
    # no corner at the joint
    assert end_tangents(new[0])[1].cross(end_tangents(new[1])[0]) == pytest.approx(0.0, abs=1e-9)


def test_one_move_for_both_ends_moves_the_run_as_it_is() -> None:
    assert ends_moved(RUN, shift(Vec(1.0, 2.0)), shift(Vec(1.0, 2.0)))[0].start == RUN[0].start + Vec(1.0, 2.0)
    assert exact_length(ends_moved(RUN, turn(Point(3.0, 4.0), 0.3), turn(Point(3.0, 4.0), 0.3))) == pytest.approx(
        exact_length(RUN), abs=1e-9
    )


@pytest.mark.parametrize("more", [-1.0, 0.0, 4.0])
def test_a_run_is_made_exactly_as_long_as_wanted_without_moving_its_ends(more: float) -> None:
    new = with_length_kept(RUN, exact_length(RUN) + more)
    assert exact_length(new) == pytest.approx(exact_length(RUN) + more, abs=1e-8)
    assert (new[0].start, new[-1].end) == (RUN[0].start, RUN[-1].end)


def test_a_run_that_cannot_be_so_long_is_refused() -> None:
    with pytest.raises(NotAPattern):
        with_length_kept(RUN, distance(RUN[0].start, RUN[-1].end) - 1.0)
    straight = (Line(Point(0.0, 0.0), Point(10.0, 0.0)),)
    assert with_handles_scaled(straight, 2.0) == straight


def test_a_run_is_parted_at_a_joint_without_a_sliver() -> None:
    joint = exact_length(RUN[:1])
    for at in (joint - 1e-5, joint, joint + 1e-5):
        assert cut_near_joint(RUN, at) == (RUN[:1], RUN[1:])
    before, after = cut_near_joint(RUN, 5.0)
    assert exact_length(before) == pytest.approx(5.0, abs=1e-5)
    assert before[-1].end == after[0].start


@pytest.mark.parametrize(
    ("piece", "place", "start"),
    [
        ("bodice front", Place.SHOULDER, Place.NECK),
        ("bodice back", Place.SHOULDER, Place.NECK),
        ("bodice back", Place.WAIST, Place.CENTRE_BACK),
        ("skirt back", Place.WAIST, Place.CENTRE_BACK),
        ("skirt front", Place.WAIST, Place.CENTRE_FRONT),
    ],
)
def test_folded_and_unfolded_again_is_the_same_piece(piece: str, place: Place, start: Place) -> None:
    was = dress().piece(piece)
    stretch = stretch_of("test", was, place, start=(start,))
    again = rebuilt(was, unfolded(stretch, stretch.folded))
    for edge in was.edges:
        assert again.edge(edge.name).start.near(edge.start, 1e-9)
    assert [dart_angle(again, dart) for dart in again.darts] == pytest.approx([dart_angle(was, d) for d in was.darts])
    # folded, one part begins where the one before it ends
    for before, after in zip(stretch.folded, stretch.folded[1:], strict=False):
        assert before[-1].end.near(after[0].start, 1e-9)
    for fold, unfold in zip(folds(stretch), unfolds(stretch), strict=True):
        assert unfold.point(fold.point(Point(7.0, 9.0))).near(Point(7.0, 9.0), 1e-9)


def test_a_shoulder_redrawn_straight_keeps_the_angle_of_its_dart_and_equal_legs() -> None:
    was = dress().piece("bodice front")
    shoulder = stretch_of("test", was, Place.SHOULDER, start=(Place.NECK,))
    start, end = shoulder.folded[0][0].start, shoulder.folded[-1][-1].end
    new = drawn_between(shoulder, start, start + (end - start).turned(0.02))
    legs = [edge for edge in new.edges if edge.name in was.dart("bust dart").legs]
    assert legs[0].length == pytest.approx(legs[1].length, abs=1e-9)
    sewn = sum(edge.length for edge in new.edges if edge.name.startswith("shoulder"))
    assert sewn == pytest.approx(distance(start, end), abs=1e-9)


def test_a_dart_that_would_miss_its_seam_is_refused() -> None:
    shoulder = stretch_of("test", dress().piece("bodice front"), Place.SHOULDER, start=(Place.NECK,))
    start, end = shoulder.folded[0][0].start, shoulder.folded[-1][-1].end
    with pytest.raises(NotAPattern, match="cut away up to the dart"):
        drawn_between(shoulder, point_at(Line(start, end), 0.7), end)


def test_the_apex_of_a_dart_lies_where_its_angle_turns_one_end_of_the_mouth_to_the_other() -> None:
    one, other, angle = Point(3.0, 50.0), Point(-9.0, 47.0), 0.4
    assert turn(apex_for(one, other, angle), angle).point(one).near(other, 1e-9)
    assert turn(apex_for(one, other, -angle), -angle).point(one).near(other, 1e-9)


def test_what_is_not_there_is_named() -> None:
    with pytest.raises(StepRefused, match='"sleeve" has no shoulder'):
        stretch_of("test", dress().piece("sleeve"), Place.SHOULDER, start=(Place.NECK,))
    with pytest.raises(StepRefused, match="does not lie next to the crotch"):
        stretch_of("test", dress().piece("bodice front"), Place.SHOULDER, start=(Place.CROTCH,))


@pytest.mark.parametrize(("leaving", "arriving"), [(0.5, 0.4), (0.1, 0.6), (-0.3, -0.2), (0.3, -0.6)])
def test_a_line_turns_against_its_bend_as_much_in_a_mirror_and_when_it_is_walked_back(
    leaving: float, arriving: float
) -> None:
    line = garment_curve(150.0, leaving, arriving)
    against = turned_against((line,))
    mirrored = moved_all((line,), mirror(Point(0.0, 0.0), Vec(1.0, 0.0)))
    assert turned_against(mirrored) == pytest.approx(against, abs=1e-12)
    assert turned_against(run_reversed((line,))) == pytest.approx(against, abs=1e-12)
    assert (against > 0.0) is (leaving * arriving > 0.0)  # an S


@pytest.mark.parametrize("turned", [0.05, -0.05])
def test_bent_at_its_start_a_run_keeps_all_that_follows(turned: float) -> None:
    bent = bent_at_start(RUN, turned)
    assert bent[1:] == RUN[1:]
    assert (bent[0].start, bent[0].end) == (RUN[0].start, RUN[0].end)
    assert end_tangents(RUN[0])[0].angle_to(end_tangents(bent[0])[0]) == pytest.approx(turned)


@pytest.mark.parametrize("beyond", [-0.5, 0.2, 0.5, 0.8, 2.0])
def test_a_back_neck_turns_no_less_than_its_allowance_asks_for(beyond: float) -> None:
    """beyond: by how many mm the neck that turns as much less as may be bends wider than it has to."""
    square, into, across, most = Vec(1.0, 0.0), Vec(0.3, 1.0).unit(), Vec(70.0, 22.0), math.radians(12.0)

    def tightest(eased: float) -> float:
        return tightest_radius(neck_drawn(Point(0.0, 0.0), square, Point(70.0, 22.0), into.turned(-eased)))

    allowance = tightest(most) - MORE_BEHIND - beyond
    eased = eased_rise(square, into, across, allowance, most)
    if beyond < 0.0:
        assert eased == most
    else:
        assert 0.0 < eased < most
        assert tightest(eased) >= allowance + MORE_BEHIND > tightest(eased - math.radians(0.06))
