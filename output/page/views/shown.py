"""What a view may look at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from output.api import Checks, Draft, Garment

__all__ = ["Shown"]


@dataclass(frozen=True, slots=True)
class Shown:
    """A garment as it stands, or as it would be with edits that are only tried.

    garment: what is ordered; its draft is `draft`
    draft:   drafted and altered, in it `garment`, `pattern`, `stages`, `unit`, `ease`, `doubts`
    checks:  what the checks found
    before:  what it was before the last change, or before the edits that are tried; None where that is not known
    tables:  what stands in the garment's file, as she wrote it, with the edits
    person:  what stands in the file of its wearer, as she wrote it, with the edits; {} where there is no file
    files:   the names of both files in the folder, the wearer's "" where there is none
    asked:   what was asked for and could not be had, by its place: the place in the file, "garment" or "person" first
    undo, redo: what the buttons would take back or do again, in words; None for nothing
    pending: whether undo would first take back what was asked for and could not be had
    followed: the names of the files that it is made of besides, which are not written: the one it is like, a chart
    """

    garment: Garment
    draft: Draft
    checks: Checks
    before: Draft | None
    tables: Mapping[str, Any]
    person: Mapping[str, Any]
    files: tuple[str, str]
    asked: Mapping[tuple[str | int, ...], Any]
    undo: str | None
    redo: str | None
    pending: bool = False
    followed: tuple[str, ...] = ()

    @property
    def unit(self) -> str:
        """The unit in which lengths are shown: "cm", "in" or "mm"."""
        return self.draft.unit
