"""A failed check says the widest allowance that passes when it is typed back, and the next wider one fails."""

from __future__ import annotations

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from blocks.paper import Paper
from blocks.remedies.block_at_fault import Ordered
from blocks.remedies.step_at_fault import checked_after
from drafting.checks import CHECKS, Result, Verdict
from tests.bodies import women

BENDS = tuple(each for each in CHECKS if each.name == "bends")


def failed(seam_allowance: float) -> list[Result]:
    paper = Paper(seam_allowance=seam_allowance)
    garment = Garment("made", women()[3], (BlockOrder(find_block("bodice")),), paper=paper)
    prepared = prepare(garment)
    results = checked_after([draft(garment, prepared)], [], checks=BENDS, ordered=Ordered(garment, prepared))
    return [each for each in results if each.verdict is Verdict.FAIL]


def test_the_widest_allowance_that_a_hollow_line_takes_is_found_to_a_millimetre() -> None:
    found = failed(45.0)
    assert found
    widest = []
    for result in found:
        (remedy,) = result.remedies
        (setting,) = remedy.settings
        assert (remedy.act, setting.option, setting.unit) == ("set in paper", "seam_allowance", "mm")
        assert result.remedy.endswith(f"{remedy.typed()}.")
        widest.append((float(setting.value), result.where))
        assert result.where not in {each.where for each in failed(float(setting.value))}
        assert result.where in {each.where for each in failed(float(setting.value) + 1.0)}
    assert failed(min(widest)[0]) == []
