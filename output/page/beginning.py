"""A first file, written from what she tells: a person with her four lengths, or a garment of some blocks."""

from __future__ import annotations

import os
import tomllib
from collections.abc import Mapping
from datetime import date
from pathlib import PurePosixPath
from typing import Any, Final

from output.api import BLOCKS, TrueseamError
from output.api.beginning import (
    Measured,
    file_named,
    garment_text,
    length_as_written,
    one_line,
    person_text,
)
from output.api.kinds_to_begin import GarmentKind, garment_kinds, kind_tables
from output.api.order_options import plain_blocks
from output.api.showing import BASICS, BODY_KINDS, FILE_UNITS, BodyKind, measurement, measurement_for, write_new
from output.api.size_lines import CHARTS, chart_to_choose, sizes_written
from output.page.editing import edited_text
from output.page.edits import CannotEdit, Edit
from output.page.folder import Folder, NotInFolder
from output.page.request import text_of
from output.page.views.block_picture import picture_of_kind
from output.page.views.data import Data

__all__ = ["begin", "kind_picture", "kinds_to_begin"]

_MOST_OF_A_NAME: Final = 99
"""Files of one name that are numbered: "dress-2.toml" and on (our figure)."""


def begin(folder: Folder, listed: Data, given: Mapping[str, Any]) -> str:
    """The name of the file that was written. Raises CannotEdit, in a sentence, for what cannot be written down.

    listed: the people and garments that there are; given: what she told
    """
    if given.get("kind") == "chart":
        return _written(folder, "charts", *_chart(given.get("chart")))
    if given.get("kind") == "person":
        title, text = _person(given)
        place = _place(listed["people"], "people")
        return _written(folder, place, title, text)
    title = one_line(text_of(given, "title")) or "My dress"
    place = _place(listed["garments"], "garments")
    text = _garment(folder, listed["people"], place, title, given)
    return _written(folder, place, title, text)


def kinds_to_begin(body: str) -> list[Data]:
    """What a garment may begin as, for a kind of body: name, about, also (other words), and the names of its blocks."""
    return [
        {"name": each.name, "about": each.about, "also": list(each.also), "blocks": list(each.blocks)}
        for each in garment_kinds(_body(body))
    ]


def kind_picture(given: Mapping[str, Any]) -> Data:
    """What a kind of garment looks like, drafted in a middle size. given: the name of the kind, and whose body"""
    return picture_of_kind(text_of(given, "name"), _body(text_of(given, "body")))


def _body(told: object) -> BodyKind:
    return next((each for each in BODY_KINDS if each == told), "woman")


def _chart(given: object) -> tuple[str, str]:
    """What a chart is called, and its file. Raises CannotEdit for what is none, TrueseamError for one with slips."""
    if not isinstance(given, Mapping):
        raise CannotEdit("A chart is needed: sizes, and rows of numbers under them.")
    import tomlkit

    from output.api.sizing import accept_chart

    accept_chart(given)
    title = one_line(text_of(given, "title")) or "bought pattern"
    return title, tomlkit.dumps({**given, "title": title})


def _person(given: Mapping[str, Any]) -> tuple[str, str]:
    """The name and the text of the file for a new person; CannotEdit where something is lacking or wrong."""
    name = one_line(text_of(given, "name"))
    unit, lengths = given.get("unit"), given.get("lengths")
    body = next((each for each in BODY_KINDS if each == given.get("body")), None)
    if not name or unit not in FILE_UNITS or body is None or not isinstance(lengths, Mapping):
        raise CannotEdit("A name, a unit, whose body it is, and her lengths are needed.")
    taken, wrong = dict[str, str](), list[str]()
    for key in BASICS:
        about = measurement_for(key, body)
        told = str(lengths.get(measurement(key).word, lengths.get(key, ""))).strip()[:40]
        written, problem = length_as_written(told, key, unit, body) if told else ("", f"It is needed. {about.how}")
        if problem:
            wrong.append(f"{about.name[:1].upper()}{about.name[1:]}: {problem}")
        taken[key] = written
    if wrong:
        raise CannotEdit(" ".join(wrong))
    born = _day(text_of(given, "born"))
    today = date.today().isoformat()
    if body != "woman" and not born:
        raise CannotEdit("The day of the child's birth is needed, such as 2021-05-14.")
    return name, person_text(Measured(name, body, unit, taken, today, born if body != "woman" else ""))


def _day(told: str) -> str:
    """A day as it is written in a file; "" for none. Raises CannotEdit for what is no day that has been."""
    if not told:
        return ""
    try:
        day = date.fromisoformat(told)
    except ValueError:
        raise CannotEdit("The day of birth cannot be read: write it as year, month, day, such as 2021-05-14.") from None
    if day > date.today():
        raise CannotEdit("The day of birth has not been yet.")
    return day.isoformat()


def _garment(folder: Folder, people: list[Data], place: str, title: str, given: Mapping[str, Any]) -> str:
    """The text of the file for a new garment; CannotEdit where it is not said whose it is."""
    asked, path, sizes = given.get("sizes"), "", dict[str, object]()
    if isinstance(asked, Mapping):
        body, sizes = _sizes(asked)
        unit = next((each for each in FILE_UNITS if each == given.get("unit")), "cm")
    else:
        wearer = next((each for each in people if each["file"] == given.get("wearer")), None)
        if wearer is None:
            raise CannotEdit("Say whose it is: somebody whose lengths are written down here, or a size of a chart.")
        body, unit = wearer["body"], wearer["unit"]
        path = PurePosixPath(os.path.relpath(folder.path / wearer["file"], folder.path / place)).as_posix()
    kind = next((each for each in garment_kinds(_body(body)) if each.name == given.get("as")), None)
    blocks = _blocks(given, body) if kind is None else list(kind.blocks)
    text = garment_text(title, path, unit, blocks, sizes=sizes)
    return text if kind is None else _of_kind(kind, text, unit)


def _sizes(asked: Mapping[str, Any]) -> tuple[str, dict[str, object]]:
    """Whose chart it is, and what stands under `[sizes]` for the size that was asked for."""
    name, size, height = asked.get("chart"), asked.get("size"), asked.get("height")
    chart = next((chart_to_choose(each, "cm") for each in CHARTS if each == name), None)
    if chart is None or not isinstance(size, int) or size not in chart["sizes"]:
        raise CannotEdit("Say which size it is, of a chart that there is.")
    known = next((each for each in chart["heights"] if each == height), "")
    return chart["body"], sizes_written(str(name), size, known)


def _blocks(given: Mapping[str, Any], body: str) -> list[str]:
    by_name = {block.name: block.name if body in block.bodies else block.instead for block in BLOCKS}
    known = [block.name for block in BLOCKS if body in block.bodies]
    told = given.get("blocks", [block.name for block in plain_blocks(_body(body))])
    if not isinstance(told, list) or not told or any(each not in by_name for each in told):
        raise CannotEdit(f"Say what it is made of: {', '.join(known)}.")
    blocks = [by_name[each] for each in told]
    return [name for name in known if name in blocks]


def _of_kind(kind: GarmentKind, text: str, unit: str) -> str:
    """The text of a garment with what its kind has besides its blocks."""
    tables = kind_tables(kind, unit)
    written = [str(each.get("name")) for each in tomllib.loads(text).get("block", [])]
    edits = [
        Edit("garment", "set", ("block", written.index(table["name"]), key), value)
        for table in tables["block"]
        for key, value in table.items()
        if key != "name"
    ]
    if kind.cloth:
        edits.append(Edit("garment", "set", ("cloth", "kind"), kind.cloth))
    for name in ("part", "step"):
        edits += [Edit("garment", "insert", (name, place), table) for place, table in enumerate(tables[name])]
    return edited_text(text, edits)


def _place(listed: list[Data], kind: str) -> str:
    """The folder in which the others of that kind lie; one named after them for the first."""
    return PurePosixPath(listed[0]["file"]).parent.as_posix() if listed else kind


def _written(folder: Folder, place: str, title: str, text: str) -> str:
    """The name of the file, after one that was written under the first name that is free."""
    stem = file_named(title).removesuffix(".toml")
    for number in range(1, _MOST_OF_A_NAME + 1):
        name = PurePosixPath(place, f"{stem}-{number}.toml" if number > 1 else f"{stem}.toml").as_posix()
        try:
            path = folder.file(name)
            if not path.exists() and not path.is_symlink():
                write_new(path, text.encode())
                return name
        except NotInFolder:
            raise CannotEdit("No file can have that name: take another.") from None
        except TrueseamError as refused:
            raise CannotEdit(" ".join(refused.sentences())) from None
    raise CannotEdit("There are many of that name already: take another.")
