"""Every alteration asked for far too much: what its refusal offers can be had, and is the most, to a millimetre."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from drafting.alterations import Alteration, apply_step
from drafting.errors import InputProblems, Remedy, StepRefused
from drafting.pattern import Pattern
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.sizes import sized
from tests.sampling import some

NOT_TOO_MUCH = (
    "blend",
    "put sleeve in",
    "dart into gathers",
    "dart into seam",
    "yoke",
    "raglan",
    "smock",
    "saddle shoulder",
    "kimono",
    "pointed waist",
    "shaped band",
    "gather skirt",
    "hem",
    "sway back",
    "forward shoulder",
    "shoulder width",
    "room to grow",
)
"""Alterations of which this dress takes as much as their options do, or that ask for no length."""


def far(step: Alteration) -> Iterator[Alteration]:
    """The step with each of its lengths, one after the other and all together, as large as the option takes."""
    options = {option.name: option for option in step.options if option.kind == "length"}
    ends: dict[str, list[float]] = {
        key: [end for end in (option.low, option.high) if end is not None and abs(end) > 1.0]
        for key, option in options.items()
    }
    for key, values in ends.items():
        for value in values:
            yield from allowed(step, {key: value})
    for at in (0, -1):
        yield from allowed(step, {key: values[at] for key, values in ends.items() if values and getattr(step, key)})


def allowed(step: Alteration, options: dict[str, float]) -> Iterator[Alteration]:
    try:
        yield replace(step, **options)
    except InputProblems:
        return


def refusals(pattern: Pattern, name: str) -> Iterator[tuple[Alteration, StepRefused]]:
    first, *_, last = (*SAMPLES[name], SAMPLES[name][-1])
    steps = [sample(name, options) for options in (first, last)]
    for step in dict.fromkeys(each for one in steps for each in (one, *far(one))):
        try:
            apply_step(pattern, step)
        except StepRefused as refused:
            yield step, refused


def is_had(pattern: Pattern, step: Alteration) -> bool:
    try:
        apply_step(pattern, step)
    except (StepRefused, InputProblems):
        return False
    return True


def a_millimetre_more(asked: Alteration, remedy: Remedy) -> Alteration | None:
    """The step with the next amounts up, all by the same share of what was asked; None where that is what was asked."""
    lengths = {each.option: float(getattr(asked, each.option)) for each in remedy.settings}
    most = max(map(abs, lengths.values()))
    offered = max(abs(float(each.value)) for each in remedy.settings)
    parts = round(offered) + 1
    if parts >= most - 1e-9:
        return None
    more = {key: math.copysign(math.floor(abs(mm) / most * parts + 1e-9), mm) for key, mm in lengths.items() if mm}
    return replace(asked, **more)


@pytest.mark.parametrize("name", some(SAMPLES, every=8))
def test_what_is_offered_can_be_had_and_is_the_most_to_a_millimetre(name: str) -> None:
    pattern = sized(92, "bodice", "sleeve", "skirt")
    offered = 0
    for step, refused in refusals(pattern, name):
        assert refused.alteration == name, refused
        for remedy in refused.remedies:
            offered += 1
            assert (remedy.act, remedy.alteration) == ("change", step.name)
            assert is_had(pattern, replace(step, **{each.option: each.value for each in remedy.settings})), refused
            if _is_less(step, remedy):
                more = a_millimetre_more(step, remedy)
                assert more is None or not is_had(pattern, more), refused
            assert remedy.typed() in str(refused)
        said = re.findall(r"at (?:the )?most|or (?:more|less)|is the least", refused.reason)
        assert not said or refused.remedies, refused
    assert offered or name in NOT_TOO_MUCH, name


def _is_less(step: Alteration, remedy: Remedy) -> bool:
    asked = [(getattr(step, each.option), each) for each in remedy.settings]
    return all(each.unit == "mm" and was and abs(was) >= abs(float(each.value)) for was, each in asked)
