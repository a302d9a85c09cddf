"""The women's chart against the survey it comes from, and against the steps of EN 13402-3."""

from __future__ import annotations

import csv
import re
from itertools import pairwise
from pathlib import Path

import pytest

from drafting.body import rechart
from drafting.body.charts import SIZES, SURVEYED, beyond_chart, chart_body, chart_lines, chart_mm
from drafting.body.plausible import contradictions
from drafting.body.terms import KEYS, limits
from drafting.errors import UnknownName

DATA = Path(__file__).parents[2] / "data"
BANDS, SURVEY = DATA / "women_1988_by_bust.csv", DATA / "women_1988.csv"
FALLING = {"shoulder_drop"}


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def en_girths() -> dict[int, dict[str, float]]:
    return {
        int(row["bust"]): {key: float(row[key]) for key in ("waist", "hip")} for row in rows(DATA / "en13402_women.csv")
    }


def test_the_shipped_chart_is_rebuilt_to_the_last_digit() -> None:
    written: list[str] = []
    assert rechart.main([str(BANDS), str(SURVEY)], write=written.append) == 0
    shipped = Path(rechart.__file__).parent / "tables" / "women_chart.csv"
    assert "".join(written) == shipped.read_text(encoding="utf-8")


def test_the_script_says_what_it_wants() -> None:
    written: list[str] = []
    assert rechart.main([], write=written.append) == 2
    assert "BANDS.csv SURVEY.csv" in written[0]


@pytest.mark.parametrize("key", KEYS)
def test_every_length_changes_evenly_from_size_to_size(key: str) -> None:
    values = [chart_mm(size, key) / 10 for size in SIZES]
    per_cm = [(b - a) / (y - x) for (a, b), (x, y) in zip(pairwise(values), pairwise(SIZES), strict=True)]
    sign = -1.0 if key in FALLING else 1.0
    assert all(sign * step > 0.0 for step in per_cm)
    # the sizes in fours: each step is more than the last by one and the same
    more = [b - a for a, b in pairwise(per_cm[:7])]
    assert more == pytest.approx([more[0]] * 6, abs=1e-9)


@pytest.mark.parametrize("size", [size for size in SIZES if not beyond_chart(size)])
def test_a_size_lies_within_the_sampling_error_of_the_women_behind_it(size: int) -> None:
    # the means of 29 lengths in nine sizes, each with its own chance error sd / sqrt(n): 3.3 of those at the most
    # (the largest of 261 independent normal deviates), and the bend of what was kept straight
    column = {name: key for key, name in rechart.COLUMNS.items()}
    for row in rows(BANDS):
        if int(row["bust_size_cm"]) == size and row["measurement"] in column and row["measurement"] != "chest_circ":
            line = chart_lines()[column[row["measurement"]]]
            bust = next(
                float(each["mean_cm"])
                for each in rows(BANDS)
                if each["bust_size_cm"] == row["bust_size_cm"] and each["measurement"] == "chest_circ"
            )
            error = float(row["sd_cm"]) / int(row["n"]) ** 0.5
            assert abs(line.cm(bust) - float(row["mean_cm"])) < 3.3 * error, line.key


def test_the_girths_stand_to_en_13402_3_as_the_script_says() -> None:
    # EN 13402-3 as commonly quoted; see tests/data/SOURCES.md for how sure each figure is
    table = [
        line.split() for line in (rechart.__doc__ or "").splitlines() if re.match(r"    (size|waist|hip|EN) ", line)
    ]
    sizes, waist, en_waist, hip, en_hip = ([float(cell) for cell in line[1:]] for line in table)
    standard = en_girths()
    for at, size in enumerate(map(int, sizes)):
        assert waist[at] == pytest.approx(chart_mm(size, "waist_girth") / 10, abs=0.0501)
        assert hip[at] == pytest.approx(chart_mm(size, "hip_girth") / 10, abs=0.0501)
        assert (en_waist[at], en_hip[at]) == (standard[size]["waist"], standard[size]["hip"])
    assert max(abs(a - b) for a, b in zip(waist, en_waist, strict=True)) <= 3.31
    assert (hip[0] - en_hip[0], hip[-1] - en_hip[-1]) == (pytest.approx(2.7, abs=0.06), pytest.approx(-7.2, abs=0.06))


def test_the_sizes_are_those_of_en_13402_3() -> None:
    assert set(SIZES) <= set(en_girths())


def test_a_body_of_the_chart_is_whole_and_nothing_in_it_is_at_odds() -> None:
    for size in SIZES:
        body = chart_body(size)
        assert {value.key for value in body.known()} == set(KEYS)
        assert {value.source for value in body.known()} == {"chart"}
        assert body.mm("bust_girth") == 10.0 * size
        assert contradictions(body) == ()
        assert all(low <= body.mm(key) <= high for key, (low, high) in limits("woman").items())


def test_a_size_that_nobody_was_measured_for_says_so() -> None:
    assert "drawn on beyond size 110" in chart_body(116)["waist_girth"].how
    assert chart_body(SURVEYED[1])["waist_girth"].how == "women's chart, size 110"


def test_heights_agree_with_the_differences_between_them() -> None:
    for size in SIZES:
        body = chart_body(size)
        assert body.mm("waist_height") - body.mm("hip_height") == pytest.approx(body.mm("waist_to_hip"), abs=0.02)
        assert body.mm("neck_side_height") - body.mm("shoulder_height") == pytest.approx(
            body.mm("shoulder_drop"), abs=0.02
        )


def test_a_fuller_bust_leaves_the_frame_of_the_size() -> None:
    fuller, plain = chart_body(88, bust=96), chart_body(88)
    changed = {key for key in KEYS if fuller.mm(key) != plain.mm(key)}
    assert changed == {"bust_girth"}
    assert fuller["bust_girth"].how == "women's chart, size 96"


def test_what_is_not_in_the_chart_is_refused_by_name() -> None:
    with pytest.raises(UnknownName, match='no size "90"'):
        chart_body(90)
    with pytest.raises(UnknownName, match='no chart "wommen"'):
        chart_body(92, chart="wommen")
