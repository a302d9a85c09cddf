"""What is offered in place of a step that is refused was tried with the steps after it, and is told in her unit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import ClassVar

import pytest

from blocks.take_steps import alter, stages
from drafting.alterations import Alteration, Promise
from drafting.checks import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting, StepRefused
from drafting.pattern import Pattern
from drafting.reading.options import Option, Value
from drafting.reading.units import sentence_in
from tests.drafting.sample import blouse


@dataclass(frozen=True, slots=True)
class Deeper(Alteration):
    """Adds to the depth, which stands in the title, mm, and goes no further than `most`."""

    name: ClassVar[str] = "deeper"
    or_less: ClassVar[tuple[str, ...]] = ("by",)
    options: ClassVar[tuple[Option, ...]] = (Option("by", "length", "how much", 1.0, 300.0),)

    by: float = 10.0
    most: float = 200.0

    def apply(self, pattern: Pattern) -> Pattern:
        if self.by > self.most:
            raise StepRefused(self.name, reason="too deep", too_much=("by",))
        return replace(pattern, title=str(float(pattern.title) + self.by))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        del pattern
        yield Promise("the depth", lambda pattern: float(pattern.title), self.by)


@dataclass(frozen=True, slots=True)
class Shallow(Alteration):
    """Says how deep it was, and can only be taken where that is no more than `most`."""

    name: ClassVar[str] = "shallow"
    options: ClassVar[tuple[Option, ...]] = (Option("most", "length", "how deep", 0.0, 300.0),)

    most: float = 10.0
    before: ClassVar[str] = "deeper"

    def apply(self, pattern: Pattern) -> Pattern:
        if float(pattern.title) > self.most:
            raise StepRefused(self.name, reason="it is deep", remedies=(Remedy("put before", self.before),))
        return pattern

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        del pattern
        yield Promise("the depth", lambda pattern: float(pattern.title))


@dataclass(frozen=True, slots=True)
class Nameless(Shallow):
    """Does not know which step has made it deep."""

    name: ClassVar[str] = "nameless"
    before: ClassVar[str] = ""


@dataclass(frozen=True, slots=True)
class Keeps(Alteration):
    """Says that it leaves the depth alone, and adds to it what `by` is over 20 mm, and what the depth is over 150."""

    name: ClassVar[str] = "keeps"
    or_less: ClassVar[tuple[str, ...]] = ("by",)
    options: ClassVar[tuple[Option, ...]] = (Option("by", "length", "how much", 1.0, 300.0),)

    by: float = 10.0

    def apply(self, pattern: Pattern) -> Pattern:
        deep = float(pattern.title)
        return replace(pattern, title=str(deep + 0.25 * (max(0.0, self.by - 20.0) + max(0.0, deep - 150.0))))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        del pattern
        yield Promise("the finished depth", lambda pattern: float(pattern.title))


@pytest.mark.parametrize(
    ("steps", "had"),
    [
        ((Deeper(250.0),), 200.0),
        ((Deeper(250.0), Keeps()), 150.0),  # 200 mm by itself, and then the second step breaks its promise
        ((Keeps(60.0), Deeper(100.0)), 20.0),  # a broken promise is offered the most that keeps it
        ((Deeper(250.0), Keeps(60.0)), 200.0),  # the second is at fault by itself
    ],
)
def test_the_offer_can_be_had_with_the_steps_after_it(steps: tuple[Alteration, ...], had: float) -> None:
    with pytest.raises(StepRefused) as refused:
        alter(replace(blouse(), title="0.0"), steps)
    assert refused.value.step == 1
    assert refused.value.remedies == (Remedy("change", steps[0].name, (Setting("by", had, "mm"),), step=1),)


@pytest.mark.parametrize(
    ("steps", "put"),
    [
        ((Deeper(20.0), Shallow()), ("deeper", 1)),
        ((Deeper(5.0), Deeper(20.0), Keeps(), Shallow()), ("deeper", 2)),  # the nearest that helps
        ((Deeper(20.0), Deeper(5.0), Shallow()), ("deeper", 1)),  # before the nearer it is deep already
        ((Deeper(20.0), Keeps(), Nameless()), ("deeper", 1)),
        ((Deeper(20.0), Shallow(), Deeper(250.0)), ("deeper", 1)),  # the last is refused wherever it is
        ((Keeps(), Shallow()), None),
    ],
)
def test_a_step_that_comes_too_late_is_told_before_which_it_can_be_taken(
    steps: tuple[Alteration, ...], put: tuple[str, int] | None
) -> None:
    """As data, and in the sentence made of it; nothing where that was tried in vain."""
    begins = "0.0" if put else "20.0"
    late = next(k for k, step in enumerate(steps, 1) if isinstance(step, Shallow))
    with pytest.raises(StepRefused) as refused:
        alter(replace(blouse(), title=begins), steps)
    found = [(each.act, each.alteration, each.settings, each.step) for each in refused.value.remedies]
    assert found == ([("put before", put[0], (Setting("step", put[1]),), late)] if put else [])
    told = f'; put this step before "{put[0]}"' if put else ""
    assert str(refused.value) == f"step {late}, {steps[late - 1].name}: it is deep{told}"


def _not_deeper_than(fails: float) -> Check:
    """A check that fails where the depth is more than this, mm, and warns where it is more than 20 mm less."""

    def found(check: Check, title: str) -> Iterator[Result]:
        over = float(title) - fails
        verdict = Verdict.FAIL if over > 0.0 else Verdict.WARN if over > -20.0 else Verdict.PASS
        yield check.result("the depth", verdict, remedy="less")

    def looks(_check: Check, pattern: Pattern) -> Iterator[Look]:
        yield look(found, pattern.title)

    return Check("depth", "depth", "It is not too deep.", looks)


@pytest.mark.parametrize(
    ("begins", "steps", "fails_above", "had"),
    [
        (0.0, (Deeper(250.0),), 220.0, [(200.0, "pass")]),  # the most that can be drawn passes
        (0.0, (Deeper(250.0),), 210.0, [(200.0, "warn")]),
        (0.0, (Deeper(250.0),), 150.0, [(150.0, "warn"), (200.0, "fail")]),
        (0.0, (Deeper(250.0), Deeper(100.0)), 150.0, [(50.0, "warn"), (200.0, "fail")]),  # with the step after it
        (60.0, (Deeper(250.0),), 50.0, [(200.0, "pass")]),  # it failed without the step: no fault of that
        (49.5, (Deeper(250.0),), 50.0, [(200.0, "fail")]),  # no whole millimetre of it passes
    ],
)
def test_the_most_that_passes_is_offered_before_the_most_that_can_be_drawn(
    begins: float, steps: tuple[Alteration, ...], fails_above: float, had: list[tuple[float, str]]
) -> None:
    with pytest.raises(StepRefused) as refused:
        tuple(stages(replace(blouse(), title=str(begins)), steps, checks=(_not_deeper_than(fails_above),)))
    offers = refused.value.remedies
    assert [(each.settings[0].value, each.verdict) for each in offers] == had
    assert ("though a check fails then" in str(refused.value)) == (had[-1][1] == "fail")


def test_a_broken_promise_is_told_in_her_unit_with_what_to_do() -> None:
    with pytest.raises(StepRefused) as refused:
        alter(replace(blouse(), title="254.0"), (Keeps(),))
    told = sentence_in("in", str(refused.value))
    assert told == (
        "step 1, keeps: it was to leave the finished depth alone, but that would go from 10 to 11 in. "
        "That is a fault of the program, not yours: leave the step out, or ask for another amount"
    )


class InBlock(Deeper):
    """Can be taken where the garment begins at 100 mm, as an option of its block makes it, or refuses all the same."""

    def apply(self, pattern: Pattern) -> Pattern:
        if float(pattern.title) < 100.0:
            remedies = [Remedy("set in block", "", (Setting("depth", depth, "mm"),)) for depth in (50.0, 100.0, 140.0)]
            raise StepRefused(self.name, reason="not deep", remedies=remedies)
        return super().apply(pattern)


def test_what_is_set_in_a_block_is_tried_before_it_is_offered_and_judged() -> None:
    """That the step is refused with as well, as with what is set already, is not offered."""

    def redrafted(options: Mapping[str, Value]) -> Pattern:
        return replace(blouse(), title=str(options["depth"]))

    with pytest.raises(StepRefused) as refused:
        tuple(
            stages(replace(blouse(), title="0.0"), (InBlock(),), checks=(_not_deeper_than(125.0),), redrafted=redrafted)
        )
    offers = [(each.settings[0].value, each.verdict) for each in refused.value.remedies]
    assert offers == [(100.0, "warn"), (140.0, "fail")]
