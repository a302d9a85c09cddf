"""A failed check names the part it came with, and the amount that passes when it is typed back, to a millimetre."""

from __future__ import annotations

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from blocks.remedies.step_at_fault import checked_after
from drafting.checks import Result, Verdict
from drafting.parts.part_table import find_part, part_of
from tests.bodies import women


def failed(block: str, part: str, option: str, mm: float) -> list[Result]:
    parts = (part_of(find_part(part), {option: mm}),)
    garment = Garment("made", women()[3], (BlockOrder(find_block(block)),), parts=parts)
    results = checked_after([draft(garment, prepare(garment))], [])
    return [each for each in results if each.verdict is Verdict.FAIL and part in each.where + each.remedy]


@pytest.mark.parametrize(
    ("block", "part", "option", "asked"),
    [("bodice", "flat collar", "turn", 10.0), ("skirt", "waist elastic", "length", 2000.0)],
)
def test_the_amount_of_a_part_that_passes_is_found(block: str, part: str, option: str, asked: float) -> None:
    (found,) = failed(block, part, option, asked)
    (remedy,) = found.remedies
    (setting,) = remedy.settings
    assert (remedy.act, remedy.alteration, setting.option, setting.unit) == ("set in part", part, option, "mm")
    assert found.remedy.endswith(f'It came with the "{part}"; this passes: {remedy.typed()}.')
    assert failed(block, part, option, float(setting.value)) == []
    assert failed(block, part, option, float(setting.value) + 1.0)
