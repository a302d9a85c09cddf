"""What a check says to type, read as a garment file would be, so that tests can do what a reader of a report does."""

from __future__ import annotations

import re
import tomllib
from typing import Final

from drafting.alterations import ALTERATIONS, Alteration, apply_step, read_step
from drafting.checks import Result, Verdict, run_checks
from drafting.errors import Problem, TrueseamError
from drafting.pattern import Pattern
from drafting.reading.table import Reader, refuse

__all__ = ["mends", "typed"]

_TO_TYPE: Final = re.compile(r'alter = "[^"]+"(?:, \w+ = (?:"[^"]*"|-?\d+(?:\.\d+)?))*')


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
