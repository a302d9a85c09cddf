"""Reading a bought pattern's chart: rows as they stand on a packet, and every slip named at once."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.errors import InputProblems
from drafting.sizing.pattern_chart import PatternChart
from drafting.sizing.read_chart import read_chart
from tests.sampling import LETTERS

# A US chart (inches), dianassewinglessons.blogspot.com, "choosing what size pattern to buy": its steps are 1, 1, 1 1/2,
# 2, 2, and bust less chest is 2 in in every size. The finished bust and hip of a jacket, from a pattern listing.
SIZES = "8 10 12 14 16"
BODY = {
    "chest": "29 1/2  30 1/2  32  34  36",
    "bust": "31 1/2  32 1/2  34  36  38",
    "waist": "24  25  26½  28  30",
    "hips": [33.5, 34.5, 36, 38, "40 in"],
    "back waist": "15.75, 16, 16 1/4, 16 1/2, 16 3/4",
}
FINISHED = {"bust": "37 3/4  38 3/4  40 1/4  42 1/4  44 1/4", "hip": "41 42 43.5 45.5 47.5"}


def table(**changed: Any) -> dict[str, Any]:
    return {"title": "Pier jacket", "unit": "in", "sizes": SIZES, "body": BODY, "finished": FINISHED, **changed}


def wrong(tables: dict[str, Any]) -> list[str]:
    with pytest.raises(InputProblems) as caught:
        read_chart(tables, place="pier.toml")
    return [problem.sentence() for problem in caught.value.problems]


def test_a_packet_is_read_row_by_row() -> None:
    chart = read_chart(table())
    assert chart.sizes == ("8", "10", "12", "14", "16")
    assert chart.body_row("bust_girth") == pytest.approx([25.4 * each for each in (31.5, 32.5, 34, 36, 38)])
    assert chart.body_row("waist_girth")[2] == pytest.approx(26.5 * 25.4)
    # "chest" beside "bust" is the upper chest
    assert chart.body_row("upper_chest_girth")[3] == pytest.approx(34 * 25.4)
    assert chart.body_mm("16", "hip_girth") == pytest.approx(1016.0)
    assert chart.finished_mm("12", "bust") == pytest.approx(40.25 * 25.4)
    eases = {
        round(made - worn, 3)
        for made, worn in zip(chart.finished_row("bust"), chart.body_row("bust_girth"), strict=True)
    }
    assert eases == {round(6.25 * 25.4, 3)}  # the designed ease of that listing, constant


def test_sizes_are_called_anything_and_a_range_counts_by_its_middle() -> None:
    chart = read_chart({"unit": "cm", "sizes": ["XS", "S", "3T"], "body": {"bust": "78-82  82-86  86-90"}})
    assert chart.sizes == ("XS", "S", "3T")
    assert chart.body_row("bust_girth") == (800.0, 840.0, 880.0)
    assert read_chart({"unit": "cm", "sizes": [86, 92], "for": "girl", "body": {"chest": [52, 54]}}).sizes == (
        "86",
        "92",
    )


def test_steps_that_fall_or_stand_still_are_named_with_both_sizes() -> None:
    (said,) = wrong(table(body={**BODY, "waist": "24 25 26 1/2 26 1/2 30"}))
    assert said.startswith("pier.toml, [body] waist: read 26 1/2 in in size 12 and 26 1/2 in in size 14")
    assert "a girth that rises from size to size" in said
    # a length may be the same in two sizes
    read_chart(table(finished={**FINISHED, "sleeve": "22 22 22 22 22"}))


def test_finished_below_the_body_is_a_slip_in_a_woven_and_none_in_a_knit() -> None:
    tight = {"bust": "31 32 33 1/2 35 1/2 37 1/2"}
    (said,) = wrong(table(finished=tight))
    assert "read less than the body in size 8, 10, 12, 14, 16" in said
    assert 'write cloth = "knit"' in said
    assert read_chart(table(finished=tight, cloth="jersey")).cloth == "jersey"


def test_ease_that_is_not_the_same_in_all_sizes_within_half_an_inch() -> None:
    # trade practice: the designed ease of a pattern is constant
    even_enough = {"bust": "37 3/4  38 3/4  40 1/4  42 3/4  44 1/4"}
    read_chart(table(finished=even_enough))
    (said,) = wrong(table(finished={"bust": "37 3/4  38 3/4  40 1/4  43  44 1/4"}))
    assert "read 7 in of ease in size 14, expected about 6 1/4 in" in said
    assert read_chart(table(finished={"bust": "37 3/4  38 3/4  40 1/4  43  44 1/4"}, ease_differs=True))


def test_a_number_in_another_unit_is_told_with_the_way_to_write_it() -> None:
    (said,) = wrong(table(body={**BODY, "waist": "24 25 67 28 30"}))
    assert 'if that was meant, write "67 cm"' in said
    (said,) = wrong(table(body={**BODY, "waist": "24 25 26 1/2 28 300"}))
    assert "expected a length from 17 3/4 in to 74 3/4 in in size 16" in said
    assert (
        read_chart(table(body={**BODY, "waist": ["24", "25", "67 cm", "28", "30"]})).body_mm("12", "waist_girth")
        == 670.0
    )
    (no_unit,) = wrong({"sizes": "8 10", "body": {"bust": "88 92"}})
    assert "pier.toml, unit: read nothing" in no_unit


def test_all_slips_are_named_at_once() -> None:
    said = wrong(
        {
            "unit": "in",
            "sizes": "S M L",
            "cloth": "wovn",
            "garment": "dres",
            "cups": "B Q",
            "body": {"bust": "32 34 33", "waist": "26 - 30", "hip": "36 38", "tail": "1 2 3"},
            "finished": {"bust": "30 36 44", "hem": "50 forty 60"},
        }
    )
    places = [each.split(":")[0] for each in said]
    assert places == [
        f"pier.toml, {each}"
        for each in (
            "cloth", "garment", "cups", "[body] waist", "[body] hip", "[finished] hem", "[body] tail",
            "[body] bust", "[finished] bust", "[finished] bust",
        )
    ]  # fmt: skip
    assert "A hole in the chart" in said[3]
    assert "read 2 numbers for 3 sizes" in said[4]


@pytest.mark.parametrize(
    "no_chart",
    [{}, {"sizes": 8}, {"sizes": "8"}, {"sizes": "8 8", "unit": "cm"}, {"unit": "cm", "sizes": "8 10", "body": 3},
     {"unit": "cm", "sizes": [[], {}]}, {"unit": "cm", "sizes": "8 10", "body": {"bust": True}},
     {"unit": "cm", "sizes": "8 10", "body": {"bust": [True, None]}}, {"unit": "cm", "sizes": "8 10", "cups": 4}],
)  # fmt: skip
def test_what_is_no_chart_is_refused_in_sentences(no_chart: dict[str, Any]) -> None:
    assert wrong(no_chart)


def test_a_garment_file_where_the_chart_belongs_is_told_so() -> None:
    with pytest.raises(InputProblems, match=r"pier.toml: read a garment file, expected a chart's file"):
        read_chart({"title": "Pier skirt", "wearer": "oda.toml", "block": [{"name": "skirt"}]}, place="pier.toml")


def test_a_person_where_the_chart_belongs_is_told_so() -> None:
    (said,) = wrong({"name": "Oda", "measurements": {}})
    assert said == (
        "pier.toml: read a person's file, expected a chart's file, with sizes, [body], [finished]. "
        "The chart is named first, then the person."
    )


def test_a_file_is_read_and_named(tmp_path: Path) -> None:
    path = tmp_path / "pier-jacket.toml"
    path.write_text('unit = "cm"\nsizes = "S M"\n[body]\nbust = "84 92"\n', encoding="utf-8")
    chart = read_chart(path)
    assert isinstance(chart, PatternChart)
    assert (chart.title, chart.place) == ("pier jacket", str(path))


STEPS = st.lists(st.integers(4, 16), min_size=3, max_size=8)
"""Steps from size to size, in quarters of an inch."""


def in_quarters(quarters: int) -> str:
    whole, rest = divmod(quarters, 4)
    return f"{whole}{('', ' 1/4', ' 1/2', ' 3/4')[rest]}"


@given(STEPS, st.integers(0, 24), st.data())
@settings(max_examples=40, deadline=None)
def test_one_wrong_number_in_any_row_is_found_where_it_stands(steps: list[int], ease: int, data: st.DataObject) -> None:
    body = [120 + sum(steps[:count]) for count in range(len(steps) + 1)]
    sizes = [f"s{count}" for count in range(len(body))]
    made = [each + ease for each in body]
    tables = {"unit": "in", "sizes": sizes, "body": {"bust": "  ".join(map(in_quarters, body))}}
    right = read_chart({**tables, "finished": {"bust": "  ".join(map(in_quarters, made))}})
    assert right.finished_row("bust") == pytest.approx([each * 6.35 for each in made])
    at = data.draw(st.integers(0, len(made) - 1))
    made[at] += data.draw(st.sampled_from([-9, -5, 3, 7]))
    said = " ".join(wrong({**tables, "finished": {"bust": "  ".join(map(in_quarters, made))}}))
    assert f"in size {sizes[at]}" in said
    assert "[finished] bust" in said


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=True) | st.text(LETTERS, max_size=12),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(LETTERS, max_size=6), inner, max_size=3),
    max_leaves=8,
)


@given(
    st.dictionaries(
        st.sampled_from(["unit", "sizes", "body", "finished", "cups", "cloth", "garment", "for"]), ANYTHING
    ),
    st.dictionaries(st.sampled_from(["bust", "waist", "chest", "hem", "height"]), ANYTHING),
)
@settings(max_examples=25, deadline=None)
def test_whatever_stands_in_a_chart_is_read_or_refused(tables: dict[str, Any], rows: dict[str, Any]) -> None:
    with suppress(InputProblems):
        read_chart({"unit": "cm", "sizes": "S M", **tables, "body": rows, "finished": rows})
    with suppress(InputProblems):
        read_chart(tables)


def test_a_row_with_runs_of_spaces_is_read_as_one_without() -> None:
    spaced = (" " * 60_000).join(["84", "88", "92"])
    chart = read_chart({"unit": "cm", "sizes": "10 12 14", "body": {"bust": spaced + " " * 60_000}})
    assert chart.body_row("bust_girth") == (840.0, 880.0, 920.0)
