"""A facing of a very small child still has its grain line inside it."""

from __future__ import annotations

from drafting.checks import CHECKS, Verdict, named
from drafting.parts.part_table import find_part, part_of
from tests.blocks.child.test_child_block import child, drafted
from tests.drafting.parts.with_part import with_part
from tests.quick_checks import run_checks


def test_the_grain_line_of_a_babys_neck_facing_lies_inside_it() -> None:
    baby = child({"stature": 62, "bust_girth": 42.6, "waist_girth": 42.2, "hip_girth": 42.8})
    faced = with_part(drafted(baby, "child's bodice"), part_of(find_part("neck facing"), {}))
    results = run_checks(faced, checks=named(CHECKS, ["grain-line"]))
    assert {result.where for result in results} >= {"front neck facing", "back neck facing"}
    assert {result.verdict for result in results} == {Verdict.PASS}
