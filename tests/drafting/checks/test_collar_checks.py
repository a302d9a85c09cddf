"""A shirt with collar and cuffs passes the check of them; broken in one way, it is warned of."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import pytest

from drafting.alterations import FullSleeve, Opening, apply_step
from drafting.checks import CHECKS, Result, Verdict, named, run_checks
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern
from tests.drafting.checks import collar_breaks as broken
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized

SITS = named(CHECKS, ["collar-sits"])


@cache
def shirt(fall: float | None = None) -> Pattern:
    pattern = apply_step(sized(92), FullSleeve(hem=60.0))
    pattern = apply_step(pattern, Opening("centre back", "closed"))
    pattern = apply_step(pattern, Opening("centre front", "buttons", button=15.0))
    pattern = with_part(pattern, part_of(find_part("shirt collar"), {"fall": fall}))
    return with_part(pattern, part_of(find_part("cuff"), {}))


def amiss(pattern: Pattern) -> list[Result]:
    return [each for each in run_checks(pattern, checks=SITS) if each.verdict is not Verdict.PASS]


def test_a_shirt_passes() -> None:
    results = run_checks(shirt(), checks=SITS)
    assert len(results) == 7  # two pairs of layers, two stands, a fall, a cuff closed and open
    assert amiss(shirt()) == []


def test_a_fall_that_does_not_hide_its_seam_is_warned_of() -> None:
    (found,) = amiss(shirt(fall=32.0))
    assert (found.where, found.verdict) == ("collar over collar stand", Verdict.WARN)
    assert "2.0 mm wider than the stand" in found.remedy


@pytest.mark.parametrize(
    ("way", "where", "verdict"),
    [
        (broken.under_collar_larger, "collar over under collar", Verdict.WARN),
        (broken.neck_grown, "collar stand, its upper edge round the neck", Verdict.WARN),
        (broken.cuff_buttoned_too_tight, "cuff, closed over the wrist", Verdict.FAIL),
        (broken.slit_gone, "cuff, open for the hand", Verdict.WARN),
    ],
)
def test_each_break_is_said(way: Callable[[Pattern], Pattern], where: str, verdict: Verdict) -> None:
    found = {each.where: each for each in amiss(way(shirt()))}
    assert where in found
    assert found[where].verdict is verdict
    assert found[where].remedy
