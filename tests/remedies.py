"""What a check says to type, read as a garment file would be, so that tests can do what a reader of a report does."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from blocks.take_steps import alter
from drafting.alterations import ALTERATIONS, Alteration, apply_step, read_step
from drafting.checks import CHECKS, Check, Result, Verdict, run_checks
from drafting.errors import CannotDraft, Problem, StepRefused, TrueseamError
from drafting.pattern import Pattern
from drafting.reading.options import read_option
from drafting.reading.read_table import Reader, refuse
from drafting.reading.units import sentence_in

__all__ = ["came_with", "mends", "mends_instead", "retyped", "typed"]

_TO_TYPE: Final = re.compile(r'alter = "[^"]+"(?:, \w+ = (?:"[^"]*"|-?\d+(?:\.\d+)?))*')
_CAME_WITH: Final = re.compile(r"It came with (?:\[\[step\]\]|step) (\d+)[^;]*?(?:; (.*))?\.$")
_OUT: Final = "leave it out"
_OUT_FROM: Final = re.compile(r"leave (?:it|(?:\[\[step\]\]|step) (\d+)) and the steps taken after it out")


def typed(remedy: str) -> Alteration | None:
    """The alteration that a remedy gives to type; None where it gives none. Raises InputProblems as a file would."""
    found = _TO_TYPE.search(remedy)
    if found is None:
        return None
    problems: list[Problem] = []
    step = tomllib.loads(f"step = {{ {found.group()} }}")["step"]
    reader = Reader(step, place="a remedy", problems=problems, unit="cm")
    read = read_step(reader, ALTERATIONS)
    reader.finish()
    refuse(problems)
    return read


def mends(pattern: Pattern, failed: Result) -> bool:
    """Whether what the remedy of a failed check gives to type makes that very check pass, and none that passed fail."""
    step = typed(failed.remedy)
    if step is None:
        return False
    try:
        after = run_checks(apply_step(pattern, step))
    except TrueseamError:
        return False
    before = {(each.code, each.where) for each in run_checks(pattern) if each.verdict is Verdict.FAIL}
    now = {(each.code, each.where) for each in after if each.verdict is Verdict.FAIL}
    return (failed.code, failed.where) not in now and now <= before


def came_with(remedy: str) -> int | None:
    """The number of the step that a remedy says it came with; None where it names none."""
    found = _CAME_WITH.search(remedy)
    return None if found is None else int(found[1])


def retyped(steps: Sequence[Alteration], remedy: str, *, unit: str = "cm") -> tuple[Alteration, ...] | None:
    """The steps as a remedy would have them: one with other amounts, or left out; None where it says neither.

    unit: what the remedy is shown in, and what stands there is read as. Raises InputProblems as a file would.
    """
    found = _CAME_WITH.search(sentence_in(unit, remedy))
    if found is None or found[2] is None:
        return None
    at = int(found[1]) - 1
    if found[2] == _OUT:
        return (*steps[:at], *steps[at + 1 :])
    if out := _OUT_FROM.fullmatch(found[2]):
        return tuple(steps[: at if out[1] is None else int(out[1]) - 1])
    problems: list[Problem] = []
    amounts = tomllib.loads("\n".join(found[2].partition(" passes")[0].split(", ")))
    reader = Reader(amounts, place="a remedy", problems=problems, unit=unit)
    options = {option.name: option for option in ALTERATIONS.named(steps[at].name).options}
    read = {name: read_option(reader, options[name]) for name in amounts}
    refuse(problems)
    return (*steps[:at], replace(steps[at], **read), *steps[at + 1 :])  # type: ignore[arg-type]


def mends_instead(
    drafted: Pattern,
    steps: Sequence[Alteration],
    failed: Result,
    *,
    unit: str = "cm",
    checks: Sequence[Check] = CHECKS,
) -> bool:
    """Whether the steps as the remedy has them, taken from the draft, make that very check pass and none else fail."""
    instead = retyped(steps, failed.remedy, unit=unit)
    if instead is None:
        return False
    try:
        before, after = (run_checks(alter(drafted, each), checks=checks) for each in (steps, instead))
    except (StepRefused, CannotDraft):  # not always to be had from the draft again, in the order of the engine
        return False
    faults = [{(each.code, each.where) for each in found if each.verdict is Verdict.FAIL} for found in (before, after)]
    return (failed.code, failed.where) not in faults[1] and faults[1] <= faults[0]
