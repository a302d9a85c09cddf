"""Where so much cannot be drawn, the refusal tells a smaller amount, as it is typed; and that can be had."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from drafting.alterations import Alteration, Armhole, FullBust, ShoulderWidth, UpperArm, apply_step
from drafting.errors import StepRefused
from drafting.pattern import Pattern
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses

STEPS = (
    (ShoulderWidth(-30.0), "amount"),
    (UpperArm(200.0), "by"),
    (FullBust(by=150.0), "by"),
    (Armhole(lower=150.0), "lower"),
)


def refusal(pattern: Pattern, step: Alteration) -> str:
    try:
        apply_step(pattern, step)
    except StepRefused as refused:
        return str(refused)
    return ""


@pytest.mark.parametrize(("step", "option"), STEPS)
def test_the_number_that_is_told_can_be_typed_and_is_taken(step: Alteration, option: str) -> None:
    told = 0
    for pattern in (dress(), *dresses(every=314)):
        found = re.search(rf'this can be had: {option} = "(-?[0-9.]+) mm"', refusal(pattern, step))
        if found:
            less = float(found[1])
            asked = getattr(step, option)
            assert 0.0 < less / asked < 1.0
            assert apply_step(pattern, replace(step, **{option: less})).history
            told += 1
    assert told


def test_nothing_is_told_where_no_less_can_be_had() -> None:
    # not a matter of how much: the sleeve is not set in anywhere
    alone = replace(dress(), pieces=(dress().piece("sleeve"),), seams=(), measures=())
    assert "this can be had" not in refusal(alone, UpperArm(20.0))
