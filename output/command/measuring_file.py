"""The file of a person while she is being measured: each length is written the moment it is typed."""

from __future__ import annotations

import datetime
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

from drafting.body.measurement_words import measurement_words
from drafting.body.person import Person, read_person
from drafting.body.terms import BASICS, BODY_KINDS, BodyKind, limits, measurement, measurement_for
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem
from drafting.reading.files import load_toml
from drafting.reading.units import NotRead, parse_file_unit, parse_length, printable, shown
from output.files.write_folder import stage
from output.page.editing import edited_text
from output.page.edits import CannotEdit, Edit

__all__ = ["MeasuringFile", "open_to_measure"]

_BEGIN_AGAIN: Final = "Something else changed the file: stop, and begin again."


@dataclass(frozen=True, slots=True)
class MeasuringFile:
    """A person's file that lengths are written into.

    taken:   lengths in mm by key; before: what each was on earlier days, oldest first
    today:   the day that new lengths are taken on
    old_day: the day of the lengths in the file, where it is before today; None where it is not, or not known
    person:  as the file had her when it was opened, with lengths of a middle size for basics that were missing
    changed: the keys that were taken in this sitting
    """

    path: Path
    name: str
    body: BodyKind
    unit: str
    today: datetime.date
    old_day: datetime.date | None
    taken: Mapping[str, float]
    before: Mapping[str, tuple[tuple[datetime.date, float], ...]]
    person: Person
    changed: frozenset[str] = frozenset()

    def written(self, key: str) -> object:
        """What stands in the file for a length, as she wrote it; None for nothing, and for a file that is spoilt."""
        try:
            tables: Mapping[str, Any] = load_toml(self.path)
        except InputProblems:
            return None
        given = tables.get("measurements")
        return given.get(self._word(tables, key)) if isinstance(given, Mapping) else None

    def write(self, key: str, literal: str) -> MeasuringFile:
        """Put a length into the file, at once and whole; what is known then. One that is replaced stays, below its day.

        literal: the length as it stands in TOML
        Raises InputProblems where the file is written in a way that this cannot change, or was changed meanwhile so
        that it cannot be gone on with, CannotWrite.
        """
        self._accept_as_it_is_now()
        tables, text = load_toml(self.path), self._text()
        value: Any = tomllib.loads(f"value = {literal}")["value"]
        word = self._word(tables, key)
        edits = [*self._keep_old(tables, key, word), Edit("person", "set", ("measurements", word), value)]
        try:
            new = edited_text(text, edits)
        except CannotEdit as refused:
            mend = f"Write it there yourself: {word} = {literal}"
            raise InputProblems(
                [Problem(str(self.path), refused.sentence, "a file it can be written into", mend)]
            ) from None
        stage(self.path, new.encode())()
        taken = {**self.taken, key: parse_length(value, unit=self.unit)}
        return replace(self, taken=taken, changed=self.changed | {key})

    def _accept_as_it_is_now(self) -> None:
        """Raise InputProblems where the file has a fault by now, or another unit or body than when it was opened."""
        tables, where = load_toml(self.path), printable(str(self.path), most=197)
        told = tables.get("unit", self.unit)
        with suppress(NotRead):
            told = parse_file_unit(told)
        now = {"unit": (told, self.unit), "body": (tables.get("body"), self.body)}
        new = [
            Problem(f"{where}, {word}", shown(there), f'"{was}", as it was', _BEGIN_AGAIN)
            for word, (there, was) in now.items()
            if there != was
        ]
        if new:
            raise InputProblems(new)
        open_to_measure(self.path, self.today)

    def _keep_old(self, tables: dict[str, Any], key: str, word: str) -> list[Edit]:
        """The edits that give the file its new day, and keep the length that is replaced below the day it is of."""
        edits = [] if tables.get("measured") == self.today else [Edit("person", "set", ("measured",), self.today)]
        if "unit" not in tables:  # else a plain number could not be read again
            edits.append(Edit("person", "set", ("unit",), self.unit))
        if self.old_day is None or word not in tables.get("measurements", {}) or key in self.changed:
            return edits
        listed, old = tables.get("earlier", []), tables["measurements"][word]
        for place, each in enumerate(listed):
            if str(each.get("measured")) == self.old_day.isoformat():  # a day may stand there as a text
                return [*edits, Edit("person", "set", ("earlier", place, word), old)]
        table = {"measured": self.old_day, word: old}
        return [*edits, Edit("person", "insert", ("earlier", len(listed)), table)]

    def _text(self) -> str:
        return self.path.read_bytes().decode()  # its lines end as they did

    def _word(self, tables: Mapping[str, Any], key: str) -> str:
        """The word that the file has for a length, or is to have."""
        words = measurement_words(self.body)
        there = (word for word in tables.get("measurements", {}) if words.key(word) == key)
        return next(there, measurement_for(key, self.body).word)


def open_to_measure(path: Path, today: datetime.date) -> MeasuringFile:
    """The file of a person, to be measured further. Raises InputProblems for all that is wrong but what is missing."""
    tables = load_toml(path)
    where = printable(str(path), most=200)
    given = tables.get("measurements", {})
    body: BodyKind = next((kind for kind in BODY_KINDS if kind == tables.get("body")), "woman")
    words = measurement_words(body)
    there = {words.key(str(word)) for word in given} if isinstance(given, Mapping) else set()
    # what is still missing is no fault here: it is about to be measured
    middle = {key: (low + high) / 20.0 for key, (low, high) in limits(body).items()}
    filled = {measurement(key).word: f"{middle[key]} cm" for key in BASICS if key not in there}
    measurements = {**given, **filled} if isinstance(given, Mapping) else given
    who = read_person({**tables, "measurements": measurements}, place=where)
    days = [day for day in (who.measured, *(each.measured for each in who.earlier)) if day is not None]
    if days and max(days) > today:
        expected = f"no day after today ({today.isoformat()})"
        raise InputProblems([Problem(f"{where}, measured", max(days).isoformat(), expected, "Mend it first.")])
    return MeasuringFile(
        path=path,
        name=who.name,
        body=who.body,
        unit=parse_file_unit(tables["unit"]) if "unit" in tables else who.unit,
        today=today,
        old_day=who.measured if who.measured != today else None,
        person=who,
        taken={key: mm for key, mm in who.measurements if key in there},
        before={
            key: tuple((each.measured, mm) for each in who.earlier if (mm := each.mm(key)))
            for key, _ in who.measurements
        },
    )
