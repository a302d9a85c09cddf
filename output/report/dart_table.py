"""The darts of a pattern as a table, and the rule by which a waist dart is divided."""

from __future__ import annotations

import math
from collections.abc import Iterator

from drafting.geometry import distance, lerp
from drafting.pattern import STEEPEST_DART, WIDEST_WAIST_DART, Pattern, dart_mouth
from drafting.reading.units import length_text
from output.report.tables import Column, Row, Table

__all__ = ["dart_table"]


def dart_table(pattern: Pattern, unit: str) -> Table:
    """Every dart with its width at the mouth, its length and its angle, in the unit she works in."""
    columns = (Column("piece"), Column("dart"), *(Column(name, True) for name in ("wide", "long", "degrees")))
    return Table("Darts", columns, tuple(_rows(pattern, unit)), below=(_rule(unit),))


def _rule(unit: str) -> str:
    return (
        f"A waist dart is sewn as one up to {length_text(WIDEST_WAIST_DART, unit)} and "
        f"{math.degrees(STEEPEST_DART):.0f} degrees. Where it would be wider, the side seams of a bodice are taken in "
        "more, so long as they take less than half of it; and where that is not enough, there is one dart more. How "
        "many there are can be said in the block: front_darts, back_darts."
    )


def _rows(pattern: Pattern, unit: str) -> Iterator[Row]:
    for piece in pattern.pieces:
        for dart in piece.darts:
            mouth = dart_mouth(piece, dart)
            wide, long = distance(*mouth), distance(lerp(*mouth, 0.5), dart.apex)
            degrees = math.degrees(2.0 * math.atan2(0.5 * wide, long))
            yield Row((piece.name, dart.name, length_text(wide, unit), length_text(long, unit), f"{degrees:.0f}"))
