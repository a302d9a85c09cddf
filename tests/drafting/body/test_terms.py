"""The table of measurements against the two open surveys it must contain."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from drafting.body.estimate import SURVEYED, lines
from drafting.body.terms import BASICS, BODY_KINDS, KEYS, MEASUREMENTS, limits, measurement
from drafting.errors import UnknownName
from tests.bodies import WOMENS_KEYS, women


def test_every_measurement_is_named_once_and_says_how_it_is_taken() -> None:
    assert len(set(KEYS)) == len(KEYS) == len({each.name for each in MEASUREMENTS})
    for each in MEASUREMENTS:
        assert re.fullmatch("[a-z_]+", each.key)
        assert each.name
        assert each.term
        assert each.how.endswith(".")
        assert each.again.endswith(".")


def test_ranges_are_ranges_and_a_childs_reach_lower() -> None:
    for each in MEASUREMENTS:
        for low, high in (each.woman, each.child):
            assert 0 < low < high
        assert each.child[0] < each.woman[0]
        assert each.child[1] <= each.woman[1]


def test_every_woman_of_the_survey_lies_well_inside_the_ranges() -> None:
    # US Army Anthropometric Survey 1988, open half: tests/data/SOURCES.md
    for key in WOMENS_KEYS:
        low, high = limits("woman")[key]
        taken = [dict(woman.measurements)[key] for woman in women()]
        assert low <= 0.9 * min(taken)
        assert high >= 1.1 * max(taken)


@pytest.mark.parametrize("body", BODY_KINDS)
def test_the_basics_of_each_survey_lie_inside_the_ranges(body: str) -> None:
    # Least and greatest of the surveys: drafting/body/tables/SOURCES.md
    for kind in BODY_KINDS:
        if kind == body:
            for basic in BASICS:
                low, high = limits(kind)[basic]
                least, greatest = SURVEYED[kind][basic]
                assert low < least < greatest < high


def test_slips_of_the_tape_and_the_unit_lie_outside_the_ranges() -> None:
    for key in ("bust_girth", "waist_girth", "hip_girth", "stature", "arm_length", "back_waist_length"):
        low, high = limits("woman")[key]
        ordinary = sum(dict(woman.measurements)[key] for woman in women()) / len(women())
        assert not low <= ordinary / 10 <= high  # centimetres taken for millimetres
        assert not low <= ordinary * 10 <= high  # and the other way about
        assert not low <= ordinary / 2.54 <= high  # inches taken for centimetres


def test_every_length_of_a_woman_can_be_estimated_but_the_four_basics() -> None:
    assert set(lines("woman")) == set(WOMENS_KEYS) - set(BASICS)
    assert set(lines("girl")) == set(lines("boy")) < {*lines("woman"), "head_girth"}


def test_an_unknown_measurement_says_what_comes_near() -> None:
    with pytest.raises(UnknownName, match='Did you mean "arm_length"'):
        measurement("arm_lenght")


def test_sources_name_every_shipped_table() -> None:
    folder = Path(__file__).parents[3] / "drafting" / "body" / "tables"
    text = (folder / "SOURCES.md").read_text(encoding="utf-8")
    names = [path.name for path in folder.glob("*.csv")]
    assert names
    assert all(name in text for name in names)
