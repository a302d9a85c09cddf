"""What is worked out for a child whom no survey measured so: against the chart of babies and the women of 1988."""

from __future__ import annotations

from itertools import pairwise
from statistics import fmean

import pytest

from drafting.body.complete import Body, complete
from drafting.body.estimate import younger_share
from drafting.body.person import person
from drafting.body.plausible import doubts
from drafting.body.terms import BodyKind
from tests.bodies import women

# W. Aldrich's chart of babies by height, 5th edition, as a sewing page gives it (second hand), cm
BABIES = {
    56: {"bust_girth": 41, "waist_girth": 41, "neck_base_girth": 22, "interscye_mid_distance": 16.8,
         "shoulder_length": 4.4, "scye_depth": 9, "back_waist_length": 15.8, "upper_arm_girth": 14.4,
         "wrist_girth": 9.8, "head_girth": 42.5},
    64: {"bust_girth": 44, "waist_girth": 43, "neck_base_girth": 23, "interscye_mid_distance": 18,
         "shoulder_length": 5, "scye_depth": 9.8, "back_waist_length": 17.4, "upper_arm_girth": 15.2,
         "wrist_girth": 10.4, "head_girth": 44.5},
    80: {"bust_girth": 50, "waist_girth": 47, "neck_base_girth": 25, "interscye_mid_distance": 20.4,
         "shoulder_length": 6.2, "scye_depth": 11.4, "back_waist_length": 20.6, "upper_arm_girth": 16.8,
         "wrist_girth": 11.6, "head_girth": 48.5},
    92: {"bust_girth": 54, "waist_girth": 51, "neck_base_girth": 26, "interscye_mid_distance": 22,
         "shoulder_length": 7, "scye_depth": 12.6, "back_waist_length": 23, "head_girth": 50.5},
}  # fmt: skip
WORKED_OUT = ("shoulder_length", "interscye_mid_distance", "back_waist_length", "scye_depth", "waist_height")


def of_four(stature: float, chest: float, waist: float, hip: float, body: BodyKind = "girl", **more: float) -> Body:
    four = {"stature": stature, "bust_girth": chest, "waist_girth": waist, "hip_girth": hip, **more}
    return complete(person({key: 10.0 * cm for key, cm in four.items()}, body=body))


@pytest.mark.parametrize("body", ["girl", "boy"])
@pytest.mark.parametrize("height", BABIES)
def test_a_small_child_has_the_lengths_of_the_chart_of_babies(height: int, body: BodyKind) -> None:
    chart = BABIES[height]
    child = of_four(height, chart["bust_girth"], chart["waist_girth"], chart["bust_girth"], body)
    for key, cm in chart.items():
        if key in ("bust_girth", "waist_girth"):
            continue
        within = 1e-6 if height <= 80 else (child[key].sd_mm or 0.0)
        assert child.mm(key) == pytest.approx(10.0 * cm, abs=within), key
        assert height == 92 or "second hand" in child[key].how


def test_what_is_worked_out_for_a_girl_as_tall_as_a_woman_is_near_what_women_have() -> None:
    means = {key: fmean(dict(who.measurements)[key] for who in women()) / 10.0 for key in
             ("stature", "bust_girth", "waist_girth", "hip_girth", "neck_base_girth", *WORKED_OUT)}  # fmt: skip
    girl = of_four(means["stature"], means["bust_girth"], means["waist_girth"], means["hip_girth"])
    for key in ("neck_base_girth", *WORKED_OUT):
        assert abs(girl.mm(key) / 10.0 - means[key]) <= 2.0 * (girl[key].sd_mm or 0.0) / 10.0, key
        # a shoulder is drawn by the chart of children, which measures it shorter than the survey of women
        assert abs(girl.mm(key) / 10.0 / means[key] - 1.0) <= (0.12 if key == "shoulder_length" else 0.05), key


def test_an_estimate_says_how_it_was_worked_out_and_how_far_off_it_may_be() -> None:
    child = of_four(110, 57, 54, 59, "boy")
    for key in WORKED_OUT:
        assert "worked out from" in child[key].how
        assert "nobody measured it on children" in child[key].how
        assert 0.02 * child.mm(key) <= (child[key].sd_mm or 0.0) <= 0.15 * child.mm(key)
    assert "half way up" in child["neck_base_girth"].how


def test_what_is_worked_out_follows_the_parts_that_were_measured() -> None:
    plain, broad = of_four(110, 57, 54, 59), of_four(110, 57, 54, 59, biacromial_breadth=27.0)
    assert broad.mm("shoulder_length") > plain.mm("shoulder_length")
    assert (broad["shoulder_length"].sd_mm or 0.0) < (plain["shoulder_length"].sd_mm or 0.0)
    long = of_four(110, 57, 54, 59, back_waist_length=28.6)
    assert long.mm("front_waist_length_from_neck_pit") > plain.mm("front_waist_length_from_neck_pit") + 15.0


def test_nothing_jumps_where_the_chart_of_babies_passes_into_the_survey() -> None:
    assert (younger_share("boy", 800.0), younger_share("boy", 860.0), younger_share("boy", 920.0)) == (1.0, 0.5, 0.0)
    assert younger_share("woman", 500.0) == 0.0
    bodies = [of_four(h, 20 + 0.375 * h, 21 + 0.33 * h, 20 + 0.375 * h) for h in (k / 2 for k in range(150, 200))]
    for key in (*WORKED_OUT, "neck_base_girth", "head_girth", "arm_length", "wrist_girth"):
        steps = [b.mm(key) - a.mm(key) for a, b in pairwise(bodies)]
        assert max(abs(step) for step in steps) < 6.0, key


def test_a_childs_length_far_from_what_is_worked_out_is_doubted() -> None:
    (found,) = doubts(of_four(110, 57, 54, 59, back_waist_length=34.0))
    assert found.key == "back_waist_length"
