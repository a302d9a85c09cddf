"""Reading what a person wrote: every problem in a file is found in one go, each with its place.

A `Reader` walks a table, hands out checked values and notes what is wrong in a shared list. A value that is wrong is
replaced by a harmless one, so that reading goes on; whoever began the reading calls `finish()` on the outermost
reader and then `refuse(problems)`.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from enum import Enum
from typing import Final, TypeVar, overload

from drafting.errors import InputProblems, Problem, Setting, meant
from drafting.reading.key_words import Words
from drafting.reading.units import (
    NotRead,
    length_unit,
    parse_angle,
    parse_file_unit,
    parse_length,
    parse_number,
    parse_percent,
    percent,
    printable,
    shown,
)
from drafting.reading.values import (
    Limit,
    beyond_lengths,
    expectation,
    outside,
    parse_choice,
    parse_date,
    parse_flag,
    parse_text,
    unit_that_fits,
    within,
)

__all__ = ["Reader", "refuse"]

T = TypeVar("T")
D = TypeVar("D")

_NO_WORDS: Final = Words()


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
    words:    what its keys may be called; without any, a key is found in capitals and with spaces as well
    shows:    the unit that sentences are in where what she wrote shows none ("cm", "mm", "in"; None: the file's)
    at:       where the table stands in the file, keys and counts from 0

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
        words: Words = _NO_WORDS,
        shows: str | None = None,
        at: tuple[str | int, ...] = (),
    ) -> None:
        self.place = printable(place, most=200)
        self.problems = problems
        self.unit = unit
        self.section = section
        self.shows = shows
        self._at = at
        self._words = words
        self._unit_unread = False
        self._table: dict[str, object] = {}
        self._written: dict[str, str] = {}
        self._asked: dict[str, None] = {}
        self._inner: list[Reader] = []
        self._hints: dict[str, str] = {}
        self._fill(table)

    def __contains__(self, key: str) -> bool:
        return key in self._table

    def where(self, key: str = "") -> str:
        """The place of a key, as a problem names it, by the word she wrote: "oda.toml, [measurements] hip"."""
        return self._place_of(self._written.get(key) or self._words.called(key))

    def _place_of(self, word: str) -> str:
        inside = " ".join(part for part in (self.section, printable(word)) if part)
        return f"{self.place}, {inside}" if inside else self.place

    def problem(self, key: str, expected: str, mend: str = "", *, read: str | None = None) -> None:
        """Note that what stands at `key` will not do."""
        seen = read if read is not None else shown(self._table[key]) if key in self._table else "nothing"
        at = (*self._at, self._written.get(key) or self._words.called(key))
        self.problems.append(Problem(self.where(key), seen, expected, mend, at))

    def called(self, key: str) -> str:
        """The word that is shown for a key."""
        return self._words.called(key)

    def in_inches(self) -> bool:
        """Whether sentences are to speak of inches."""
        return (self.unit or self.shows) == "in"

    def peek(self, key: str) -> object:
        """What stands at a key, without asking for it; None where nothing does."""
        return self._table.get(key)

    def written(self, key: str) -> object:
        """What stands at a key as it stands; None where nothing does. The key counts as asked for."""
        return self._take(key)

    def file_unit(self) -> str | None:
        """Read the key `unit` and take bare lengths in it from here on; None where there is none that can be read.

        Where it cannot be read, that is the one problem: bare lengths are not complained of as well.
        """
        before = len(self.problems)
        self.unit = self._value("unit", parse_file_unit, self.unit, None)
        self._unit_unread = len(self.problems) > before
        return self.unit

    @overload
    def text(self, key: str) -> str: ...
    @overload
    def text(self, key: str, *, default: D) -> str | D: ...
    def text(self, key: str, *, default: D | _Must = _REQUIRED) -> str | D:
        """A text that is not empty, of at most 200 letters on one line."""
        return self._value(key, parse_text, default, "")

    @overload
    def choice(self, key: str, choices: Iterable[str]) -> str: ...
    @overload
    def choice(self, key: str, choices: Iterable[str], *, default: D) -> str | D: ...
    def choice(self, key: str, choices: Iterable[str], *, default: D | _Must = _REQUIRED) -> str | D:
        """One of the names in `choices`."""
        known = tuple(choices)
        return self._value(key, lambda value: parse_choice(value, known), default, known[0])

    def kind(self, key: str, kinds: Iterable[str]) -> str | None:
        """Which of several things this table is; None, with the problem noted, when the table does not say.

        What else stands in the table cannot be judged then, and is no problem of its own.
        """
        known = tuple(kinds)
        kind = self._value(key, lambda value: parse_choice(value, known), None, known[0])
        if kind is None:
            if key not in self._table:
                self.choice(key, known)
            self.ignore_rest()
        return kind

    def ignore_rest(self) -> None:
        """Report no key of this table as unknown: what the table is could not be read, so its keys cannot be judged."""
        self._asked.update(dict.fromkeys(self._table))

    @overload
    def flag(self, key: str) -> bool: ...
    @overload
    def flag(self, key: str, *, default: D) -> bool | D: ...
    def flag(self, key: str, *, default: D | _Must = _REQUIRED) -> bool | D:
        """True or false."""
        return self._value(key, parse_flag, default, False)

    @overload
    def date(self, key: str) -> datetime.date: ...
    @overload
    def date(self, key: str, *, default: D) -> datetime.date | D: ...
    def date(self, key: str, *, default: D | _Must = _REQUIRED) -> datetime.date | D:
        """A calendar day, as a TOML date or a text like "2026-09-12"."""
        return self._value(key, parse_date, default, datetime.date(2000, 1, 1))

    @overload
    def length(self, key: str, *, low: Limit = None, high: Limit = None) -> float: ...
    @overload
    def length(self, key: str, *, default: D, low: Limit = None, high: Limit = None) -> float | D: ...
    def length(self, key: str, *, default: D | _Must = _REQUIRED, low: Limit = None, high: Limit = None) -> float | D:
        """A length in millimetres, from `low` to `high` (millimetres, both included)."""

        def parse(value: object) -> float:
            if self._unit_unread and length_unit(value) is None:
                parse_length(value, unit="mm")  # whether it is a length at all
                return low or 0.0
            mm = parse_length(value, unit=self.unit, shows=unit_that_fits(value, low, high, self.shows) or self.shows)
            if outside(mm, low, high):
                raise beyond_lengths(value, mm, low, high, unit=self.unit, shows=self.shows)
            return mm

        return self._value(key, parse, default, low or 0.0, "mm")

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
        return self._value(key, within(parse_number, "a number", low, high, "{:g}".format), default, low or 0.0)

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
        return self._value(key, within(parse_percent, "a share", low, high, percent), default, low or 0.0, "%")

    @overload
    def angle(self, key: str, *, low: Limit = None, high: Limit = None) -> float: ...
    @overload
    def angle(self, key: str, *, default: D, low: Limit = None, high: Limit = None) -> float | D: ...
    def angle(self, key: str, *, default: D | _Must = _REQUIRED, low: Limit = None, high: Limit = None) -> float | D:
        """An angle in degrees, from `low` to `high`."""
        parse = within(parse_angle, "an angle", low, high, "{:g} deg".format)
        return self._value(key, parse, default, low or 0.0, "deg")

    def table(self, key: str, words: Words = _NO_WORDS) -> Reader:
        """The table at `key`; an empty one when it is left out, so that what it must hold is asked for by name."""
        section = f"{self.section} {key}" if self.section else f"[{key}]"
        value = self._take(key)
        if value is not None and not isinstance(value, Mapping):
            within_one = f"its parts by name: {key} = {{ ... }}"
            self.problem(key, within_one if self.section else f"a line [{key}] and below it its parts")
            # Its keys must not be reported as missing as well: one problem for one mistake.
            return Reader({}, place=self.place, problems=[], unit=self.unit, section=section, words=words)
        return self._open(value or {}, section, words, (key,))

    def tables(self, key: str, *, most: int = MOST_TABLES, mend: str = "") -> tuple[Reader, ...]:
        """The tables of the list at `key`, in their order; none when it is left out, or where there are too many.

        most: how many there may be; mend is what to do about more
        """
        value = self._take(key)
        if value is None:
            return ()
        each = f"a line [[{key}]] for each of them, and below it what belongs to it"
        if not isinstance(value, list):
            self.problem(key, each, read=f"[{key}]" if isinstance(value, Mapping) else None)
            return ()
        if len(value) > most:
            self.problem(key, f"{most} or fewer", mend, read=f"{len(value)} times [[{key}]]")
            return ()
        opened = []
        for count, item in enumerate(value, start=1):
            section = f"{self.section} {key} {count}" if self.section else f"[[{key}]] {count}"
            if isinstance(item, Mapping):
                opened.append(self._open(item, section, _NO_WORDS, (key, count - 1)))
            else:
                self.problem(key, each, read=shown(item))
        return tuple(opened)

    def use_words(self, words: Words) -> None:
        """Take these words for the keys of this table from here on."""
        given = {self._written[key]: value for key, value in self._table.items()}
        self._words = words
        self._fill(given)

    def hint(self, key: str, mend: str) -> None:
        """What to tell, should `key` stand here although nobody asks for it; or what is asked for, should it not."""
        self._hints[key] = mend

    def finish(self, *, above: Iterable[str] = ()) -> None:
        """Note every key that nobody asked for, here and in the tables opened from here.

        above: keys that belong to a table further out; one of them here stands too far down in the file
        """
        outer = set(above)
        for key in self._table:
            if key not in self._asked:
                self.problem(key, self._known_words(), self._mend(key, outer), read="a word that is not known here")
        for reader in self._inner:
            reader.finish(above={*outer, *self._asked})

    def _mend(self, key: str, outer: set[str]) -> str:
        """How a key that nobody asked for is put right."""
        written = self._written[key]
        if hint := self._hints.get(key) or self._words.explanation(written):
            return hint
        if key in outer:
            return "It belongs at the top of the file, above the first line in [ ]."
        for inner in self._inner:
            if key in inner._asked:
                within = inner.section.removeprefix(self.section).strip()
                how = f"{within} = {{ {printable(key)} = ... }}" if self.section else f"below the line {within}"
                return f"It belongs there: {how}."
        return meant(written, map(self._words.called, self._asked)) or "Leave it out."

    def _known_words(self) -> str:
        if self._words.listed:
            return f"a word that `{self._words.listed}` shows"
        names = [self._words.called(key) for key in self._asked]
        return f"one of {', '.join(names)}" if names else "nothing here"

    def _fill(self, given: Mapping[str, object]) -> None:
        """Take over what stands in the table, each value by the key that the word before it stands for."""
        self._table.clear()
        self._written.clear()
        for any_key, value in given.items():
            written = str(any_key)  # a program may give a table with numbers for keys
            key = self._words.key(written)
            if key in self._table:
                expected = f"it once: {printable(self._written[key])} says the same"
                self.problems.append(Problem(self._place_of(written), shown(value), expected, "Leave one of them out."))
                continue
            self._table[key], self._written[key] = value, written

    def _open(self, table: Mapping[str, object], section: str, words: Words, within: tuple[str | int, ...]) -> Reader:
        reader = Reader(table, place=self.place, problems=self.problems, section=section, words=words)
        reader.unit, reader.shows, reader._at = self.unit, self.shows, (*self._at, *within)
        reader._unit_unread = self._unit_unread
        self._inner.append(reader)
        return reader

    def _take(self, key: str) -> object:
        self._asked[key] = None
        return self._table.get(key)

    def _value(self, key: str, parse: Callable[[object], T], default: D | _Must, stand_in: T, unit: str = "") -> T | D:
        """What `parse` reads under a key, or the default; `stand_in` where it is wrong or missing, which is noted."""
        value = self._take(key)
        if value is None:
            if not isinstance(default, _Must):
                return default
            self.problem(key, self._hints.get(key) or expectation(parse), "It cannot be left out.")
            return stand_in
        try:
            return parse(value)
        except NotRead as error:
            self.problem(key, error.expected, error.mend, read=error.read)
            if error.nearest is not None:
                nearest = Setting(self._written.get(key, key), error.nearest, unit)
                self.problems[-1] = replace(self.problems[-1], nearest=nearest)
        return stand_in if isinstance(default, _Must) else default
