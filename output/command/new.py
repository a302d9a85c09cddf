"""`trueseam new`: a file to start from, every line of it with what it is for; what it needs to know is asked."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Final, TypeVar

from blocks.block_table import plain_blocks
from drafting.body.terms import BASICS, BODY_KINDS, BodyKind, measurement_for
from drafting.errors import InputProblems, Problem
from drafting.reading.files import load_toml
from drafting.reading.key_words import file_word
from drafting.reading.units import (
    NotRead,
    parse_file_unit,
    printable,
    shown,
)
from output.api.beginning import (
    Measured,
    chart_text,
    file_named,
    garment_text,
    length_as_written,
    one_line,
    person_text,
)
from output.command.answer import Answer
from output.files.write_folder import write_new
from output.report.tables import Passage

__all__ = ["ask_choice", "at_a_terminal", "begin_file", "body_meant", "name_of", "unit_meant"]

_Ask = Callable[[str], str]
_Word = TypeVar("_Word", bound=str)

_BODY_WORDS: Final = {
    "woman": {"woman", "women", "w", "me", "myself", "mine", "my", "lady", "female", "wife", "mother", "mum", "mom"}
    | {"sister", "aunt", "grandmother", "granny", "gran", "adult", "she", "her"},
    "girl": {"girl", "girls", "g", "daughter", "granddaughter", "niece"},
    "boy": {"boy", "boys", "b", "son", "grandson", "nephew"},
}
"""What people answer when asked whose body it is. "My daughter" is the daughter: see `body_meant`."""


def begin_file(what: str, file: Path | None, *, unit: str | None, quiet: bool) -> Answer:
    """A new file of a person, a garment or a bought pattern's chart.

    Raises InputProblems for a file that is there already, CannotWrite.
    """
    asked = at_a_terminal() and not quiet
    ask = _asked if asked else _left_out
    path, text = _NEW[what](file, unit, ask)
    write_new(path, text.encode())
    then = _THEN[what].format(path)
    lines = (f"{path}: open it in a text editor, and fill in what you know.", f"Then: {then}")
    return Answer(0, (Passage("Written", lines),), {"file": str(path), "then": then})


def _new_person(file: Path | None, unit: str | None, ask: _Ask) -> tuple[Path, str]:
    name = one_line(ask("Whose measurements are they? (a name) ")) or name_of(file)
    path = _accepted(file or Path(f"{file_word(name) or 'person'}.toml"))
    unit = unit or ask_choice(ask, "What do you measure in: cm, inches or mm?", unit_meant, "cm")
    body: BodyKind = ask_choice(ask, "Whose body is it: a woman's, a girl's or a boy's?", body_meant, "woman")
    taken = {key: told for key in BASICS if (told := _length(ask, key, unit, body))}
    return path, person_text(Measured(name or "Your name", body, unit, taken))


def _new_garment(file: Path | None, unit: str | None, ask: _Ask) -> tuple[Path, str]:
    title = one_line(ask("What is the garment called? ")) or name_of(file) or "My dress"
    path = _accepted(file or Path(file_named(title)))
    people = _people_near(path.parent)
    whose = people[0] if len(people) == 1 else one_line(ask("The file of the person it is for? "))
    wearer = whose or "person.toml"
    unit = unit or _unit_of(path.parent / wearer)
    blocks = [block.name for block in plain_blocks(_body_of(path.parent / wearer))]
    return path, garment_text(title, wearer, unit, blocks)


def _new_chart(file: Path | None, unit: str | None, ask: _Ask) -> tuple[Path, str]:
    title = one_line(ask("What is the pattern called? ")) or name_of(file) or "My pattern"
    path = _accepted(file or Path(file_named(title)))
    unit = unit or ask_choice(ask, "What is its chart in: cm, inches or mm?", unit_meant, "cm")
    body: BodyKind = ask_choice(ask, "Whose chart is it: women's, girls' or boys'?", body_meant, "woman")
    sizes = one_line(ask("What are the sizes called, smallest first? (8 10 12) "))
    return path, chart_text(title, unit, body, sizes)


_NEW: Final = {"person": _new_person, "garment": _new_garment, "chart": _new_chart}
_THEN: Final = {
    "person": "trueseam measure {}",
    "garment": "trueseam draft {}",
    "chart": "trueseam size {} PERSON.toml",
}


def _accepted(path: Path) -> Path:
    """The path, ending in .toml. Raises InputProblems for a file that is there already."""
    if path.suffix.casefold() != ".toml":
        path = path.with_name(f"{path.name}.toml")
    if path.exists() or path.is_symlink():
        read, mend = "a file that is there already", "Name another file: nothing is written over."
        raise InputProblems([Problem(printable(str(path), most=200), read, "a file that is not there yet", mend)])
    return path


def name_of(file: Path | None) -> str:
    """What a file is named, as a person or a garment is called: "Tea dress" for tea-dress.toml; "" for no file."""
    words = " ".join(file_word(file.name.removesuffix(".toml")).split("_")) if file is not None else ""
    return words[:1].upper() + words[1:]


def _people_near(folder: Path) -> list[str]:
    """The files of people in a folder, in the one named people in it or beside it, as a garment file names them."""
    found = []
    for place in (folder, folder / "people", folder / ".." / "people"):
        for path in sorted(place.glob("*.toml"))[:50]:
            if _is_person(path):
                found.append(path.relative_to(folder).as_posix())
    return found


def _is_person(path: Path) -> bool:
    try:
        return "measurements" in load_toml(path)
    except InputProblems:
        return False


def _unit_of(path: Path) -> str:
    """What a person's file is written in, whatever else is wrong with it."""
    try:
        return parse_file_unit(load_toml(path).get("unit"))
    except (InputProblems, NotRead):
        return "cm"


def _body_of(path: Path) -> BodyKind:
    """Whose body a person's file is of, whatever else is wrong with it; a woman's where it does not say."""
    try:
        told = load_toml(path).get("body")
    except InputProblems:
        told = None
    return next((kind for kind in BODY_KINDS if kind == told), "woman")


def at_a_terminal() -> bool:
    """Whether somebody is there to be asked."""
    return sys.stdin is not None and sys.stdin.isatty() and sys.stdout.isatty()


def _asked(question: str) -> str:
    try:
        return input(question).strip()
    except EOFError:
        return ""


def _left_out(_question: str) -> str:
    return ""


def ask_choice(ask: _Ask, question: str, meant: Callable[[str], _Word], default: _Word) -> _Word:
    """What an answer means, asked again until one is understood; `default` for none."""
    while told := ask(f"{question} (Enter for {default}) "):
        try:
            return meant(told)
        except NotRead as wrong:
            print(f"{wrong.read} is not understood here. {wrong.mend}")
    return default


def unit_meant(told: str) -> str:
    """The unit that an answer names. Raises NotRead."""
    try:
        return parse_file_unit(told)
    except NotRead as wrong:
        raise NotRead(wrong.read, wrong.expected, "Answer cm, inches or mm.") from None


def body_meant(told: str) -> BodyKind:
    """The kind of body that an answer names: "my daughter" is a girl. Raises NotRead."""
    words = set(re.findall(r"[a-z]+", told.casefold().replace("'s", "").replace("’s", "")))
    if words - {"my"}:
        words -= {"my"}
    kinds = [kind for kind in BODY_KINDS if words & _BODY_WORDS[kind]]
    if len(kinds) != 1:
        raise NotRead(shown(told), "a kind of body", "Answer woman, girl or boy: no other body can be drawn for yet.")
    return kinds[0]


def _length(ask: _Ask, key: str, unit: str, body: BodyKind) -> str:
    """A length as it goes into the file; asked for again until it can be read, "" when it is left out."""
    about = measurement_for(key, body)
    what = f"{about.name[0].upper()}{about.name[1:]}, in {'inches' if unit == 'in' else unit}?"
    while told := ask(f"{what} {about.how} (Enter to leave it out) "):
        written, wrong = length_as_written(told, key, unit, body)
        if not wrong:
            return written
        print(wrong)
    return ""
