"""What is drawn when it is looked at: a seam walked, a piece folded, the garment seen flat, two versions compared."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any, Protocol

from output.api import Draft
from output.page.views.compared import compared
from output.page.views.flat import flat
from output.page.views.pieces import folded
from output.page.views.walk import walked

__all__ = ["Versions", "drawing_answers"]

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

    walk {file, seam}, folded {file, piece}, flat {file}; changes {file}: what can be looked back over;
    compare {file, back} with the state before the last so many changes, {file, other} with the garment of another file
    The answers raise UnknownName for a seam or a piece that is not there.
    """

    def drafted(given: Given) -> Draft:
        return versions.drafted(_word(given, "file"))

    def other(given: Given) -> Draft:
        named, back = _word(given, "other"), given.get("back")
        if named:
            return versions.drafted(named)
        return versions.earlier(_word(given, "file"), back if isinstance(back, int) and back > 0 else 1)

    answers: dict[str, Callable[[Given], object]] = {
        "walk": lambda given: walked(drafted(given), _word(given, "seam")),
        "folded": lambda given: folded(drafted(given), _word(given, "piece")),
        "flat": lambda given: flat(drafted(given)),
        "changes": lambda given: {"changes": versions.changes(_word(given, "file"))},
        "compare": lambda given: compared(drafted(given), other(given)),
    }
    return {name: _as_json(answer) for name, answer in answers.items()}


def _as_json(answer: Callable[[Given], object]) -> Callable[[Given], bytes]:
    return lambda given: json.dumps(answer(given), ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


def _word(given: Given, key: str) -> str:
    word = given.get(key)
    return word if isinstance(word, str) else ""
