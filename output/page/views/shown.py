"""What every part of the page looks at: a garment drafted and checked, beside what is written in its files."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from output.api import Draft
from output.api.asking import Checks
from output.api.wording import length_text, other_unit

__all__ = ["Data", "Shown"]

Data = dict[str, Any]
"""What can be written as JSON."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A garment as it stands.

    drafted:  as its files order it
    checks:   what was found on that
    garment:  its file as it is written, tables as dicts
    person:   the wearer's file, the same; empty where the garment is made to sizes of a chart
    file, person_file: their names in the folder; "" for none
    before:   the garment before the last change; None where nothing was changed yet
    undo, redo: what can be taken back and done again, in words; "" for nothing
    """

    drafted: Draft
    checks: Checks
    garment: Mapping[str, Any] = field(default_factory=dict)
    person: Mapping[str, Any] = field(default_factory=dict)
    file: str = ""
    person_file: str = ""
    before: Draft | None = None
    undo: str = ""
    redo: str = ""

    @property
    def unit(self) -> str:
        """What lengths are shown in."""
        return self.drafted.unit

    def both(self, mm: float | None) -> tuple[str, str]:
        """A length in her unit, and small beside it in the other; two empty texts for none."""
        if mm is None:
            return "", ""
        return length_text(mm, self.unit), length_text(mm, other_unit(self.unit))

    def tables(self, name: str) -> Sequence[Mapping[str, Any]]:
        """The tables of that name in the garment's file: its blocks, parts or steps, as they are written."""
        found = self.garment.get(name, ())
        return [each for each in found if isinstance(each, Mapping)] if isinstance(found, list) else ()
