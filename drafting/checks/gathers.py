"""Whether what is gathered is marked often enough: a long edge without a mark is never spread evenly by hand."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.pattern import Pattern, Seam
from drafting.pattern.walk import notch_distance, run_total

__all__ = ["look_at_gathers"]

_GATHERED: Final = 1.2
"""Times the other edge from which one is gathered: below it cloth is eased in over the finger (common practice)."""

_APART: Final = 460.0
"""mm of the plain edge between two marks, at the most: a quarter of a wide tier (ours; quarters: common practice)."""


def look_at_gathers(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every seam with one run gathered into the other: the longest stretch of the plain one without a mark, mm."""
    found = False
    for seam in pattern.seams:
        lengths = [run_total(pattern, run) for run in (seam.a, seam.b)]
        if min(lengths) > 0.0 and max(lengths) > _GATHERED * min(lengths) and not seam.plain:
            found = True
            yield look(_seam, seam.name, *_marks(pattern, seam, lengths))
    if not found:
        yield look(_none)


def _marks(pattern: Pattern, seam: Seam, lengths: list[float]) -> tuple[float, ...]:
    """How far along the plain run its ends and the marks on it lie, mm."""
    plain = lengths.index(min(lengths))
    run = (seam.a, seam.b)[plain]
    at = (notch_distance(pattern, run, pair[plain]) for pair in seam.notches)
    return (0.0, *sorted(mm for mm in at if mm is not None), lengths[plain])


def _none(check: Check) -> Iterator[Result]:
    yield check.result("nothing is gathered", Verdict.PASS)


def _seam(check: Check, name: str, *marks: float) -> Iterator[Result]:
    longest = max(b - a for a, b in pairwise(marks))
    more = int(longest // _APART)
    yield check.result(
        f"{name}, between its marks",
        Verdict.PASS if longest <= _APART else Verdict.WARN,
        measured=longest,
        wanted=None,
        allowed=(0.0, _APART),
        remedy=f"{longest:.0f} mm of it have no mark: notch both edges in {more + 1} equal parts before you gather.",
    )
