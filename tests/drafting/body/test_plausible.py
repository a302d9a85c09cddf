"""Doubts and contradictions: quiet on real bodies, loud on slips of the tape."""

from __future__ import annotations

import pytest

from drafting.body.complete import complete
from drafting.body.person import person
from drafting.body.plausible import contradictions, doubts, drawn_out, require_possible
from drafting.body.terms import BASICS
from drafting.errors import CannotDraft
from tests.bodies import women

WOMAN = dict(women()[1].measurements)


def taken(**more: float) -> dict[str, float]:
    return {**WOMAN, **more}


def test_no_real_woman_contradicts_herself() -> None:
    # 1,104 women of the US Army Anthropometric Survey 1988: tests/data/SOURCES.md
    assert [found for woman in women() for found in contradictions(complete(woman))] == []
    assert [found for woman in women(girths_only=True) for found in contradictions(complete(woman))] == []


def test_of_real_women_two_in_a_hundred_have_a_doubtful_length() -> None:
    # real tails are longer than those of a normal distribution; a false alarm costs her one look at the tape
    doubted = sum(bool(doubts(complete(woman))) for woman in women())
    assert 0.005 < doubted / len(women()) < 0.03


def test_no_real_woman_who_measured_only_some_lengths_contradicts_herself() -> None:
    # What was estimated must go with what was measured: each woman with another five of her lengths.
    keys = [key for key in WOMAN if key not in BASICS]
    for place, woman in enumerate(women()):
        whole = dict(woman.measurements)
        some = {key: whole[key] for key in (*BASICS, *(keys[(place * 7 + step * 11) % len(keys)] for step in range(5)))}
        assert contradictions(complete(person(some))) == ()


def test_estimates_alone_need_not_add_up() -> None:
    basics = {key: WOMAN[key] for key in BASICS}
    assert contradictions(complete(person({**basics, "arm_length": 400.0}))) == ()


SLIPS = [
    ({"shoulder_to_elbow": 515.0, "arm_length": 510.0}, ("shoulder_to_elbow", "arm_length"), 55.0),
    ({"scye_depth": 330.0, "back_waist_length": 370.0}, ("scye_depth", "back_waist_length"), 10.0),
    ({"wrist_girth": 240.0, "elbow_girth": 230.0}, ("wrist_girth", "elbow_girth"), 20.0),
    ({"elbow_girth": 330.0}, ("elbow_girth", "upper_arm_girth"), 27.0),
    ({"ankle_girth": 360.0}, ("ankle_girth", "calf_girth"), 10.0),
    ({"under_bust_girth": 1001.0}, ("under_bust_girth", "bust_girth"), 10.0),
    ({"interscye_mid_distance": 530.0}, ("interscye_mid_distance", "bust_girth"), 9.5),
    ({"hip_height": 978.0}, ("hip_height", "waist_height"), 50.0),
    ({"crotch_height": 789.0}, ("crotch_height", "hip_height"), 10.0),
    ({"bust_point_breadth": 380.0, "neck_to_bust_point": 217.0}, ("bust_point_breadth", "neck_to_bust_point"), 3.0),
    ({"back_waist_length": 340.0}, ("back_waist_length", "cervicale_height", "waist_height"), 3.0),
    ({"waist_to_hip": 250.0}, ("waist_to_hip", "waist_height", "hip_height"), 11.0),
]


@pytest.mark.parametrize(("slip", "at_odds", "by_mm"), SLIPS)
def test_lengths_no_body_has_together_are_named_with_by_how_much(
    slip: dict[str, float], at_odds: tuple[str, ...], by_mm: float
) -> None:
    found = {each.keys: each for each in contradictions(complete(person(taken(**slip))))}
    assert found[at_odds].by_mm == pytest.approx(by_mm)
    assert "measure" in found[at_odds].sentence


def test_the_worst_contradiction_comes_first() -> None:
    found = contradictions(complete(person(taken(shoulder_to_elbow=520.0, ankle_girth=360.0))))
    assert found[0].keys == ("shoulder_to_elbow", "arm_length")
    assert [each.by_mm for each in found] == sorted((each.by_mm for each in found), reverse=True)


def test_only_what_a_garment_is_drawn_from_is_looked_at() -> None:
    body = complete(person(taken(shoulder_to_elbow=520.0, ankle_girth=360.0)))
    assert [found.keys for found in contradictions(body, among=("calf_girth", "ankle_girth"))] == [
        ("ankle_girth", "calf_girth")
    ]
    assert contradictions(body, among=("shoulder_to_elbow", "calf_girth")) == ()
    assert [found.key for found in doubts(body, among=("ankle_girth",))] == ["ankle_girth"]
    require_possible(body, among=("bust_girth", "arm_length"))
    with pytest.raises(CannotDraft) as caught:
        require_possible(body)
    assert caught.value.measurements == ("shoulder_to_elbow", "arm_length", "ankle_girth", "calf_girth")
    assert "They disagree by 4.0 cm" in caught.value.reason


def test_an_estimate_no_body_could_have_is_said_with_the_basics_it_comes_from() -> None:
    body = complete(person({"stature": 1200.0, "bust_girth": 900.0, "waist_girth": 700.0, "hip_girth": 1990.0}))
    found = {each.keys: each for each in contradictions(body)}
    thigh = found["stature", "bust_girth", "waist_girth", "hip_girth", "thigh_girth"]
    assert thigh.by_mm == pytest.approx(body.mm("thigh_girth") - 1100.0)
    assert "height 120.0 cm, bust 90.0 cm, waist 70.0 cm, hip 199.0 cm" in thigh.sentence
    assert "measure the thigh" in thigh.sentence


# Bust, waist and hip of the body sizes of EN 13402-3 (from secondary sources; the standard was not read), cm.
SIZES = [(76, 60, 84), (88, 72, 96), (100, 84, 108), (110, 94, 117), (122, 106, 127), (134, 118, 137), (152, 136, 152)]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("stature", [1500.0, 1640.0, 1800.0])
def test_sizes_that_are_made_and_sold_can_all_be_estimated(size: tuple[int, int, int], stature: float) -> None:
    bust, waist, hip = (each * 10.0 for each in size)
    body = complete(person({"stature": stature, "bust_girth": bust, "waist_girth": waist, "hip_girth": hip}))
    assert contradictions(body) == ()


def test_a_length_that_was_only_estimated_is_named_so() -> None:
    basics = {key: WOMAN[key] for key in ("stature", "bust_girth", "waist_girth", "hip_girth")}
    taller = {**basics, "stature": basics["stature"] + 60.0}
    (found,) = contradictions(complete(person({**taller, "arm_length": 350.0})))
    assert found.sentence.startswith("shoulder to elbow 31.0 cm (estimated) and arm length 35.0 cm cannot all be right")
    assert "measure arm length again, and measure shoulder to elbow too. It is arm length that" in found.sentence


def test_a_doubt_says_what_was_measured_what_was_expected_and_how_to_measure_again() -> None:
    basics = {key: WOMAN[key] for key in BASICS}
    (far,) = doubts(complete(person({**basics, "arm_length": 790.0})))
    # what the others foretell does not depend on what was measured
    for off, doubted in ((3.2, False), (3.4, True), (-3.2, False), (-3.4, True)):
        found = doubts(complete(person({**basics, "arm_length": far.expected_mm + off * far.sd_mm})))
        assert bool(found) is doubted
        if found:
            assert found[0].key == "arm_length"
            assert found[0].off == pytest.approx(off)
            assert found[0].expected_mm == pytest.approx(far.expected_mm)
            assert f"give or take {3 * far.sd_mm / 10:.1f} cm" in found[0].sentence
            assert "shoulder bone" in found[0].sentence


def test_a_waist_and_a_hip_that_were_swapped_are_told_together() -> None:
    swapped = {"waist_girth": WOMAN["hip_girth"], "hip_girth": WOMAN["waist_girth"]}
    for taken_too in (WOMAN, {key: WOMAN[key] for key in BASICS}):
        (found,) = doubts(complete(person({**taken_too, **swapped})))
        assert found.key == "waist_girth"
        assert "may each stand in the other's place" in found.sentence
        assert "waist" in found.sentence
        assert "hip" in found.sentence


def test_where_one_of_those_at_odds_does_not_go_with_the_rest_it_is_named() -> None:
    found = contradictions(complete(person(taken(back_waist_length=WOMAN["back_waist_length"] - 90.0))))
    assert found
    for each in found:
        assert each.sentence.endswith("It is back waist length that does not go with the other measurements either.")


def test_sentences_follow_the_unit_of_the_person() -> None:
    basics = {key: WOMAN[key] for key in ("stature", "bust_girth", "waist_girth", "hip_girth")}
    taller = {**basics, "stature": basics["stature"] + 60.0}
    body = complete(person({**taller, "arm_length": 350.0}, unit="in"))
    assert " in " in doubts(body)[0].sentence
    assert " cm" not in doubts(body)[0].sentence + contradictions(body)[0].sentence


def test_estimates_at_odds_are_no_slip_and_a_baby_is_told_of_the_chart_of_babies() -> None:
    """A usual baby of 27 in: the room from knee to crotch is a grown woman's in no child."""
    inch = {"stature": 27.0, "bust_girth": 17.5, "waist_girth": 17.0, "hip_girth": 18.0}
    basics = {key: 25.4 * value for key, value in inch.items()}
    baby = person(basics, body="girl", unit="in")
    assert contradictions(complete(baby)) == ()
    (told,) = drawn_out(complete(baby))
    assert "of 22 in to 31 1/2 in" in told
    knee = {**basics, "knee_height": 165.0}
    assert contradictions(complete(person(knee, body="girl"))) == ()
    (found,) = contradictions(complete(person({**basics, "knee_height": 230.0}, body="girl")))
    assert set(found.keys) == {"knee_height", "crotch_height"}
