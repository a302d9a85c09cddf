"""Too much asked of every length of every block, part and alteration: what can be had is told in her unit, and typed.

Nobody who writes inches reads millimetres. Each remedy is put into the file as it stands in the sentence and in the
place that this names, and the file is drafted again: a bare 95 would be read as so many centimetres, and refused.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import pytest

from blocks.block_table import find_block
from blocks.from_file.garment_file import read_garment
from drafting.alterations import ALTERATIONS
from drafting.checks import Verdict
from drafting.errors import TrueseamError
from drafting.parts.part_table import PARTS
from drafting.reading.options import Option
from drafting.reading.units import sentence_in
from output.command.draft import make_garment
from tests.alteration_samples import SAMPLES, TROUSER_SAMPLES
from tests.sampling import some
from tests.sweep_parts import GARMENTS, Made

UNITS: Final = ("in", "cm")
_PEOPLE: Final = Path(__file__).parents[3] / "examples" / "people"
_TO_TYPE: Final = re.compile(r'\b([a-z_]+) = ("[^"]*"|-?[0-9][0-9.]*|true|false)')
_OFFERED: Final = re.compile(r"this can be had: |this passes: |; (?=\w+ = [^;]* passes)|asked for: (?=.* can be had)")
_OF_KNIT: Final = ("neck band", "wrist band", "hem band")
_OTHERS: Final = {"in": re.compile(r"\d (?:mm|cm)\b"), "cm": re.compile(r'"[^"]*\d mm"|\d in\b')}
"""What no sentence holds for whoever writes that unit."""

Table = Mapping[str, object]

File = Mapping[str, dict[str, Table]]
"""What stands in each of the blocks, parts and steps of a garment file, by name."""


@dataclass(frozen=True, slots=True)
class Ask:
    """One length asked for as large, or as small, as its option takes it, mm.

    place: "block", "part" or "step"; name: which; rest: what else that one says
    """

    place: str
    name: str
    made: Made
    option: str
    mm: float
    rest: tuple[tuple[str, object], ...] = ()

    @property
    def called(self) -> str:
        return f"{self.place}-{self.name}-{self.option}-{self.mm:.0f}"


def ends(option: Option) -> Iterator[float]:
    """The ends of the range of a length, just within."""
    if option.kind == "length":
        yield from (end + inward for end, inward in ((option.low, 0.001), (option.high, -0.001)) if end)


def asks() -> Iterator[Ask]:
    for made in GARMENTS.values():
        name = made.blocks[0][0]
        if made is next(each for each in GARMENTS.values() if each.blocks[0][0] == name):
            yield from (Ask("block", name, made, o.name, mm) for o in find_block(name).options for mm in ends(o))
    for part in PARTS:
        on = [made for made in GARMENTS.values() if part.fits(s := sites(made)) and not part.in_place_of(s)]
        made = next((each for each in on if each.cloth == "jersey" and part.name in _OF_KNIT), on[0])
        yield from (Ask("part", part.name, made, o.name, mm) for o in part.options for mm in ends(o))
    for samples, worn in ((SAMPLES, "dress"), (TROUSER_SAMPLES, "trousers")):
        for name, amounts in samples.items():
            if name != "put sleeve in":
                step = ALTERATIONS.named(name)
                rest = tuple(amounts[0].items())
                yield from (Ask("step", name, GARMENTS[worn], o.name, mm, rest) for o in step.options for mm in ends(o))


def sites(made: Made) -> set[object]:
    return {site for block, _ in made.blocks for site in find_block(block).sites}


def order(ask: Ask) -> File:
    """The file that asks for it."""
    file: dict[str, dict[str, Table]] = {"block": {}, "part": {}, "step": {}}
    file["block"] = {name: dict(options) for name, options in ask.made.blocks}
    kinds = {o.name: o.kind for o in ALTERATIONS.named(ask.name).options} if ask.place == "step" else {}
    rest = {key: in_file(kinds.get(key, ""), value) for key, value in ask.rest if value is not None}
    if ask.name == "shirt collar":
        file["step"]["opening"] = {"at": "centre front", "fasten": "buttons"}
    file[ask.place][ask.name] = {**file[ask.place].get(ask.name, {}), **rest, ask.option: f"{ask.mm:.6f} mm"}
    return file


def in_file(kind: str, value: object) -> object:
    """A value as a file holds it: a length of the program, mm, with its unit behind it."""
    if isinstance(value, float) and kind in ("length", "percent"):
        return f"{value} mm" if kind == "length" else f"{100.0 * value} %"
    return value


def text(file: File, ask: Ask, unit: str) -> str:
    who = _PEOPLE / ("tuva.toml" if ask.made.child else "oda.toml")
    lines = ['title = "Asked"', f'unit = "{unit}"', f'wearer = "{who}"', "[cloth]", f'kind = "{ask.made.cloth}"']
    for place, head in (("block", "name"), ("part", "name"), ("step", "alter")):
        for name, options in file[place].items():
            lines += [f"[[{place}]]", f'{head} = "{name}"', *(f"{key} = {typed(v)}" for key, v in options.items())]
    return "\n".join(lines)


def typed(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return f"{value:g}" if isinstance(value, int | float) else f'"{value}"'


def said_of(path: Path, written: str, unit: str) -> list[str]:
    """What a draft of the file is refused with, else what its failed checks give to do; as it is told."""
    path.write_text(written, encoding="utf-8")
    try:
        whole = make_garment(read_garment(path))
    except TrueseamError as refused:
        return list(refused.sentences())
    return [f"{r.check}, {r.where}: {sentence_in(unit, r.remedy)}" for r in whole.results if r.verdict is Verdict.FAIL]


def offers(sentence: str) -> Iterator[dict[str, object]]:
    """What a sentence offers to type, each way by itself."""
    for offered in _OFFERED.split(sentence)[1:2]:
        for way in offered.split("; or "):
            if settings := _TO_TYPE.findall(way):
                yield tomllib.loads("\n".join(f"{key} = {value}" for key, value in settings))


def typed_into(file: File, ask: Ask, sentence: str, given: Table) -> File:
    """The file with what was offered, in the part or the block the sentence names, else where too much was asked."""
    place, name = ask.place, ask.name
    if part := re.search(r'in the part "([^"]+)"|It came with the "([^"]+)";', sentence):
        place, name = "part", part[1] or part[2]
    elif block := re.search(r'It (?:is|came with) the "\w+" of the (.+?)(?: that was|;)', sentence):
        place, name = "block", block[1]
    changed = {each: dict(tables) for each, tables in file.items()}
    changed[place][name] = {**changed[place].get(name, {}), **given}
    return changed


def judged(ask: Ask, unit: str, folder: Path) -> Iterator[str]:
    """What is wrong with what is told of an order that asks for too much."""
    file, path = order(ask), folder / "asked.toml"
    for sentence in said_of(path, text(file, ask, unit), unit):
        told = sentence.replace(str(path), "")
        if _OTHERS[unit].search(told):
            yield f"not in her unit: {sentence}"
        for given in offers(sentence):
            after = said_of(path, text(typed_into(file, ask, sentence, given), ask, unit), unit)
            if any(each.partition(":")[0] == sentence.partition(":")[0] for each in after):
                yield f"{given} does not help: {sentence} -> {after}"


ASKS: Final = tuple(asks())


@pytest.mark.parametrize("ask", some(ASKS, every=75, first=43), ids=lambda ask: ask.called)
def test_what_can_be_had_is_told_in_her_unit_and_can_be_typed(ask: Ask, tmp_path: Path) -> None:
    assert [fault for unit in UNITS for fault in judged(ask, unit, tmp_path)] == []
