"""The shipped lines against a refit of the open data by numpy's least squares."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from drafting.body import refit
from drafting.body.estimate import Line, companions, lines
from drafting.body.terms import BASICS, KEYS
from tests.bodies import WOMENS_KEYS, survey_rows

PREDICTORS = ("bust", "waist", "hip", "stature")


@pytest.fixture(scope="module")
def rows() -> list[refit.Row]:
    in_cm = [
        {key: value if key == "row" else str(float(value) / 10) for key, value in row.items()} for row in survey_rows()
    ]
    return refit.woman_rows(in_cm)


@pytest.fixture(scope="module")
def refitted(rows: list[refit.Row]) -> dict[str, Line]:
    return {line.key: line for line in refit.fit_lines(rows, source="open half")}


def test_lines_of_the_open_half_are_rebuilt_to_the_last_digit(refitted: dict[str, Line]) -> None:
    shipped = {key: line for key, line in lines("woman").items() if line.source == "open half"}
    assert len(shipped) == 10
    assert shipped == {key: refitted[key] for key in shipped}


def test_lines_of_the_full_survey_agree_with_the_open_half_within_its_sampling_error(
    rows: list[refit.Row], refitted: dict[str, Line]
) -> None:
    # The open half is every second of the 2,208 women. A coefficient from half of the sample differs from that of
    # the whole by sigma * sqrt((1/1104 - 1/2208) * the diagonal of the inverse moments): hold all to 4 of these.
    basics = refit.design(rows)
    inverse = np.linalg.inv(basics.T @ basics / len(rows))
    published = {key: line for key, line in lines("woman").items() if line.source == "full survey"}
    assert len(published) == 25
    for key, line in published.items():
        half = refitted[key]
        share = 1 / half.n - 1 / line.n
        for place, name in enumerate(("intercept", *PREDICTORS)):
            error = line.sd * math.sqrt(share * inverse[place, place])
            assert abs(getattr(half, name) - getattr(line, name)) < 4 * error, (key, name)
        assert abs(half.sd / line.sd - 1) < 4 * math.sqrt(share / 2), key
        assert half.r2 == pytest.approx(line.r2, abs=0.05), key


def test_the_refit_finds_a_line_it_was_given() -> None:
    made = []
    for step in range(40):
        row: dict[str, float | None] = {"bust_girth": 80.0 + step % 7, "waist_girth": 60.0 + step % 5}
        row |= {"hip_girth": 90.0 + step % 11, "stature": 160.0 + step % 13, "calf_girth": None}
        row["arm_length"] = 1.5 + 0.1 * (80 + step % 7) - 0.2 * (60 + step % 5) + 0.3 * (160 + step % 13) + (-1) ** step
        made.append(row)
    (line,) = refit.fit_lines(made, source="made up")
    assert (line.key, line.n) == ("arm_length", 40)
    assert (line.bust, line.waist, line.hip, line.stature) == pytest.approx((0.1, -0.2, 0.0, 0.3), abs=0.1)
    assert line.sd == pytest.approx(math.sqrt(40 / 35), rel=0.05)


@pytest.mark.whole
def test_pairs_are_rebuilt_to_the_last_digit(rows: list[refit.Row]) -> None:
    shipped = {(pair.key, pair.other): pair.r for pairs in companions("woman").values() for pair in pairs}
    rebuilt = {(pair.key, pair.other): pair.r for pair in refit.fit_pairs(rows)}
    assert len(rebuilt) == 77
    assert shipped == rebuilt | {(other, key): r for (key, other), r in rebuilt.items()}


CHILD = {
    "sex": "female",
    "stature": "103.3",
    "acromion_radiale_length": "19.5",
    "radiale_stylion_length": "15.0",
    "wrist_circumference": "",
    "neck_circumference": "26.0",
}


def test_children_are_read_under_our_names_and_what_was_not_measured_is_left_out() -> None:
    given = dict.fromkeys(refit.CHILD_COLUMNS.values(), "") | CHILD
    (row,) = refit.child_rows([given], body="girl")
    assert (row["stature"], row["arm_length"], row["wrist_girth"]) == (103.3, 34.5, None)
    assert refit.child_rows([given], body="boy") == []
    assert set(row) <= set(KEYS)


def test_a_survey_without_anybody_gives_no_lines(tmp_path: Path) -> None:
    empty = tmp_path / "survey.csv"
    empty.write_text(",".join((*KEYS, "sex")) + "\n", encoding="utf-8")
    said: list[str] = []
    assert refit.main([str(empty), "woman", "lines"], write=said.append) == 0
    assert refit.main([str(empty), "girl", "pairs"], write=said.append) == 0
    assert said == ["key,n,intercept,bust,waist,hip,stature,r2,sd,source\n", "key,other,r\n"]
    assert refit.main(["survey.csv", "man", "lines"], write=said.append) == 2
    assert "usage" in said[-1]


def test_the_lines_stand_on_the_basics_alone() -> None:
    assert not set(BASICS) & set(lines("woman"))


def test_how_lengths_vary_together_is_rebuilt_to_the_last_digit(rows: list[refit.Row]) -> None:
    path = Path(refit.__file__).parent / "tables" / "women_1988_joint.csv"
    with path.open(encoding="utf-8", newline="") as file:
        shipped = list(csv.reader(file))
    joint = refit.fit_joint(rows)
    assert shipped[0] == ["key", "n", "mean", "sd", *WOMENS_KEYS]
    assert shipped[1:] == [[str(cell) for cell in row] for row in joint]
    # numpy's own moments, of a length by itself and of two together
    bust, waist = (np.array([float(str(row[key])) for row in rows]) for key in ("bust_girth", "waist_girth"))
    assert (joint[1][2], joint[1][3]) == (round(float(bust.mean()), 3), round(float(bust.std(ddof=1)), 3))
    assert joint[2][5] == round(float(np.corrcoef(bust, waist)[0, 1]), 4)
