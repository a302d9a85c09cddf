"""Garments as the page sees them: from the text of their files, without a server."""

from __future__ import annotations

import datetime
import tomllib
from pathlib import Path
from typing import Any

from output.api import check, draft, read_garment
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
    garment = read_garment(path)
    drafted = draft(garment)
    return Shown(
        garment=garment,
        draft=drafted,
        checks=check(drafted),
        before=before.draft if before else None,
        tables=tables,
        person=person,
        files=(path.name, wearer.name if wearer else ""),
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
