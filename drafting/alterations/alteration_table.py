"""The table of alterations: what each is called, what it does, its options; and how a step is read and made again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from importlib import import_module
from types import MappingProxyType
from typing import Final

from drafting.alterations.alteration import Alteration
from drafting.alterations.alteration_words import ASKED, WORDS, Word, name_to_write, plain_word
from drafting.errors import InputProblems, StepRefused, UnknownName, meant
from drafting.pattern import Step
from drafting.reading.key_words import Words, file_word
from drafting.reading.options import Option, Required, Value, read_option
from drafting.reading.read_table import Reader
from drafting.reading.units import printable

__all__ = ["OPTION_WORDS", "AlterationTable", "make_step", "read_step", "words_for"]


class AlterationTable:
    """The alterations by name, in the order in which steps are taken where the engine chooses it.

    Each is imported when it is first asked for: a garment uses few of them.

    places: where the class of each stands below drafting.alterations: {"armhole": "bodice.armhole:Armhole"}
    finishing: which of them are finishing steps, kept as what was asked for and drawn last (`finishing_steps.py`)
    """

    def __init__(self, places: Mapping[str, str], *, finishing: Sequence[str] = ()) -> None:
        self._places = places
        self.names: Final = tuple(places)
        self._finishing = frozenset(finishing)

    def is_finishing(self, name: str) -> bool:
        """Whether it is a finishing step."""
        return name in self._finishing

    def named(self, name: str) -> type[Alteration]:
        """The alteration of that name. Raises UnknownName, with the nearest."""
        if name not in self._places:
            raise UnknownName("alteration", name, self.names, hint=name_to_write(name))
        module, _, class_name = self._places[name].partition(":")
        found: type[Alteration] = getattr(import_module(f"drafting.alterations.{module}"), class_name)
        return found

    def __iter__(self) -> Iterator[type[Alteration]]:
        return map(self.named, self.names)

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
    alteration = table.named(word.name)
    reader.use_words(_words_of(alteration, word))
    for option in alteration.options:
        if option.name in word.sets:
            reader.hint(option.name, f'"{word.word}" says it already: leave it out.')
    if word.sets.get("hem") == "as tapered":
        three, elbow, short = ("5 1/2 in", "10 1/2 in", "16 in") if reader.in_inches() else ("14 cm", "27 cm", "40 cm")
        lengths_cut = f'of a woman\'s about "{three}" for three-quarter, "{elbow}" to the elbow, "{short}" for short'
        reader.hint("by", f"a length, how much of the sleeve is cut off: {lengths_cut}")
    given = {option.name: _read(reader, option, word) for option in alteration.options if option.name not in word.sets}
    lengths = [option.name for option in alteration.options if option.kind == "length"]
    _hint_where(reader, lengths)
    for option in alteration.options:
        for word_of_it in option.about.replace(",", " ").split() if option.kind == "length" else ():
            if len(word_of_it) > _LITTLE and word_of_it in reader and word_of_it not in given:
                reader.hint(word_of_it, f"{option.about.capitalize()}, is written {option.name} = ...")
    return alteration(**given, **word.sets)


_LITTLE = 3
"""Letters. A word no longer than this ("how", "the") says nothing of an option."""


def _hint_where(reader: Reader, lengths: Sequence[str]) -> None:
    """What to tell where `by` stands for one of several lengths: which, and how it is written."""
    asked = {key: reader.peek(key) for key in ("by", "amount", "at", "where") if key in reader}
    place = next((value for value in asked.values() if isinstance(value, str) and file_word(value) in lengths), None)
    much = next((value for value in asked.values() if value is not place), None)
    for key in asked:
        if place is not None and much is not None:
            value = f'"{much}"' if isinstance(much, str) else f"{much}"
            reader.hint(key, f"Write in place of both: {file_word(place)} = {printable(value)}")
        elif lengths:
            reader.hint(key, f"Say which length it is: {' or '.join(f'{name} = ...' for name in lengths)}")


def words_for(name: str) -> tuple[Word, ...]:
    """All other words for an alteration: those that mean exactly it, and those that give an option too."""
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


def _words_of(alteration: type[Alteration], word: Word) -> Words:
    """What the options may be called: `by`, `amount` and `how_much` say the one length there is to say."""
    names = {option.name: OPTION_WORDS.get(option.name, option.name) for option in alteration.options}
    lengths = [option for option in alteration.options if option.kind == "length"]
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
    alteration = table.named(step.alter)
    given: Mapping[str, object] = dict(step.options)
    try:
        return alteration(**given)
    except InputProblems as wrong:
        raise StepRefused(step.alter, reason=" ".join(wrong.sentences())) from wrong
    except (TypeError, UnknownName) as error:
        known = ", ".join(option.name for option in alteration.options)
        raise StepRefused(step.alter, reason=f"its options are {known}; the history has {', '.join(given)}") from error
