"""`trueseam new`: a file to start from, every line of it with what it is for; what it needs to know is asked."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from textwrap import wrap
from typing import Final

from drafting.body.terms import BASICS, BODY_KINDS, MEASUREMENTS, limits, measurement
from drafting.errors import InputProblems, Problem
from drafting.reading.files import load_toml
from drafting.reading.key_words import file_word
from drafting.reading.units import (
    FILE_UNITS,
    NotRead,
    least_text,
    length_text,
    length_unit,
    most_text,
    parse_file_unit,
    parse_length,
    printable,
    shown,
)
from output.command.answer import Answer
from output.files.write_folder import write_new
from output.report.tables import Passage

__all__ = ["begin_file"]

_Ask = Callable[[str], str]

_EXAMPLES: Final = {
    "stature": ("168", "1680", '"66 1/4"'),
    "bust_girth": ("94", "940", "37"),
    "waist_girth": ("76.5", "765", '"30 1/8"'),
    "hip_girth": ("101", "1010", '"39 3/4"'),
}
"""What a line looks like, in each of `FILE_UNITS`; her own number is left to be written."""

_LENGTHS: Final = {
    "cm": ("5 cm", "60 cm", "2.5 cm", "1.5 cm", "4 cm"),
    "in": ("2 in", "24 in", "1 in", "5/8 in", "1 1/2 in"),
    "mm": ("50 mm", "600 mm", "25 mm", "15 mm", "40 mm"),
}
"""An ease, a skirt, an alteration, a seam allowance and a hem to begin with."""

_BODY_WORDS: Final = {
    "woman": {"woman", "women", "w", "me", "myself", "mine", "my", "lady", "female", "wife", "mother", "mum", "mom"}
    | {"sister", "aunt", "grandmother", "granny", "gran", "adult", "she", "her"},
    "girl": {"girl", "girls", "g", "daughter", "granddaughter", "niece"},
    "boy": {"boy", "boys", "b", "son", "grandson", "nephew"},
}
"""What people answer when asked whose body it is. "My daughter" is the daughter: see `_body_meant`."""

_OFTEN: Final = (
    "upper_chest_girth",
    "back_waist_length",
    "front_waist_length_from_neck_pit",
    "shoulder_length",
    "interscye_mid_distance",
    "neck_base_girth",
    "neck_to_bust_point",
    "bust_point_breadth",
    "upper_arm_girth",
    "wrist_girth",
    "arm_length",
    "waist_to_hip",
)
"""The measurements that change a pattern most, after the four that must be there."""


@dataclass(frozen=True, slots=True)
class _Person:
    """What is known of a person whose file is begun: the four girths and lengths as she typed them."""

    name: str
    body: str
    unit: str
    taken: dict[str, str]


def begin_file(what: str, file: Path | None, *, unit: str | None, quiet: bool) -> Answer:
    """A new file of a person or a garment. Raises InputProblems for a file that is there already, CannotWrite."""
    asked = _at_a_terminal() and not quiet
    ask = _asked if asked else _left_out
    path, text = (_new_person if what == "person" else _new_garment)(file, unit, ask)
    write_new(path, text.encode())
    then = f"trueseam measure {path}" if what == "person" else f"trueseam draft {path}"
    lines = (f"{path}: open it in a text editor, and fill in what you know.", f"Then: {then}")
    return Answer(0, (Passage("Written", lines),), {"file": str(path), "then": then})


def _new_person(file: Path | None, unit: str | None, ask: _Ask) -> tuple[Path, str]:
    name = _one_line(ask("Whose measurements are they? (a name) ")) or _name_of(file)
    path = _accepted(file or Path(f"{file_word(name) or 'person'}.toml"))
    unit = unit or _choice(ask, "What do you measure in: cm, inches or mm?", _unit_meant, "cm")
    body = _choice(ask, "Whose body is it: a woman's, a girl's or a boy's?", _body_meant, "woman")
    taken = {key: told for key in BASICS if (told := _length(ask, key, unit, body))}
    return path, "\n".join(_person_lines(_Person(name or "Your name", body, unit, taken))) + "\n"


def _new_garment(file: Path | None, unit: str | None, ask: _Ask) -> tuple[Path, str]:
    title = _one_line(ask("What is the garment called? ")) or _name_of(file) or "My dress"
    path = _accepted(file or Path(f"{file_word(title).replace('_', '-')}.toml"))
    people = _people_near(path.parent)
    whose = people[0] if len(people) == 1 else _one_line(ask("The file of the person it is for? "))
    wearer = whose or "person.toml"
    unit = unit or _unit_of(path.parent / wearer)
    return path, "\n".join(_garment_lines(title, wearer, unit)) + "\n"


def _person_lines(who: _Person) -> Iterator[str]:
    yield "# The measurements of one person. A line that begins with # changes nothing: take the # away to use it."
    yield ""
    yield f'name = "{who.name}"'
    yield '# "woman", "girl" or "boy"'
    yield f'body = "{who.body}"'
    yield '# What plain numbers are in: "cm", "in" or "mm". Another unit is written behind its number.'
    yield f'unit = "{who.unit}"'
    yield "# The day she was measured:"
    yield "#measured = 2026-09-20"
    yield ""
    yield "[measurements]"
    fraction = '"92.5 cm"' if who.unit == "in" else '"36 1/2 in"'
    yield f'# A plain number stands as it is, what holds a fraction or a unit in quotes: "29 1/2", {fraction}.'
    yield ""
    yield "# These four must be there."
    example = FILE_UNITS.index(who.unit)
    for key in BASICS:
        yield f"# {measurement(key).how}"
        told = who.taken.get(key)
        yield f"{measurement(key).word} = {told}" if told else f"#{measurement(key).word} = {_EXAMPLES[key][example]}"
    yield ""
    yield "# Each of these makes the pattern more hers. What is left out is estimated, and you are told so."
    for key in _OFTEN:
        yield f"# {measurement(key).how}"
        yield f"#{measurement(key).word} ="
    yield ""
    rest = [each.word for each in MEASUREMENTS if each.key not in (*BASICS, *_OFTEN)]
    yield from _comment(f"More can be measured: {', '.join(rest)}. `trueseam list measurements` says how.")


def _garment_lines(title: str, wearer: str, unit: str) -> Iterator[str]:
    ease, long, by, seam, hem = _LENGTHS[unit]
    yield "# A garment. A line that begins with # changes nothing: take the # away to use it."
    yield ""
    yield f'title = "{title}"'
    yield "# The file of the person it is for:"
    yield f'wearer = "{wearer}"'
    yield '# "close", "regular" or "loose"'
    yield 'fit = "regular"'
    yield "#date = 2026-10-01"
    yield ""
    yield "[cloth]"
    yield '# "woven", or "knit" with how far it stretches: stretch = "40 %"'
    yield 'kind = "woven"'
    yield ""
    yield "# The blocks it is made of: leave out what you do not want. `trueseam list bodice` tells all about one."
    yield "[[block]]"
    yield 'name = "bodice"'
    yield "# How much larger than the body; left out, as the cloth and the fit ask:"
    yield f'#ease = {{ bust = "{ease}", waist = "{ease}" }}'
    yield ""
    yield "[[block]]"
    yield 'name = "sleeve"'
    yield ""
    yield "[[block]]"
    yield 'name = "skirt"'
    yield "# From the waist to the hem; left out, to the knee:"
    yield f'#length = "{long}"'
    yield ""
    yield "# What is altered, one step after the other. `trueseam list alterations` shows what there is."
    yield "#[[step]]"
    yield '#alter = "shorten"'
    yield '#piece = "sleeve"'
    yield f'#by = "{by}"'
    yield ""
    yield "[paper]"
    yield "# A4, Letter, A3 or A0:"
    yield f'size = "{"Letter" if unit == "in" else "A4"}"'
    yield f'seam_allowance = "{seam}"'
    yield f'hem = "{hem}"'
    yield "# The width of the copy shop's roll of paper; left out, it prints on sheets of A0:"
    yield f'#roll = "{length_text(914.4, unit)}"'


def _comment(sentence: str) -> Iterator[str]:
    yield from wrap(sentence, 110, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False)


def _accepted(path: Path) -> Path:
    """The path, ending in .toml. Raises InputProblems for a file that is there already."""
    if path.suffix.casefold() != ".toml":
        path = path.with_name(f"{path.name}.toml")
    if path.exists() or path.is_symlink():
        read, mend = "a file that is there already", "Name another file: nothing is written over."
        raise InputProblems([Problem(printable(str(path), most=200), read, "a file that is not there yet", mend)])
    return path


def _name_of(file: Path | None) -> str:
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


def _at_a_terminal() -> bool:
    return sys.stdin is not None and sys.stdin.isatty() and sys.stdout.isatty()


def _asked(question: str) -> str:
    try:
        return input(question).strip()
    except EOFError:
        return ""


def _left_out(_question: str) -> str:
    return ""


def _one_line(text: str) -> str:
    """A text fit to stand between quotation marks."""
    return printable(text, most=80).replace('"', "'").replace("\\", "/").strip()


def _choice(ask: _Ask, question: str, meant: Callable[[str], str], default: str) -> str:
    """What an answer means, asked again until one is understood; `default` for none."""
    while told := ask(f"{question} (Enter for {default}) "):
        try:
            return meant(told)
        except NotRead as wrong:
            print(f"{wrong.read} is not understood here. {wrong.mend}")
    return default


def _unit_meant(told: str) -> str:
    try:
        return parse_file_unit(told)
    except NotRead as wrong:
        raise NotRead(wrong.read, wrong.expected, "Answer cm, inches or mm.") from None


def _body_meant(told: str) -> str:
    words = set(re.findall(r"[a-z]+", told.casefold().replace("'s", "").replace("’s", "")))
    if words - {"my"}:
        words -= {"my"}
    kinds = [kind for kind in BODY_KINDS if words & _BODY_WORDS[kind]]
    if len(kinds) != 1:
        raise NotRead(shown(told), "a kind of body", "Answer woman, girl or boy: no other body can be drawn for yet.")
    return kinds[0]


def _length(ask: _Ask, key: str, unit: str, body: str) -> str:
    """A length as it goes into the file; asked for again until it can be read, "" when it is left out."""
    about = measurement(key)
    kind = next(each for each in BODY_KINDS if each == body)
    low, high = limits(kind)[key]
    what = f"{about.name[0].upper()}{about.name[1:]}, in {'inches' if unit == 'in' else unit}?"
    while told := ask(f"{what} {about.how} (Enter to leave it out) "):
        try:
            mm = parse_length(told, unit=unit)
        except NotRead as wrong:
            print(f"{wrong}")
            continue
        if low <= mm <= high:
            plain = told.replace(".", "", 1).isdigit()
            return told if plain else f'"{_one_line(told)}"'
        shows = length_unit(told) or unit
        span = f"from {least_text(low, shows)} to {most_text(high, shows)}"
        print(f"That would be {length_text(mm, shows)}, expected is a length {span}.")
    return ""
