"""What a failed check offers to type, tried before it is told: what would not mend it is not offered.

A remedy is worded by a check that knows one place and no alteration. Whether the step it names can still be taken (on a
piece that was cut in two, gathered, given a stand), and whether anything else then fails, is found out here.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from blocks.garment import alter
from drafting.alterations import ALTERATIONS, Alteration, read_step
from drafting.checks import Check, Result, Verdict, run_checks
from drafting.errors import Problem, TrueseamError
from drafting.pattern import Pattern
from drafting.reading.read_table import Reader

__all__ = ["Offers"]

_STEP: Final = re.compile(r'(?:^|(?<=\. ))[A-Z][^:.]*: (alter = "[^"]+"(?:, \w+ = (?:"[^"]*"|-?\d+(?:\.\d+)?))*)\. ?')
"""A sentence that gives a whole step to type."""

_FOLLOW: Final = re.compile(
    r' ?"(?P<alter>[^"]+)" was held to "(?P<held>[^"]+)": to have the other side follow, leave only out, or write the '
    r'step once more with only = "(?P<other>[^"]+)"\.'
)
"""The sentence that says how the other side of a seam follows what was held to one."""

_Place = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Offers:
    """The steps of a pattern, and by what it is judged.

    stages: the pattern before the first step and after each
    """

    stages: Sequence[Pattern]
    steps: Sequence[Alteration]
    checks: Sequence[Check]
    failed: frozenset[_Place]

    def kept(self, result: Result) -> Result:
        """The result with what does not mend taken out of its remedy."""
        place = result.code, result.where
        remedy = _STEP.sub(lambda found: found.group() if self._step_mends(found[1], place) else "", result.remedy)
        remedy = _FOLLOW.sub(lambda found: self._follow(found, place), remedy)
        return result if remedy == result.remedy else replace(result, remedy=remedy.rstrip())

    def _step_mends(self, typed: str, place: _Place) -> bool:
        step = _read(typed)
        return step is not None and self._mends(lambda: alter(self.stages[-1], (step,)), place)

    def _follow(self, found: re.Match[str], place: _Place) -> str:
        """The sentence with those of its two ways that mend; empty where neither does."""
        held = [
            k
            for k, step in enumerate(self.steps)
            if step.name == found["alter"] and getattr(step, "only", "") == found["held"]
        ]
        ways = []
        if held:
            k = held[-1]
            free, twin = (replace(self.steps[k], only=only) for only in ("", found["other"]))  # type: ignore[call-arg]
            if self._mends(lambda: alter(self.stages[k], (free, *self.steps[k + 1 :])), place):
                ways.append("leave only out")
            if self._mends(lambda: alter(self.stages[-1], (twin,)), place):
                ways.append(f'write the step once more with only = "{found["other"]}"')
        told = f' "{found["alter"]}" was held to "{found["held"]}"'
        return f"{told}: to have the other side follow, {', or '.join(ways)}." if ways else f"{told}."

    def _mends(self, make: Callable[[], Pattern], place: _Place) -> bool:
        """Whether a pattern fails no more at a place, and nowhere that it does not fail already."""
        try:
            results = run_checks(make(), checks=self.checks)
        except TrueseamError:
            return False
        failed = {(each.code, each.where) for each in results if each.verdict in (Verdict.FAIL, Verdict.ERROR)}
        return place not in failed and failed <= self.failed


def _read(typed: str) -> Alteration | None:
    """The alteration that a remedy gives to type, read as a garment file is."""
    problems: list[Problem] = []
    reader = Reader(tomllib.loads(f"step = {{ {typed} }}")["step"], place="a remedy", problems=problems, unit="mm")
    step = read_step(reader, ALTERATIONS)
    reader.finish()
    return None if problems else step
