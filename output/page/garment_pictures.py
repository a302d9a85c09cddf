"""A small picture of each garment in the folder, and what is wrong with it: drawn once for each state of its files."""

from __future__ import annotations

import time
from html import escape

from output.page.desk import Desk
from output.page.files import read_files, version_of
from output.page.folder import NotInFolder
from output.page.listing import UNREAD
from output.page.views.data import Data
from output.page.views.flat import flat

__all__ = ["GarmentPictures"]


class GarmentPictures:
    """The pictures of the garments of a desk's folder."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._known: dict[str, tuple[str, Data]] = {}

    def add_to(self, garments: list[Data], *, within: float) -> bool:
        """Put a picture into the row of each garment, or what is wrong with it; whether all are there.

        within: seconds of drawing after which no more are drawn; 0 for none but those that are known
        """
        end = time.monotonic() + within
        whole = True
        for row in garments:
            name = row["file"]
            version, said = self._known.get(name, ("", {}))
            try:
                if version != version_of(read_files(self._desk.folder, name)):
                    if time.monotonic() >= end:
                        whole = False
                    else:
                        said = self._draw(name)
            except (OSError, ValueError, NotInFolder):  # gone since it was listed, or its wearer's file is no text
                said = {"problem": UNREAD}
            row.update(said)
        return whole

    def _draw(self, name: str) -> Data:
        version, made, problems = self._desk.standing(name)
        said: Data = {"problem": problems[0]["sentences"][0]} if problems else {}
        if made is not None:
            said["picture"] = _picture(flat(made.draft)["views"][0])
        self._known[name] = version, said
        return said


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
