"""What a person's lengths were before they were changed, each with the day: read from what her file said then."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from typing import Any, Final

from output.page.files import read_files
from output.page.folder import Folder
from output.page.texts import tables_of
from output.page.undo_log import UndoLog
from output.page.views.data import Data
from output.page.views.fields import typed_text

__all__ = ["earlier_lengths", "lengths_before"]

_MOST: Final = 6
"""So many earlier values of one length are told (our figure)."""


def lengths_before(folder: Folder, log: UndoLog, name: str) -> dict[str, list[Data]]:
    """What the lengths of a garment's wearer were (`earlier_lengths`).

    Raises NotInFolder, OSError, and ValueError for no text.
    """
    files = read_files(folder, name)
    return earlier_lengths(log.states(files.person), files.person_text)


def earlier_lengths(states: Iterable[tuple[float, str]], now: str) -> dict[str, list[Data]]:
    """The earlier values of each length by its word in the file, the latest first: {text, value, day, was}.

    states: the texts of the file before each of its changes, the oldest first, with the time of the change
    now:    its text
    day:    the day she was measured, where the file said it, was: "measured"; else the day of the change, was: "until"
    """
    found: dict[str, list[Data]] = {}
    after = _lengths(now)[0]
    for at, text in reversed(list(states)):
        lengths, measured = _lengths(text)
        day = measured or datetime.date.fromtimestamp(at).isoformat()
        for word, value in lengths.items():
            told = found.setdefault(word, [])
            known = {each["text"] for each in told} | {typed_text(after.get(word))}
            if typed_text(value) not in known and len(told) < _MOST:
                was = "measured" if measured else "until"
                told.append({"text": typed_text(value), "value": value, "day": day, "was": was})
    return {word: told for word, told in found.items() if told}


def _lengths(text: str) -> tuple[Mapping[str, Any], str]:
    """The lengths that stand in a text of the file, and the day that it says she was measured, "" for none."""
    tables = tables_of(text) or {}
    lengths, day = tables.get("measurements"), tables.get("measured")
    kept = (
        {key: each for key, each in lengths.items() if isinstance(each, str | int | float)}
        if isinstance(lengths, dict)
        else {}
    )
    return kept, day.isoformat() if isinstance(day, datetime.date) else str(day or "")
