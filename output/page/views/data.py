"""What a view is made with: data for JSON, lengths in both units, the tables of the garment's file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from output.api.wording import length_text, length_unit, other_unit

__all__ = ["Data", "bare_unit", "both_units", "written_tables"]

Data = dict[str, Any]
"""What can be written as JSON."""


def both_units(mm: float | None, unit: str, written: object = None) -> tuple[str, str]:
    """A length in her unit, and small beside it in the other; two empty texts for none.

    written: what stands in the file; where that shows a unit, the other one is the other of that
    """
    if mm is None:
        return "", ""
    return length_text(mm, unit), length_text(mm, other_unit(length_unit(written) or unit))


def bare_unit(table: Mapping[str, Any]) -> str | None:
    """The unit that plain numbers of a file stand in; None where it says none."""
    unit = table.get("unit")
    return unit if isinstance(unit, str) else None


def written_tables(tables: Mapping[str, Any], name: str) -> Sequence[Mapping[str, Any]]:
    """The tables of that name in a garment's file: its blocks, parts or steps, as they are written."""
    found = tables.get(name, ())
    return [each for each in found if isinstance(each, Mapping)] if isinstance(found, list) else ()
