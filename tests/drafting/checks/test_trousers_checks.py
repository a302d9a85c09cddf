"""Every check of trousers finds what it is for, on a jumpsuit that is sound."""

from __future__ import annotations

from functools import cache

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.alterations import DartIntoSeam
from drafting.checks import Verdict, run_checks
from drafting.pattern import Pattern
from tests.bodies import women
from tests.drafting.checks.trouser_breaks import BREAKS, Break


@cache
def jumpsuit() -> Pattern:
    garment = Garment("jumpsuit", women()[11], tuple(BlockOrder(find_block(name)) for name in ("bodice", "trousers")))
    return draft(garment, prepare(garment))


@pytest.mark.parametrize(("code", "way"), BREAKS)
def test_each_fault_of_trousers_is_found_by_its_own_check(code: str, way: Break) -> None:
    assert not [r for r in run_checks(jumpsuit()) if r.verdict in (Verdict.FAIL, Verdict.WARN) and r.code == code]
    found = {r.code for r in run_checks(way(jumpsuit())) if r.verdict in (Verdict.FAIL, Verdict.WARN, Verdict.ERROR)}
    assert code in found
    assert all(
        r.remedy.endswith(".") for r in run_checks(way(jumpsuit())) if r.code == code and r.verdict is not Verdict.PASS
    )


def test_no_check_breaks_off_over_legs_that_are_cut_in_two_lengthwise() -> None:
    made = jumpsuit()
    back = next(piece.name for piece in made.pieces if piece.name == "trousers back")
    darts = [dart.name for dart in made.piece(back).darts]
    cut = DartIntoSeam(back, darts[-1], "hem").apply(made)
    assert not [each for each in run_checks(cut) if each.verdict is Verdict.ERROR]
