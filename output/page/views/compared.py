"""Two versions of a garment: what is otherwise in the one than in the other, on the pieces and in lengths."""

from __future__ import annotations

from typing import Any

from output.api import Draft, compare
from output.api.screen_lines import piece_lines
from output.api.wording import length_text
from output.page.views.data import Data

__all__ = ["compared"]


def compared(draft: Draft, other: Draft) -> Data:
    """What is otherwise in a draft than in another, which may be an earlier state of it or another garment.

    pieces: by name: before (the outline of the other, "" where it is the same), box around both, new (not in the other)
    gone:   the pieces that only the other has
    moved:  every finished measurement that differs: name, before (in the other), after
    """
    there = {piece.name for piece in other.pieces}
    names = [piece.name for piece in draft.pieces]
    changes = [each for each in compare(other, draft) if each.kind == "finished"]
    return {
        "pieces": {name: _piece(draft, other if name in there else None, name) for name in names},
        "gone": [piece.name for piece in other.pieces if piece.name not in names],
        "moved": [_moved(each, draft.unit) for each in changes],
    }


def _piece(draft: Draft, other: Draft | None, name: str) -> Data:
    now = piece_lines(draft, name, after=other)
    was = piece_lines(other, name) if other else now
    left, top = min(now.box[0], was.box[0]), min(now.box[1], was.box[1])
    right = max(now.box[0] + now.box[2], was.box[0] + was.box[2])
    bottom = max(now.box[1] + now.box[3], was.box[1] + was.box[3])
    return {
        "before": was.outline if was.outline != now.outline else "",
        "box": [round(each, 2) for each in (left, top, right - left, bottom - top)],
        "new": other is None,
    }


def _moved(each: Any, unit: str) -> Data:
    before, after = ("none" if mm is None else length_text(mm, unit) for mm in (each.before, each.after))
    return {"name": each.name, "before": before, "after": after}
