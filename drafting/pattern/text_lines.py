"""JSON laid out for a person to read."""

from __future__ import annotations

import json
from typing import Final

__all__ = ["laid_out"]

_WIDTH: Final = 118
_as_json: Final = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode


def laid_out(value: object, indent: int = 0) -> str:
    """JSON with one line for whatever fits on one, so that a person can read it and a change shows in one line."""
    if not isinstance(value, dict | list) or not value:
        return _as_json(value)
    if isinstance(value, dict):
        begin, end = "{", "}"
        parts = [f"{_as_json(key)}: {laid_out(part, indent + 1)}" for key, part in value.items()]
    else:
        begin, end = "[", "]"
        parts = [laid_out(part, indent + 1) for part in value]
    # a part of several lines is too long for one
    if sum(map(len, parts)) + 2 * len(parts) + indent <= _WIDTH and not any("\n" in part for part in parts):
        return begin + ", ".join(parts) + end
    inner = "\n" + " " * (indent + 1)
    return begin + ",".join(inner + part for part in parts) + "\n" + " " * indent + end
