"""Every error raised on purpose: one root, leaves that say who is at fault.

Each error carries its data as attributes, survives pickling and reads as plain sentences, so
the command can print it to a person as it stands.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

__all__ = [
    "BrokenPromise",
    "CannotDraft",
    "CannotWrite",
    "InputProblems",
    "NotAPattern",
    "Problem",
    "StepRefused",
    "TrueseamError",
    "UnknownName",
    "nearest",
]

_MANY = 12
"""More names than this are not listed where one of them comes near: nobody reads them."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in what a person gave us.

    where:    the file and the place in it, as she would look for it ("oda.toml, [measurements] hip_girth")
    read:     what stands there now
    expected: what could have stood there
    mend:     how to put it right, when that is more than writing what was expected
    """

    where: str
    read: str
    expected: str
    mend: str = ""

    def sentence(self) -> str:
        """The problem as one line of plain text."""
        line = f"{self.where}: read {self.read}, expected {self.expected}."
        return f"{line} {self.mend}" if self.mend else line


class TrueseamError(Exception):
    """The root of everything raised on purpose."""

    def __init__(self, *data: object) -> None:
        super().__init__(*data)

    def sentences(self) -> tuple[str, ...]:
        """What to tell the person, a sentence or two to each item."""
        return (str(self),)


class InputProblems(TrueseamError):
    """What a person wrote cannot be used; every problem found is listed."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(self.problems)

    def __str__(self) -> str:
        return "\n".join(self.sentences())

    def sentences(self) -> tuple[str, ...]:
        return tuple(problem.sentence() for problem in self.problems)


class CannotDraft(TrueseamError):
    """No wearable pattern has all these measurements; the ones at odds are named.

    measurements: the names of the measurements that cannot all hold
    reason:       a sentence that says by how much they disagree and what to measure again
    """

    def __init__(self, measurements: Iterable[str], reason: str) -> None:
        self.measurements = tuple(measurements)
        self.reason = reason
        super().__init__(self.measurements, reason)

    def __str__(self) -> str:
        return self.reason


class StepRefused(TrueseamError):
    """An alteration that makes no sense on this pattern: the pattern is left as it was."""

    def __init__(self, alteration: str, reason: str) -> None:
        self.alteration = alteration
        self.reason = reason
        super().__init__(alteration, reason)

    def __str__(self) -> str:
        return f"{self.alteration}: {self.reason}"


class BrokenPromise(TrueseamError):
    """An alteration changed what it had promised to leave alone: our fault, never the person's."""

    def __init__(self, alteration: str, promise: str, before: float, after: float) -> None:
        self.alteration = alteration
        self.promise = promise
        self.before = before
        self.after = after
        super().__init__(alteration, promise, before, after)

    def __str__(self) -> str:
        return (
            f"{self.alteration} was to leave {self.promise} alone, but it went from "
            f"{self.before:.4f} to {self.after:.4f}; the pattern is left as it was."
        )


class NotAPattern(TrueseamError, ValueError):
    """A shape that no pattern could have: an outline with a gap, a number that is not one."""

    def __init__(self, where: str, reason: str) -> None:
        self.where = where
        self.reason = reason
        super().__init__(where, reason)

    def __str__(self) -> str:
        return f"{self.where}: {self.reason}"


class UnknownName(TrueseamError, LookupError):
    """A name that is not there; says what there is and which comes nearest.

    of: the piece that has no such edge, dart or mark; "" for what stands by itself
    """

    def __init__(self, kind: str, name: str, known: Iterable[str], of: str = "") -> None:
        self.kind = kind
        self.name = name
        self.known = tuple(known)
        self.of = of
        super().__init__(kind, name, self.known, of)

    def __str__(self) -> str:
        has = f'"{self.of}" has no' if self.of else "There is no"
        said = f'{has} {self.kind} "{self.name}".'
        if not self.known:
            return f"{said} {'It has' if self.of else 'There is'} none."
        hint = nearest(self.name, self.known)
        if hint:
            said = f'{said} Did you mean "{hint}"?'
            if len(self.known) > _MANY:
                return said
        return f"{said} {'It has' if self.of else 'There is'}: {', '.join(self.known)}."


class CannotWrite(TrueseamError):
    """A file could not be written; whatever stood there before stands there still."""

    def __init__(self, path: str, reason: str) -> None:
        self.path = path
        self.reason = reason
        super().__init__(path, reason)

    def __str__(self) -> str:
        return f"{self.path} cannot be written: {self.reason}. Nothing was changed there."


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name most like `name`, or None when nothing comes near."""
    by_small_letters = {each.lower(): each for each in known}
    close = difflib.get_close_matches(name.lower(), by_small_letters, n=1, cutoff=0.6)
    return by_small_letters[close[0]] if close else None
