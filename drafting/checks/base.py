"""What a check is and what it finds: a result for everything it looked at, the passing numbers kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from drafting.errors import UnknownName
from drafting.pattern import Pattern

__all__ = ["Allowed", "Check", "Result", "Verdict", "check_table", "graded", "named", "run", "worst"]

Allowed = float | tuple[float | None, float | None] | None
"""A number: so far either way from what was wanted. A pair: the least and the most, None where there is no limit."""


class Verdict(StrEnum):
    """How a check judged what it looked at; "nothing" means that there was nothing to look at, which is no pass."""

    PASS = "pass"
    NOTHING = "nothing"
    WARN = "warn"
    FAIL = "fail"
    ERROR = "error"


@dataclass(frozen=True, slots=True)
class Result:
    """One thing a check looked at.

    code, check: the check's stable code and its name in words
    where:       what was looked at, in the names that stand on the pieces
    measured, wanted: in `unit`; None where the thing is not a number (a grain line that is missing)
    remedy:      how to put it right, a sentence with the number in it; empty unless warned of or failed
    """

    code: str
    check: str
    where: str
    verdict: Verdict
    measured: float | None = None
    wanted: float | None = None
    allowed: Allowed = None
    unit: str = "mm"
    remedy: str = ""


@dataclass(frozen=True, slots=True)
class Check:
    """A check: a stable code, its name, what it looks at in a sentence, and the function that looks.

    The function gets the check itself, so that its results carry the code it was registered under.
    """

    code: str
    name: str
    about: str
    look: Callable[[Check, Pattern], Iterable[Result]]

    def result(
        self,
        where: str,
        verdict: Verdict,
        *,
        measured: float | None = None,
        wanted: float | None = None,
        allowed: Allowed = None,
        unit: str = "mm",
        remedy: str = "",
    ) -> Result:
        """A result of this check; the remedy is kept only where there is something to remedy."""
        kept = remedy if verdict in (Verdict.WARN, Verdict.FAIL) else ""
        return Result(self.code, self.name, where, verdict, measured, wanted, allowed, unit, kept)


def check_table(*checks: Check) -> tuple[Check, ...]:
    """The checks as a table. Raises ValueError for a code that stands twice."""
    seen: set[str] = set()
    for check in checks:
        if check.code in seen:
            raise ValueError(f'two checks have the code "{check.code}"')
        seen.add(check.code)
    return checks


def named(checks: Sequence[Check], codes: Iterable[str]) -> tuple[Check, ...]:
    """The checks of these codes, in the order asked for. Raises UnknownName."""
    by_code = {check.code: check for check in checks}
    for code in codes:
        if code not in by_code:
            raise UnknownName("check", code, by_code)
    return tuple(by_code[code] for code in codes)


def run(pattern: Pattern, checks: Iterable[Check]) -> tuple[Result, ...]:
    """Everything the checks found, in order; a check with nothing to look at says so, and so does one that breaks."""
    out: list[Result] = []
    for check in checks:
        try:
            found = list(check.look(check, pattern))
        except Exception as error:  # a broken check must never pass for a clean pattern, nor hide what the others found
            out.append(Result(check.code, check.name, pattern.title, Verdict.ERROR, remedy=_broken(error)))
            continue
        out.extend(found or [check.result("nothing to check", Verdict.NOTHING)])
    return tuple(out)


def graded(off: float, *, passing: float, warning: float | None = None) -> Verdict:
    """The verdict on being `off` by so much: pass up to `passing`, warn up to `warning`, fail above."""
    if off <= passing:
        return Verdict.PASS
    if warning is not None and off <= warning:
        return Verdict.WARN
    return Verdict.FAIL


def worst(results: Iterable[Result]) -> Verdict:
    """The gravest verdict among the results; "nothing" when there are none."""
    order = list(Verdict)
    order.remove(Verdict.NOTHING)
    found = [order.index(result.verdict) for result in results if result.verdict is not Verdict.NOTHING]
    return order[max(found)] if found else Verdict.NOTHING


def _broken(error: Exception) -> str:
    return f"The check itself broke off ({type(error).__name__}: {error}); what it looks at is not proved."
