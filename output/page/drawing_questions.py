"""What is drawn when it is looked at: a seam walked, a piece folded, the garment seen flat, two versions compared."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final, Protocol

from output.api import Draft, check
from output.api.pattern_summary import checks_told
from output.api.plain_passage import plain_passage
from output.page.request import as_json, text_of
from output.page.views.block_picture import picture
from output.page.views.compared import compared
from output.page.views.data import Data
from output.page.views.flat import flat
from output.page.views.pieces import folded
from output.page.views.walk import walked

__all__ = ["MOST_CHANGES", "Versions", "drawing_answers"]

MOST_CHANGES: Final = 100
"""Changes that one can look back over (our figure)."""

Given = Mapping[str, Any]


class Versions(Protocol):
    """Where drafts come from."""

    def drafted(self, name: str) -> Draft:
        """The garment of a file as it stands."""

    def earlier(self, name: str, back: int) -> Draft:
        """The same as it was before its last so many changes."""

    def changes(self, name: str) -> list[str]:
        """What those changes did, in words, the newest first."""


def drawing_answers(versions: Versions) -> Mapping[str, Callable[[Given], bytes]]:
    """By address: what answers each with JSON.

    looked {file}: everything that the checks looked at, as tables in `said`
    picture {name, body}: a block or a part by itself, on a plain garment for this kind of body
    walk {file, seam}, folded {file, piece}, flat {file}; changes {file}: what can be looked back over;
    compare {file, back} with the state before the last so many changes, {file, other} with the garment of another file
    The answers raise UnknownName for a seam or a piece that is not there.
    """

    def drafted(given: Given) -> Draft:
        return versions.drafted(text_of(given, "file"))

    def other(given: Given) -> Draft:
        named, back = text_of(given, "other"), given.get("back")
        if named:
            return versions.drafted(named)
        return versions.earlier(
            text_of(given, "file"), back if isinstance(back, int) and 0 < back <= MOST_CHANGES else 1
        )

    def looked(given: Given) -> Data:
        made = drafted(given)
        return {"said": [plain_passage(each) for each in checks_told(check(made).rows, made.unit)]}

    answers: dict[str, Callable[[Given], object]] = {
        "looked": looked,
        "walk": lambda given: walked(drafted(given), text_of(given, "seam")),
        "folded": lambda given: folded(drafted(given), text_of(given, "piece")),
        "flat": lambda given: flat(drafted(given)),
        "picture": lambda given: picture(text_of(given, "name"), text_of(given, "body")),
        "changes": lambda given: {"changes": versions.changes(text_of(given, "file"))},
        "compare": lambda given: compared(drafted(given), other(given)),
    }
    return {name: _as_json(answer) for name, answer in answers.items()}


def _as_json(answer: Callable[[Given], object]) -> Callable[[Given], bytes]:
    return lambda given: as_json(answer(given)).encode()
