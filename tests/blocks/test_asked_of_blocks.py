"""What a step asks of a block is taken where the person left it out; what she wrote stands, and the step says no."""

from __future__ import annotations

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import PointedWaist
from drafting.body.person import person
from drafting.errors import StepRefused
from drafting.pattern import Pattern
from drafting.reading.options import Value

CURVED = person({"height": 1680.0, "bust": 920.0, "waist": 660.0, "hip": 1080.0}, name="Oda")
"""Her skirt needs two darts in front; a pointed waist is drawn on one."""


def pointed(**options: Value) -> Pattern:
    orders = (BlockOrder(find_block("bodice")), BlockOrder(find_block("skirt"), options))
    return finish(Garment("dress", CURVED, orders, steps=(PointedWaist(40.0),)))


def test_a_step_has_the_darts_it_is_drawn_on_where_none_are_asked_for() -> None:
    assert dict(pointed().origin[-1].options)["front_darts"] == "one"


def test_darts_that_were_asked_for_stand_even_as_the_block_has_them_anyway() -> None:
    with pytest.raises(StepRefused, match="one dart in front"):
        pointed(front_darts="as needed")
