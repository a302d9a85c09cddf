"""A step and a raised arm: what the hem and the armhole let her do, against figures worked by hand."""

from __future__ import annotations

import functools
import json
import math
from dataclasses import replace

import pytest

from drafting.alterations import ALTERATIONS, Alteration, DartIntoSeam, apply_step
from drafting.checks import CHECKS, Result, Verdict, named, run_checks
from drafting.pattern import Landmark, Pattern, Place, edges_at, finished, neck_lowered, point_at, require_point
from drafting.pattern.ease_found import armhole_depth_ease
from drafting.pattern.text import from_json, to_json
from tests.drafting.checks.breaks import wearer_length
from tests.drafting.dress import dress
from tests.remedies import mends


def found(pattern: Pattern, where: str) -> Result:
    results = run_checks(pattern, checks=named(CHECKS, ["ease-to-move"]))
    (result,) = (each for each in results if where in each.where)
    return result


def test_the_hem_of_a_dress_is_held_to_a_step_at_its_own_height() -> None:
    result = found(dress(), "for a step")
    body = {length.key: length.mm for length in dress().wearer.lengths}
    below = next(each.finished for each in finished(dress()) if each.name == "skirt length") - body["waist_to_hip"]
    swing = body["waist_height"] - body["waist_to_hip"]
    apart = 0.41 * body["stature"] * below / swing  # two rods from the hip
    assert result.wanted == pytest.approx(2.0 * 0.75 * apart + 0.36 * body["hip_girth"], abs=1.0)
    assert result.measured == pytest.approx(1130.0)
    assert result.verdict is Verdict.PASS


@pytest.mark.parametrize(("longer", "verdict"), [(0.0, Verdict.PASS), (300.0, Verdict.WARN), (600.0, Verdict.WARN)])
def test_a_straight_skirt_to_the_ankle_hinders_a_step(longer: float, verdict: Verdict) -> None:
    pattern = dress()
    if longer:
        pattern = apply_step(pattern, ALTERATIONS.named("lengthen")("skirt front", longer))
    result = found(pattern, "for a step")
    assert result.verdict is verdict
    if verdict is Verdict.WARN:
        assert "three quarters of a step" in result.remedy
        assert mends(pattern, result)


def test_a_hobble_fails_and_a_knit_or_a_wrap_does_not() -> None:
    tall = wearer_length(dress(), "stature", 2500.0)
    failed = found(tall, "for a step")
    assert failed.verdict is Verdict.FAIL
    assert "half a step" in failed.remedy
    assert found(replace(tall, stretch=1.5), "for a step").verdict is not Verdict.FAIL
    wrapped = apply_step(tall, ALTERATIONS.named("wrap over")(overlap=150.0))
    assert found(wrapped, "for a step").measured is None


def test_an_armhole_above_the_armpit_cuts_in_and_one_far_below_lifts_the_garment() -> None:
    assert found(dress(), "raising an arm").measured == pytest.approx(20.0)
    assert found(wearer_length(dress(), "scye_depth", 8.0), "raising an arm").verdict is Verdict.WARN
    cut_in = wearer_length(dress(), "scye_depth", 25.0)
    assert found(cut_in, "raising an arm").verdict is Verdict.FAIL
    assert mends(cut_in, found(cut_in, "raising an arm"))
    deep = found(wearer_length(dress(), "scye_depth", -60.0), "raising an arm")
    assert deep.verdict is Verdict.WARN
    assert f"{80.0 / math.sqrt(2.0):.1f} mm" in deep.remedy


def test_a_knit_may_lie_at_the_armpit() -> None:
    close = wearer_length(dress(), "scye_depth", 15.0)
    assert found(close, "raising an arm").verdict is Verdict.WARN
    assert found(replace(close, stretch=0.3), "raising an arm").verdict is Verdict.PASS


NECK = ALTERATIONS.named("neckline")


@pytest.mark.parametrize(
    ("steps", "nape"),
    [
        ((NECK(depth=40.0, back=60.0),), 60.0),
        ((NECK(back=60.0), NECK(back=-15.0)), 45.0),
        ((NECK(back=60.0, width=10.0, only="bodice front"),), 0.0),
        ((NECK(back=60.0), DartIntoSeam("bodice back", "shoulder dart", "waist at side")), 60.0),
    ],
)
def test_a_neckline_lowered_at_the_back_leaves_the_arm_figures_as_they_were(
    steps: tuple[Alteration, ...], nape: float
) -> None:
    before = dress()
    lowered = functools.reduce(apply_step, steps, before)
    back = next(piece for piece in lowered.pieces if point_at(piece, Landmark.NAPE))
    down = require_point(before.piece("bodice back"), Landmark.NAPE).at.y - require_point(back, Landmark.NAPE).at.y
    assert (down, neck_lowered(back)) == pytest.approx((nape, nape), abs=1e-6)
    assert armhole_depth_ease(lowered) == pytest.approx(armhole_depth_ease(before))
    if edges_at(back, Place.ARMHOLE):
        assert found(lowered, "raising an arm").measured == pytest.approx(20.0)


def test_how_much_lower_a_neck_lies_is_read_back_and_taken_from_the_steps_of_a_file_that_does_not_say_it() -> None:
    lowered = apply_step(dress(), NECK(depth=40.0, back=60.0))
    text = to_json(lowered)
    assert to_json(from_json(text)) == text
    table = json.loads(text)
    for piece in table["pieces"]:
        piece.pop("lowered", None)
    old = from_json(json.dumps(table))
    assert [neck_lowered(piece) for piece in old.pieces] == [neck_lowered(piece) for piece in lowered.pieces]
    table["history"][-1]["only"] = "bodice front"
    assert {
        piece.name: neck_lowered(piece) for piece in from_json(json.dumps(table)).pieces if neck_lowered(piece)
    } == {"bodice front": 40.0}
