"""What comes in with a question, and what goes out with its answer."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, Final

__all__ = ["as_json", "read_request", "text_of"]

_MOST: Final = 400
"""Letters of a text that are read (our figure)."""


def read_request(body: bytes) -> dict[str, Any] | str:
    """What a page sent, or a sentence that says why it cannot be read."""
    try:
        given = json.loads(body)
        json.dumps(given, ensure_ascii=False).encode()  # half a letter, which JSON can name, is in no text
    except (ValueError, RecursionError):
        return "That is no JSON."
    return given if isinstance(given, dict) else "An object was expected."


def text_of(given: Mapping[str, Any], key: str, default: str = "") -> str:
    """A text that was sent, or that stands in a file; the default where it is none."""
    value = given.get(key)
    return value[:_MOST] if isinstance(value, str) else default


def as_json(data: object) -> str:
    """As short as JSON can be."""
    return json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
