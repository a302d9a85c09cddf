"""What a program orders is held to the options that a person's file is held to: nothing is dropped in silence."""

from __future__ import annotations

import math

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment
from drafting.errors import InputProblems, UnknownName
from drafting.reading.options import Option, misread
from tests.bodies import women

SKIRT, BODICE = find_block("skirt"), find_block("bodice")


def test_what_can_be_asked_for_is_taken() -> None:
    BlockOrder(SKIRT)
    BlockOrder(SKIRT, {"length": 580})
    BlockOrder(SKIRT, {"length": None})
    BlockOrder(BODICE, {"bust_dart": 15.5})


def test_a_misspelt_option_is_not_dropped() -> None:
    with pytest.raises(UnknownName, match=r'"skirt" has no option "lenght". Did you mean "length"'):
        BlockOrder(SKIRT, {"lenght": 580.0})


@pytest.mark.parametrize("value", ["58 cm", True, math.nan, math.inf, 58.0, 5800.0])
def test_a_length_is_a_number_of_millimetres_that_a_skirt_can_have(value: str | float) -> None:
    with pytest.raises(InputProblems, match=r"skirt, length: read .*, expected a number of millimetres"):
        BlockOrder(SKIRT, {"length": value})


@pytest.mark.parametrize("mm", [math.nan, math.inf, True, "6 cm"])
def test_an_ease_is_a_number_of_millimetres(mm: float) -> None:
    with pytest.raises(InputProblems, match=r"skirt, hip ease: read .*, expected a number of millimetres"):
        Garment("skirt", women()[0], (BlockOrder(SKIRT),), ease={"hip": mm})


@pytest.mark.parametrize(
    ("option", "good", "bad", "told"),
    [
        (Option("how", "choice", "", choices=("one", "other")), "other", "another", "one of one, other"),
        (Option("how", "choice", "", choices=("one", "other")), "one", 1.0, "a text"),
        (Option("name", "text", ""), "", 3.0, "a text"),
        (Option("flag", "flag", ""), False, "no", "true or false"),
        (Option("flag", "flag", "", default=None), None, 0.0, "true or false"),
        (Option("share", "percent", "", 0.0, 1.0), 1.0, 1.1, "a fraction of one from 0 to 1"),
        (Option("cuts", "number", "", 1.0), 1000.0, 0.0, "a number, 1 or more"),
        (Option("bend", "angle", "", None, 30.0), -90.0, 31.0, "a number of degrees, 30 or less"),
    ],
)
def test_every_kind_of_option_tells_what_it_can_be(option: Option, good: object, bad: object, told: str) -> None:
    assert misread(option, good) == ""
    assert misread(option, bad) == told


def test_what_cannot_be_left_out_is_not_left_out() -> None:
    assert misread(Option("by", "length", ""), None) == "a number of millimetres"
