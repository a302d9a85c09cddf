"""The dress of the sweep for a fixed sample of the women of the open 1988 survey, as it is drafted and checked."""

from __future__ import annotations

from functools import cache

from blocks.garment import draft, prepare
from drafting.alterations import Alteration, apply_step
from drafting.checks import Checked, Result, Verdict, check_pattern, run_checks
from drafting.errors import CannotDraft
from drafting.pattern import Pattern
from tests.bodies import women
from tests.sweep import dress_for

__all__ = ["checked", "dresses", "failed", "failed_after"]

EVERY = 44
"""Every so many women of the survey: 26 of them, of whom a few are refused or fail before anything is altered."""


@cache
def dresses(first: int = 0) -> tuple[Pattern, ...]:
    """Those that can be drafted and fail no check, counted from the woman `first`."""
    drafted = []
    for woman in women()[first::EVERY]:
        garment = dress_for(woman)
        try:
            pattern = draft(garment, prepare(garment))
        except CannotDraft:
            continue
        if not failed(pattern):
            drafted.append(pattern)
    return tuple(drafted)


def failed(pattern: Pattern) -> list[Result]:
    """The checks that fail on a pattern, or break off."""
    return [result for result in run_checks(pattern) if result.verdict in (Verdict.FAIL, Verdict.ERROR)]


def failed_after(pattern: Pattern, step: Alteration) -> list[Result]:
    """The checks that fail after a step; what the step left as it was is not looked at again, as in the command."""
    after = check_pattern(apply_step(pattern, step), known=checked(pattern)).results
    return [result for result in after if result.verdict in (Verdict.FAIL, Verdict.ERROR)]


_KNOWN: dict[int, tuple[Pattern, Checked]] = {}


def checked(pattern: Pattern) -> Checked:
    """What the checks found on a pattern, looked at once."""
    if id(pattern) not in _KNOWN:
        _KNOWN[id(pattern)] = pattern, check_pattern(pattern)
    return _KNOWN[id(pattern)][1]
