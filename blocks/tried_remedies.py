"""What a failed check offers to type, tried before it is offered: what would not mend it is not offered.

A remedy is worded by a check that knows one place and no alteration. Whether the step it names can still be taken (on a
piece that was cut in two, gathered, given a stand), and whether anything else then fails, is found out here.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from blocks.garment import alter
from drafting.alterations import ALTERATIONS, Alteration
from drafting.checks import Check, Result, Verdict, run_checks
from drafting.errors import Remedy, Setting, TrueseamError
from drafting.pattern import Pattern

__all__ = ["TriedRemedies"]

_FOLLOW: Final = re.compile(
    r' ?"(?P<alter>[^"]+)" was held to "(?P<held>[^"]+)": to have the other side follow, leave only out, or write the '
    r'step once more with only = "(?P<other>[^"]+)"\.'
)
"""The sentence that says how the other side of a seam follows what was held to one."""

_Place = tuple[str, str]


@dataclass(frozen=True, slots=True)
class TriedRemedies:
    """The steps of a pattern, and by what it is judged.

    stages: the pattern before the first step and after each
    """

    stages: Sequence[Pattern]
    steps: Sequence[Alteration]
    checks: Sequence[Check]
    failed: frozenset[_Place]

    def without_useless(self, result: Result) -> Result:
        """The result with what does not mend taken out of its remedy."""
        place = result.code, result.where
        useful = [each for each in result.remedies if self._step_mends(each, place)]
        remedy = result.remedy
        for each in result.remedies:
            if each not in useful:
                remedy = remedy.replace(each.sentence(), "").replace("  ", " ").strip()
        follow = _FOLLOW.search(remedy)
        if follow is not None:
            words, others = self._follow(follow, place)
            remedy = remedy.replace(follow.group(), words).strip()
            useful += others
        return replace(result, remedy=remedy, remedies=tuple(useful))

    def _step_mends(self, remedy: Remedy, place: _Place) -> bool:
        given = {each.option: each.value for each in remedy.settings}
        try:
            step = ALTERATIONS.entry(remedy.alteration).alteration(**given)
        except TrueseamError:
            return False
        return self._mends(lambda: alter(self.stages[-1], (step,)), place)

    def _follow(self, found: re.Match[str], place: _Place) -> tuple[str, list[Remedy]]:
        """The sentence with those of its two ways that mend, and these as data; neither where neither does."""
        name, other = found["alter"], found["other"]
        held = [
            k for k, step in enumerate(self.steps) if step.name == name and getattr(step, "only", "") == found["held"]
        ]
        ways, remedies = [], list[Remedy]()
        if held:
            k = held[-1]
            free, twin = (replace(self.steps[k], only=only) for only in ("", other))  # type: ignore[call-arg]
            if self._mends(lambda: alter(self.stages[k], (free, *self.steps[k + 1 :])), place):
                ways.append("leave only out")
                remedies.append(Remedy("change", name, (Setting("only", ""),), step=k + 1))
            if self._mends(lambda: alter(self.stages[-1], (twin,)), place):
                ways.append(f'write the step once more with only = "{other}"')
                remedies.append(Remedy("add", name, _settings(twin)))
        was_held = f' "{name}" was held to "{found["held"]}"'
        follow = f": to have the other side follow, {', or '.join(ways)}" if ways else ""
        return f"{was_held}{follow}.", remedies

    def _mends(self, make: Callable[[], Pattern], place: _Place) -> bool:
        """Whether a pattern fails no more at a place, and nowhere that it does not fail already."""
        try:
            results = run_checks(make(), checks=self.checks)
        except TrueseamError:
            return False
        failed = {(each.code, each.where) for each in results if each.verdict in (Verdict.FAIL, Verdict.ERROR)}
        return place not in failed and failed <= self.failed


def _settings(step: Alteration) -> tuple[Setting, ...]:
    """All that a step sets, as data."""
    units = {"length": "mm", "percent": "%", "angle": "deg"}
    given = ((option, getattr(step, option.name)) for option in step.options)
    return tuple(
        Setting(option.name, value, units.get(option.kind, ""))
        for option, value in given
        if value is not None and value != option.default
    )
