"""Garments as the page sees them: from the text of their files, without a server."""

from __future__ import annotations

import datetime
import tomllib
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

from output.api import Draft, check, draft, read_garment
from output.page.views.shown import Shown

EXAMPLES = Path(__file__).parents[3] / "examples"


def example(name: str) -> Shown:
    """An example garment by its name, "ferry-dress"."""
    return shown_file(EXAMPLES / "garments" / f"{name}.toml")


def shown_file(path: Path, before: Shown | None = None) -> Shown:
    """A garment file as it stands, with its wearer's; before: what it was before the last change."""
    tables = tomllib.loads(path.read_text(encoding="utf-8"))
    wearer = path.parent / tables["wearer"] if "wearer" in tables else None
    person: dict[str, Any] = tomllib.loads(wearer.read_text(encoding="utf-8")) if wearer else {}
    files = (path.name, wearer.name if wearer else "")
    return shown_draft(draft(read_garment(path)), before.draft if before else None, tables, person, files)


def shown_draft(
    drafted: Draft,
    before: Draft | None = None,
    tables: Mapping[str, Any] = MappingProxyType({}),
    person: Mapping[str, Any] = MappingProxyType({}),
    files: tuple[str, str] = ("dress.toml", "oda.toml"),
) -> Shown:
    """A draft by itself; what stands in its files is empty where it is not given."""
    return Shown(
        garment=drafted.garment,
        draft=drafted,
        checks=check(drafted),
        before=before,
        tables=tables,
        person=person,
        files=files,
        asked={},
        undo=None,
        redo=None,
    )


def shown_text(folder: Path, garment: str, person: str = "") -> Shown:
    """A garment from the texts of two files, written to a folder. The garment's wearer is "person.toml"."""
    (folder / "person.toml").write_text(person or PERSON, encoding="utf-8")
    path = folder / "garment.toml"
    path.write_text(garment, encoding="utf-8")
    return shown_file(path)


def plain(data: object) -> bool:
    """Whether JSON can hold it as it is."""
    if isinstance(data, dict):
        return all(isinstance(key, str) and plain(value) for key, value in data.items())
    if isinstance(data, (list, tuple)):
        return all(plain(each) for each in data)
    return data is None or (isinstance(data, (str, bool, int, float)) and not isinstance(data, datetime.date))


PERSON = """name = "Marit"
body = "woman"
unit = "cm"
[measurements]
height = 165
bust = 92
waist = "29 1/2 in"
hip = 99.5
"""

DRESS = """title = "Harbour dress"
wearer = "person.toml"
[[block]]
name = "bodice"
[[block]]
name = "sleeve"
[[block]]
name = "skirt"
length = "58 cm"
"""
