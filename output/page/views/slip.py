"""The note that lies on the table: how it goes together, what is hatched, what the last change moved most."""

from __future__ import annotations

from typing import Final

from output.api import compare
from output.api.wording import length_text
from output.page.views.data import Data
from output.page.views.head import state_of
from output.page.views.shown import Shown

__all__ = ["slip"]

_MOST: Final = 4
_MANY: Final = 3


def slip(shown: Shown) -> Data:
    """What stands on the note.

    state:   "calm", "warning" or "failed", as in the head
    hatched: what the hatching on the pieces means now, a sentence; "" where nothing is hatched
    moved:   at most four finished measurements, the one that moved most first: name, before, after
    """
    if shown.before is None:
        return {"state": state_of(shown), "hatched": "", "moved": []}
    changes = compare(shown.before, shown.draft)
    finished = [each for each in changes if each.kind == "finished"]
    finished.sort(key=lambda each: -abs(each.by))
    names = [piece.name for pair in changes.pieces if (piece := pair[1]) is not None]
    return {
        "state": state_of(shown),
        "hatched": _hatched(names),
        "moved": [
            {"name": each.name, "before": _text(each.before, shown.unit), "after": _text(each.after, shown.unit)}
            for each in finished[:_MOST]
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
    return f"Hatched: what the last change added to {joined} or took away."


def _text(mm: float | None, unit: str) -> str:
    return "none" if mm is None else length_text(mm, unit)
