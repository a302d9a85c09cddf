"""What is drawn only when it is looked at: a seam walked, a piece folded, the garment seen flat."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any

from output.api import Draft
from output.page.views.flat import flat
from output.page.views.pieces import folded
from output.page.views.walk import walked

__all__ = ["drawing_answers"]


def drawing_answers(draft_of: Callable[[str], Draft]) -> Mapping[str, Callable[[dict[str, Any]], bytes]]:
    """By address: what answers "walk" {file, seam}, "folded" {file, piece} and "flat" {file}, as JSON.

    draft_of: gives a garment as its file stands
    The answers raise UnknownName for a seam or a piece that is not there.
    """

    def drafted(given: dict[str, Any]) -> Draft:
        return draft_of(_word(given, "file"))

    return {
        "walk": lambda given: _json(walked(drafted(given), _word(given, "seam"))),
        "folded": lambda given: _json(folded(drafted(given), _word(given, "piece"))),
        "flat": lambda given: _json(flat(drafted(given))),
    }


def _word(given: dict[str, Any], key: str) -> str:
    word = given.get(key)
    return word if isinstance(word, str) else ""


def _json(data: object) -> bytes:
    return json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()
