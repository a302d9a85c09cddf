"""The charts against the surveys they come from, and against the steps of EN 13402-3."""

from __future__ import annotations

import csv
import re
from itertools import pairwise
from pathlib import Path

import pytest

from drafting.body import rechart
from drafting.body.charts import CHARTS, SIZES, beyond_chart, chart_body, chart_lines, chart_mm, chart_named
from drafting.body.plausible import contradictions
from drafting.body.terms import limits
from drafting.errors import UnknownName
from tests.bodies import WOMENS_KEYS

DATA = Path(__file__).parents[2] / "data"
BANDS, SURVEY = DATA / "women_1988_by_bust.csv", DATA / "women_1988.csv"
CHILD_BANDS = DATA / "children_1977_by_height.csv"
TABLES = Path(rechart.__file__).parent / "tables"
WOMEN = chart_named("women")
FALLING = {"shoulder_drop"}


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def en_girths() -> dict[int, dict[str, float]]:
    return {
        int(row["bust"]): {key: float(row[key]) for key in ("waist", "hip")} for row in rows(DATA / "en13402_women.csv")
    }


@pytest.mark.parametrize(
    ("chart", "files"),
    [
        ("women", (BANDS, SURVEY)),
        ("girls", (CHILD_BANDS, TABLES / "babies_chart.csv")),
        ("boys", (CHILD_BANDS, TABLES / "babies_chart.csv")),
    ],
)
def test_the_shipped_chart_is_rebuilt_to_the_last_digit(chart: str, files: tuple[Path, Path]) -> None:
    written: list[str] = []
    assert rechart.main([chart, *map(str, files)], write=written.append) == 0
    assert "".join(written) == (TABLES / f"{chart}_chart.csv").read_text(encoding="utf-8")


def test_the_script_says_what_it_wants() -> None:
    written: list[str] = []
    assert rechart.main([], write=written.append) == 2
    assert "women BANDS.csv SURVEY.csv" in written[0]


@pytest.mark.parametrize("key", WOMENS_KEYS)
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
            assert abs(line.cm(bust, WOMEN) - float(row["mean_cm"])) < 3.3 * error, line.key


def quoted(*words: str) -> list[list[float]]:
    """The lines of the script's own tables that begin with one of the words, numbers only."""
    lines = (rechart.__doc__ or "").splitlines()
    found = [re.sub(r"[a-z, ]*EN", "EN", line.strip()).split() for line in lines if line.strip().startswith(words)]
    return [[float(cell) for cell in line[1:]] for line in found]


def test_the_girths_stand_to_en_13402_3_as_the_script_says() -> None:
    # EN 13402-3 as commonly quoted; see tests/data/SOURCES.md for how sure each figure is
    lines = quoted("size  ", "waist  ", "hip  ", "EN  ")
    sizes, waist, en_waist, hip, en_hip = ([*a, *b] for a, b in zip(lines[:5], lines[5:10], strict=True))
    assert sizes == list(map(float, SIZES))
    standard = en_girths()
    for at, size in enumerate(SIZES):
        assert waist[at] == pytest.approx(chart_mm(size, "waist_girth") / 10, abs=0.0501)
        assert hip[at] == pytest.approx(chart_mm(size, "hip_girth") / 10, abs=0.0501)
        assert (en_waist[at], en_hip[at]) == (standard[size]["waist"], standard[size]["hip"])
    assert max(abs(a - b) for a, b in zip(waist, en_waist, strict=True)) <= 3.31
    off = [a - b for a, b in zip(hip, en_hip, strict=True)]
    assert (off[0], off[SIZES.index(110)], off[-1]) == pytest.approx((2.7, -7.2, -7.2), abs=0.06)


def test_the_children_stand_to_the_textbook_as_the_script_says() -> None:
    # children_height_cm of EN 13402-3 in a textbook's excerpt on infants and boys, second hand
    heights, chest, girls, boys, waist, girls_waist, boys_waist = quoted(
        "height  ", "chest,", "girls  ", "boys  ", "waist,"
    )
    assert (chest, waist) == ([56.0, 58.0, 60.0], [53.0, 54.0, 55.0])
    for at, size in enumerate(map(int, heights)):
        for name, key, told in (
            ("girls", "bust_girth", girls), ("boys", "bust_girth", boys),
            ("girls", "waist_girth", girls_waist), ("boys", "waist_girth", boys_waist),
        ):  # fmt: skip
            assert told[at] == pytest.approx(chart_mm(size, key, chart=name) / 10, abs=0.0501)
    assert max(a - b for a, b in zip([*chest, *waist], [*girls, *girls_waist], strict=True)) <= 3.31


@pytest.mark.parametrize("name", ["girls", "boys"])
def test_a_child_of_the_chart_lies_within_the_sampling_error_of_the_children_behind_it(name: str) -> None:
    # as for the women, and a little for growth that turns more often than a curve that must rise can: 3.62 of a girl's
    # upper arm at 170 cm, whose cubic would fall in the smallest sizes
    chart = chart_named(name)
    bands = rechart.child_bands(rows(CHILD_BANDS), chart)
    for key, line in chart_lines(name).items():
        for band in bands[key] if key not in {"stature", "arm_length"} else ():
            assert abs(line.cm(band.at, chart) - band.mean) < 3.7 * band.sd / band.n**0.5, (key, band)


@pytest.mark.parametrize("name", ["girls", "boys", "babies"])
def test_a_child_grows_in_every_length_from_size_to_size(name: str) -> None:
    chart = chart_named(name)
    for key in chart_lines(name) or ("bust_girth", "waist_girth", "hip_girth", "back_waist_length"):
        values = [chart_mm(size, key, chart=name) for size in chart.sizes]
        assert all(b > a for a, b in pairwise(values)), key


def test_a_small_child_is_drawn_towards_the_babies_chart_and_says_so() -> None:
    for name in ("girls", "boys"):
        body = chart_body(56, chart=name)
        # Aldrich's baby chart by height, at second hand: chest, waist and hip are 41 cm at 56 cm
        assert [body.mm(key) for key in ("bust_girth", "waist_girth", "hip_girth")] == pytest.approx([410.0] * 3)
        assert "second hand" in body["bust_girth"].how
        assert "second hand" not in chart_body(86, chart=name)["bust_girth"].how
    assert chart_mm(80, "neck_base_girth", chart="babies") == 250.0
    assert "second hand" in chart_body(80, chart="babies")["neck_base_girth"].how


def test_a_tall_woman_is_longer_and_no_wider() -> None:
    tall, regular = chart_body(92, height="tall"), chart_body(92)
    assert tall.mm("stature") - regular.mm("stature") == pytest.approx(80.0)
    assert tall.mm("waist_girth") == regular.mm("waist_girth")
    assert tall["arm_length"].how == "women's chart, size 92 tall"
    # women of the open half with a bust of 90 to 94 cm who are 4 to 12 cm taller than the size: their mean arm and back
    of_size = [row for row in rows(SURVEY) if 900 <= float(row["bust_girth"]) < 940]
    like = [row for row in of_size if 40 <= float(row["stature"]) - regular.mm("stature") <= 120]
    for key in ("arm_length", "back_waist_length", "waist_height", "crotch_height"):
        mean = sum(float(row[key]) for row in like) / len(like)
        assert tall.mm(key) == pytest.approx(mean, abs=10.0), key


@pytest.mark.parametrize("chart", CHARTS)
def test_every_size_of_every_chart_is_a_body_in_its_limits(chart: str) -> None:
    of = chart_named(chart)
    for size in of.sizes:
        body = chart_body(size, chart=chart)
        assert all(limits(of.body)[each.key][0] <= each.mm <= limits(of.body)[each.key][1] for each in body.known())
        assert body.mm("waist_girth") < body.mm("hip_girth") + 10.0


def test_the_sizes_are_those_of_en_13402_3() -> None:
    assert set(SIZES) <= set(en_girths())


def test_a_body_of_the_chart_is_whole_and_nothing_in_it_is_at_odds() -> None:
    for size in SIZES:
        body = chart_body(size)
        assert {value.key for value in body.known()} == set(WOMENS_KEYS)
        assert {value.source for value in body.known()} == {"chart"}
        assert body.mm("bust_girth") == 10.0 * size
        assert contradictions(body) == ()
        assert all(low <= body.mm(key) <= high for key, (low, high) in limits("woman").items() if key in body)


def test_a_size_that_nobody_was_measured_for_says_so() -> None:
    assert "drawn on beyond size 110" in chart_body(116)["waist_girth"].how
    assert chart_body(WOMEN.surveyed[1])["waist_girth"].how == "women's chart, size 110"


def test_heights_agree_with_the_differences_between_them() -> None:
    for size in SIZES:
        body = chart_body(size)
        assert body.mm("waist_height") - body.mm("hip_height") == pytest.approx(body.mm("waist_to_hip"), abs=0.02)
        assert body.mm("neck_side_height") - body.mm("shoulder_height") == pytest.approx(
            body.mm("shoulder_drop"), abs=0.02
        )


def test_a_fuller_bust_leaves_the_frame_of_the_size() -> None:
    fuller, plain = chart_body(88, girths={"bust_girth": 96}), chart_body(88)
    changed = {key for key in WOMENS_KEYS if fuller.mm(key) != plain.mm(key)}
    assert changed == {"bust_girth"}
    assert fuller["bust_girth"].how == "women's chart, size 96"


def test_what_is_not_in_the_chart_is_refused_by_name() -> None:
    with pytest.raises(UnknownName, match='no size "90"'):
        chart_body(90)
    with pytest.raises(UnknownName, match='no chart "wommen"'):
        chart_body(92, chart="wommen")
