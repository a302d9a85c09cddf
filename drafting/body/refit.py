"""Rebuild the estimate tables from the open survey data.

`python -m drafting.body.refit SURVEY.csv woman|girl|boy lines|pairs|joint` prints a table as in `tables`: ordinary
least squares of each length on bust, waist, hip and stature, in centimetres; the correlations of what the lines leave
over; or how all lengths vary together. What was not measured in a survey is left out; nothing is filled in.
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from drafting.body.estimate import HEADER, Line, Pair
from drafting.body.terms import BASICS, BODY_KINDS, KEYS, BodyKind

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["CHILD_COLUMNS", "Row", "child_rows", "design", "fit_joint", "fit_lines", "fit_pairs", "main", "woman_rows"]

Row = Mapping[str, float | None]

_PREDICTORS = ("bust_girth", "waist_girth", "hip_girth", "stature")
_FEWEST = 30
"""People, to fit a line to."""

# The children's knee and waist heights are taken to other landmarks (top of the knee sitting, the navel): they are left
# out rather than taken for ours. Their necks were measured half way up: `_NECK_FOOT` turns that into ours.
CHILD_COLUMNS = {
    "stature": "stature",
    "bust_girth": "chest_circumference",
    "waist_girth": "waist_circumference",
    "hip_girth": "hip_circumference",
    "head_girth": "head_circumference",
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


_NECK_FOOT = 1.105
"""The foot of the neck by its middle: the 1977 means at 86 and 92 cm against a chart of babies (25.5 and 26 cm) and
those of girls 164 cm tall against the women of 1988 all give 1.09 to 1.12."""


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
    """The girls or the boys of the 1977 survey file under our keys, cm.

    The arm is the sum of its two bones, the neck at its foot what the one half way up comes to.
    """
    sex = "female" if body == "girl" else "male"
    rows: list[Row] = []
    for given in table:
        if given["sex"] == sex:
            row = {key: _number(given[column]) for key, column in CHILD_COLUMNS.items()}
            upper, lower = _number(given["acromion_radiale_length"]), _number(given["radiale_stylion_length"])
            row["arm_length"] = upper + lower if upper is not None and lower is not None else None
            neck = _number(given["neck_circumference"])
            row["neck_base_girth"] = None if neck is None else _NECK_FOOT * neck
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
    for key in _fitted(rows):
        used = _complete(rows, key)
        wanted = np.array([row[key] for row in used], dtype=float)
        factors, rest = _least_squares(used, key)
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
                sd=round(float(np.sqrt(rest @ rest / (len(used) - len(factors)))), 3),
                source=source,
            )
        )
    return tuple(lines)


def fit_pairs(rows: Sequence[Row], *, least: float = 0.4) -> tuple[Pair, ...]:
    """The pairs of lengths whose residuals correlate by at least `least`, either way, over the rows that have both.

    At 0.4 following the other takes a twelfth off the standard deviation; closer pairs take off more.
    """
    import numpy as np

    keys = _fitted(rows)
    pairs = []
    for place, key in enumerate(keys):
        for other in keys[place + 1 :]:
            both = [row for row in _complete(rows, key) if row.get(other) is not None]
            if len(both) >= _FEWEST:
                r = float(np.corrcoef(_least_squares(both, key)[1], _least_squares(both, other)[1])[0, 1])
                if abs(r) >= least:
                    pairs.append(Pair(key, other, round(r, 3)))
    return tuple(pairs)


def fit_joint(rows: Sequence[Row]) -> tuple[tuple[str | float, ...], ...]:
    """Mean and standard deviation (cm) of every length that all rows have, and its correlation with each before it.

    A line for each length, filled up with nothing to the length of the last; only rows that have all four basics count.
    """
    import numpy as np

    used = _complete(rows, BASICS[0])
    keys = [key for key in KEYS if all(row.get(key) is not None for row in used)]
    table = np.array([[row[key] for key in keys] for row in used], dtype=float)
    r = np.corrcoef(table.T)
    mean, sd = table.mean(axis=0), table.std(axis=0, ddof=1)
    return tuple(
        (
            key,
            len(used),
            round(float(mean[i]), 3),
            round(float(sd[i]), 3),
            *(round(float(r[i, j]), 4) if j < i else "" for j in range(len(keys))),
        )
        for i, key in enumerate(keys)
    )


def main(arguments: Sequence[str], *, write: Callable[[str], object] = sys.stdout.write) -> int:
    """Print the refitted table; 2 when the arguments make no sense."""
    if len(arguments) != 3 or arguments[1] not in BODY_KINDS or arguments[2] not in ("lines", "pairs", "joint"):
        write("usage: python -m drafting.body.refit SURVEY.csv woman|girl|boy lines|pairs|joint\n")
        return 2
    path, body, what = arguments
    with open(path, encoding="utf-8", newline="") as file:
        table = list(csv.DictReader(file))
    rows = woman_rows(table) if body == "woman" else child_rows(table, body="girl" if body == "girl" else "boy")
    if what == "lines":
        cells = [HEADER, *(line.cells() for line in fit_lines(rows, source="open half"))]
    elif what == "joint":
        joint = fit_joint(rows)
        cells = [("key", "n", "mean", "sd", *(str(each[0]) for each in joint)), *joint]
    else:
        cells = [("key", "other", "r"), *((pair.key, pair.other, pair.r) for pair in fit_pairs(rows))]
    for row in cells:
        write(",".join(str(cell) for cell in row) + "\n")
    return 0


def _fitted(rows: Sequence[Row]) -> tuple[str, ...]:
    return tuple(key for key in KEYS if key not in BASICS and len(_complete(rows, key)) >= _FEWEST)


def _complete(rows: Sequence[Row], key: str) -> list[Row]:
    """The rows that have this length and all four basics."""
    return [row for row in rows if all(row.get(each) is not None for each in (key, *BASICS))]


def _least_squares(rows: Sequence[Row], key: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The factors of the line and what it leaves over for each row."""
    import numpy as np

    basics = design(rows)
    wanted = np.array([row[key] for row in rows], dtype=float)
    factors = np.linalg.lstsq(basics, wanted, rcond=None)[0]
    return factors, wanted - basics @ factors


def _number(text: str) -> float | None:
    return float(text) if text else None


def _difference(upper: float | None, lower: float | None) -> float | None:
    return None if upper is None or lower is None else upper - lower


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
