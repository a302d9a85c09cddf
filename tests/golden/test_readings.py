"""What is read off the examples, as when last looked at (`python -m tests.golden`)."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import Final

import pytest

from drafting.alterations import ALTERATIONS, Alteration, apply_step
from drafting.alterations.alteration_words import ASKED, WORDS, Word
from drafting.parts.part_table import PARTS
from drafting.pattern import places
from tests.alteration_samples import sample
from tests.drafting.checks.test_trousers_checks import jumpsuit
from tests.drafting.sizes import sized
from tests.examples import NAMES, example_pattern
from tests.golden.digest import options_digest
from tests.golden.readings import bindings_digest, readings_digest

ALTERED: Final = (
    (partial(sized, 92), "godet", {}),
    (partial(sized, 92), "kimono", {"lift": 45.0, "bend": 5.0}),
    (partial(sized, 92), "raglan", {"front": 20.0, "back": 15.0, "dart": 50.0}),
    (partial(sized, 92), "gather skirt", {"ratio": 2.0}),
    (jumpsuit, "slanted pocket", {}),
    (jumpsuit, "pointed waist", {"depth": 60.0}),
)
"""What an example has not: a garment in size 92, and what is done to it."""

READINGS: Final = Path(__file__).parent / "readings"


def pages() -> Iterator[tuple[str, str]]:
    """Every page by the name of its file."""
    for name in NAMES:
        yield f"readings/{name}.txt", readings_digest(example_pattern(name))
    yield "readings/alterations.txt", alterations_digest()
    yield "readings/altered.txt", altered_digest()
    yield "readings/bindings.txt", bindings_digest()
    yield "readings/other_words.txt", other_words_digest()
    yield "readings/parts.txt", parts_digest()
    yield "readings/vocabulary.txt", vocabulary_digest()


def altered_digest() -> str:
    """A page for each of the altered garments."""
    made = (apply_step(sound(), sample(name, options)) for sound, name, options in ALTERED)
    return "\n".join(f"{name}: {readings_digest(each)}" for each, (_, name, _) in zip(made, ALTERED, strict=True))


def vocabulary_digest() -> str:
    """Every word that says what a piece, a place, a line, a point or a notch is; files of patterns are written in
    them."""
    kinds = (each for each in vars(places).values() if isinstance(each, type) and issubclass(each, StrEnum))
    return "\n".join(f"{kind.__name__}: {', '.join(kind)}" for kind in kinds if kind is not StrEnum) + "\n"


def alterations_digest() -> str:
    """When each alteration is taken, what it asks for and makes, and what its options go with."""
    return "\n".join(line for each in ALTERATIONS for line in (each.name, *_what_it_is(each), ""))


def _what_it_is(alteration: type[Alteration]) -> Iterator[str]:
    yield f"  {alteration.layer}{', a finishing step' * ALTERATIONS.is_finishing(alteration.name)}"
    for what in ("needs", "instead", "new_piece", "asks", "or_less"):
        if told := getattr(alteration, what):
            yield f"  {what}: {told if isinstance(told, str) else ', '.join(map(_said, told))}"
    for option in alteration.options:
        if option.goes_with or option.seldom:
            with_what = f" goes with {_said(option.goes_with)}" if option.goes_with else ""
            yield f"  {option.name}:{with_what}{' seldom asked for' * option.seldom}"


def _said(told: object) -> str:
    return told if isinstance(told, str) else " ".join(map(_said, told)) if isinstance(told, tuple) else str(told)


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


def test_what_is_read_off_a_garment_with_a_godet_a_gusset_a_slanted_pocket_is_what_it_was() -> None:
    kept = (READINGS / "altered.txt").read_text(encoding="utf-8").splitlines()
    assert altered_digest().splitlines() == kept


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


def test_what_each_alteration_says_of_itself_is_what_it_said() -> None:
    kept = (READINGS / "alterations.txt").read_text(encoding="utf-8").splitlines()
    assert alterations_digest().splitlines() == kept
