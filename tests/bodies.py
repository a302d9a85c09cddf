"""The women of the open 1988 survey as `Person`s: real bodies for every test that needs some."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import overload

from drafting.body.person import Person, person
from drafting.body.terms import BASICS, KEYS

WOMENS_KEYS = tuple(key for key in KEYS if key != "head_girth")
"""The lengths that are known of women: their heads are in no survey we hold."""

_SURVEY = Path(__file__).parent / "data" / "women_1988.csv"


class Women(Sequence[Person]):
    """The women of the survey, each made when she is asked for: most tests want a few of them."""

    def __init__(self, *, girths_only: bool) -> None:
        self.rows, self.girths_only = survey_rows(), girths_only

    def __len__(self) -> int:
        return len(self.rows)

    @overload
    def __getitem__(self, at: int) -> Person: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[Person, ...]: ...
    def __getitem__(self, at: int | slice) -> Person | tuple[Person, ...]:
        if isinstance(at, slice):
            return tuple(_woman(row, self.girths_only) for row in range(*at.indices(len(self))))
        return _woman(range(len(self))[at], self.girths_only)


@cache
def women(*, girths_only: bool = False) -> Women:
    """The 1,104 women with all their measurements, or with stature and the three girths only."""
    return Women(girths_only=girths_only)


@cache
def _woman(number: int, girths_only: bool) -> Person:
    row = survey_rows()[number]
    mm = {key: float(value) for key, value in row.items() if key != "row"}
    mm["waist_to_hip"] = mm["waist_height"] - mm["hip_height"]
    mm["shoulder_drop"] = mm["neck_side_height"] - mm["shoulder_height"]
    given = {key: mm[key] for key in BASICS} if girths_only else mm
    return person(given, name=f"woman {row['row']}", place=f"women_1988.csv, row {row['row']}")


@cache
def survey_rows() -> tuple[dict[str, str], ...]:
    """The rows of the file as they stand, millimetres."""
    with _SURVEY.open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))
