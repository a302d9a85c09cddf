"""What a program orders is held to the options that a person's file is held to: nothing is dropped in silence."""

from __future__ import annotations

import math

import numpy as np
import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from blocks.paper import Paper
from drafting.alterations import Lengthen
from drafting.body.person import person
from drafting.errors import InputProblems, UnknownName
from drafting.pattern.text import to_json
from drafting.reading.given import LEAST_ALLOWANCE
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


def test_what_a_garment_cannot_have_is_refused_with_the_nearest_name() -> None:
    blocks = (BlockOrder(SKIRT),)
    with pytest.raises(UnknownName, match='Did you mean "loose"'):
        Garment("skirt", women()[0], blocks, fit="lose")  # type: ignore[arg-type]
    with pytest.raises(UnknownName, match='Did you mean "hip"'):
        Garment("skirt", women()[0], blocks, ease={"hipp": 30.0})
    with pytest.raises(UnknownName, match=r'"Garment" has no option "bloks". Did you mean "blocks"'):
        Garment("skirt", women()[0], bloks=blocks)  # type: ignore[call-arg]


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"seam_allowance": 150.0}, "0 to 60"),
        ({"hem": "4 cm"}, "Give the number alone: 40"),
        ({"hem": -1.0}, "0 to 250"),
        ({"seam_allowance": 1.5}, "expected 0, or a number of millimetres from 3 to 60. If 1.5 cm was meant, give 15"),
        ({"hem": np.float64(2.5)}, "If 2.5 cm was meant, give 25"),
        ({"roll": 0.0}, "300 to 1650"),
    ],
)
def test_allowances_are_numbers_of_millimetres(given: dict[str, float], told: str) -> None:
    with pytest.raises(InputProblems, match=told):
        Paper(**given)


def test_an_allowance_may_be_none_at_all_or_as_narrow_as_can_be_sewn() -> None:
    assert Paper(seam_allowance=0, hem=0.0) == Paper(seam_allowance=0.0, hem=0.0)
    assert Paper(seam_allowance=LEAST_ALLOWANCE, hem=LEAST_ALLOWANCE).hem == 3.0


def test_blocks_in_any_order_give_the_same_garment() -> None:
    woman, named = women()[0], [BlockOrder(find_block(name)) for name in ("skirt", "sleeve", "bodice")]
    turned, right = (Garment("Q", woman, tuple(each)) for each in (named, [named[2], named[1], named[0]]))
    assert [order.block.name for order in turned.blocks] == ["bodice", "sleeve", "skirt"]
    assert finish(turned) == finish(right)


def test_a_number_of_numpy_is_a_number() -> None:
    def made(long: float, by: float) -> str:
        skirt, step = BlockOrder(SKIRT, {"length": long}), Lengthen("skirt front", by)
        return to_json(finish(Garment("Q", women()[0], (skirt,), steps=(step,), paper=Paper(seam_allowance=by))))

    assert made(np.int64(600), np.int64(15)) == made(600.0, 15.0)
    with pytest.raises(InputProblems, match="expected a number"):
        made(600.0, np.bool_(True))
    # those of numpy that are floats as well are kept as plain ones
    assert type(Paper(seam_allowance=np.float64(15.0)).seam_allowance) is float
    body = {"height": np.float64(1650.0), "bust": np.float32(920.0), "waist": 750.0, "hip": 995.0}
    assert {type(mm) for _, mm in person(body).measurements} == {float}
