"""What cannot be done to a skirt in pleats, or to a circle, is refused in a sentence that says what can."""

from __future__ import annotations

from dataclasses import replace

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, draft, prepare
from blocks.paper import Paper
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
from drafting.alterations.skirt.pleat_plan import pleat_lines, pleat_plan
from drafting.errors import StepRefused
from drafting.pattern import Half, Notch, Pattern, Station, with_pieces
from tests.drafting.sizes import order, sized


def drafted(*names: str) -> Pattern:
    garment = replace(order(), blocks=tuple(BlockOrder(find_block(name)) for name in names), paper=Paper())
    return draft(garment, prepare(garment))


@pytest.mark.parametrize("step", [PleatSkirt(), GatherSkirt(2.0), FlareSkirt(), ShapedBand(45.0), SkirtYoke(90.0)])
def test_a_pleated_skirt_is_not_cut_or_spread(step: Alteration) -> None:
    with pytest.raises(StepRefused, match=r"lies in pleats.*pleat skirt") as refused:
        apply_step(drafted("pleated skirt"), step)
    assert refused.value.alteration == step.name


def test_no_pleat_lies_in_a_circle() -> None:
    with pytest.raises(StepRefused, match="its hip line is curved"):
        apply_step(drafted("circle skirt"), PleatSkirt())


def test_a_smock_hangs_over_no_trousers() -> None:
    with pytest.raises(StepRefused, match="leave the trousers out"):
        apply_step(drafted("bodice", "trousers"), Smock())


def test_of_the_notches_in_the_side_only_that_of_the_hip_moves() -> None:
    before = sized(92, "skirt")
    piece = before.piece("skirt front")
    own = Notch("own", Station("side seam", 300.0, "start"))
    pleated = apply_step(with_pieces(before, replace(piece, notches=(*piece.notches, own))), PleatSkirt())
    assert pleated.piece("skirt front").notch("own") == own
    hip = pleated.piece("skirt front").notch("front hip notch").station
    assert hip.at == pytest.approx(-piece.line("hip line").start.y, abs=1e-6)


def test_a_pleat_is_pressed_in_from_the_hip_up_where_there_is_a_hip_line() -> None:
    plan = pleat_plan("knife", Half.BACK, 4, 51.0, hip=204.0, waist=142.0)
    for hip, joints in ((200.0, [-200.0]), (0.0, list[float]())):
        lines = pleat_lines(plan, 0.0, plan.wide, hip=hip, long=600.0)
        folded = [line for line in lines if line.start.x != line.end.x]
        assert folded
        for line in folded:
            assert [curve.end.y for curve in line.curves[:-1]] == joints
            assert line.start.y == 0.0
            assert line.end.y == -600.0
