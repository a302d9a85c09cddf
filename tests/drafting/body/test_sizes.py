"""Reading `[sizes]`: every problem at once, and what the sizes mean."""

from __future__ import annotations

import pytest

from drafting.body.charts import HEIGHTS, SIZES, chart_mm, chart_named
from drafting.body.sizes import SIZE_WORDS, Sizes, each_size, in_inches, read_sizes, sizes_body
from drafting.errors import Problem, UnknownName
from drafting.reading.read_table import Reader


def read(**table: object) -> tuple[Sizes, list[str]]:
    problems: list[Problem] = []
    reader = Reader(table, place="dress.toml", problems=problems, section="[sizes]", words=SIZE_WORDS)
    sizes = read_sizes(reader)
    reader.finish()
    return sizes, [problem.sentence() for problem in problems]


def test_one_size_here_and_another_there() -> None:
    assert read(chart="women", bust=92, waist=96, hip=100) == (Sizes(bust=92, waist=96, hip=100), [])
    assert read(bust=92) == (Sizes(bust=92), [])
    assert read(upper_chest=88, bust=96) == (Sizes(bust=96, upper_chest=88), [])
    assert read(hip=100) == (Sizes(hip=100), [])


def test_a_nest() -> None:
    sizes, problems = read(nest=[84, 88, 92])
    assert (sizes, problems) == (Sizes(nest=(84, 88, 92)), [])
    assert each_size(sizes) == (Sizes(bust=84), Sizes(bust=88), Sizes(bust=92))
    assert (sizes.frame, sizes.name) == (88, "sizes 84, 88 and 92")


def test_all_that_is_wrong_is_said_at_once() -> None:
    _, problems = read(chart="man", bust=90, waist="97", hip=300, nest=[92, 88], wast=3)
    assert [problem.split(":")[0] for problem in problems] == [
        f"dress.toml, [sizes] {key}" for key in ("chart", "bust", "waist", "hip", "nest", "nest", "wast")
    ]
    assert "read 92, 88, expected two sizes of the chart or more, smallest first" in problems[4]
    assert 'Did you mean "waist"?' in problems[6]


@pytest.mark.parametrize("nest", [[], [92], [92, 92], [84, 90], ["84", "88"], 84, [84.0, 88.0], [True, 88]])
def test_what_is_no_nest_is_one_problem(nest: object) -> None:
    assert len(read(nest=nest)[1]) == 1


def test_no_size_at_all_is_a_problem() -> None:
    assert "expected the size at the bust" in read()[1][0]
    assert "expected the size at the bust" in read(waist=96)[1][0]


def test_the_body_has_the_frame_of_one_size_and_the_bust_of_another() -> None:
    body = sizes_body(Sizes(bust=96, upper_chest=88, waist=92))
    assert body.mm("bust_girth") == 960.0
    assert body.mm("upper_chest_girth") == chart_mm(88, "upper_chest_girth")
    assert body.person.name == "size 88 with 96 at the bust and 92 at the waist"


def test_a_body_that_is_kept_is_the_one_of_its_own_sizes() -> None:
    asked = [
        Sizes(bust=bust, hip=hip, upper_chest=chest, chart=chart, height=height)
        for chart in ("women", "girls")
        for bust in (92, 104)
        for hip in (None, 104, 110)
        for chest in (None, 104)
        for height in HEIGHTS
        if {bust, hip, chest} <= {None, *chart_named(chart).sizes} and (chart == "women" or height == "regular")
    ]
    for sizes in (*asked, *asked[::-1]):
        assert sizes_body(sizes) == sizes_body.__wrapped__(sizes), sizes


def test_sizes_that_are_not_there_are_refused() -> None:
    with pytest.raises(UnknownName, match='no size "90"'):
        Sizes(bust=90)
    with pytest.raises(UnknownName, match='no chart "men"'):
        Sizes(bust=92, chart="men")


@pytest.mark.parametrize(
    ("where", "told", "nearest"),
    [
        ("bust", "97.8 cm", "Nearest to 97.8 cm there is size 96."),
        ("bust", "38 1/2 in", "Nearest to 38 1/2 in there is size 96."),
        ("bust", 38, "Nearest to 38 in there is size 96."), ("bust", 97, "Nearest to 97.0 cm there is size 96."),
        ("hip", 44, "Nearest to 44 in there is size 110."), ("hip", True, ""), ("hip", 4000, ""),
    ],
)  # fmt: skip
def test_a_girth_where_a_size_belongs_is_answered_with_the_nearest_size(where: str, told: object, nearest: str) -> None:
    _, (sentence,) = read(**{where: told})
    assert "expected a size, called by its bust in cm" in sentence
    assert sentence.endswith(f"{nearest} Sizes are {', '.join(map(str, SIZES))}.".strip())


def test_a_size_may_be_called_in_inches_or_with_its_unit() -> None:
    assert read(bust="36 in")[0] == read(bust="92 cm")[0] == read(size=92)[0] == Sizes(bust=92)
    assert read(bust="34 1/2 in", hip="41 in")[0] == Sizes(bust=88, hip=104)
    assert [in_inches(size) for size in (76, 92, 110)] == ["30 in", "36 in", "43 1/2 in"]
    # nearest to 35 in is size 88, but it is not called so
    assert "Nearest to 35 in there is size 88" in read(bust="35 in")[1][0]


def test_a_child_is_sized_by_its_height_and_its_chest_may_be_another_size() -> None:
    sizes, problems = read(chart="girls", height=110, chest=122)
    assert (sizes, problems) == (Sizes(bust=122, upper_chest=110, chart="girls"), [])
    body = sizes_body(sizes)
    assert body.mm("stature") == 1100.0
    assert body.mm("bust_girth") == chart_mm(122, "bust_girth", chart="girls")
    assert body.person.name == "size 110 with 122 at the chest"
    assert body.person.body == "girl"
    assert read(chart="boys", size=104)[0] == Sizes(bust=104, chart="boys")
    assert read(chart="boys", height="41 in")[0].frame == 104
    assert "expected the size: height = 104" in read(chart="boys")[1][0]


def test_a_woman_may_be_short_or_tall_for_her_size() -> None:
    sizes, problems = read(bust=92, height="tall")
    assert (sizes, problems) == (Sizes(bust=92, height="tall"), [])
    assert sizes.name == "size 92 tall"
    assert sizes_body(sizes).mm("arm_length") > chart_mm(92, "arm_length")
