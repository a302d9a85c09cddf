"""What lies in the folder, to begin with: the people, and the garments with a small picture of each."""

from __future__ import annotations

import math
import time
from collections.abc import Mapping
from html import escape
from typing import Any, Final

from output.page.desk import Desk
from output.page.edited_files import version_of
from output.page.folder import NotInFolder
from output.page.request import text_of
from output.page.texts import NoText, read_text, tables_of
from output.page.views.data import Data
from output.page.views.flat import flat
from output.page.workshop import read_files

__all__ = ["Listing"]

_UNREAD: Final = "It cannot be read as it stands."
_OF_A_GARMENT: Final = frozenset({"block", "wearer", "like", "title"})


class Listing:
    """The people and garments of a desk's folder. A picture is drawn once for each state of its garment."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._known: dict[str, tuple[str, Data]] = {}
        self._drawing = 0.0
        self.whole = False

    def tell(self, *, within: float = math.inf) -> Data:
        """folder, people (file, name, unit), garments (file, title, for, picture), lacks; a problem where there is one.

        lacks:  "people" or "garments" where there are none of them yet
        within: seconds of drawing after which no more pictures are drawn; whether all are there is `whole`
        """
        self._drawing, self.whole = 0.0, True
        people: list[Data] = []
        garments: list[Data] = []
        for name in self._desk.folder.files():
            tables = self._tables(name)
            if tables is None:
                garments.append(_row(name, {}) | {"problem": _UNREAD})
            elif "measurements" in tables:
                unit = tables.get("unit")
                said = {
                    "file": name,
                    "name": text_of(tables, "name", name),
                    "unit": unit if isinstance(unit, str) else "cm",
                }
                people.append(said)
            elif _OF_A_GARMENT & tables.keys():
                garments.append(self._garment(name, tables, within))
        lacks = "people" if not people else None if garments else "garments"
        return {"folder": str(self._desk.folder.path), "people": people, "garments": garments, "lacks": lacks}

    def _tables(self, name: str) -> Mapping[str, Any] | None:
        try:
            return tables_of(read_text(self._desk.folder.file(name)))
        except (OSError, NoText, NotInFolder):
            return None

    def _garment(self, name: str, tables: Mapping[str, Any], within: float) -> Data:
        row = _row(name, tables)
        version, said = self._known.get(name, ("", {}))
        try:
            if version != version_of(read_files(self._desk.folder, name)):
                if self._drawing > within:
                    self.whole = False
                else:
                    said = self._draw(name)
        except (OSError, ValueError, NotInFolder):  # gone since it was listed, or its wearer's file is no text
            return row | {"problem": _UNREAD}
        return row | said

    def _draw(self, name: str) -> Data:
        """The picture of a garment and what is wrong with it, kept for as long as its files stand."""
        began = time.monotonic()
        version, made, problems = self._desk.standing(name)
        said: Data = {"problem": problems[0]["sentences"][0]} if problems else {}
        if made is not None:
            said["picture"] = _picture(flat(made.draft)["views"][0])
        self._known[name] = version, said
        self._drawing += time.monotonic() - began
        return said


def _row(name: str, tables: Mapping[str, Any]) -> Data:
    return {
        "file": name,
        "title": text_of(tables, "title", name),
        "for": text_of(tables, "wearer", ""),
        "picture": None,
    }


def _picture(view: Data) -> str:
    """A garment seen from one side, as an SVG that stands by itself."""
    left, top, width, height = view["box"]
    thick = max(width, height) / 150
    box = f"{left - thick} {top - thick} {width + 2 * thick} {height + 2 * thick}"
    paths = "".join(
        f'<path d="{escape(d)}" stroke-width="{thick if weight == "strong" else thick / 2:.1f}"/>'
        for weight, d in view["lines"].items()
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" fill="none" stroke="#48555c" '
        f'stroke-linejoin="round">{paths}</svg>'
    )
