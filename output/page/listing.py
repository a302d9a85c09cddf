"""What lies in the folder, to begin with: the people, and the garments. Told from the files, before any is drafted."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import PurePosixPath
from typing import Any, Final

from output.page.files import read_files
from output.page.folder import Folder, NotInFolder
from output.page.request import text_of
from output.page.texts import NoText, is_order, read_text, tables_of

__all__ = ["UNREAD", "listed"]

Data = dict[str, Any]

UNREAD: Final = "It cannot be read as it stands."
_OF_A_GARMENT: Final = frozenset({"block", "wearer", "like", "title"})


def listed(folder: Folder) -> Data:
    """The people and garments of a folder.

    folder:   where it is
    people:   file, name, unit, body
    garments: file, title; for: the file of its wearer, "" for none here; chart: whether it is made in a chart's sizes;
              picture: None until it is drawn; problem: only where it cannot be read
    charts:   file, title of each chart of a bought pattern
    patterns: the files of patterns from elsewhere
    lacks:    "people" or "garments" where there are none of them yet
    """
    people: list[Data] = []
    garments: list[Data] = []
    charts: list[Data] = []
    patterns = folder.patterns()
    beside = {str(PurePosixPath(name).with_suffix(".toml")) for name in patterns}
    for name in folder.files():
        tables = _tables(folder, name)
        if name in beside and not (tables and is_order(tables)):
            continue
        if tables is None:
            garments.append({"file": name, "title": name, "for": "", "chart": False, "problem": UNREAD})
        elif "measurements" in tables:
            unit = tables.get("unit")
            named = text_of(tables, "name", name)
            row = {"file": name, "name": named, "unit": unit if isinstance(unit, str) else "cm"}
            people.append(row | {"body": text_of(tables, "body", "woman")})
        elif _is_chart(tables):
            charts.append({"file": name, "title": text_of(tables, "title", name)})
        elif _OF_A_GARMENT & tables.keys():
            garments.append(_garment(folder, name, tables))
    lacks = "people" if not people else None if garments else "garments"
    told = {"people": people, "garments": garments, "charts": charts, "patterns": list(patterns), "lacks": lacks}
    return {"folder": str(folder.path), **told}


def _is_chart(tables: Mapping[str, Any]) -> bool:
    return isinstance(tables.get("sizes"), str | list) and ("body" in tables or "finished" in tables)


def _tables(folder: Folder, name: str) -> Mapping[str, Any] | None:
    try:
        return tables_of(read_text(folder.file(name)))
    except (OSError, NoText, NotInFolder):
        return None


def _garment(folder: Folder, name: str, tables: Mapping[str, Any]) -> Data:
    row = {"file": name, "title": text_of(tables, "title", name), "for": "", "chart": "sizes" in tables}
    try:
        wearer = read_files(folder, name).person
    except (OSError, ValueError, NotInFolder):
        return row | {"picture": None, "problem": UNREAD}
    return row | {"for": wearer, "picture": None}
