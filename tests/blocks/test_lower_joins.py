"""What goes together below the waist, from an order to its checks: godets in slits, deep yokes over pleats."""

from __future__ import annotations

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from blocks.take_steps import alter
from drafting.alterations import Alteration, Godet, PleatSkirt, PointedWaist, SkirtYoke
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern, finished
from drafting.pattern.derived import Derived
from tests.bodies import women
from tests.quick_checks import run_checks


def made(blocks: list[str], steps: list[Alteration], *parts: Derived) -> Pattern:
    garment = Garment(
        "made", women()[3], tuple(BlockOrder(find_block(name)) for name in blocks), steps=tuple(steps), parts=parts
    )
    return alter(draft(garment, prepare(garment)), garment.steps)


@pytest.mark.parametrize("part", ["lining", "hem binding"])
def test_a_skirt_with_godets_in_slits_is_lined_and_bound(part: str) -> None:
    found = run_checks(made(["skirt"], [Godet(at="slits")], part_of(find_part(part), {})))
    assert [each for each in found if each.verdict in (Verdict.FAIL, Verdict.ERROR)] == []


def test_the_grain_line_of_a_piece_with_a_slit_lies_beside_it() -> None:
    found = run_checks(made(["gored skirt"], [Godet(at="slits")]))
    assert [each for each in found if each.check == "grain line" and each.verdict is Verdict.FAIL] == []


def test_what_gave_way_tells_the_narrower_hem_of_a_godet() -> None:
    garment = Garment("made", women()[3], (BlockOrder(find_block("skirt")),), steps=(Godet(),))
    (origin,) = draft(garment, prepare(garment)).origin
    assert any(said.startswith("The hem of the skirt is turned up by 10 mm, not by 40 mm") for said in origin.gave_way)


def test_a_hip_narrower_than_the_edge_of_its_yoke_is_let_out_to_it() -> None:
    yoke = SkirtYoke(210.0)
    yoked, pleated = (made(["skirt"], steps) for steps in ([yoke], [yoke, PleatSkirt()]))

    def hip(pattern: Pattern) -> float:
        return next(each.finished for each in finished(pattern) if each.name == "hip")

    assert 0.5 < hip(pleated) - hip(yoked) < 15.0


def test_a_point_too_shallow_for_a_curved_waist_is_told_how_deep_it_has_to_be() -> None:
    # a waist of trousers hollows between the centre and the side
    blocks = ["bodice", "trousers"]
    with pytest.raises(StepRefused, match="above the waist") as refused:
        made(blocks, [PointedWaist(15.0)])
    (remedy,) = refused.value.remedies
    made(blocks, [PointedWaist(float(remedy.settings[0].value))])
