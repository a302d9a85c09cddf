"""A person as she wrote herself down, read from her file.

Only stature and the three girths are required; whatever else was measured is used, and the rest is estimated by
`drafting.body.complete`.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Final

from drafting.body.earlier import Earlier, day_problems, read_earlier
from drafting.body.measurement_words import measurement_words
from drafting.body.terms import BASICS, BODY_KINDS, KEYS, BodyKind, limits, measurement, measurement_for
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, UnknownName, nearest
from drafting.reading.files import load_toml
from drafting.reading.given import (
    Given,
    list_problems,
    number_problem,
    path_problem,
    plain_number,
    text_problem,
    type_problem,
)
from drafting.reading.read_table import Reader, refuse
from drafting.reading.units import FILE_UNITS, printable, shown, unit_written

__all__ = ["LIVES", "Person", "months_old", "person", "read_person"]

_AT_THE_TOP = ("name", "body", "unit", "measured", "born", "measurements", "earlier", "lives")
"""The words at the top of a person's file."""

LIVES: Final = ("EU", "UK", "US", "elsewhere")
"""Where a child may live."""

_CHILD_WORDS: Final = ("baby", "infant", "newborn", "toddler", "child", "kid")

_BY_NAME = 'millimetres by name: {"height": 1680, "bust": 920, "waist": 740, "hip": 990}'
_NO_EARLIER: Mapping[datetime.date, Mapping[str, float]] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Person(Given):
    """Somebody's measurements, in millimetres, in the order of `MEASUREMENTS`.

    Raises UnknownName for a kind of body, a unit or a measurement that is not there, and InputProblems with every
    length that no body has, and every one of the four basics that is missing.

    measured: the day they were taken; born: for a child. Both as she gave them, or None.
    unit:     what she works in ("cm", "mm", "in"): reports follow it
    place:    where she was read from, for the sentences about her
    earlier:  what was measured on earlier days, the oldest first
    lives:    where a child lives, whose rules the cautions name: one of `LIVES`, "" for all of them
    """

    name: str
    body: BodyKind
    measurements: tuple[tuple[str, float], ...]
    measured: datetime.date | None = None
    born: datetime.date | None = None
    unit: str = "cm"
    place: str = ""
    earlier: tuple[Earlier, ...] = ()
    lives: str = ""

    def __post_init__(self) -> None:
        _accept_words(self.name, self.place, self.measured, self.born)
        _accept_earlier(self.earlier, self.measured, self.born, self.place or self.name or "the person")
        if self.body not in BODY_KINDS:
            raise UnknownName("kind of body", str(self.body), BODY_KINDS)
        if self.lives not in ("", *LIVES):
            raise UnknownName("place", str(self.lives), LIVES)
        if self.unit not in FILE_UNITS:
            raise UnknownName("unit", str(self.unit), FILE_UNITS)
        given, who, known = dict(self.measurements), self.place or self.name or "the person", limits(self.body)
        for key in given:
            measurement(key)
        found = (number_problem(f"{who}, {key}", "length", mm, *known[key]) for key, mm in given.items())
        refuse([*filter(None, found), *_missing(given, f"{who},", self.body)])
        object.__setattr__(self, "measurements", tuple((key, plain_number(mm)) for key, mm in self.measurements))

    def over_time(self, key: str) -> tuple[tuple[datetime.date, float], ...]:
        """The days on which the length of that key was measured, oldest first, each with it (mm)."""
        taken = [(each.measured, mm) for each in self.earlier if (mm := each.mm(key)) is not None]
        now = dict(self.measurements).get(key)
        return (*taken, (self.measured, now)) if now is not None and self.measured else tuple(taken)


def person(
    measurements: Mapping[str, float],
    *,
    name: str = "",
    body: BodyKind = "woman",
    measured: datetime.date | None = None,
    born: datetime.date | None = None,
    unit: str = "cm",
    place: str = "",
    earlier: Mapping[datetime.date, Mapping[str, float]] = _NO_EARLIER,
) -> Person:
    """A person from measurements in millimetres, called as in a file (`bust`, `back_waist_length`) or by their keys.

    earlier: what was measured on earlier days: `{datetime.date(2026, 3, 1): {"height": 1040}}`

    Raises as `Person` does, and InputProblems for a word that may mean several measurements.
    """
    if body not in BODY_KINDS:
        raise UnknownName("kind of body", str(body), BODY_KINDS)
    _accept_words(name, place, measured, born)
    who = place or name or "the person"
    given, problems = _taken(measurements, body, "the person", who, _BY_NAME)
    expected = "days with what was measured then: {datetime.date(2026, 3, 1): {'height': 1040}}"
    problem = type_problem(f"{who}, earlier", earlier, Mapping, expected)
    refuse([problem] if problem else [])
    days = []
    for day, lengths in earlier.items():
        then, wrong = _taken(lengths, body, f"{who}, earlier", f"{who}, earlier {day}", expected)
        problems += [*filter(None, [type_problem(f"{who}, earlier", day, datetime.date, expected)]), *wrong]
        if not wrong:
            days.append((day, then))
    refuse([*problems, *_missing(given, f"{who},", body)])
    before = tuple(sorted((Earlier(day, _in_order(then)) for day, then in days), key=lambda each: each.measured))
    return Person(name, body, _in_order(given), measured=measured, born=born, unit=unit, place=place, earlier=before)


def _taken(
    measurements: object, body: BodyKind, what: str, who: str, expected: str
) -> tuple[dict[str, float], list[Problem]]:
    """Lengths by key from lengths by any word, and what is wrong with them.

    Raises UnknownName for a word that is not known, and InputProblems for one that may mean several.
    """
    if not isinstance(measurements, Mapping):
        raise InputProblems([*filter(None, [type_problem(what, measurements, Mapping, expected)])])
    words, known = measurement_words(body), limits(body)
    given, problems = dict[str, float](), list[Problem | None]()
    for any_key, mm in measurements.items():
        written = str(any_key)
        key = words.key(written)
        if key not in KEYS or key in given:
            where, mend = f"{who}, {written}", words.explanation(written)
            if key in given or mend:
                raise InputProblems([Problem(where, shown(mm), "each measurement once, by its own name", mend)])
            raise UnknownName("measurement", written, [measurement(each).word for each in KEYS])
        given[key] = mm
        problems.append(number_problem(f"{who}, {written}", "length", mm, *known[key]))
    return given, [*filter(None, problems)]


def _in_order(given: Mapping[str, float]) -> tuple[tuple[str, float], ...]:
    return tuple((key, plain_number(given[key])) for key in KEYS if key in given)


def read_person(source: str | Path | Mapping[str, object], *, place: str | None = None) -> Person:
    """A person from her TOML file, or from the tables already read from one.

    `place` is what the sentences about problems call the file. Raises InputProblems with everything that is wrong.
    """
    expected = 'the path of a person\'s file: read_person("oda.toml")'
    if not isinstance(source, Mapping) and (problem := path_problem("the person", source, expected)):
        raise InputProblems([problem])
    table = source if isinstance(source, Mapping) else load_toml(source, of_no_use=_of_no_use)
    where = (
        place
        if place is not None
        else "the person"
        if isinstance(source, Mapping)
        else printable(str(source), most=197)
    )
    if "measurements" not in table and {"sizes", "finished"} <= table.keys():
        mend = "`trueseam size` takes the chart first, then the person."
        raise InputProblems([Problem(where, "the chart of a pattern", "a person's file, with [measurements]", mend)])
    if "measurements" not in table and {"block", "wearer"} & table.keys():
        mend = "`trueseam draft` and `trueseam check` take it; her measurements stand in the file its wearer names."
        raise InputProblems([Problem(where, "a garment file", "a person's file, with [measurements]", mend)])
    problems: list[Problem] = []
    table = _measurements_spelt(table, where, problems)
    reader = Reader(table, place=where, problems=problems)
    name = reader.text("name")
    body = _body_read(reader)
    unit = reader.file_unit() or unit_written(table) or "cm"
    reader.shows = unit
    measured = reader.date("measured", default=None)
    born = reader.date("born", default=None)
    lives = reader.choice("lives", LIVES, default="") or ""
    if measured and born and born >= measured:
        reader.problem(
            "born", f"a day before the day of the measurements ({measured.isoformat()})", read=born.isoformat()
        )
    reader.hint("age", "Write the day of birth in place of it: born = 2019-05-04.")
    if body is None:  # what may be measured of a body that is not known cannot be judged
        reader.ignore_rest()
        raise InputProblems(problems)
    lengths_of = reader.table("measurements", measurement_words(body))
    given = lengths_of.lengths(limits(body))
    problems.extend(_missing({key: 0.0 for key in KEYS if key in lengths_of}, lengths_of.where(), body))
    earlier = read_earlier(reader, body, measured, born)
    reader.finish()
    refuse(problems)
    return Person(name, body, _in_order(given), measured, born, unit, where, earlier, lives)


def months_old(who: Person, on: datetime.date | None = None) -> int | None:
    """How old somebody is in whole months on a day, else on the day of the measurements; None where that is unknown."""
    day = on or who.measured
    if who.born is None or day is None or day < who.born:
        return None
    months = 12 * (day.year - who.born.year) + day.month - who.born.month
    return months - (day.day < who.born.day)


def _accept_words(name: object, place: object, measured: object, born: object) -> None:
    """Raise InputProblems for texts and days that no file could hold."""
    problems = [
        text_problem("the person, name", name, empty=True),
        text_problem("the person, place", place, empty=True),
        *(
            type_problem(f"the person, {what}", day, (datetime.date, type(None)), "a day: datetime.date(2026, 9, 12)")
            for what, day in (("measured", measured), ("born", born))
        ),
    ]
    refuse([*filter(None, problems)])


def _accept_earlier(earlier: object, measured: datetime.date | None, born: datetime.date | None, place: str) -> None:
    """Raise InputProblems for earlier days that no file could hold."""
    expected = 'earlier days: Earlier(datetime.date(2026, 3, 1), (("bust_girth", 560.0),))'
    problem = type_problem("the person, earlier", earlier, tuple, expected)
    refuse([problem] if problem else [])
    days = earlier if isinstance(earlier, tuple) else ()
    refuse([*list_problems("the person, earlier", days, Earlier, expected)])
    dated = [(f"{place}, earlier", each.measured) for each in days]
    refuse([*day_problems(dated, measured, born, f"{place}, measured")])


def _body_read(reader: Reader) -> BodyKind | None:
    """The kind of body; None, with the problem noted, for a child of neither kind, a woman for any other word."""
    written = reader.peek("body")
    if isinstance(written, str) and written.casefold().strip() in _CHILD_WORDS:
        reader.problem(
            "body", '"girl" or "boy"', f'A {written.casefold().strip()} is one of them: write body = "girl".'
        )
        return None
    problems_before = len(reader.problems)
    text = reader.choice("body", BODY_KINDS)
    if len(reader.problems) > problems_before and isinstance(written, str):
        text = nearest(written, BODY_KINDS) or "woman"
    return next((kind for kind in BODY_KINDS if kind == text), "woman")


def _measurements_spelt(table: Mapping[str, object], where: str, problems: list[Problem]) -> Mapping[str, object]:
    """The tables of a file with the measurements under their own name, a slip in it noted."""
    tables = () if "measurements" in table else (str(key) for key, of in table.items() if isinstance(of, Mapping))
    slip = next((key for key in tables if nearest(key, ["measurements"])), None)
    if slip is None:
        return table
    mend = 'Did you mean "measurements"? Write the line so: [measurements]'
    problems.append(Problem(f"{where}, [{printable(slip)}]", "a line not known here", "[measurements]", mend, (slip,)))
    return {("measurements" if key == slip else key): value for key, value in table.items()}


def _of_no_use(line: str) -> str:
    """What to tell of a line of a person's file that would be refused for its word; "" for every other."""
    word, _, value = (part.strip() for part in line.partition("="))
    words = measurement_words("girl")  # to whom every word means something that means something to a woman
    if word in _AT_THE_TOP or words.key(word) in KEYS:
        return ""
    near = nearest(word, [*_AT_THE_TOP, *(measurement(key).word for key in KEYS)])
    if near:
        return f'Did you mean "{near}"? Write: {near} = {value}'
    return words.explanation(word) or f"`{words.listed}` shows the words that are known here: leave it out."


def _missing(given: Mapping[str, float], place: str, body: BodyKind) -> list[Problem]:
    wanted = [measurement_for(key, body) for key in BASICS if key not in given]
    return [Problem(f"{place} {each.word}", "nothing", "a length: it cannot be estimated", each.how) for each in wanted]
