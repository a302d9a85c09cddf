"""A refusal names what is really at odds: what, changed by itself by so little, lets the garment be drafted."""

from __future__ import annotations

import re
from collections.abc import Mapping

import pytest

from blocks.garment import BlockOrder, Garment, draft, ready
from blocks.table import BLOCKS, find_block
from drafting.body.person import Person, person
from drafting.body.terms import measurement
from drafting.errors import CannotDraft
from tests.bodies import women

DRESS = tuple(BlockOrder(block) for block in BLOCKS)
REFUSED = (576, 814, 1014, 1204)
"""Rows of the women of the survey whom no dress can be drafted for as they were measured."""


def dress(who: Person, ease: Mapping[str, float] | None = None) -> Garment:
    return Garment("dress", who, DRESS, ease=ease or {})


def refusal(garment: Garment) -> CannotDraft:
    with pytest.raises(CannotDraft) as caught:
        draft(garment, ready(garment))
    return caught.value


def with_one(who: Person, key: str, mm: float) -> Person:
    return person({**dict(who.measurements), key: mm}, unit=who.unit)


def woman(row: int) -> Person:
    (found,) = (each for each in women() if each.name == f"woman {row}")
    return found


def drafts(garment: Garment) -> bool:
    try:
        draft(garment, ready(garment))
    except CannotDraft:
        return False
    return True


@pytest.mark.parametrize("row", REFUSED)
def test_each_change_that_is_named_lets_the_dress_be_drafted_by_itself_and_no_less_of_it_does(row: int) -> None:
    who = person(dict(woman(row).measurements), unit="mm")
    said = refusal(dress(who))
    assert said.measurements
    changes = []
    for key in said.measurements:
        told = re.search(rf"{measurement(key).name} (\d+(?:\.\d)?) mm instead of (\d+(?:\.\d)?) mm", said.reason)
        assert told is not None, said.reason
        then, now = float(told[1]), float(told[2])
        assert now == pytest.approx(dict(who.measurements)[key], abs=0.06)
        step = 1.0 if then > now else -1.0
        assert drafts(dress(with_one(who, key, then)))
        assert not drafts(dress(with_one(who, key, then - step)))
        changes.append(abs(then - now))
    assert changes == sorted(changes)
    assert changes[0] <= 9.0  # mm: none of the four needs more


def test_where_a_shoulder_a_little_shorter_would_do_it_is_named_before_the_back() -> None:
    said = refusal(dress(woman(1014)))
    assert said.measurements == ("shoulder_length",)
    assert "It can be drafted with shoulder length 15.1 cm instead of 15.5 cm: measure this again first." in said.reason


SLIPS = (
    ("back_waist_length", -100.0),
    ("bust_girth", -150.0),
    ("interscye_mid_distance", 100.0),
    ("scye_depth", 100.0),
)


@pytest.mark.parametrize(("key", "by"), SLIPS)
def test_a_slip_of_the_tape_is_named_by_the_refusal(key: str, by: float) -> None:
    slipped = [dress(with_one(who, key, dict(who.measurements)[key] + by)) for who in women()[1::222]]
    refused = []
    for garment in slipped:
        try:
            draft(garment, ready(garment))
        except CannotDraft as said:
            refused.append(said)
    assert refused
    assert all(key in said.measurements for said in refused)


EASES = (("bust", -200.0), ("neck", -60.0), ("across_back", 150.0), ("upper_arm", 400.0), ("waist", -400.0))


@pytest.mark.parametrize("unit", ["cm", "mm", "in"])
@pytest.mark.parametrize(("place", "mm"), EASES)
def test_an_ease_asked_for_that_stands_in_the_way_is_named_with_what_can_be_had(
    place: str, mm: float, unit: str
) -> None:
    who = person(dict(women()[1].measurements), unit=unit)
    said = refusal(dress(who, {"hip": 60.0, place: mm})).reason
    assert f"It is the {place.replace('_', ' ')} ease of " in said
    assert " hip ease" not in said
    assert " again" not in said
    if unit == "mm":
        told = re.search(r"that was asked for: (-?\d+(?:\.\d)?) mm or (more|less) can be had", said)
        assert told is not None
        nearest, step = float(told[1]), 1.0 if told[2] == "more" else -1.0
        assert drafts(dress(who, {place: nearest}))
        assert not drafts(dress(who, {place: nearest - step}))
    else:
        assert "mm" not in said


def test_an_option_asked_for_that_stands_in_the_way_is_named() -> None:
    skirt = (BlockOrder(find_block("skirt"), {"length": 200.0}),)
    said = refusal(Garment("skirt", women()[1], skirt))
    assert said.reason.endswith('It is the "length" of the skirt that was asked for.')


def test_where_nothing_by_itself_mends_it_that_is_said_with_what_to_look_at() -> None:
    who = with_one(with_one(women()[1], "back_waist_length", 250.0), "front_waist_length_from_neck_pit", 190.0)
    who = person({key: mm for key, mm in who.measurements if not key.endswith("_height")})
    said = refusal(dress(who)).reason
    assert "No one measurement changed by itself mends it" in said or "It can be drafted with" in said
    assert "Measure it again" in said
