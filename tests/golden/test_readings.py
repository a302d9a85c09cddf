"""What is read off the examples, as when last looked at (`python -m tests.golden`)."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from pathlib import Path
from typing import Final

import pytest

from drafting.alterations.alteration_words import ASKED, WORDS, Word
from drafting.parts.part_table import PARTS
from drafting.pattern import places
from tests.examples import NAMES, example_pattern
from tests.golden.digest import options_digest
from tests.golden.readings import bindings_digest, readings_digest

READINGS: Final = Path(__file__).parent / "readings"


def pages() -> Iterator[tuple[str, str]]:
    """Every page by the name of its file."""
    for name in NAMES:
        yield f"readings/{name}.txt", readings_digest(example_pattern(name))
    yield "readings/bindings.txt", bindings_digest()
    yield "readings/other_words.txt", other_words_digest()
    yield "readings/parts.txt", parts_digest()
    yield "readings/vocabulary.txt", vocabulary_digest()


def vocabulary_digest() -> str:
    """Every word that says what a piece, a place, a line, a point or a notch is; files of patterns are written in
    them."""
    kinds = (each for each in vars(places).values() if isinstance(each, type) and issubclass(each, StrEnum))
    return "\n".join(f"{kind.__name__}: {', '.join(kind)}" for kind in kinds if kind is not StrEnum) + "\n"


def other_words_digest() -> str:
    """Every other word for an alteration and what it stands for; every word that is answered with what to write."""
    asked = (f"{word}: {answer}" for word, answer in ASKED.items())
    return "\n".join([*(f"{each.word}: {_meaning(each)}" for each in WORDS), "", *asked]) + "\n"


def _meaning(word: Word) -> str:
    said = [f"{option} = {value}" for option, value in word.sets.items()]
    said += [f"by is {word.by}"] * bool(word.by) + [f"{option} turned round" for option in word.turned]
    return ", ".join([word.name, *said])


def parts_digest() -> str:
    """Every option of every part."""
    return options_digest((part.name, part.options) for part in PARTS)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_read_off_an_example_is_what_it_was(name: str) -> None:
    kept = (READINGS / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    assert readings_digest(example_pattern(name)).splitlines() == kept


def test_strips_bands_and_casings_are_as_wide_as_they_were() -> None:
    kept = (READINGS / "bindings.txt").read_text(encoding="utf-8").splitlines()
    assert bindings_digest().splitlines() == kept


def test_the_options_of_every_part_are_what_they_were() -> None:
    kept = (READINGS / "parts.txt").read_text(encoding="utf-8").splitlines()
    assert parts_digest().splitlines() == kept


def test_the_words_of_the_vocabulary_are_what_they_were() -> None:
    kept = (READINGS / "vocabulary.txt").read_text(encoding="utf-8").splitlines()
    assert vocabulary_digest().splitlines() == kept


def test_other_words_stand_for_what_they_stood_for() -> None:
    kept = (READINGS / "other_words.txt").read_text(encoding="utf-8").splitlines()
    assert other_words_digest().splitlines() == kept
