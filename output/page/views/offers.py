"""What would help, as a button that does it: remedies of checks and of refused steps turned into edits of the file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from output.api import BLOCKS, Garment
from output.api.steps import Remedy, remedy_words, taken_places, typed_settings, written_step
from output.page.views.data import Data, bare_unit, written_tables

__all__ = ["StepsInFile", "offers_of", "steps_in_file", "without_what_buttons_do"]


@dataclass(frozen=True, slots=True)
class StepsInFile:
    """The steps of a garment file, and which of them was taken when.

    tables: as they are written, those that are switched off among them
    taken:  for each step in the order taken, its place among `tables`; None for one that stands in another file
    unit:   what lengths are written in where she has written none yet
    bare:   the unit of plain numbers in the file; None where it says none
    blocks: the blocks as they are written
    parts:  the parts as they are written
    sizes:  the sizes as they are written
    as_written: whether the steps are taken in the order of the file
    """

    tables: Sequence[Mapping[str, Any]]
    taken: Sequence[int | None]
    unit: str
    bare: str | None = None
    blocks: Sequence[Mapping[str, Any]] = ()
    parts: Sequence[Mapping[str, Any]] = ()
    sizes: Mapping[str, Any] = field(default_factory=dict)
    as_written: bool = False


def steps_in_file(garment: Garment, tables: Mapping[str, Any]) -> StepsInFile:
    """The steps of the garment's own file, and when each of them is taken.

    Those of a file that it follows, and the blend of sizes, are written before them and stand elsewhere.
    """
    steps = written_tables(tables, "step")
    own = [place for place, table in enumerate(steps) if table.get("in_use") is not False]
    written = [*[None] * (len(garment.steps) - len(own)), *own]
    taken = [written[place] for place in taken_places(garment)]
    blocks, parts = written_tables(tables, "block"), written_tables(tables, "part")
    sizes, as_written = tables.get("sizes", {}), garment.order == "as written"
    return StepsInFile(steps, taken, garment.wearer.unit, bare_unit(tables), blocks, parts, sizes, as_written)


def offers_of(remedies: Iterable[Remedy], steps: StepsInFile) -> list[Data]:
    """A button for each remedy: its words, and the edits that it makes; none for what stands in another file."""
    return [offer for remedy in remedies if (offer := _offer(remedy, steps)) is not None]


def without_what_buttons_do(sentence: str, offers: Iterable[Data]) -> str:
    """The sentence without what is to be typed, `alter = "opening", at = "centre back"`, where a button writes it."""
    edits = [edit for offer in offers for edit in offer["edits"]]
    added = [edit["value"]["alter"] for edit in edits if edit["do"] == "insert"]
    added += [edit["value"] for edit in edits if edit["do"] == "set" and edit["at"][-1] == "alter"]
    for name in added:
        before = "(?:; this helps:|; this can be had:|[:,;]?) (?:(?:add|write|or) )?"
        typed = rf'{before}alter = "{re.escape(name)}"(?:, \w+ = "[^"]*")*'
        sentence = re.sub(typed, "", sentence)
    return sentence


def _offer(remedy: Remedy, steps: StepsInFile) -> Data | None:
    """A remedy as a button: its words and the changes it makes; None where the page cannot make them."""
    if remedy.act == "add":
        value = {"alter": remedy.alteration, **typed_settings(remedy, None, steps.unit)}
        edits = [{"in": "garment", "do": "insert", "at": ["step", len(steps.tables)], "value": value}]
        return {"words": remedy_words(remedy, steps.unit), "edits": edits}
    if remedy.act == "set in block":
        return _set_in_block(remedy, steps)
    if remedy.act == "set in part":
        return _set_in_part(remedy, steps)
    if remedy.act == "set in paper":
        values = typed_settings(remedy, None, steps.unit)
        on_paper = [
            {"in": "garment", "do": "set", "at": ["paper", key], "value": value} for key, value in values.items()
        ]
        return {"words": remedy_words(remedy, steps.unit), "edits": on_paper}
    if remedy.act == "set in sizes":
        others = [key for key in steps.sizes if key in ("waist", "hip", "upper_chest")]
        edits = [{"in": "garment", "do": "remove", "at": ["sizes", key]} for key in others]
        return {"words": "Name one size", "edits": edits} if edits else None
    return _in_step(remedy, steps)


def _in_step(remedy: Remedy, steps: StepsInFile) -> Data | None:
    """The step that was taken changed, exchanged for another or switched off; None where it stands in another file."""
    meant = steps.taken[remedy.step - 1 : None if remedy.onward else remedy.step]
    places = [place for place in meant if place is not None]
    if not places or len(places) < len(meant):
        return None
    if remedy.act == "put before":
        return _put_before(remedy, steps, places[0])
    if remedy.act == "leave out":
        off = [_set(place, "in_use", False) for place in places]
        return {"words": _left_out(remedy, len(places)), "edits": off}
    place = places[0]
    if remedy.act == "instead":
        return _instead(remedy, steps, place)
    written = written_step(steps.tables[place], unit=steps.bare)
    values = typed_settings(remedy, written, steps.unit)
    changes = [_set(place, key, value) if value != "" else _left(place, key) for key, value in values.items()]
    return {"words": remedy_words(remedy, steps.unit), "edits": changes}


def _put_before(remedy: Remedy, steps: StepsInFile, place: int) -> Data | None:
    """The step moved before another; None where the engine chooses the order, or that stands in another file."""
    number = next((int(float(each.value)) for each in remedy.settings if each.option == "step"), 0)
    to = steps.taken[number - 1] if number else None
    if to is None or not steps.as_written:
        return None
    moved = {"in": "garment", "do": "move", "at": ["step", place], "to": to}
    return {"words": f"Put it before “{remedy.alteration}”", "edits": [moved]}


def _instead(remedy: Remedy, steps: StepsInFile, place: int) -> Data:
    """Another step in the place of one: what is written in that goes, and it stays in use or not as it was."""
    value = {"alter": remedy.alteration, **typed_settings(remedy, None, steps.unit)}
    gone = [_left(place, key) for key in steps.tables[place] if key not in ("alter", "in_use", *value)]
    edits = [*gone, *(_set(place, key, each) for key, each in value.items())]
    return {"words": remedy_words(remedy, steps.unit), "edits": edits}


def _set_in_block(remedy: Remedy, steps: StepsInFile) -> Data | None:
    """The option set in every block that has it; None where none has."""
    options = {block.name: {option.name for option in block.options} for block in BLOCKS}
    edits = [
        {"in": "garment", "do": "set", "at": ["block", place, key], "value": value}
        for key, value in typed_settings(remedy, None, steps.unit).items()
        for place, table in enumerate(steps.blocks)
        if key in options.get(str(table.get("name")), ())
    ]
    return {"words": remedy_words(remedy, steps.unit), "edits": edits} if edits else None


def _set_in_part(remedy: Remedy, steps: StepsInFile) -> Data | None:
    """The option set in the part of that name; None where it is not written in the file."""
    values = typed_settings(remedy, None, steps.unit)
    edits = [
        {"in": "garment", "do": "set", "at": ["part", place, key], "value": value}
        for place, table in enumerate(steps.parts)
        if remedy.alteration in (table.get("called"), table.get("name"))
        for key, value in values.items()
    ]
    return {"words": remedy_words(remedy, steps.unit), "edits": edits} if edits else None


def _set(place: int, key: str, value: object) -> Data:
    return {"in": "garment", "do": "set", "at": ["step", place, key], "value": value}


def _left(place: int, key: str) -> Data:
    return {"in": "garment", "do": "remove", "at": ["step", place, key]}


def _left_out(remedy: Remedy, count: int) -> str:
    words = f"Switch “{remedy.alteration}” off"
    return f"{words}, and what comes after it" if count > 1 else words
