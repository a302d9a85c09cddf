"""The table of alterations: what each is called, what it does, its options; and how a step is read and made again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from importlib import import_module
from types import MappingProxyType
from typing import Final

from drafting.alterations.alteration import Alteration
from drafting.alterations.alteration_words import ASKED, WORDS, Word, plain_word
from drafting.errors import InputProblems, StepRefused, UnknownName, meant
from drafting.pattern import Step
from drafting.reading.key_words import Words, file_word
from drafting.reading.options import Option, Required, Value, read_option
from drafting.reading.read_table import Reader
from drafting.reading.units import printable

__all__ = ["OPTION_WORDS", "AlterationTable", "Entry", "Layer", "make_step", "read_step", "words_for"]


class Layer(StrEnum):
    """What an alteration is about, in words; they stand in the order in which steps are taken.

    Sizes come before lengths, the fit before the style, and what is drawn at an edge after whatever moves that edge.
    A piece is cut in two last, so that every other step finds it whole.
    """

    SIZES = "sizes"
    LENGTHS = "lengths and girths"
    FIT = "bust, back, armhole, shoulder and sleeve"
    STYLE = "neckline, darts and wrap"
    FULLNESS = "fullness"
    OPENINGS = "openings"
    HEMS = "hems"
    SEAMS = "seams in place of darts"


@dataclass(frozen=True, slots=True)
class Entry:
    """An alteration as it is listed.

    layer:   when it is taken where the engine chooses the order; see `step_order.py`
    about:   what it does
    leaves:  what it leaves exactly alone, which is verified after every use
    carries: what it carries to other pieces, so that the seams still meet
    options: what a garment file can say of it; empty where the fields of the class declare them (`option_fields.py`)
    brought: fields of the alteration that no file asks for, but that a step brings along so that it can be taken again
    """

    alteration: type[Alteration]
    layer: Layer
    about: str
    leaves: str
    carries: str
    options: tuple[Option, ...] = ()
    brought: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        object.__setattr__(self, "options", self.options or self.alteration.options)
        self.alteration.options = self.options  # so that it is judged by what is listed, wherever it is made

    @property
    def name(self) -> str:
        """What it is called in a garment file."""
        return self.alteration.name


class AlterationTable:
    """The alterations by name, in the order in which steps are taken where the engine chooses it.

    Each is imported when it is first asked for: a garment uses few of them.

    places: where each entry stands below drafting.alterations: {"armhole": "bodice.armhole:ARMHOLE"}
    finishing: which of them are finishing steps, kept as what was asked for and drawn last (`finishing_steps.py`)
    """

    def __init__(self, places: Mapping[str, str], *, finishing: Sequence[str] = ()) -> None:
        self._places = places
        self.names: Final = tuple(places)
        self._finishing = frozenset(finishing)

    def is_finishing(self, name: str) -> bool:
        """Whether it is a finishing step."""
        return name in self._finishing

    def entry(self, name: str) -> Entry:
        """The alteration of that name. Raises UnknownName, with the nearest."""
        if name not in self._places:
            raise UnknownName("alteration", name, self.names)
        module, _, constant = self._places[name].partition(":")
        entry: Entry = getattr(import_module(f"drafting.alterations.{module}"), constant)
        return entry

    def __iter__(self) -> Iterator[Entry]:
        return map(self.entry, self.names)

    def __len__(self) -> int:
        return len(self.names)


OPTION_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {"bust_girth": "bust", "upper_chest_girth": "high_bust", "upper_chest": "high_bust"}
)
"""What options are called that take a measurement or the size at one."""

_RENAMED: Final[Mapping[str, str]] = MappingProxyType({"scye line": "underarm line"})
"""What lines marked on a piece were called in earlier versions."""


def read_step(reader: Reader, table: AlterationTable) -> Alteration | None:
    """The alteration a `[[step]]` asks for; what is wrong with it is noted in the reader.

    None when its name is not known: its options cannot be judged then, and are not reported as unknown keys. Where an
    option was wrong the alteration holds a harmless value in its place; whoever reads refuses before applying it.
    """
    word = _word_read(reader, table)
    if word is None:
        reader.ignore_rest()
        return None
    entry = table.entry(word.name)
    reader.use_words(_words_of(entry, word))
    for option in entry.options:
        if option.name in word.sets:
            reader.hint(option.name, f'"{word.word}" says it already: leave it out.')
    given = {option.name: _read(reader, option, word) for option in entry.options if option.name not in word.sets}
    lengths = [option.name for option in entry.options if option.kind == "length"]
    _hint_where(reader, lengths)
    for option in entry.options:
        for word_of_it in option.about.replace(",", " ").split() if option.kind == "length" else ():
            if len(word_of_it) > _LITTLE and word_of_it in reader and word_of_it not in given:
                reader.hint(word_of_it, f"{option.about.capitalize()}, is written {option.name} = ...")
    return entry.alteration(**given, **word.sets)


_LITTLE = 3
"""Letters. A word no longer than this ("how", "the") says nothing of an option."""


def _hint_where(reader: Reader, lengths: Sequence[str]) -> None:
    """What to tell where `by` stands for one of several lengths: which, and how it is written."""
    asked = {key: reader.peek(key) for key in ("by", "amount", "at", "where") if key in reader}
    place = next((value for value in asked.values() if isinstance(value, str) and file_word(value) in lengths), None)
    much = next((value for value in asked.values() if value is not place), None)
    for key in asked:
        if place is not None and much is not None:
            told = f'"{much}"' if isinstance(much, str) else f"{much}"
            reader.hint(key, f"Write in place of both: {file_word(place)} = {printable(told)}")
        elif lengths:
            reader.hint(key, f"Say which length it is: {' or '.join(f'{name} = ...' for name in lengths)}")


def words_for(name: str) -> tuple[Word, ...]:
    """Every other word for an alteration: those that mean just it, and those that say more."""
    return tuple(word for word in WORDS if word.name == name)


def _word_read(reader: Reader, table: AlterationTable) -> Word | None:
    """The word behind `alter`; None, with the problem noted, where it is none."""
    listed = "`trueseam list alterations` shows them all."
    written = reader.written("alter")
    if not isinstance(written, str):
        missing = "It cannot be left out: " if written is None else ""
        reader.problem("alter", 'the name of an alteration, such as "lengthen"', f"{missing}{listed}")
        return None
    known = {plain_word(name): Word(name, name) for name in table.names}
    others = {plain_word(word.word): word for word in WORDS}
    found = {**others, **known}.get(plain_word(written))
    if found is None:
        asked = ASKED.get(plain_word(written)) or meant(written, (*known, *(word.word for word in others.values())))
        reader.problem("alter", "the name of an alteration", f"{asked} {listed}" if asked else listed)
    return found


def _words_of(entry: Entry, word: Word) -> Words:
    """What the options may be called: `by`, `amount` and `how_much` say the one length there is to say."""
    names = {option.name: OPTION_WORDS.get(option.name, option.name) for option in entry.options}
    lengths = [option for option in entry.options if option.kind == "length"]
    needed = [option for option in lengths if isinstance(option.default, Required)]
    one = word.by or next((some[0].name for some in (needed, lengths) if len(some) == 1), "")
    also = {key: one for key in ("by", "amount", "how_much", "how_far") if one and key not in names}
    return Words({"alter": "alter", **names}, also)


def _read(reader: Reader, option: Option, word: Word) -> Value:
    """The value of an option; turned round where the word does so."""
    if option.name not in word.turned or option.name not in reader:
        value = read_option(reader, option)
        return _RENAMED.get(value, value) if isinstance(value, str) else value
    turned = replace(option, low=0.0, high=None if option.low is None else -option.low)
    written = reader.written(option.name)
    if str(written).strip().startswith(("-", "−")):
        mend = f'"{word.word}" says already which way: write it without the minus.'
        reader.problem(option.name, "a length above zero", mend)
        return option.low
    value = read_option(reader, turned)
    return -value if isinstance(value, float) else value


def make_step(step: Step, table: AlterationTable) -> Alteration:
    """The alteration that a step of a history recorded. Raises UnknownName, or StepRefused for options it has not."""
    entry = table.entry(step.alter)
    given: Mapping[str, object] = dict(step.options)
    try:
        return entry.alteration(**given)
    except InputProblems as wrong:
        raise StepRefused(step.alter, " ".join(wrong.sentences())) from wrong
    except (TypeError, UnknownName) as error:
        known = ", ".join(option.name for option in entry.options)
        raise StepRefused(step.alter, f"its options are {known}; the history has {', '.join(given)}") from error
