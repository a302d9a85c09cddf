"""The checks for tests that look at many patterns made of one: what the last ones had too is not looked at again."""

from __future__ import annotations

from collections import ChainMap, deque
from collections.abc import Hashable, Iterable, Mapping
from typing import Final

from drafting.checks import CHECKS, Check, Checked, Result, check_pattern
from drafting.checks.base import Looked
from drafting.pattern import Pattern

__all__ = ["run_checks"]

_LAST: Final[deque[Mapping[Hashable, Looked]]] = deque(maxlen=4)
"""What was looked at on the last patterns: few, since they hold all the pieces of each."""


def run_checks(pattern: Pattern, *, checks: Iterable[Check] = CHECKS) -> tuple[Result, ...]:
    """The results of `drafting.checks.run_checks`: the same, which is a law of tests/property/test_checks_known."""
    checked = check_pattern(pattern, known=Checked((), ChainMap(*map(dict, _LAST))), checks=checks)
    _LAST.appendleft(checked.looked)
    return checked.results
