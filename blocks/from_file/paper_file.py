"""`[paper]` of a garment file: what the pattern is put on; Letter where nothing is said by who writes inches."""

from __future__ import annotations

from dataclasses import replace
from typing import Final, TypeVar

from blocks.paper import MOST_ALLOWANCE, MOST_HEM, PAPER_SIZES, ROLL_WIDTHS, Paper
from drafting.reading.given import LEAST_ALLOWANCE
from drafting.reading.read_table import Reader
from drafting.reading.units import MM_PER_INCH
from drafting.reading.values import between_lengths

__all__ = ["NO_SIZE", "paper_for", "read_paper"]

NO_SIZE: Final = Paper(by_unit=True, usual_seam=True)
"""The paper before any file has said one."""

_Default = TypeVar("_Default", float, float | None)

_USUAL: Final = {"in": "Letter"}

_SEAM_IN_INCHES: Final = 0.625 * MM_PER_INCH
"""mm. The seam allowance of who writes inches and says none: five eighths (common practice), drawn as it is told."""


def read_paper(reader: Reader, followed: Paper) -> Paper:
    """The paper of a file. followed: that of the file it follows"""
    return Paper(
        size=reader.choice("size", PAPER_SIZES, default=followed.size),
        seam_allowance=_allowance(reader, "seam_allowance", followed.seam_allowance, MOST_ALLOWANCE),
        hem=_allowance(reader, "hem", followed.hem, MOST_HEM),
        by_unit=followed.by_unit and "size" not in reader,
        usual_seam=followed.usual_seam and "seam_allowance" not in reader,
        roll=reader.length("roll", default=followed.roll, low=ROLL_WIDTHS[0], high=ROLL_WIDTHS[1]),
    )


def _allowance(reader: Reader, key: str, default: _Default, most: float) -> float | _Default:
    """An allowance as it was written, mm: none at all, or wide enough to be sewn."""
    mm = reader.length(key, default=default, low=0.0, high=most)
    if mm is None or mm == 0.0 or mm >= LEAST_ALLOWANCE:
        return mm
    least = between_lengths(LEAST_ALLOWANCE, most, reader.unit or reader.shows)
    reader.problem(key, f"0, or {least}")
    return default


def paper_for(read: Paper, unit: str) -> Paper:
    """The paper as it was read; where no size was said, the one usual where that unit is written."""
    if read.usual_seam and unit == "in":
        read = replace(read, seam_allowance=_SEAM_IN_INCHES)
    if not read.by_unit:
        return read
    return replace(read, size=_USUAL.get(unit, Paper().size), by_unit=unit in _USUAL)
