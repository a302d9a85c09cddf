"""The note that lies on the table: how it goes together, what is hatched, what the last change moved most."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from output.api import Draft, measurements
from output.api.screen_lines import piece_lines
from output.api.wording import length_text
from output.page.views.data import Data
from output.page.views.head import state_of
from output.page.views.pieces import lines_of
from output.page.views.shown import Shown

__all__ = ["slip"]

_MOST: Final = 4
_MANY: Final = 3

_SHOWS: Final = 0.05
"""mm from which a length has changed: what is shown to a tenth of a millimetre shows it."""


def slip(shown: Shown) -> Data:
    """What stands on the note.

    state:   "calm", "warning" or "failed", as in the head
    hatched: what the hatching on the pieces means now, a sentence; "" where nothing is hatched
    moved:   at most four finished measurements, the one that moved most first: name, before, after
    """
    if shown.before is None:
        return {"state": state_of(shown), "hatched": "", "moved": []}
    before = {each.name: each.finished for each in measurements(shown.before)}
    after = {each.name: each.finished for each in measurements(shown.draft)}
    moved = [
        (abs((after.get(name) or 0.0) - (before.get(name) or 0.0)), name)
        for name in dict.fromkeys((*after, *before))
        if not _same(before.get(name), after.get(name))
    ]
    moved.sort(key=lambda each: -each[0])
    return {
        "state": state_of(shown),
        "hatched": _hatched(list(_redrawn(shown, shown.before))),
        "moved": [
            {"name": name, "before": was, "after": now}
            for _, name in moved[:_MOST]
            for was, now in [(_text(before.get(name), shown.unit), _text(after.get(name), shown.unit))]
            if was != now  # by less than shows
        ],
    }


def _hatched(names: list[str]) -> str:
    if not names:
        return ""
    shown = names[:_MANY] if len(names) > _MANY + 1 else names
    words = [f"the {name}" for name in shown]
    if len(shown) < len(names):
        words.append(f"{len(names) - len(shown)} more")
    joined = " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))
    return f"Hatched: what the last change added to or took away from {joined}."


def _same(before: float | None, after: float | None) -> bool:
    return before is not None and after is not None and abs(after - before) < _SHOWS


def _redrawn(shown: Shown, before: Draft) -> Iterator[str]:
    """The pieces that have another outline than before, or were not there."""
    was = {piece.name for piece in before.pieces}
    for piece in shown.draft.pieces:
        same = piece.name in was and piece_lines(before, piece.name).outline == lines_of(shown, piece.name).outline
        if not same:
            yield piece.name


def _text(mm: float | None, unit: str) -> str:
    return "none" if mm is None else length_text(mm, unit)
