"""`[paper]` of a garment file: what the pattern is put on; Letter where nothing is said by who writes inches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from blocks.garment import MOST_ALLOWANCE, MOST_HEM, ROLL_WIDTHS, Paper
from drafting.reading.read_table import Reader

__all__ = ["NO_SIZE", "paper_for", "read_paper"]

NO_SIZE: Final = Paper(size="left out")
"""The paper before any file has said one."""

_USUAL: Final = {"in": "Letter"}


def read_paper(reader: Reader, followed: Paper, papers: Sequence[str]) -> Paper:
    """The paper of a file. followed: that of the file it follows; papers: the sheets there are"""
    return Paper(
        size=reader.choice("size", papers, default=followed.size),
        seam_allowance=reader.length("seam_allowance", default=followed.seam_allowance, low=0.0, high=MOST_ALLOWANCE),
        hem=reader.length("hem", default=followed.hem, low=0.0, high=MOST_HEM),
        roll=reader.length("roll", default=followed.roll, low=ROLL_WIDTHS[0], high=ROLL_WIDTHS[1]),
    )


def paper_for(read: Paper, unit: str) -> Paper:
    """The paper as it was read; where no size was said, the one usual where that unit is written."""
    if read.size != NO_SIZE.size:
        return read
    return replace(read, size=_USUAL.get(unit, Paper().size), by_unit=unit in _USUAL)
