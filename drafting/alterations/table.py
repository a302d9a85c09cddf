"""The table of alterations: what each is called, what it does, its options; and how a step is read and made again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drafting.alterations.base import Alteration
from drafting.errors import StepRefused, UnknownName
from drafting.pattern import Step
from drafting.reading.options import Option, read_options
from drafting.reading.table import Reader

__all__ = ["Entry", "alteration_table", "find_entry", "make_step", "read_step"]


@dataclass(frozen=True, slots=True)
class Entry:
    """An alteration as it is listed.

    about:   what it does
    leaves:  what it leaves exactly alone, which is verified after every use
    carries: what it carries to other pieces, so that the seams still meet
    brought: fields of the alteration that no file asks for, but that a step brings along so that it can be taken again
    also:    other words of the trade for it, or for a part of it; whoever writes one is told the name
    """

    alteration: type[Alteration]
    about: str
    leaves: str
    carries: str
    options: tuple[Option, ...]
    brought: tuple[str, ...] = ()
    also: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """What it is called in a garment file."""
        return self.alteration.name


def alteration_table(*entries: Entry) -> tuple[Entry, ...]:
    """The alterations as a table. Raises ValueError for a name, or another word for one, that stands twice."""
    seen: set[str] = set()
    for entry in entries:
        for word in (entry.name, *entry.also):
            if word in seen:
                raise ValueError(f'two alterations are called "{word}"')
            seen.add(word)
    return entries


def find_entry(table: Sequence[Entry], name: str) -> Entry:
    """The alteration of that name. Raises UnknownName, with the nearest."""
    for entry in table:
        if entry.name == name:
            return entry
    raise UnknownName("alteration", name, [entry.name for entry in table])


def read_step(reader: Reader, table: Sequence[Entry]) -> Alteration | None:
    """The alteration a `[[step]]` asks for; what is wrong with it is noted in the reader.

    None when its name is not known: its options cannot be judged then, and are not reported as unknown keys. Where an
    option was wrong the alteration holds a harmless value in its place; whoever reads refuses before applying it.
    """
    also = {word: entry.name for entry in table for word in entry.also}
    name = reader.kind("alter", [entry.name for entry in table], also=also)
    if name is None:
        return None
    entry = find_entry(table, name)
    return entry.alteration(**read_options(reader, entry.options))


def make_step(step: Step, table: Sequence[Entry]) -> Alteration:
    """The alteration that a step of a history recorded. Raises UnknownName, or StepRefused for options it has not."""
    entry = find_entry(table, step.alter)
    given: Mapping[str, object] = dict(step.options)
    try:
        return entry.alteration(**given)
    except TypeError as error:
        known = ", ".join(option.name for option in entry.options)
        raise StepRefused(step.alter, f"its options are {known}; the history has {', '.join(given)}") from error
