"""Which length is worth measuring next: the one that, if it were known, would change this garment most."""

from __future__ import annotations

from output.api.body import worth_measuring
from output.api.wording import length_text
from output.page.views.data import Data
from output.page.views.shown import Shown

__all__ = ["worth"]


def worth(shown: Shown) -> Data:
    """The length by its key, and why, in a sentence; both "" where nothing was guessed that moves anything."""
    if not shown.person:
        return {"key": "", "sentence": ""}
    first = next(iter(worth_measuring(shown.draft)), None)
    if first is None:
        return {"key": "", "sentence": ""}
    off, moved = length_text(first.sd_mm, shown.unit), length_text(first.moved_mm, shown.unit)
    said = f"Worth measuring next: it was guessed within {off}, and that moves the {first.where} by {moved}."
    return {"key": first.key, "sentence": said}
