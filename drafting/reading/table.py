"""Reading what a person wrote: every problem in a file is found in one go, each with its place.

A `Reader` walks a table, hands out checked values and notes what is wrong in a shared list. A value that is wrong is
replaced by a harmless one, so that reading goes on; whoever began the reading calls `finish()` on the outermost
reader and then `refuse(problems)`.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from enum import Enum
from types import MappingProxyType
from typing import Final, TypeVar, overload

from drafting.errors import InputProblems, Problem, nearest
from drafting.reading.units import (
    FILE_UNITS,
    NotRead,
    length_text,
    parse_angle,
    parse_length,
    parse_number,
    parse_percent,
    percent,
    printable,
    shown,
)

__all__ = ["Reader", "refuse"]

T = TypeVar("T")
D = TypeVar("D")
Limit = float | None

_LISTED = 12
"""How many known keys a sentence names: enough for every table but the measurements."""


class _Must(Enum):
    BE_THERE = 0


_REQUIRED: Final = _Must.BE_THERE

MOST_TABLES: Final = 100
"""How many tables of one kind a file may hold where nothing else is said (our figure)."""


def refuse(problems: Sequence[Problem]) -> None:
    """Raise InputProblems when there are any."""
    if problems:
        raise InputProblems(problems)


class Reader:
    """One table of a file, read key by key.

    place:    the file, as the person named it
    problems: where everything wrong is noted; shared by all the readers of a file
    unit:     what bare lengths are taken in (None: each length must carry its unit)
    section:  the place inside the file, "[cloth]"; empty at the top

    Every reading method takes the key, and `default=` for a key that may be left out; without it, a missing key
    is a problem. Lengths come back in millimetres, shares as fractions of one, angles in degrees.
    """

    def __init__(
        self,
        table: Mapping[str, object],
        *,
        place: str,
        problems: list[Problem],
        unit: str | None = None,
        section: str = "",
    ) -> None:
        self.place = printable(place, most=200)
        self.problems = problems
        self.unit = unit
        self.section = section
        self._table = table
        self._asked: dict[str, None] = {}
        self._inner: list[Reader] = []

    def __contains__(self, key: str) -> bool:
        return key in self._table

    def where(self, key: str = "") -> str:
        """The place of a key, as a problem names it: "oda.toml, [measurements] hip_girth"."""
        inside = " ".join(part for part in (self.section, printable(key)) if part)
        return f"{self.place}, {inside}" if inside else self.place

    def problem(self, key: str, expected: str, mend: str = "", *, read: str | None = None) -> None:
        """Note that what stands at `key` will not do."""
        seen = read if read is not None else shown(self._table[key]) if key in self._table else "nothing"
        self.problems.append(Problem(self.where(key), seen, expected, mend))

    def file_unit(self) -> str | None:
        """Read the key `unit` and take bare lengths in it from here on."""
        self.unit = self.choice("unit", FILE_UNITS, default=self.unit)
        return self.unit

    @overload
    def text(self, key: str) -> str: ...
    @overload
    def text(self, key: str, *, default: D) -> str | D: ...
    def text(self, key: str, *, default: D | _Must = _REQUIRED) -> str | D:
        """A text that is not empty, of at most 200 letters on one line."""
        return self._value(key, _parse_text, default, "")

    @overload
    def choice(self, key: str, choices: Iterable[str]) -> str: ...
    @overload
    def choice(self, key: str, choices: Iterable[str], *, default: D) -> str | D: ...
    def choice(self, key: str, choices: Iterable[str], *, default: D | _Must = _REQUIRED) -> str | D:
        """One of the names in `choices`."""
        known = tuple(choices)
        return self._value(key, lambda value: _parse_choice(value, known), default, known[0])

    def kind(self, key: str, kinds: Iterable[str], *, also: Mapping[str, str] = MappingProxyType({})) -> str | None:
        """Which of several things this table is; None, with the problem noted, when that is not told.

        What else stands in the table cannot be judged then, and is no problem of its own.
        also: other words for some of the kinds; one of them is a problem too, which tells the kind it stands for
        """
        known = tuple(kinds)
        told = self._value(key, lambda value: _parse_choice(value, known, also), None, known[0])
        if told is None:
            if key not in self._table:
                self.choice(key, known)
            self._asked.update(dict.fromkeys(self._table))
        return told

    @overload
    def flag(self, key: str) -> bool: ...
    @overload
    def flag(self, key: str, *, default: D) -> bool | D: ...
    def flag(self, key: str, *, default: D | _Must = _REQUIRED) -> bool | D:
        """True or false."""
        return self._value(key, _parse_flag, default, False)

    @overload
    def date(self, key: str) -> datetime.date: ...
    @overload
    def date(self, key: str, *, default: D) -> datetime.date | D: ...
    def date(self, key: str, *, default: D | _Must = _REQUIRED) -> datetime.date | D:
        """A calendar day, as a TOML date or a text like "2026-09-12"."""
        return self._value(key, _parse_date, default, datetime.date(2000, 1, 1))

    @overload
    def length(self, key: str, *, low: Limit = None, high: Limit = None) -> float: ...
    @overload
    def length(self, key: str, *, default: D, low: Limit = None, high: Limit = None) -> float | D: ...
    def length(self, key: str, *, default: D | _Must = _REQUIRED, low: Limit = None, high: Limit = None) -> float | D:
        """A length in millimetres, from `low` to `high` (millimetres, both included)."""

        def parse(value: object) -> float:
            mm = parse_length(value, unit=self.unit)
            if _outside(mm, low, high):
                expected = _between("a length", low, high, lambda limit: length_text(limit, self.unit))
                raise NotRead(shown(value), expected, self._other_unit(value, low, high))
            return mm

        return self._value(key, parse, default, low or 0.0)

    def lengths(self, limits: Mapping[str, tuple[float, float]]) -> dict[str, float]:
        """Every length of this table whose key is in `limits` (low, high in millimetres), in the order of `limits`.

        Keys that are not in `limits` are left to `finish`; a length that is wrong is noted and left out.
        """
        found: dict[str, float] = {}
        for key, (low, high) in limits.items():
            mm = self.length(key, default=None, low=low, high=high)
            if mm is not None:
                found[key] = mm
        return found

    @overload
    def number(self, key: str, *, low: Limit = None, high: Limit = None) -> float: ...
    @overload
    def number(self, key: str, *, default: D, low: Limit = None, high: Limit = None) -> float | D: ...
    def number(self, key: str, *, default: D | _Must = _REQUIRED, low: Limit = None, high: Limit = None) -> float | D:
        """A number without a unit, from `low` to `high`."""
        return self._value(key, _within(parse_number, "a number", low, high, "{:g}".format), default, low or 0.0)

    @overload
    def whole(self, key: str, *, low: int, high: int) -> int: ...
    @overload
    def whole(self, key: str, *, default: D, low: int, high: int) -> int | D: ...
    def whole(self, key: str, *, default: D | _Must = _REQUIRED, low: int, high: int) -> int | D:
        """A whole number from `low` to `high`."""

        def parse(value: object) -> int:
            if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
                raise NotRead(shown(value), f"a whole number from {low} to {high}")
            return value

        return self._value(key, parse, default, low)

    def wholes(self, key: str, *, low: int, high: int, default: tuple[int, ...]) -> tuple[int, ...]:
        """A list of whole numbers from `low` to `high`; `default` when it is left out."""

        def parse(value: object) -> tuple[int, ...]:
            if not isinstance(value, list) or not value:
                raise NotRead(shown(value), f"a list of whole numbers from {low} to {high}")
            for item in value:
                if isinstance(item, bool) or not isinstance(item, int) or not low <= item <= high:
                    raise NotRead(shown(item), f"whole numbers from {low} to {high}")
            return tuple(value)

        return self._value(key, parse, default, ())

    @overload
    def percent(self, key: str, *, low: Limit = None, high: Limit = None) -> float: ...
    @overload
    def percent(self, key: str, *, default: D, low: Limit = None, high: Limit = None) -> float | D: ...
    def percent(self, key: str, *, default: D | _Must = _REQUIRED, low: Limit = None, high: Limit = None) -> float | D:
        """A share as a fraction of one; `low` and `high` are fractions too."""
        return self._value(key, _within(parse_percent, "a share", low, high, percent), default, low or 0.0)

    @overload
    def angle(self, key: str, *, low: Limit = None, high: Limit = None) -> float: ...
    @overload
    def angle(self, key: str, *, default: D, low: Limit = None, high: Limit = None) -> float | D: ...
    def angle(self, key: str, *, default: D | _Must = _REQUIRED, low: Limit = None, high: Limit = None) -> float | D:
        """An angle in degrees, from `low` to `high`."""
        return self._value(key, _within(parse_angle, "an angle", low, high, "{:g} deg".format), default, low or 0.0)

    def table(self, key: str) -> Reader:
        """The table at `key`; an empty one when it is left out, so that what it must hold is asked for by name."""
        section = f"{self.section} {key}" if self.section else f"[{key}]"
        value = self._take(key)
        if value is not None and not isinstance(value, Mapping):
            self.problem(key, f"a table, its parts by name: {key} = {{ ... }}")
            # Its keys must not be reported as missing as well: one problem for one mistake.
            return Reader({}, place=self.place, problems=[], unit=self.unit, section=section)
        return self._open(value or {}, section)

    def tables(self, key: str, *, most: int = MOST_TABLES, mend: str = "") -> tuple[Reader, ...]:
        """The tables of the list at `key`, in their order; none when it is left out, or where there are too many.

        most: how many there may be; mend is what to do about more
        """
        value = self._take(key)
        if value is None:
            return ()
        if not isinstance(value, list):
            self.problem(key, f"a list of tables, each begun with [[{key}]]")
            return ()
        if len(value) > most:
            self.problem(key, f"{most} or fewer", mend, read=f"{len(value)} times [[{key}]]")
            return ()
        opened = []
        for count, item in enumerate(value, start=1):
            section = f"{self.section} {key} {count}" if self.section else f"[[{key}]] {count}"
            if isinstance(item, Mapping):
                opened.append(self._open(item, section))
            else:
                self.problem(key, f"a list of tables, each begun with [[{key}]]", read=shown(item))
        return tuple(opened)

    def finish(self, *, above: Iterable[str] = ()) -> None:
        """Note every key that nobody asked for, here and in the tables opened from here.

        above: keys that belong to a table further out; one of them here stands too far down in the file
        """
        outer = set(above)
        for key in self._table:
            if key not in self._asked:
                near = nearest(key, self._asked)
                mend = f'Did you mean "{near}"?' if near else "Leave it out."
                if key in outer:
                    mend = "It belongs at the top of the file, above the first line in [ ]."
                self.problem(key, _known_keys(self._asked), mend, read="a key that is not known here")
        for reader in self._inner:
            reader.finish(above={*outer, *self._asked})

    def _open(self, table: Mapping[str, object], section: str) -> Reader:
        reader = Reader(table, place=self.place, problems=self.problems, unit=self.unit, section=section)
        self._inner.append(reader)
        return reader

    def _take(self, key: str) -> object:
        self._asked[key] = None
        return self._table.get(key)

    def _value(self, key: str, parse: Callable[[object], T], default: D | _Must, stand_in: T) -> T | D:
        value = self._take(key)
        if value is None:
            if not isinstance(default, _Must):
                return default
            self.problem(key, _expectation(parse), "It cannot be left out.")
            return stand_in
        try:
            return parse(value)
        except NotRead as error:
            self.problem(key, error.expected, error.mend, read=error.read)
        return stand_in if isinstance(default, _Must) else default

    def _other_unit(self, value: object, low: Limit, high: Limit) -> str:
        """How to mend a bare number that would do in another unit."""
        if isinstance(value, str):
            return ""
        for unit in FILE_UNITS:
            if unit != self.unit and not _outside(parse_length(value, unit=unit), low, high):
                return f'If {shown(value)} {unit} was meant, write "{shown(value)} {unit}".'
        return ""


def _parse_text(value: object) -> str:
    expected = "a text of up to 200 letters on one line"
    if not isinstance(value, str) or not value.strip() or len(value) > 200 or not value.isprintable():
        raise NotRead(shown(value), expected)
    return value.strip()


def _parse_choice(value: object, known: tuple[str, ...], also: Mapping[str, str] = MappingProxyType({})) -> str:
    if isinstance(value, str) and value in known:
        return value
    near = nearest(value, (*known, *also)) if isinstance(value, str) else None
    if near is not None and near in also:
        raise NotRead(shown(value), f'"{also[near]}", as it is called here')
    expected = ", ".join(f'"{name}"' for name in known[:-1]) + f' or "{known[-1]}"' if known[1:] else f'"{known[0]}"'
    raise NotRead(shown(value), expected, f'Did you mean "{near}"?' if near else "")


def _parse_flag(value: object) -> bool:
    if not isinstance(value, bool):
        raise NotRead(shown(value), "true or false")
    return value


def _parse_date(value: object) -> datetime.date:
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value
    if isinstance(value, str) and re.fullmatch("[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
        try:
            return datetime.date.fromisoformat(value)
        except ValueError:
            pass  # the thirteenth month: refused below like any other text
    raise NotRead(shown(value), "a day, such as 2026-09-12")


def _within(
    parse: Callable[[object], float], what: str, low: Limit, high: Limit, show: Callable[[float], str]
) -> Callable[[object], float]:
    """`parse`, and refuse what lies outside the limits."""

    def checked(value: object) -> float:
        number = parse(value)
        if _outside(number, low, high):
            raise NotRead(shown(value), _between(what, low, high, show))
        return number

    return checked


def _outside(number: float, low: Limit, high: Limit) -> bool:
    # No NaN comes here: every parser has refused it.
    return (low is not None and number < low) or (high is not None and number > high)


def _between(what: str, low: Limit, high: Limit, show: Callable[[float], str]) -> str:
    if low is not None and high is not None:
        return f"{what} from {show(low)} to {show(high)}"
    if low is not None:
        return f"{what} of {show(low)} or more"
    return f"{what} of {show(high)} or less" if high is not None else what


def _expectation(parse: Callable[[object], object]) -> str:
    """What a parser expects: learnt by handing it what nobody can mean."""
    try:
        parse(None)
    except NotRead as error:
        return error.expected
    return "a value"


def _known_keys(keys: Iterable[str]) -> str:
    names = list(keys)
    if not names:
        return "nothing here"
    listed = ", ".join(names[:_LISTED])
    return f"one of {listed} and {len(names) - _LISTED} more" if len(names) > _LISTED else f"one of {listed}"
