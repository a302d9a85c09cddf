"""The women of the open 1988 survey as `Person`s: real bodies for every test that needs some."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

from drafting.body.person import Person, person
from drafting.body.terms import BASICS, KEYS

WOMENS_KEYS = tuple(key for key in KEYS if key != "head_girth")
"""The lengths that are known of women: their heads are in no survey we hold."""

_SURVEY = Path(__file__).parent / "data" / "women_1988.csv"


@cache
def women(*, girths_only: bool = False) -> tuple[Person, ...]:
    """The 1,104 women with all their measurements, or with stature and the three girths only."""
    people = []
    for row in survey_rows():
        mm = {key: float(value) for key, value in row.items() if key != "row"}
        mm["waist_to_hip"] = mm["waist_height"] - mm["hip_height"]
        mm["shoulder_drop"] = mm["neck_side_height"] - mm["shoulder_height"]
        given = {key: mm[key] for key in BASICS} if girths_only else mm
        people.append(person(given, name=f"woman {row['row']}", place=f"women_1988.csv, row {row['row']}"))
    return tuple(people)


@cache
def survey_rows() -> tuple[dict[str, str], ...]:
    """The rows of the file as they stand, millimetres."""
    with _SURVEY.open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))
