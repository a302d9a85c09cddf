"""What is answered of a folder, by address. With this the engine comes in: it is loaded while the browser starts."""

from __future__ import annotations

import gc
from collections.abc import Callable, Mapping
from typing import Any

from output.page.beginning import begin, kind_picture, kinds_to_begin
from output.page.brought import brought_answers
from output.page.desk import Desk
from output.page.drawing_questions import drawing_answers
from output.page.earlier_lengths import lengths_before
from output.page.edits import Edit, read_edits
from output.page.folder import Folder
from output.page.garment_pictures import GarmentPictures
from output.page.listing import listed
from output.page.open_log import OpenedLog
from output.page.people_questions import people_answers
from output.page.request import as_json, text_of
from output.page.views.data import Data

__all__ = ["Answers", "load_answers"]

Given = Mapping[str, Any]
Answer = Callable[[Given], bytes]


class Answers:
    """The answers of one folder. One is worked out after another, by whatever thread."""

    def __init__(self, folder: Folder, opened: OpenedLog) -> None:
        self._desk = desk = Desk(folder, opened)
        self._pictures = GarmentPictures(desk)
        self._by_address: dict[str, Answer] = {
            "look": lambda given: desk.look(_file(given), _have(given), soon=given.get("soon") is True),
            "try": lambda given: desk.attempt(
                _file(given), text_of(given, "version"), _edits(given), _have(given), soon=given.get("soon") is True
            ),
            "change": lambda given: desk.change(
                _file(given),
                text_of(given, "version"),
                _edits(given),
                text_of(given, "words"),
                text_of(given, "run"),
                _have(given),
            ),
            "undo": lambda given: desk.undo(_file(given), _have(given), again=False),
            "redo": lambda given: desk.undo(_file(given), _have(given), again=True),
            "new": lambda given: as_json({"file": begin(folder, listed(folder), given)}).encode(),
            "kind": lambda given: as_json(kind_picture(given)).encode(),
            "kinds": lambda given: as_json({"kinds": kinds_to_begin(text_of(given, "body"))}).encode(),
            "lengths": lambda given: as_json({"earlier": lengths_before(folder, desk.log, _file(given))}).encode(),
            **drawing_answers(desk),
            **people_answers(folder, desk),
            **brought_answers(folder),
        }

    def __contains__(self, address: str) -> bool:
        return address in self._by_address

    def to(self, address: str, given: Given) -> bytes:
        """The answer to a question, as JSON. Raises whatever keeps it from being answered (`app.py` says it)."""
        return self._by_address[address](given)

    def add_pictures(self, garments: list[Data], *, within: float) -> bool:
        """Put a picture into the row of each garment (`GarmentPictures.add_to`); whether all are there."""
        return self._pictures.add_to(garments, within=within)


def load_answers(folder: Folder, opened: OpenedLog) -> Answers:
    """The answers of a folder, once all that they need is loaded."""
    gc.freeze()  # what was loaded by now stays as long as the server
    gc.enable()  # the command does without, as it ends soon; this one does not
    return Answers(folder, opened)


def _file(given: Given) -> str:
    return text_of(given, "file")


def _edits(given: Given) -> tuple[Edit, ...]:
    return read_edits(given.get("edits"))


def _have(given: Given) -> dict[str, str]:
    have = given.get("have")
    return {k: v for k, v in have.items() if isinstance(v, str)} if isinstance(have, dict) else {}
