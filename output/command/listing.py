"""`trueseam list`: everything there is, with every option, its unit, its range and what stands when it is left out."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from blocks.block_table import BLOCKS, Block
from drafting.alterations import ALTERATIONS, Alteration, Layer
from drafting.alterations.alteration_table import OPTION_WORDS, words_for
from drafting.alterations.alteration_words import ASKED, Word, plain_word
from drafting.body.terms import BASICS, MEASUREMENTS, measurement
from drafting.checks import CHECKS
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, meant
from drafting.fit.ease import EASE_LIMITS, EASE_WORDS
from drafting.other_names import other_names
from drafting.parts.part_table import PARTS, Part, sites_text
from drafting.pattern import Piece
from drafting.reading.options import Option, Required
from drafting.reading.units import least_text, length_text, most_text, percent, printable, sentence_in
from output.api.size_lines import ABOVE, BELOW, COLUMNS, size_lines
from output.command.answer import Answer
from output.command.list_cloths import CLOTH_COLUMNS, CLOTHS, CLOTHS_ABOVE, cloth_lines, cloths_below
from output.command.list_pieces import ANY_SIZE, drafted_pieces, named_parts, named_sentence
from output.report.table_text import WIDEST
from output.report.tables import Column, Row, Table
from output.sheets.papers import PAPERS

__all__ = ["LISTS", "list_named"]


_FINE: Final = 1.0  # mm: a length below it is told finer than the others, else it would be none
_OPTIONS: Final = (Column("option"), Column("what it says"), Column("range"), Column("left out"))


@dataclass(frozen=True, slots=True)
class _Entry:
    """One thing there is.

    words: what it may be asked for by
    line:  what is said of it where all are listed
    whole: everything about it
    data:  the same for a program
    """

    words: tuple[str, ...]
    line: tuple[str, ...]
    whole: Table
    data: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class _List:
    """A list of things: each of them, and the table of all."""

    entries: tuple[_Entry, ...]
    table: Table


def list_named(what: str, *, unit: str = "cm") -> Answer:
    """The list of that name, or the one thing of that name in any of them. Raises InputProblems for what is neither.

    unit: what lengths are shown in
    """
    asked = "alteration" if plain_word(what) == "step" else plain_word(what)
    for name, build in LISTS.items():
        if asked == plain_word(name):
            found = build(unit)
            return Answer(0, (found.table,), {name: [entry.data for entry in found.entries]})
    names: list[str] = list(LISTS)
    for name, build in LISTS.items():
        for entry in build(unit).entries:
            if asked in map(plain_word, entry.words):
                return Answer(0, (entry.whole,), {name: [entry.data]})
            names.extend(entry.words)
    told = ASKED.get(asked) or meant(what, dict.fromkeys(names))
    expected = f"{', '.join(list(LISTS)[:-1])}, {list(LISTS)[-1]}, or the name of one of them"
    raise InputProblems([Problem("the command line, list", f'"{printable(what)}"', expected, told)])


def _blocks(unit: str) -> _List:
    drawn = {body: drafted_pieces(body) for body in ANY_SIZE}
    return _in_lines("Blocks", [_block(block, drawn[block.bodies[0]][block.name], unit) for block in BLOCKS], "bodice")


def _block(block: Block, drawn: Mapping[str, Piece], unit: str) -> _Entry:
    """What the list says of one block: its line, its options as a table, and its data."""
    named = list(map(named_parts, drawn.values()))
    options = [*map(_option, block.options), *(_ease_option(place) for place in block.places)]
    needs = ", ".join(measurement(key).name for key in block.needs)
    about = f"{block.about[0].upper()}{block.about[1:]}."
    whole = Table(
        f'name = "{block.name}"',
        _OPTIONS,
        tuple(_option_row(option, unit) for option in options),
        above=about,
        below=(*map(named_sentence, named), f"Drawn from: {needs}.", sentence_in(unit, f"Follows: {block.source}.")),
    )
    data: dict[str, object] = {
        "name": block.name,
        "about": block.about,
        "pieces": list(block.pieces),
        "named": named,
        "needs": list(block.needs),
        "options": options,
        "source": block.source,
    }
    return _Entry((block.name, *other_names(block.name)), (block.name, about), whole, data)


def _in_lines(title: str, entries: Sequence[_Entry], example: str) -> _List:
    """A list that shows each in one line, as wide as the terminal is."""
    columns = (Column("name"), Column("what it does"))
    names = max(len(entry.line[0]) for entry in entries)
    room = min(shutil.get_terminal_size().columns, WIDEST) - names - 4
    rows = tuple(Row((entry.line[0], _cut(entry.line[1], room))) for entry in entries)
    below = (f"`trueseam list {example}` tells all about one.",)
    return _List(tuple(entries), Table(title, columns, rows, below=below))


def _cut(sentence: str, room: int) -> str:
    """A sentence in one line: up to the last of its parts that goes in, then "..." where there is more."""
    sentence = sentence.rstrip(".")
    if len(sentence) <= room:
        return sentence
    parts = (sentence[: found.start()] for found in re.finditer(r"[,:;.]| (?:at|along|for|from|so that|as) ", sentence))
    whole = (part for part in parts if len(part) <= room - 4 and " " in part.rpartition(", ")[2])
    cut = max(whole, key=len, default=sentence[: room - 4].rpartition(" ")[0])
    return f"{cut.rstrip(',:;')} ..."


def _alterations(unit: str) -> _List:
    found = _in_lines("Alterations", [_alteration(each, unit) for each in ALTERATIONS], "lengthen")
    order = f"Steps are taken as they are listed here, however they are written: {'; '.join(Layer)}."
    return replace(found, table=replace(found.table, below=(order, *found.table.below)))


def _alteration(alteration: type[Alteration], unit: str) -> _Entry:
    """What the list says of one alteration: its line, its options as a table, and its data."""
    options = [_option(option) for option in alteration.options]
    others = words_for(alteration.name)
    whole = Table(
        f'alter = "{alteration.name}"',
        _OPTIONS,
        tuple(_option_row(option, unit) for option in options),
        above=sentence_in(unit, alteration.about),
        below=(
            *_other_words(others),
            f"Leaves exactly as they were: {alteration.leaves}.",
            f"Carries to: {alteration.carries}.",
            f"Its turn among the steps: {alteration.layer}.",
        ),
    )
    words = [word.word for word in others]
    data: dict[str, object] = {
        "name": alteration.name,
        "about": alteration.about,
        "layer": alteration.layer,
        "also": words,
        "leaves": alteration.leaves,
        "carries": alteration.carries,
        "options": options,
    }
    return _Entry((alteration.name, *words), (alteration.name, alteration.about), whole, data)


def _other_words(words: Sequence[Word]) -> Iterator[str]:
    """The other words for an alteration: a sentence for those that say the same beside its name, plain ones first."""
    groups: dict[tuple[str, str], list[str]] = {}
    for word in words:
        opposite = f"for the opposite, with {' and '.join(word.turned)} above zero" if word.turned else ""
        sets = ", ".join(f"{name} = {json.dumps(value)}" for name, value in word.sets.items())
        groups.setdefault((sets, opposite), []).append(f'"{word.word}"')
    for (sets, opposite), quoted in sorted(groups.items(), key=lambda group: group[0]):
        said = " and ".join(part for part in (opposite, f"for {sets}" if sets else "") if part) or "also called"
        yield f"{said[0].upper()}{said[1:]}: {', '.join(quoted)}."


def _parts(unit: str) -> _List:
    return _in_lines("Parts", [_part(part, unit) for part in PARTS], PARTS[0].name)


def _part(part: Part, unit: str) -> _Entry:
    """What the list says of one part: its line, its options as a table, and its data."""
    options = [_option(option) for option in part.options]
    rows = tuple(_option_row(option, unit) for option in options)
    drawn_to = [
        {"place": str(to.place), "part": str(to.identity.part), "kind": str(to.identity.kind)} for to in part.to
    ]
    below = (
        f"Sewn to {sites_text(part.needs)}; drawn to it, and again whenever that is altered.",
        "An alteration never comes too late for it.",
    )
    whole = Table(f'[[part]] name = "{part.name}"', _OPTIONS, rows, above=sentence_in(unit, part.about), below=below)
    data = {
        "name": part.name,
        "about": part.about,
        "drawn_to": drawn_to,
        "sewn_to": [str(site) for site in part.needs],
        "several": part.several,
        "options": options,
    }
    return _Entry((part.name, *other_names(part.name)), (part.name, part.about), whole, data)


def _checks(_unit: str) -> _List:
    columns = (Column("check"), Column("what it looks at"), Column("code"))
    entries = []
    for check in CHECKS:
        row = Row((check.name, check.about, check.code))
        data = {"code": check.code, "name": check.name, "about": check.about}
        entries.append(_Entry((check.name, check.code), row.cells, Table("Check", columns, (row,)), data))
    return _List(tuple(entries), Table("Checks", columns, tuple(Row(entry.line) for entry in entries)))


def _measurements(unit: str) -> _List:
    """The list of measurements: how each is taken, and what it usually is."""
    columns = (Column("measurement"), Column("how it is measured"), Column("a woman"), Column("a child"))
    entries = []
    for each in MEASUREMENTS:
        name = each.name if each.name == each.word else f"{each.name}\n{each.word}"
        row = Row((name, each.how, _range(*each.woman, unit), _range(*each.child, unit)))
        also = [word for word in (*each.also, each.term) if word not in ("own", each.name)]
        below = (f"Look to: {each.again}", *([f"Also called: {', '.join(also)}."] if also else []))
        whole = Table("Measurement", columns, (row,), below=below)
        data: dict[str, object] = {
            "key": each.key,
            "name": each.name,
            "word": each.word,
            "also": list(each.also),
            "term": each.term,
            "kind": each.kind,
            "take": each.how,
            "needed": each.key in BASICS,
            "woman_mm": list(each.woman),
            "child_mm": list(each.child),
        }
        entries.append(_Entry((each.name, each.word, each.key, *also), row.cells, whole, data))
    basics = ", ".join(measurement(key).name for key in BASICS)
    table = Table(
        "Measurements",
        columns,
        tuple(Row(entry.line) for entry in entries),
        above="They stand under [measurements] in a person's file, in one word: back_waist_length. Others are known "
        "too: nape_to_waist, sleeve_length, and the terms of ISO 8559-1.",
        below=(f"Needed: {basics}. The others are estimated where they are left out.",),
    )
    return _List(tuple(entries), table)


def _sizes(unit: str) -> _List:
    entries = []
    for line in size_lines(unit):
        whole = Table("Size", COLUMNS, (Row(line.cells),), above=ABOVE)
        entries.append(_Entry(line.words, line.cells, whole, line.data))
    rows = tuple(Row(entry.line) for entry in entries)
    below = tuple(sentence_in(unit, sentence) for sentence in BELOW)
    return _List(tuple(entries), Table("Sizes", COLUMNS, rows, above=ABOVE, below=below))


def _cloths(unit: str) -> _List:
    entries = tuple(_Entry(each.words, each.cells, each.whole, each.data) for each in cloth_lines(unit))
    rows = tuple(Row(entry.line) for entry in entries)
    return _List(entries, Table(CLOTHS, CLOTH_COLUMNS, rows, above=CLOTHS_ABOVE, below=cloths_below(unit)))


def _papers(unit: str) -> _List:
    """The list of papers: how large each is, and how much of it is drawn on."""
    columns = (Column("paper"), Column("its size", True), Column("drawn on", True))
    entries = []
    for paper in PAPERS.values():
        sizes = (_size(paper.width, paper.height, unit), _size(paper.area_width, paper.area_height, unit))
        row = Row((paper.name, *sizes))
        data: dict[str, object] = {
            "name": paper.name,
            "mm": [paper.width, paper.height],
            "drawn_mm": [paper.area_width, paper.area_height],
        }
        entries.append(_Entry((paper.name,), row.cells, Table("Paper", columns, (row,)), data))
    wide = length_text(914.4, unit)
    below = (
        f'A copy shop\'s roll of paper is named by its width: --paper "roll {wide}", or roll = "{wide}" under [paper].'
    )
    rows = tuple(Row(entry.line) for entry in entries)
    return _List(tuple(entries), Table("Papers", columns, rows, below=(below,)))


LISTS: Final[Mapping[str, Callable[[str], _List]]] = MappingProxyType(
    {
        "blocks": _blocks,
        "alterations": _alterations,
        "parts": _parts,
        "checks": _checks,
        "measurements": _measurements,
        "sizes": _sizes,
        "cloths": _cloths,
        "papers": _papers,
    }
)
"""What can be listed."""


def _option(option: Option) -> dict[str, object]:
    """An option as data: its range and default in mm, as a fraction of one, or in degrees."""
    required = isinstance(option.default, Required)
    return {
        "name": option.name,
        "about": option.about,
        "kind": option.kind,
        "low": option.low,
        "high": option.high,
        "choices": list(option.choices),
        "required": required,
        "default": None if isinstance(option.default, Required) else option.default,
    }


def _ease_option(place: str) -> dict[str, object]:
    """The ease at one place as data, in the form of an option of a block."""
    low, high = EASE_LIMITS[place]
    plain = place == "cap_ease"
    shown = EASE_WORDS.called(place).replace("_", " ")
    about = "how much longer the cap is than the armhole" if plain else f"ease added at: {shown}"
    return {
        "name": place if plain else f"ease.{place}",
        "about": about,
        "kind": "length",
        "low": low,
        "high": high,
        "choices": [],
        "required": False,
        "default": "by cloth and fit",
    }


def _option_row(option: Mapping[str, object], unit: str) -> Row:
    """The row of a table for one option: its name, what it is, its range, and what holds where it is left out."""
    kind = str(option["kind"])
    choices = option["choices"]
    ranged = ", ".join(map(str, choices)) if isinstance(choices, list) and choices else _span(kind, option, unit)
    default = option["default"]
    if option["required"]:
        left_out = "must be given"
    elif default is None or default == "":
        left_out = "see what it says" if default is None else "none"
    elif isinstance(default, str):
        left_out = default
    elif isinstance(default, bool):
        left_out = "true" if default else "false"
    elif kind == "length" and isinstance(default, float) and 0.0 < abs(default) < _FINE:
        left_out = sentence_in(unit, f"{default:g} mm")
    else:
        left_out = _shown(kind, default, unit)
    plain = str(option["name"])
    name = OPTION_WORDS.get(plain, plain.replace("scye_depth", EASE_WORDS.called("scye_depth")))
    return Row((name, sentence_in(unit, str(option["about"])), ranged, left_out))


def _span(kind: str, option: Mapping[str, object], unit: str) -> str:
    low, high = option["low"], option["high"]
    degrees = " degrees" if kind == "angle" else ""
    if low is None and high is None:
        return {"text": "a name", "flag": "true or false"}.get(kind, f"any {kind}")
    if low is None or high is None:
        limit = f"{_shown(kind, high, unit)} or less" if low is None else f"{_shown(kind, low, unit, up=True)} or more"
        return limit + degrees
    return f"{_shown(kind, low, unit, up=True)} to {_shown(kind, high, unit)}{degrees}"


def _shown(kind: str, value: object, unit: str, *, up: bool = False) -> str:
    number = float(value) if isinstance(value, float | int) else 0.0
    if kind == "length":
        return least_text(number, unit) if up else most_text(number, unit)
    return percent(number) if kind == "percent" else f"{number:g}"


def _range(low: float, high: float, unit: str) -> str:
    return f"{least_text(low, unit).removesuffix(f' {unit}')} to {most_text(high, unit)}"


def _size(width: float, height: float, unit: str) -> str:
    return f"{length_text(width, unit).removesuffix(f' {unit}')} by {length_text(height, unit)}"
