"""Necklines cut anew, and their gape taken out: what front and back give up, shapes, worked geometry, refusals."""

from __future__ import annotations

import math

import pytest

from drafting.alterations import Alteration, MoveDart, NeckGape, Neckline, apply_step
from drafting.alterations.techniques.pivoting.pivot import angle_about
from drafting.alterations.techniques.redrawing.redraw_run import exact_length
from drafting.errors import StepRefused
from drafting.geometry import curvature, distance, end_tangents, point_at, turn
from drafting.geometry.bending import tightest
from drafting.pattern import Pattern, dart_mouth, finished
from tests.alteration_samples import SAMPLES, Options, sample
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed, failed_after
from tests.property.test_alterations import furthest

FRONT, BACK = "bodice front", "bodice back"
ROWS = [(name, options) for name in ("neckline", "neck gape") for options in SAMPLES[name]]


def length(pattern: Pattern, piece: str, edge: str) -> float:
    return exact_length(pattern.piece(piece).edge(edge).curves)


def measured(pattern: Pattern, name: str) -> float:
    return next(each.finished for each in finished(pattern) if each.name == name)


def v_neck(depth: float = 80.0, width: float = 10.0) -> Pattern:
    return apply_step(dress(), Neckline(depth=depth, width=width, shape="V"))


@pytest.mark.parametrize(("name", "options"), ROWS)
def test_every_check_passes_on_a_sample_of_bodies(name: str, options: Options) -> None:
    step = sample(name, options)
    assert [(p.wearer.name, r.where, r.remedy) for p in dresses() for r in failed_after(p, step)] == []


def test_front_and_back_give_up_as_much_of_the_shoulder() -> None:
    before, after = dress(), apply_step(dress(), Neckline(depth=40.0, width=25.0, back=10.0))
    for piece in (FRONT, BACK):
        assert length(after, piece, "shoulder at neck") == pytest.approx(
            length(before, piece, "shoulder at neck") - 25.0, abs=1e-6
        )
        assert length(after, piece, "shoulder at armhole") == pytest.approx(
            length(before, piece, "shoulder at armhole"), abs=1e-6
        )
    assert measured(after, "centre front") == pytest.approx(measured(before, "centre front") - 40.0)
    assert measured(after, "centre back") == pytest.approx(measured(before, "centre back") - 10.0)
    assert measured(after, "neck") > measured(before, "neck") + 60.0


def test_marked_points_go_with_the_neck() -> None:
    front = apply_step(dress(), Neckline(depth=40.0, width=25.0, back=10.0)).piece(FRONT)
    assert front.point("neck pit") == front.edge("neck").start
    assert front.point("side neck") == front.edge("neck").end


def test_a_deep_neckline_leaves_the_grain_line_on_the_piece() -> None:
    after = apply_step(dress(), Neckline(depth=140.0, width=50.0, back=20.0))
    assert failed(after) == []
    assert after.piece(FRONT).grain != dress().piece(FRONT).grain


def test_lowered_and_raised_again_is_the_identity() -> None:
    there = apply_step(dress(), Neckline(depth=20.0, width=12.0, back=8.0))
    again = apply_step(there, Neckline(depth=-20.0, width=-12.0, back=-8.0))
    assert furthest(dress(), again) < 1e-6


@pytest.mark.parametrize("depth", [30.0, 60.0, 150.0])
def test_a_v_is_nearly_straight_and_bends_one_way_into_the_shoulder(depth: float) -> None:
    pattern = apply_step(dress(), Neckline(depth=depth, shape="V"))
    (curve,) = pattern.piece(FRONT).edge("neck").curves
    chord = curve.end - curve.start
    sag = max(abs((point_at(curve, k / 20) - curve.start).cross(chord.unit())) for k in range(21))
    assert sag < 0.05 * chord.norm()
    bends = [curvature(curve, k / 20) for k in range(21)]
    assert max(bends) * min(bends) >= -1e-12
    assert pattern.piece(FRONT).points_meant == (("neck", "centre front"),)


@pytest.mark.parametrize("to", ["side seam", "armhole", "waist dart"])
def test_the_point_of_a_v_stays_the_only_point_that_is_meant_when_a_dart_is_moved(to: str) -> None:
    after = apply_step(v_neck(), MoveDart(FRONT, "bust dart", to))
    assert [set(pair) for pair in after.piece(FRONT).points_meant] == [{"neck", "centre front"}]


def test_the_corners_at_the_shoulder_make_what_they_made_together() -> None:
    for pattern in (v_neck(), apply_step(dress(), Neckline(depth=50.0, width=20.0))):
        turned = []
        for piece, curve, end in ((FRONT, -1, 1), (BACK, 0, 0)):
            was, now = (end_tangents(p.piece(piece).edge("neck").curves[curve])[end] for p in (dress(), pattern))
            turned.append(was.angle_to(now))
        # they lie mirrored, so what is turned alike goes outward in front and inward behind
        assert turned[0] == pytest.approx(turned[1], abs=1e-9)


def test_a_wider_back_neck_is_no_tighter_than_its_allowance_takes() -> None:
    for pattern in dresses():
        back = apply_step(pattern, Neckline(depth=110.0, width=10.0, shape="V")).piece(BACK)
        assert min(bend.radius for bend in tightest(back.edge("neck").curves)) >= back.edge("neck").allowance + 3.0


def test_a_v_made_round_again_is_square_to_the_centre_and_means_no_point() -> None:
    after = apply_step(v_neck(60.0), Neckline(depth=-20.0))
    assert after.piece(FRONT).points_meant == ()
    assert end_tangents(after.piece(FRONT).edge("neck").curves[0])[0].y == pytest.approx(0.0, abs=1e-9)
    assert failed(after) == []


@pytest.mark.parametrize("pattern", [dress(), v_neck()], ids=["round", "V"])
@pytest.mark.parametrize("amount", [3.0, 12.0])
def test_a_gape_comes_out_of_the_neck_and_goes_into_the_bust_dart(pattern: Pattern, amount: float) -> None:
    after = apply_step(pattern, NeckGape(amount))
    assert length(after, FRONT, "neck") == pytest.approx(length(pattern, FRONT, "neck") - amount, abs=1e-6)
    front, was = after.piece(FRONT), pattern.piece(FRONT)
    bust = was.point("bust point")
    one, other = (angle_about(*dart_mouth(p, p.dart("bust dart")), bust) for p in (was, front))
    added = other - one
    # what is between neck and dart is turned about the bust point by the angle that is added to the dart
    neck_end = turn(bust, -added).point(was.edge("neck").end)
    assert front.edge("neck").end.near(neck_end, 1e-6)
    # and the far end of the neck moves by the chord of that angle at its distance (plane geometry)
    reach = distance(bust, was.edge("neck").end)
    assert distance(front.edge("neck").end, was.edge("neck").end) == pytest.approx(2.0 * reach * math.sin(0.5 * added))
    assert front.dart("waist dart") == was.dart("waist dart")
    assert measured(after, "bust") == pytest.approx(measured(pattern, "bust"), abs=1e-4)


def test_the_angle_of_a_gape_across_a_straight_neckline_is_what_plane_geometry_gives() -> None:
    pattern = v_neck(100.0)
    front = pattern.piece(FRONT)
    bust, low, high = front.point("bust point"), front.edge("neck").start, front.edge("neck").end
    added = 0.03
    shorter = distance(low, high) - distance(low, turn(bust, -added).point(high))
    after = apply_step(pattern, NeckGape(shorter)).piece(FRONT)
    one, other = (angle_about(*dart_mouth(p, p.dart("bust dart")), bust) for p in (front, after))
    # the neckline is not quite straight: it bows by a hundredth of its length
    assert other - one == pytest.approx(added, rel=0.1)


def test_a_gape_may_go_into_the_waist_dart_or_behind_into_the_shoulder_dart() -> None:
    waist = apply_step(v_neck(), NeckGape(8.0, to="waist dart"))
    assert failed(waist) == []
    assert waist.piece(FRONT).dart("bust dart").legs == dress().piece(FRONT).dart("bust dart").legs
    back = apply_step(dress(), NeckGape(3.0, half="back"))
    assert failed(back) == []
    assert length(back, BACK, "neck") == pytest.approx(length(dress(), BACK, "neck") - 3.0, abs=1e-6)


def test_a_gape_goes_into_a_bust_dart_wherever_it_has_been_moved() -> None:
    moved = apply_step(v_neck(), MoveDart(FRONT, "bust dart", "side seam"))
    assert failed(apply_step(moved, NeckGape(8.0))) == []


REFUSED: list[tuple[Alteration, str]] = [
    (Neckline(), "nothing is to change"),
    (Neckline(depth=240.0, shape="V"), 'this can be had: depth = "191 mm"'),
    (
        Neckline(width=70.0),
        'before it comes to the dart there, which can go to another edge; this can be had: width = "36 mm"',
    ),
    (NeckGape(5.0, to="bust drat"), 'Did you mean "bust dart"?'),
    (NeckGape(50.0), "take out less"),
]


@pytest.mark.parametrize(("step", "reason"), REFUSED)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: Alteration, reason: str) -> None:
    with pytest.raises(StepRefused) as refused:
        apply_step(dress(), step)
    assert reason in str(refused.value)
