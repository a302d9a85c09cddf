"""Rebuild the estimate tables from the open survey data: `python -m drafting.body.refit SURVEY.csv woman|girl|boy`.

Prints a table in the form of `tables/*.csv`: ordinary least squares of each length on bust, waist, hip and
stature, in centimetres. What was not measured in a survey is left out; nothing is filled in.
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from drafting.body.estimate import HEADER, Line
from drafting.body.terms import BASICS, KEYS, BodyKind

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Row", "child_rows", "design", "fit_lines", "main", "woman_rows"]

Row = Mapping[str, float | None]

_PREDICTORS = ("bust_girth", "waist_girth", "hip_girth", "stature")
# The children's knee and waist heights are taken to other landmarks (top of the knee sitting, the navel) and its
# neck girth half way up the neck: they are left out rather than taken for ours.
_CHILD_COLUMNS = {
    "stature": "stature",
    "bust_girth": "chest_circumference",
    "waist_girth": "waist_circumference",
    "hip_girth": "hip_circumference",
    "biacromial_breadth": "biocromial_breadth",
    "upper_arm_girth": "upper_arm_circumference",
    "wrist_girth": "wrist_circumference",
    "shoulder_to_elbow": "shoulder_elbow_length",
    "neck_pit_height": "suprasternale_height",
    "axilla_height": "chest_height_at_axilla",
    "hip_height": "hip_height_at_buttocks",
    "thigh_girth": "upper_thigh_circumference",
    "calf_girth": "calf_circumference",
    "ankle_girth": "ankle_circumference",
}


def woman_rows(table: Iterable[Mapping[str, str]]) -> list[Row]:
    """The women of the 1988 survey file under our keys, cm.

    The survey's own waist_to_hip is a length along the skin to another landmark; ours is the drop from the waist
    to the level of the hip girth, as is the drop of the shoulder: differences of heights.
    """
    rows: list[Row] = []
    for given in table:
        row = {key: _number(given[key]) for key in KEYS if key in given}
        row["waist_to_hip"] = _difference(row["waist_height"], row["hip_height"])
        row["shoulder_drop"] = _difference(row["neck_side_height"], row["shoulder_height"])
        rows.append(row)
    return rows


def child_rows(table: Iterable[Mapping[str, str]], *, body: BodyKind) -> list[Row]:
    """The girls or the boys of the 1977 survey file under our keys, cm. The arm is the sum of its two bones."""
    sex = "female" if body == "girl" else "male"
    rows: list[Row] = []
    for given in table:
        if given["sex"] == sex:
            row = {key: _number(given[column]) for key, column in _CHILD_COLUMNS.items()}
            upper, lower = _number(given["acromion_radiale_length"]), _number(given["radiale_stylion_length"])
            row["arm_length"] = upper + lower if upper is not None and lower is not None else None
            rows.append(row)
    return rows


def design(rows: Sequence[Row]) -> NDArray[np.float64]:
    """One line of (1, bust, waist, hip, stature) for each row, cm."""
    import numpy as np

    return np.array([[1.0, *(row[key] for key in _PREDICTORS)] for row in rows], dtype=float)


def fit_lines(rows: Sequence[Row], *, source: str) -> tuple[Line, ...]:
    """A least-squares line for every key measured in at least 30 rows that have all four basics."""
    import numpy as np

    lines = []
    for key in KEYS:
        used = [row for row in rows if row.get(key) is not None and all(row[basic] is not None for basic in BASICS)]
        if key in BASICS or len(used) < 30:
            continue
        wanted = np.array([row[key] for row in used], dtype=float)
        basics = design(used)
        factors = np.linalg.lstsq(basics, wanted, rcond=None)[0]
        rest = wanted - basics @ factors
        spread = wanted - wanted.mean()
        lines.append(
            Line(
                key=key,
                n=len(used),
                intercept=round(float(factors[0]), 4),
                bust=round(float(factors[1]), 5),
                waist=round(float(factors[2]), 5),
                hip=round(float(factors[3]), 5),
                stature=round(float(factors[4]), 5),
                r2=round(1.0 - float(rest @ rest) / float(spread @ spread), 4),
                sd=round(float(np.sqrt(rest @ rest / (len(used) - 5))), 3),
                source=source,
            )
        )
    return tuple(lines)


def main(arguments: Sequence[str], *, write: Callable[[str], object] = sys.stdout.write) -> int:
    """Print the refitted table; 2 when the arguments make no sense."""
    if len(arguments) != 2 or arguments[1] not in ("woman", "girl", "boy"):
        write("usage: python -m drafting.body.refit SURVEY.csv woman|girl|boy\n")
        return 2
    with open(arguments[0], encoding="utf-8", newline="") as file:
        table = list(csv.DictReader(file))
    body: BodyKind = "girl" if arguments[1] == "girl" else "boy"
    rows = woman_rows(table) if arguments[1] == "woman" else child_rows(table, body=body)
    write(",".join(HEADER) + "\n")
    for line in fit_lines(rows, source="open half"):
        write(",".join(str(cell) for cell in line.cells()) + "\n")
    return 0


def _number(text: str) -> float | None:
    return float(text) if text else None


def _difference(upper: float | None, lower: float | None) -> float | None:
    return None if upper is None or lower is None else upper - lower


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
