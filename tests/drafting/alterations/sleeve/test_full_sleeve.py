"""Fullness slashed into a sleeve: what hangs together keeps its length, what is spread grows by what was asked."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from drafting.alterations import Armhole, FitSleeve, FullSleeve, Hem, Lengthen, UpperArm, apply_step
from drafting.alterations.techniques.spreading.slash_and_spread import Slash, fanned
from drafting.checks import Verdict
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Point, Vec, curvature, distance, run_length, tangent
from drafting.pattern import (
    Landmark,
    Level,
    MarkLine,
    Pattern,
    notch_distance,
    points_at,
    walk,
    with_pieces,
)
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed, failed_after
from tests.quick_checks import run_checks


def length(pattern: Pattern, edge: str) -> float:
    return run_length(pattern.piece("sleeve").edge(edge).curves, 1e-9)


@pytest.mark.parametrize(("top", "bottom"), [(0.0, 30.0), (20.0, 0.0), (15.0, 15.0), (10.0, 40.0)])
@pytest.mark.parametrize("to_right", [True, False])
def test_every_slash_opens_by_the_amounts_and_its_two_sides_stay_equally_long(
    top: float, bottom: float, to_right: bool
) -> None:
    side = 1.0 if to_right else -1.0
    slashes = [Slash(Point(side * x, 100.0 - x), Point(side * 0.8 * x, -400.0)) for x in (20.0, 60.0, 100.0)]
    moves = fanned(slashes, top=top, bottom=bottom, to_right=to_right)
    for slash, one, other in zip(slashes, moves[:-1], moves[1:], strict=True):
        above, below = (
            other.point(slash.top) - one.point(slash.top),
            other.point(slash.bottom) - one.point(slash.bottom),
        )
        assert (above.norm(), below.norm()) == pytest.approx((top, bottom), abs=1e-9)
        assert side * (above.x + below.x) > 0.0


def test_a_fan_that_would_close_upon_itself_is_refused() -> None:
    slashes = [Slash(Point(x, 0.0), Point(x, -100.0)) for x in (10.0, 20.0, 30.0)]
    with pytest.raises(NotAPattern, match="turn its sides"):
        fanned(slashes, top=0.0, bottom=60.0, to_right=True)
    with pytest.raises(NotAPattern, match="cannot be opened"):
        fanned(slashes, top=0.0, bottom=250.0, to_right=True)


@pytest.mark.parametrize("hem", [40.0, 150.0, 400.0])
def test_a_bishop_keeps_its_cap_and_its_hem_grows_by_what_was_asked(hem: float) -> None:
    after = apply_step(dress(), FullSleeve(hem=hem))
    for edge in ("cap front", "cap back", "underarm seam, front", "underarm seam, back"):
        assert length(after, edge) == pytest.approx(length(dress(), edge), abs=1e-6)
    assert length(after, "wrist") - length(dress(), "wrist") == pytest.approx(hem, rel=0.01)
    assert after.seam("front armhole") == dress().seam("front armhole")


@pytest.mark.parametrize(("cap", "hem"), [(0.0, 400.0), (120.0, 0.0), (76.0, 203.0), (100.0, 40.0)])
def test_the_grain_stays_square_to_the_line_between_the_underarms(cap: float, hem: float) -> None:
    for before in dresses():
        piece = apply_step(before, FullSleeve(cap=cap, hem=hem)).piece("sleeve")
        grain = piece.grain
        assert grain is not None
        level = piece.edge("cap front").start - piece.edge("cap back").end
        assert level.dot((grain.end - grain.start).unit()) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("cap", [30.0, 80.0, 150.0])
def test_a_leg_of_mutton_keeps_its_hem_and_declares_the_gathers_of_its_cap(cap: float) -> None:
    after = apply_step(dress(), FullSleeve(cap=cap))
    assert length(after, "wrist") == pytest.approx(length(dress(), "wrist"), abs=1e-6)
    for name in ("front armhole", "back armhole"):
        walked, ease = walk(after, after.seam(name)), after.seam(name).ease
        assert ease.low <= walked.a - walked.b <= ease.high
        assert ease.wanted == pytest.approx(walked.a - walked.b, abs=1e-3)
        assert walked.a - walked.b > dress().seam(name).ease.wanted + 0.5 * 0.5 * cap


def test_a_puff_raises_its_crown_by_two_to_four_centimetres_as_from_memory() -> None:
    for cap, raised in ((60.0, 20.0), (90.0, 30.0), (120.0, 40.0), (300.0, 40.0)):
        after = apply_step(dress(), FullSleeve(cap=cap, hem=cap)).piece("sleeve")
        assert after.point("crown").y - dress().piece("sleeve").point("crown").y == pytest.approx(raised)
    given = apply_step(dress(), FullSleeve(cap=60.0, crown=35.0)).piece("sleeve")
    assert given.point("crown").y - dress().piece("sleeve").point("crown").y == pytest.approx(35.0)


@pytest.mark.parametrize("step", [FullSleeve(cap=80.0, hem=80.0), FullSleeve(hem=300.0), FullSleeve(cap=120.0, cuts=3)])
def test_cap_and_hem_are_drawn_in_one_sweep_and_round_over_the_crown(step: FullSleeve) -> None:
    sleeve = apply_step(dress(), step).piece("sleeve")
    for name in ("cap front", "cap back", "wrist"):
        run = sleeve.edge(name).curves
        turns = [tangent(one, 1.0).cross(tangent(other, 0.0)) for one, other in pairwise(run)]
        assert turns == pytest.approx([0.0] * len(turns), abs=1e-6)
    over = (*sleeve.edge("cap front").curves, *sleeve.edge("cap back").curves)
    high = 0.75 * (sleeve.point("crown").y - sleeve.edge("cap front").start.y) + sleeve.edge("cap front").start.y
    near_crown = [curve for curve in over if min(curve.start.y, curve.end.y) > high]
    assert near_crown
    assert all(curvature(curve, t) > 0.0 for curve in near_crown for t in (0.05, 0.5, 0.95))


def test_the_first_notch_stays_as_far_from_the_underarm_as_that_of_the_armhole() -> None:
    after = apply_step(dress(), FullSleeve(cap=100.0))
    for name in ("front armhole", "back armhole"):
        seam = after.seam(name)
        ((sleeve, bodice),) = seam.notches
        assert notch_distance(after, seam.a, sleeve) == pytest.approx(notch_distance(after, seam.b, bodice), abs=1e-3)


def test_more_cuts_lie_nearer_to_the_even_sweep() -> None:
    ends = [
        apply_step(dress(), FullSleeve(hem=300.0, cuts=n)).piece("sleeve").edge("wrist").end for n in (4, 8, 16, 32)
    ]
    steps = [distance(one, other) for one, other in pairwise(ends)]
    assert steps == sorted(steps, reverse=True)
    assert steps[-1] < 2.0


@pytest.mark.parametrize(
    "step",
    [
        FullSleeve(hem=50.0),
        FullSleeve(hem=300.0),
        FullSleeve(cap=40.0),
        FullSleeve(cap=150.0),
        FullSleeve(cap=80.0, hem=80.0, cuts=5),
        FullSleeve(crown=15.0),
    ],
)
def test_the_dress_goes_together_on_every_body_of_the_sample(step: FullSleeve) -> None:
    for pattern in dresses():
        assert failed_after(pattern, step) == []


def test_a_hem_whose_half_turns_hardly_and_at_one_end_bends_evenly_and_lies() -> None:
    for pattern in dresses():
        results = run_checks(apply_step(pattern, FullSleeve(cap=80.0, hem=80.0, cuts=5)))
        of_wrist = [each for each in results if each.where == "sleeve wrist"]
        assert {each.code for each in of_wrist} == {"bends-allowed", "turned-in-lies"}
        assert {each.verdict for each in of_wrist} == {Verdict.PASS}, pattern.wearer.name


@pytest.mark.parametrize("cap_ease", [20.0, 45.0])
def test_gathers_are_turned_back_to_ease_by_fitting_the_sleeve(cap_ease: float) -> None:
    full = apply_step(dress(), FullSleeve(cap=80.0))
    plain = apply_step(full, FitSleeve(cap_ease))
    assert failed(plain) == []
    for name in ("front armhole", "back armhole"):
        seam = plain.seam(name)
        assert (seam.ease.low, seam.ease.high) == (dress().seam(name).ease.low, dress().seam(name).ease.high)
        walked = walk(plain, seam)
        assert walked.a - walked.b == pytest.approx(0.5 * cap_ease, abs=1e-6)


def test_a_gathered_cap_can_be_gathered_less_and_a_plain_one_is_sent_to_the_full_sleeve() -> None:
    full = apply_step(dress(), FullSleeve(cap=80.0))
    less = apply_step(full, FitSleeve(80.0))
    assert failed(less) == []
    assert less.seam("front armhole").ease.wanted == 40.0
    with pytest.raises(StepRefused, match=r'have it gathered \("full sleeve"\)'):
        apply_step(dress(), FitSleeve(80.0))


@pytest.mark.parametrize("first", [FullSleeve(hem=120.0), FullSleeve(cap=80.0), FullSleeve(cap=60.0, hem=150.0)])
def test_a_full_sleeve_can_be_altered_further(first: FullSleeve) -> None:
    full = apply_step(dress(), first)
    for step in (UpperArm(20.0), FitSleeve(), Armhole(lower=15.0), Lengthen("sleeve", 25.0), FullSleeve(hem=40.0)):
        assert failed(apply_step(full, step)) == [], step


def test_the_sleeve_lengthened_and_put_fuller_at_the_cap_passes_without_a_warning() -> None:
    fuller = apply_step(apply_step(dress(), Lengthen("sleeve", 30.0)), FullSleeve(cap=60.0))
    # fuller above, the sleeve is hollowed at the wrist: only a narrow hem lies there
    after = apply_step(fuller, Hem("sleeve", depth=20.0))
    assert {result.verdict for result in run_checks(after)} == {Verdict.PASS}


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (FullSleeve(), 'hem = "20 cm"'),
        (FullSleeve(hem=100.0, cuts=2.5), "no whole number"),
        (FullSleeve(hem=1500.0), "turn its sides"),
        (FullSleeve(hem=100.0, piece="bodice front"), "no set-in sleeve"),
    ],
)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: FullSleeve, says: str) -> None:
    with pytest.raises(StepRefused) as refusal:
        apply_step(dress(), step)
    assert says in str(refusal.value)


def test_a_level_that_lies_on_one_side_of_the_crown_is_spread_with_that_side() -> None:
    sleeve = dress().piece("sleeve")
    (crown,) = points_at(sleeve, Landmark.CROWN)
    ends = (crown.at + Vec(40.0, -300.0), crown.at + Vec(90.0, -300.0))
    mirrored = (crown.at + Vec(-90.0, -300.0), crown.at + Vec(-40.0, -300.0))
    lines = (MarkLine("front", *ends, level=Level.ELBOW), MarkLine("back", *mirrored, level=Level.ELBOW))
    marked = with_pieces(dress(), replace(sleeve, lines=(*sleeve.lines, *lines)))
    front, back = (apply_step(marked, FullSleeve(hem=200.0)).piece("sleeve").line(each.name) for each in lines)
    for end, was, way in ((front.start, ends[0], 1.0), (front.end, ends[1], 1.0), (back.start, mirrored[0], -1.0)):
        assert way * (end.x - was.x) > 10.0
