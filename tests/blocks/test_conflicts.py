"""A refusal names what is really at odds: what, changed by itself by so little, lets the garment be drafted."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pytest

from blocks.block_table import find_block, plain_blocks
from blocks.garment import BlockOrder, Garment, _can_be_drafted, draft, prepare
from drafting.body.person import Person, person
from drafting.body.terms import measurement
from drafting.errors import CannotDraft, Way
from drafting.fit.ease import EASE_WORDS
from tests.bodies import women
from tests.sampling import some

DRESS = tuple(BlockOrder(block) for block in plain_blocks("woman"))
SLIPS = (
    ("back_waist_length", -100.0),
    ("bust_girth", -150.0),
    ("interscye_mid_distance", 100.0),
    ("scye_depth", 100.0),
)
"""Measurements, and by how much they are off, mm: more than many bodies can be drafted with."""


def dress(who: Person, ease: Mapping[str, float] | None = None) -> Garment:
    return Garment("dress", who, DRESS, ease=ease or {})


def refusal(garment: Garment) -> CannotDraft:
    with pytest.raises(CannotDraft) as caught:
        draft(garment, prepare(garment))
    return caught.value


def with_one(who: Person, key: str, mm: float) -> Person:
    return person({**dict(who.measurements), key: mm}, unit=who.unit)


def drafts(garment: Garment) -> bool:
    """Whether it can be drafted; why not is not asked, which would take a hundred drafts more."""
    try:
        return _can_be_drafted(garment, prepare(garment))
    except CannotDraft:
        return False


@cache
def refusals(key: str, by: float) -> list[tuple[Person, CannotDraft]]:
    """Women with one slip each whom no dress can be drafted for, and why not."""
    found = []
    for woman in women()[1::333]:
        taken = dict(woman.measurements)
        low, high = measurement(key).limits("woman")
        who = person({**taken, key: min(max(taken[key] + by, low), high)}, unit="mm")
        try:
            draft(dress(who), prepare(dress(who)))
        except CannotDraft as said:
            found.append((who, said))
    assert found
    return found


@pytest.mark.parametrize(("key", "by"), some(SLIPS, every=4))
def test_a_slip_of_the_tape_is_named_by_the_refusal(key: str, by: float) -> None:
    assert all(key in said.measurements for _, said in refusals(key, by))


def test_each_change_that_is_named_lets_the_dress_be_drafted_by_itself_and_no_less_of_it_does() -> None:
    tried = 0
    for who, said in [found for key, by in SLIPS for found in refusals(key, by)]:
        for key in said.measurements:
            told = re.search(rf"{measurement(key).name} (\d+(?:\.\d)?) mm instead of (\d+(?:\.\d)?) mm", said.reason)
            if told is None:  # a contradiction, which is told before anything is drafted
                continue
            tried += 1
            then, now = float(told[1]), float(told[2])
            assert now == pytest.approx(dict(who.measurements)[key], abs=0.06)
            assert drafts(dress(with_one(who, key, then)))
            assert not drafts(dress(with_one(who, key, then - (1.0 if then > now else -1.0))))
    assert tried >= 5


EASES = (("bust", -350.0), ("upper_arm", 400.0), ("waist", -400.0))


@pytest.mark.parametrize(("place", "mm", "unit"), [*((*ease, "mm") for ease in EASES), (*EASES[0], "in")])
def test_an_ease_asked_for_that_stands_in_the_way_is_named_with_what_can_be_had(
    place: str, mm: float, unit: str
) -> None:
    who = person(dict(women()[1].measurements), unit=unit)
    said = refusal(dress(who, {"hip": 60.0, place: mm})).reason
    assert f"It is the {EASE_WORDS.called(place).replace('_', ' ')} ease of " in said
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
    assert said.reason.endswith('It is the "length" of the skirt that was asked for: length = "26.9 cm" can be had.')
    assert said.ways == (Way("skirt", "length", 269.0),)


def test_options_that_a_file_leaves_out_do_not_hide_what_stands_in_the_way() -> None:
    who = with_one(with_one(women()[1], "back_waist_length", 340.0), "front_waist_length_from_neck_pit", 405.0)
    who = person({key: mm for key, mm in who.measurements if not key.endswith("_height")})
    plain = dress(who)
    as_read = [replace(each, options={o.name: o.default for o in each.block.options}) for each in plain.blocks]
    assert refusal(replace(plain, blocks=tuple(as_read))).reason == refusal(plain).reason


def test_where_nothing_by_itself_mends_it_that_is_said_with_what_to_look_at() -> None:
    who = with_one(with_one(women()[1], "back_waist_length", 250.0), "front_waist_length_from_neck_pit", 190.0)
    who = person({key: mm for key, mm in who.measurements if not key.endswith("_height")})
    said = refusal(dress(who)).reason
    assert "No one measurement changed by itself mends it" in said or "It can be drafted with" in said
    assert "Measure it again" in said
