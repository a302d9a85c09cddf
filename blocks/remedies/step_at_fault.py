"""What a step brought that the checks do not let pass: which step it was, and how much less of it passes.

Whatever is said has been tried: less of the step and those after it were taken again, and the whole was checked.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import PurePath
from typing import Final

from blocks.remedies.allowance_at_fault import AllowanceTrials
from blocks.remedies.block_at_fault import Ordered
from blocks.remedies.part_at_fault import with_part_at_fault
from blocks.remedies.tried_remedies import TriedRemedies
from blocks.step_offers import after_steps
from drafting.alterations import Alteration
from drafting.checks import CHECKS, Check, Checked, Result, Verdict, check_pattern
from drafting.dataclass import dataclass
from drafting.errors import Remedy, Setting
from drafting.pattern import Pattern
from drafting.reading.possible_amounts import Amounts, most_that, settings_of, smaller_amounts, step_of

__all__ = ["checked_after", "where_written"]

_SIZES: Final = "[sizes]"

_WANTED: Final = ((False, True, Verdict.PASS), (True, True, Verdict.WARN), (True, False, Verdict.FAIL))
"""What is looked for, one after another: without a warning, with nothing else that fails, and how that is judged."""

_Place = tuple[str, str]
"""What a check looked at: its code, and where."""


def checked_after(
    stages: Sequence[Pattern],
    steps: Sequence[Alteration],
    *,
    sources: Sequence[str] = (),
    unit: str = "cm",
    checks: Sequence[Check] = CHECKS,
    last: Checked | None = None,
    ordered: Ordered | None = None,
) -> tuple[Result, ...]:
    """What the checks find after the last step, as `run_checks` finds it.

    What a remedy gives to type is tried, of a warning too, and left out where it does not mend.
    A failed check whose remedy gives nothing to type, and which did not fail before one of the steps, has the step
    added that it came with, and the most of it that passes: the lengths that the alteration calls `or_less`, all by the
    same share, in whole millimetres or eighths of an inch. Where no less of it passes, the step is to be left out.

    stages:  the pattern before the first step and after each, so one more than there are steps
    sources: where each of the steps is written; their numbers stand for it where it is empty
    unit:    what she works in; the amounts stand in mm, like every length in a remedy
    last:    what the checks found after the last step, where they have been asked already
    ordered: the garment it was drafted from, so that an option of a block can be tried; None where there is none
    """
    last = last or check_pattern(stages[-1], checks=checks)
    if not any(each.remedy for each in last.results):
        return last.results
    tried = TriedRemedies(stages, steps, checks, last, ordered)
    results = [tried.without_useless(each) if each.remedy else each for each in last.results]
    if not any(_needs_more(result) for result in results):
        return tuple(results)
    rounded_to = step_of(unit)
    trials = _Trials(stages, steps, checks, last, rounded_to)
    results = [_with_fault(result, trials, sources) if _needs_more(result) else result for result in results]

    def with_part_or_block(result: Result) -> Result:
        if not _needs_more(result) or trials.step_that_brought((result.code, result.where)) is not None:
            return result
        told = with_part_at_fault(result, stages[-1], last, checks, rounded_to)
        if told is not result or ordered is None:
            return told
        return ordered.with_block_at_fault(result, last, checks, rounded_to)

    results = [with_part_or_block(result) for result in results]
    if ordered is None:
        return tuple(results)
    allowances = AllowanceTrials(ordered.garment, ordered.prepared, last, checks, rounded_to)
    return tuple(allowances.with_allowance_at_fault(each) if _needs_more(each) else each for each in results)


@dataclass(frozen=True, slots=True)
class _Found:
    """What the checks looked at, and what of it failed or was warned of."""

    looked: frozenset[_Place]
    failed: frozenset[_Place]
    warned: frozenset[_Place]


class _Trials:
    """The pattern after each step, checked, and whatever else is tried; every trial is remembered."""

    def __init__(
        self,
        stages: Sequence[Pattern],
        steps: Sequence[Alteration],
        checks: Sequence[Check],
        last: Checked,
        rounded_to: float,
    ) -> None:
        self.stages, self.steps, self.checks, self.rounded_to = stages, steps, checks, rounded_to
        self.checked: list[Checked] = []
        for stage in stages[:-1]:
            self.checked.append(check_pattern(stage, known=self.checked[-1] if self.checked else last, checks=checks))
        self.found = [_found(each.results) for each in (*self.checked, last)]
        self.tried: dict[tuple[int, tuple[float, ...]], _Found | None] = {}

    def step_that_brought(self, place: _Place) -> int | None:
        """The step before which it did not fail, as after it; None where it failed as drafted."""
        counts = reversed(range(len(self.steps)))
        return next((count for count in counts if not self._failed_before(count, place)), None)

    def most(self, count: int, place: _Place, *, warned: bool, whole: bool) -> Amounts:
        """The largest of the smaller amounts of a step with which it passes; none where no less of it does.

        warned: whether a warning will do
        whole:  whether nothing else may fail that does not without the step
        """
        without = self.instead(count, {})
        borne = without.failed if without is not None else frozenset()

        def passes(amounts: Amounts) -> bool:
            found = self.instead(count, amounts)
            if found is None or not self._is_mended(found, place) or (whole and not found.failed <= borne):
                return False
            return warned or place not in found.warned

        return most_that(passes, smaller_amounts(self.steps[count], self.steps[count].or_less, self.rounded_to))

    def goes_without(self, count: int, place: _Place) -> bool:
        """Whether it fails no more where the step is left out, and nothing else does."""
        without = self.instead(count, {})
        return without is not None and self._is_mended(without, place)

    def goes_before(self, count: int, place: _Place) -> int | None:
        """The last step, not after this one, before which it does not fail and nothing else does."""
        counts = range(count, -1, -1)
        return next((each for each in counts if self._is_mended(self.found[each], place)), None)

    def instead(self, count: int, amounts: Amounts) -> _Found | None:
        """What is found at the end with these amounts in a step, or without it for none; None where one is refused."""
        key = count, tuple(amounts.values())
        if key not in self.tried:
            changed = [replace(self.steps[count], **amounts)] if amounts else []
            pattern = after_steps(self.stages[count], (*changed, *self.steps[count + 1 :]))
            if pattern is None:
                self.tried[key] = None
            else:
                checked = check_pattern(pattern, known=self.checked[count], checks=self.checks)
                self.tried[key] = _found(checked.results)
        return self.tried[key]

    def _failed_before(self, count: int, place: _Place) -> bool:
        """Whether it failed before a step already, be it under a name that is gone: a step may part a piece in two."""
        found, last = self.found[count], self.found[-1]
        if place in found.looked:
            return place in found.failed
        return any(code == place[0] and (code, where) not in last.looked for code, where in found.failed)

    def _is_mended(self, found: _Found, place: _Place) -> bool:
        """Whether it fails no more, and nothing does that did not."""
        return place not in found.failed and found.failed <= self.found[-1].failed


def _needs_more(result: Result) -> bool:
    return result.verdict is Verdict.FAIL and not result.remedies


def _with_fault(result: Result, trials: _Trials, sources: Sequence[str]) -> Result:
    """The result, its remedy with the step it came with and what to make of that."""
    place = result.code, result.where
    count = trials.step_that_brought(place)
    if count is None:
        return result
    step = f"{where_written(sources, count)}, {trials.steps[count].name}"
    remedy = _instead(trials, count, place, in_sizes=_in_sizes(sources, count))
    words = _words(remedy, count, sources) if remedy else ""
    return replace(
        result,
        remedy=f"{result.remedy} It came with {step}{words}.",
        remedies=(remedy,) if remedy else (),
    )


def _in_sizes(sources: Sequence[str], count: int) -> bool:
    """Whether a step comes of several sizes that were named, and is written nowhere itself."""
    return count < len(sources) and _place_in_file(sources[count])[1] == _SIZES


def _instead(trials: _Trials, count: int, place: _Place, *, in_sizes: bool) -> Remedy | None:
    """What to set in place of a step, or what to leave out; None where nothing that was tried will do."""
    name, without = trials.steps[count].name, trials.instead(count, {})
    # where it fails even without the step, later ones bring it too, and no smaller amount can help
    if without is None or place not in without.failed:
        for warned, whole, verdict in _WANTED:
            if amounts := trials.most(count, place, warned=warned, whole=whole):
                return Remedy("change", name, settings_of(amounts), step=count + 1, verdict=verdict.value)
    bust = getattr(trials.steps[count], "bust", None)
    if trials.goes_without(count, place):
        if in_sizes and bust is not None:
            return Remedy("set in sizes", name, (Setting("bust", bust),), step=count + 1)
        return Remedy("leave out", name, step=count + 1)
    first = trials.goes_before(count, place)
    return None if first is None else Remedy("leave out", trials.steps[first].name, step=first + 1, onward=True)


def _words(remedy: Remedy, count: int, sources: Sequence[str]) -> str:
    """The remedy in words, behind those that say which step it came with; count: that step, from 0."""
    if remedy.act == "change":
        how = {"warn": " with a warning", "fail": " here, though another check fails then"}
        return f"; {remedy.typed()} passes{how.get(remedy.verdict, '')}"
    if remedy.act == "set in sizes":
        return f"; name one size: {remedy.typed()}"
    if not remedy.onward:
        return "; name one size" if _in_sizes(sources, count) else "; leave it out"
    which = "it" if remedy.step == count + 1 else where_written(sources, remedy.step - 1)
    return f"; leave {which} and the steps taken after it out"


def where_written(sources: Sequence[str], count: int) -> str:
    """Where a step is written: its place in the file, and which file where the steps stand in several; its number for
    one that no file holds.
    """
    if count >= len(sources):
        return f"step {count + 1}"
    file, place = _place_in_file(sources[count])
    several = len({_place_in_file(source)[0] for source in sources}) > 1
    return f"{place} of {PurePath(file).name}" if file and several else place


def _place_in_file(source: str) -> tuple[str, str]:
    """The file in which a step is written, and the place in it: "a.toml", "[[step]] 2"; "" where no file holds it."""
    file, _, place = source.rpartition(", [")
    return (file, f"[{place}") if file else ("", source)


def _found(results: Iterable[Result]) -> _Found:
    looked: dict[_Place, set[Verdict]] = {}
    for result in results:
        looked.setdefault((result.code, result.where), set()).add(result.verdict)
    return _Found(
        looked=frozenset(looked),
        failed=frozenset(place for place, verdicts in looked.items() if verdicts & {Verdict.FAIL, Verdict.ERROR}),
        warned=frozenset(place for place, verdicts in looked.items() if Verdict.WARN in verdicts),
    )
