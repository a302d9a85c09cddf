"""The notches of a pattern as a table: what meets what, under the number that stands beside both."""

from __future__ import annotations

from drafting.pattern import NotchRef, Pattern, walk
from drafting.pattern.notches import notch_numbers
from drafting.reading.units import length_text
from output.report.tables import Column, Row, Table

__all__ = ["notch_table"]

_ABOVE = (
    "Notches that meet carry the same number on both pieces; each number stands just inside the sewing line. A double "
    "notch is two marks side by side."
)


def notch_table(pattern: Pattern, unit: str) -> Table:
    """Every pair of notches, by its number, with its seam and how far along each piece it lies."""
    numbers = notch_numbers(pattern.seams)
    rows = []
    for seam in pattern.seams:
        for pair in walk(pattern, seam).notches:
            sides = [_side(pattern, mark, at, unit) for mark, at in ((pair.a, pair.along_a), (pair.b, pair.along_b))]
            rows.append((numbers[pair.a], Row((str(numbers[pair.a]), seam.name, *sides))))
    columns = (Column("number"), Column("seam"), Column("on the one piece"), Column("on the other"))
    by_number = tuple(row for _, row in sorted(rows, key=lambda each: each[0]))
    return Table("Notches", columns, by_number, above=_ABOVE if rows else "No notch of this pattern meets another.")


def _side(pattern: Pattern, mark: NotchRef, along: float | None, unit: str) -> str:
    """The piece, the notch, and how far it lies from the start of the seam."""
    double = pattern.piece(mark.piece).notch(mark.notch).style == "double"
    name = f"{mark.piece}\n{mark.notch}{', double' if double else ''}"
    return name if along is None else f"{name}, {length_text(along, unit)} along"
