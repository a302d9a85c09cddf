"""What a check is and what it finds: a result for everything it looked at, also for what passes."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import field
from enum import StrEnum
from itertools import chain
from operator import is_
from typing import Final, TypeVarTuple

from drafting.dataclass import dataclass
from drafting.errors import Remedy, UnknownName
from drafting.pattern import Pattern

__all__ = [
    "FAILED",
    "Allowed",
    "Check",
    "Checked",
    "Look",
    "Looked",
    "Result",
    "Verdict",
    "check_table",
    "look",
    "named",
    "run",
    "verdict_on",
    "worst",
]

Allowed = float | tuple[float | None, float | None] | None
"""A number: so far either way from what was wanted. A pair: the least and the most, None where there is no limit."""


class Verdict(StrEnum):
    """How a check judged what it looked at; "nothing" means that there was nothing to look at, which is no pass."""

    PASS = "pass"
    NOTHING = "nothing"
    WARN = "warn"
    FAIL = "fail"
    ERROR = "error"


FAILED: Final = (Verdict.FAIL, Verdict.ERROR)
"""What has to be mended before anything is cut; a check that broke off passed nothing."""


@dataclass(frozen=True, slots=True)
class OneSided:
    """A step that altered only one of the pieces of a seam: its name, that piece, and one on the other side."""

    alter: str
    piece: str
    across: str

    def advice_for_other_side(self) -> str:
        """What makes the other side follow it, beside leaving `only` out."""
        return f'write the step once more with only = "{self.across}"'

    def sentence(self, ways: Sequence[str] | None = None) -> str:
        """In words: which step was held to one piece, and in which ways the other can follow; None for both ways."""
        ways = ("leave only out", self.advice_for_other_side()) if ways is None else ways
        follow = f": to have the other side follow, {', or '.join(ways)}" if ways else ""
        return f'"{self.alter}" was held to "{self.piece}"{follow}.'


@dataclass(frozen=True, slots=True)
class Result:
    """One thing a check looked at.

    code, check: the check's stable code and its name in words
    where:       what was looked at, in the names that stand on the pieces
    measured, wanted: in `unit`; None where the thing is not a number (a grain line that is missing)
    remedy:      how to put it right, a sentence with the number in it; empty unless warned of or failed
    remedies:    what of it can be typed, as data; the sentence says each of them
    one_sided:   the steps that were held to one side, as data; the sentence says each of them
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
    remedies: tuple[Remedy, ...] = ()
    one_sided: tuple[OneSided, ...] = ()


@dataclass(frozen=True, slots=True)
class Look:
    """One thing that a check looks at: how it is looked at, and everything it is given to look at.

    What is found follows from the check and what is given, and from nothing else: so where all of that is the very same
    as at an earlier look, what was found then still holds. Made by `look`, which holds the two to each other.
    """

    find: Callable[..., Iterable[Result]]
    given: tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Check:
    """A check: a stable code, its name, what it looks at in a sentence, and the function that says where to look.

    The function gets the check itself, so that its results carry the code it was registered under.
    """

    code: str
    name: str
    about: str
    looks: Callable[[Check, Pattern], Iterable[Look]]

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
        remedies: Sequence[Remedy] = (),
        one_sided: Sequence[OneSided] = (),
    ) -> Result:
        """A result of this check; the remedy, with the sentences of what is data, only where there is a fault."""
        if verdict not in (Verdict.WARN, Verdict.FAIL):
            return Result(self.code, self.name, where, verdict, measured, wanted, allowed, unit)
        sentences = [*(each.sentence() for each in one_sided), *(each.sentence() for each in remedies)]
        return Result(
            self.code,
            self.name,
            where,
            verdict,
            measured,
            wanted,
            allowed,
            unit,
            remedy=" ".join([*([remedy] if remedy else []), *sentences]),
            remedies=tuple(remedies),
            one_sided=tuple(one_sided),
        )


@dataclass(frozen=True, slots=True)
class Looked:
    """A look of a check, and what it found."""

    check: Check
    look: Look
    found: tuple[Result, ...]


@dataclass(frozen=True, slots=True)
class Checked:
    """What checking a pattern found, and what it was found by, so that it need not all be looked at again.

    results: in the order of the checks
    looked:  every look that did not break off, by what tells it from others
    """

    results: tuple[Result, ...]
    looked: Mapping[Hashable, Looked] = field(default_factory=dict)


_Given = TypeVarTuple("_Given")


def look(find: Callable[[Check, *_Given], Iterable[Result]], *given: *_Given) -> Look:
    """The look that `find` makes of what it is given: parts of a pattern that a step which leaves them alone keeps."""
    return Look(find, given)


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


def run(pattern: Pattern, checks: Iterable[Check], known: Checked | None = None) -> Checked:
    """Everything the checks found, in order; a check with nothing to look at says so, and so does one that breaks.

    known: what was found on another state of the pattern: a look that is given the very same parts is not made again.
           The results are those of a run without it
    """
    before = known.looked if known else {}
    results: list[Result] = []
    looked: dict[Hashable, Looked] = {}
    for check in checks:
        try:
            made = [_looked(check, each, before) for each in check.looks(check, pattern)]
        except Exception as error:  # a broken check must never pass for a clean pattern, nor hide what the others found
            results.append(Result(check.code, check.name, pattern.title, Verdict.ERROR, remedy=_broken(error)))
            continue
        looked.update(made)
        found = tuple(chain.from_iterable(each.found for _, each in made))
        results += found or (check.result("nothing to check", Verdict.NOTHING),)
    return Checked(tuple(results), looked)


def verdict_on(off: float, *, passing: float, warning: float | None = None) -> Verdict:
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


def _looked(check: Check, look: Look, before: Mapping[Hashable, Looked]) -> tuple[Hashable, Looked]:
    """What a look finds, or found before where it was given the very same, and what tells it from others.

    Equal parts would not do: what was measured of one is remembered in it, and may differ in the last digit. So each
    is known by its id; as ids mean nothing in a copy of what is known, it is looked whether they are still the same.
    """
    key = id(check), look.find, *map(id, look.given)
    known = before.get(key)
    if known is None or known.check is not check or not all(map(is_, known.look.given, look.given)):
        known = Looked(check, look, tuple(look.find(check, *look.given)))
    return key, known


def _broken(error: Exception) -> str:
    return f"The check itself broke off ({type(error).__name__}: {error}); what it looks at is not proved."
