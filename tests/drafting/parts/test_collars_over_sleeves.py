"""Collars drawn to a neck that lies in part on a sleeve, over a saddle or a raglan."""

from __future__ import annotations

import pytest

from drafting.alterations import Raglan, Saddle, apply_step
from drafting.alterations.alteration import Alteration
from drafting.checks import Verdict, run_checks
from drafting.parts.part_table import find_part, part_of
from tests.drafting.dress import dress
from tests.drafting.parts.with_part import with_part


@pytest.mark.parametrize(
    "step", [Saddle(), Saddle(front=20.0, back=20.0), Raglan()], ids=["saddle", "narrow", "raglan"]
)
@pytest.mark.parametrize("part", ["sailor collar", "flat collar"])
def test_no_collar_crosses_itself_where_the_neck_runs_over_a_sleeve(step: Alteration, part: str) -> None:
    pattern = with_part(apply_step(dress(), step), part_of(find_part(part), {}))
    wrong = [r.where for r in run_checks(pattern) if r.verdict is Verdict.FAIL and r.code == "outline-simple"]
    assert wrong == []
