"""What cannot be done to a skirt in pleats, or to a circle, is refused in a sentence that says what can."""

from __future__ import annotations

from dataclasses import replace

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Paper, draft, prepare
from drafting.alterations import (
    Alteration,
    FlareSkirt,
    GatherSkirt,
    PleatSkirt,
    ShapedBand,
    SkirtYoke,
    Smock,
    apply_step,
)
from drafting.errors import StepRefused
from drafting.pattern import Pattern
from tests.drafting.sizes import order


def drafted(*names: str) -> Pattern:
    garment = replace(order(), blocks=tuple(BlockOrder(find_block(name)) for name in names), paper=Paper())
    return draft(garment, prepare(garment))


@pytest.mark.parametrize("step", [PleatSkirt(), GatherSkirt(2.0), FlareSkirt(), ShapedBand(45.0), SkirtYoke(90.0)])
def test_a_pleated_skirt_is_not_cut_or_spread(step: Alteration) -> None:
    with pytest.raises(StepRefused, match=r"lies in pleats.*pleat skirt"):
        apply_step(drafted("pleated skirt"), step)


def test_no_pleat_lies_in_a_circle() -> None:
    with pytest.raises(StepRefused, match="its hip line is curved"):
        apply_step(drafted("circle skirt"), PleatSkirt())


def test_a_smock_hangs_over_no_trousers() -> None:
    with pytest.raises(StepRefused, match="leave the trousers out"):
        apply_step(drafted("bodice", "trousers"), Smock())
