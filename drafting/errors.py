"""Every error raised on purpose: one root, leaves that say who is at fault.

Each error carries its data as attributes, survives pickling and reads as plain sentences, so
the command can print it to a person as it stands.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Literal

from drafting.dataclass import dataclass
from drafting.other_names import meant, nearest

__all__ = [
    "BrokenPromise",
    "CannotDraft",
    "CannotWrite",
    "InputProblems",
    "NotAPattern",
    "Problem",
    "Remedy",
    "Setting",
    "StepRefused",
    "TrueseamError",
    "UnknownName",
    "listed",
    "meant",
    "nearest",
    "offered",
]

_MANY = 12
"""More names than this are not listed where one of them comes near: nobody reads them."""


@dataclass(frozen=True, slots=True)
class Setting:
    """An option of an alteration and its value; the unit of a number: "mm", "%" (a fraction of one), "deg", or ""."""

    option: str
    value: str | float | bool
    unit: str = ""

    def written(self) -> str | float | bool:
        """The value as it stands in a garment file, lengths in millimetres: "-15 mm"."""
        if not self.unit or isinstance(self.value, str | bool):
            return self.value
        return f"{self.value * 100.0 if self.unit == '%' else self.value:.10g} {self.unit}"

    def typed(self) -> str:
        """As it is typed in a garment file, lengths in millimetres: `waist = "-15 mm"`."""
        value = self.written()
        if isinstance(value, bool):
            return f"{self.option} = {str(value).lower()}"
        return f'{self.option} = "{value}"' if isinstance(value, str) else f"{self.option} = {value:.10g}"


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in what a person gave us.

    where:    the file and the place in it, as she would look for it ("oda.toml, [measurements] hip_girth")
    read:     what stands there now
    expected: what could have stood there
    mend:     how to put it right, when that is more than writing what was expected
    at:       the same place for a program: keys and counts from 0, ("step", 2, "by"); empty where it is not known
    nearest:  for a number beyond its range the nearest that can stand there, as an option that is set; None for none
    """

    where: str
    read: str
    expected: str
    mend: str = ""
    at: tuple[str | int, ...] = ()
    nearest: Setting | None = None

    def sentence(self) -> str:
        """The problem as one line of plain text."""
        line = f"{self.where}: read {self.read}, expected {self.expected}."
        return f"{line} {self.mend}" if self.mend else line


@dataclass(frozen=True, slots=True)
class Remedy:
    """What would help, as data: its sentence is made here, and a page may make a button of it.

    act:        add a step, change options of one, take another instead of one, leave one out, put one before another,
                set an option of the block, of the part or of the paper, or name one size where there were several
    alteration: what the step is called, before which one is put, "" where that is not known, the part, or what of the
                paper
    settings:   what is set; what is not said stays, or is left to its default; of what is put before another step the
                number of that ("step"), where it was tried
    step:       the number of the step, from 1, in the order the steps were taken; 0 for one that is added
    onward:     whether the steps after it are left out as well
    verdict:    how the checks judge the whole then, "pass" or "warn", "fail" where one fails that did not
                without the step; "" where that was not tried
    lead:       what it is for, in words: "To let it out there"
    """

    act: Literal[
        "add",
        "change",
        "instead",
        "leave out",
        "put before",
        "set in block",
        "set in part",
        "set in sizes",
        "set in paper",
    ]
    alteration: str
    settings: tuple[Setting, ...] = ()
    step: int = 0
    onward: bool = False
    verdict: str = ""
    lead: str = ""

    def typed(self) -> str:
        """What is typed in a garment file: all of a step that is added, else what changes; or what is done with one."""
        if self.act == "put before":
            return "put this step before " + (f'"{self.alteration}"' if self.alteration else "that one")
        if self.act == "leave out":
            return f'leave out "{self.alteration}"' + (" and the steps after it" if self.onward else "")
        alter = [f'alter = "{self.alteration}"'] if self.act in ("add", "instead") else []
        typed = ", ".join([*alter, *(setting.typed() for setting in self.settings)])
        where = {"set in block": " in the block", "set in part": f' in the part "{self.alteration}"'}
        under = {"set in sizes": " alone under [sizes]", "set in paper": " under [paper]"}
        return typed + (where | under).get(self.act, "")

    def sentence(self) -> str:
        """What to type, and what for."""
        return f"{self.lead}: {self.typed()}."

    def data(self) -> dict[str, object]:
        """The same for a program, as it stands in pattern.json."""
        settings = [{"option": each.option, "value": each.value, "unit": each.unit} for each in self.settings]
        what: dict[str, object] = {"act": self.act, "alter": self.alteration, "settings": settings}
        return what | {"step": self.step, "onward": self.onward, "verdict": self.verdict}


def listed(words: Iterable[str]) -> str:
    """Words one after the other: "a, b and c"; "" for none."""
    each = tuple(words)
    return " and ".join(part for part in (", ".join(each[:-1]), each[-1] if each else "") if part)


def offered(remedies: Iterable[Remedy]) -> str:
    """How a refusal goes on: what helps, and what can be had in place of what was asked for; "" for nothing."""
    told: dict[str, list[str]] = {"this helps": [], "this can be had": []}
    moved: dict[str, None] = {}
    for each in dict.fromkeys(remedies):
        if each.act in ("put before", "leave out"):
            moved[f", {each.lead} {each.typed()}" if each.lead else f"; {each.typed()}"] = None
            continue
        how = "this helps" if each.act in ("add", "set in block") else "this can be had"
        told[how].append(f"{each.typed()}, though a check fails then" if each.verdict == "fail" else each.typed())
    told_of = [f"; {how}: {'; or '.join(typed)}" for how, typed in told.items() if typed]
    return "".join((*moved, *told_of))


class TrueseamError(Exception):
    """The root of everything raised on purpose."""

    def __init__(self, *data: object) -> None:
        super().__init__(*data)

    def sentences(self) -> tuple[str, ...]:
        """What to tell the person, a sentence or two to each item."""
        return (str(self),)


def _again(kind: Callable[..., TrueseamError], data: Mapping[str, object]) -> TrueseamError:
    """The error of that kind which was pickled with these data, each under its name."""
    return kind(**data)


class InputProblems(TrueseamError):
    """What a person wrote cannot be used; every problem found is listed."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(self.problems)

    def sentences(self) -> tuple[str, ...]:
        return tuple(problem.sentence() for problem in self.problems)

    def __str__(self) -> str:
        return "\n".join(self.sentences())


@dataclass(frozen=True, slots=True)
class Way:
    """One thing which, changed by itself, lets a garment be drafted: it was tried.

    of:  "measurement", "ease", or the name of the block whose option it is
    key: the measurement, the place of the ease, or the option
    mm:  what it would have to be; None for left out
    """

    of: str
    key: str
    mm: float | None = None


class CannotDraft(TrueseamError):
    """No wearable pattern has all these measurements; the ones at odds are named.

    measurements: the names of the measurements that cannot all hold
    reason:       a sentence that says by how much they disagree and what to measure again
    ways:         what lets it be drafted; empty where that is not known
    part:         the part of the garment that cannot be drawn, where it is one that stands in the way; "" elsewhere
    remedies:     what can be had of that part; the reason says it too
    """

    def __init__(
        self,
        measurements: Iterable[str],
        reason: str,
        ways: Iterable[Way] = (),
        part: str = "",
        remedies: Iterable[Remedy] = (),
    ) -> None:
        self.measurements = tuple(measurements)
        self.reason = reason
        self.ways = tuple(ways)
        self.part = part
        self.remedies = tuple(remedies)
        super().__init__(self.measurements, reason, self.ways, part, self.remedies)

    def __str__(self) -> str:
        return self.reason


class StepRefused(TrueseamError):
    """An alteration that makes no sense on this pattern: the pattern is left as it was.

    All but the first are given by name: two texts side by side are easily given in each other's place.

    alteration: what it is called, and where it is written where that is known
    reason:     why, in words
    remedies:   what can be had in place of it; the sentence says it too
    too_much:   the options of which less may do, where the reason is that they ask for too much
    step:       the number of the step, from 1, in the order the steps were taken; 0 where it is taken by itself
    worded:     reason and remedies in the words and the unit of the person; made here, in millimetres, where it is ""
    """

    def __init__(
        self,
        alteration: str,
        *,
        reason: str,
        remedies: Iterable[Remedy] = (),
        step: int = 0,
        worded: str = "",
        too_much: Iterable[str] = (),
    ) -> None:
        self.alteration = alteration
        self.reason = reason
        self.remedies = tuple(remedies)
        self.step = step
        self.worded = worded
        self.too_much = tuple(too_much)
        super().__init__(alteration, reason, self.remedies, step, worded, self.too_much)

    def __reduce__(self) -> tuple[object, ...]:
        known = {"alteration": self.alteration, "reason": self.reason, "remedies": self.remedies}
        rest = {"step": self.step, "worded": self.worded, "too_much": self.too_much}
        return _again, (type(self), known | rest)

    def sentence(self) -> str:
        """The reason, and what can be had."""
        return self.worded or f"{self.reason}{offered(self.remedies)}"

    def __str__(self) -> str:
        return f"{self.alteration}: {self.sentence()}"


class BrokenPromise(TrueseamError):
    """An alteration changed what it had promised to leave alone: our fault, never the person's."""

    def __init__(self, alteration: str, promise: str, before: float, after: float) -> None:
        self.alteration, self.promise = alteration, promise
        self.before, self.after = before, after
        super().__init__(alteration, promise, before, after)

    @property
    def reason(self) -> str:
        """What was promised and would come out otherwise, in words; lengths to a tenth of a millimetre."""
        before, after = (f"{mm:.1f}" for mm in (self.before, self.after))
        would = f"go from {before} to {after} mm" if before != after else "change by less than 0.1 mm"
        return f"it was to leave {self.promise} alone, but that would {would}"

    def __str__(self) -> str:
        return f"{self.alteration}: {self.reason}; the pattern is left as it was."


class NotAPattern(TrueseamError, ValueError):
    """A shape that no pattern could have: an outline with a gap, a number that is not one.

    remedies: what may let it be drawn, where that is known; not tried yet
    """

    def __init__(self, where: str, *, reason: str, remedies: Iterable[Remedy] = ()) -> None:
        self.where = where
        self.reason = reason
        self.remedies = tuple(remedies)
        super().__init__(where, reason, self.remedies)

    def __reduce__(self) -> tuple[object, ...]:
        return _again, (type(self), {"where": self.where, "reason": self.reason, "remedies": self.remedies})

    def __str__(self) -> str:
        return f"{self.where}: {self.reason}"


class UnknownName(TrueseamError, LookupError):
    """A name that is not there; says what there is and which comes nearest.

    of:   the piece that has no such edge, dart or mark; "" for what stands by itself
    hint: what to write instead, where that is known better than by the letters
    """

    def __init__(self, kind: str, name: str, known: Iterable[str], of: str = "", hint: str = "") -> None:
        self.kind = kind
        self.name = name
        self.known = tuple(known)
        self.of = of
        self.hint = hint
        super().__init__(kind, name, self.known, of, hint)

    def __str__(self) -> str:
        has = f'"{self.of}" has no' if self.of else "There is no"
        said = f'{has} {self.kind} "{self.name}".'
        if not self.known:
            return f"{said} {'It has' if self.of else 'There is'} none."
        hint = self.hint or meant(self.name, self.known)
        if hint:
            said = f"{said} {hint}"
            if len(self.known) > _MANY:
                return said
        return f"{said} {'It has' if self.of else 'There is'}: {', '.join(self.known)}."


class Lacking(TrueseamError, LookupError):
    """A piece or a pattern that has not what was asked of it by what it is: a side seam, a bust line, a front.

    what: in words of the trade; of: the piece, "" for the pattern; known: the names of what there is of that sort
    """

    def __init__(self, what: str, of: str, known: Iterable[str] = ()) -> None:
        self.what = what
        self.of = of
        self.known = tuple(known)
        super().__init__(what, of, self.known)

    def __str__(self) -> str:
        has = f'"{self.of}" has no {self.what}.' if self.of else f"The pattern has no {self.what}."
        if not self.known:
            return has
        return f"{has} {'It has' if self.of else 'There is'}: {', '.join(self.known)}."


class CannotWrite(TrueseamError):
    """A file could not be written; whatever stood there before stands there still."""

    def __init__(self, path: str, reason: str) -> None:
        self.path = path
        self.reason = reason
        super().__init__(path, reason)

    def __str__(self) -> str:
        return f"{self.path} cannot be written: {self.reason}. Nothing was changed there."
