"""The dress of the sweep for a fixed sample of the women of the open 1988 survey, as it is drafted and checked."""

from __future__ import annotations

from functools import cache

from blocks.garment import draft, prepare
from drafting.alterations import Alteration, apply_step
from drafting.checks import Checked, Result, Verdict, check_pattern
from drafting.errors import CannotDraft
from drafting.pattern import Pattern
from tests.bodies import women
from tests.quick_checks import run_checks
from tests.sweep import dress_for

__all__ = ["checked", "dresses", "failed", "failed_after"]

EVERY = 368
"""Every so many women of the survey: 3 of them. `python -m tests.sweep_alterations` takes every step to all 1,104."""


@cache
def dresses(first: int = 0, every: int = EVERY) -> tuple[Pattern, ...]:
    """Those that can be drafted and fail no check, every so many, counted from the woman `first`."""
    drafted = []
    for woman in women()[first::every]:
        garment = dress_for(woman)
        try:
            pattern = draft(garment, prepare(garment))
        except CannotDraft:
            continue
        if not failed(pattern):
            drafted.append(pattern)
    assert len(drafted) >= 3  # or a test that looks at all of them has looked at few
    return tuple(drafted)


def failed(pattern: Pattern, before: Pattern | None = None) -> list[Result]:
    """The checks that fail on a pattern, or break off.

    before: what it was made of: what was left as it was is not looked at again, as in the command
    """
    results = check_pattern(pattern, known=checked(before)).results if before else run_checks(pattern)
    return [result for result in results if result.verdict in (Verdict.FAIL, Verdict.ERROR)]


def failed_after(pattern: Pattern, step: Alteration) -> list[Result]:
    """The checks that fail after a step."""
    return failed(apply_step(pattern, step), pattern)


_KNOWN: dict[int, tuple[Pattern, Checked]] = {}


def checked(pattern: Pattern) -> Checked:
    """What the checks found on a pattern, looked at once."""
    if id(pattern) not in _KNOWN:
        _KNOWN[id(pattern)] = pattern, check_pattern(pattern)
    return _KNOWN[id(pattern)][1]
