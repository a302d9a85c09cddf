"""Which size: the worked cases of the trade, and laws that hold for any chart and body."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.body.person import Person, person
from drafting.errors import InputProblems, UnknownName
from drafting.fit.cloth import Cloth
from drafting.sizing.choose_size import SizeChoice, choose_size
from drafting.sizing.garment_kinds import GARMENT_KINDS, garment_kind
from drafting.sizing.pattern_chart import built_in_chart
from drafting.sizing.read_chart import read_chart
from drafting.sizing.size_level import size_at

INCH = 25.4


def woman(**inches: float) -> Person:
    given = {"height": 65.0, "bust": 36.0, "waist": 28.0, "hip": 38.0, **inches}
    return person({key: INCH * value for key, value in given.items()}, name="Marit", unit="in")


def choose(
    chart: dict[str, Any], who: Person, kind: str = "dress", cloth: str | Cloth = "woven", **options: Any
) -> SizeChoice:
    used = cloth if isinstance(cloth, Cloth) else Cloth(kind=cloth)
    return choose_size(read_chart({"unit": "in", **chart}), who, garment_kind(kind), used, **options)


SKIRT = {
    "sizes": "10 12 14 16",
    "body": {"waist": "29 30 31 32", "hip": "39 40 41 42"},
    "finished": {"waist": "29 1/2  30 1/2  31 1/2  32 1/2"},
}
THREE = {
    "sizes": "8 10 12 14 16",
    "body": {"bust": "34 36 38 40 42", "waist": "26 28 30 32 34", "hip": "36 38 40 42 44"},
}


@pytest.mark.parametrize("cloth", ["lawn", "poplin", "woven"])
def test_a_close_waist_of_30_in_wants_the_size_that_finishes_at_30_and_a_half_in_a_thin_woven(cloth: str) -> None:
    # common practice; 1/2 in is the least of the waist's ease
    for fit in ("close", None):
        choice = choose(SKIRT, woman(waist=30, hip=40), "full skirt", cloth, fit=fit)
        assert choice.size == "12"
        assert choice.ease_in("12", "waist") == pytest.approx(0.5 * INCH)


@pytest.mark.parametrize("cloth", ["corduroy", "wool coating"])
def test_and_the_next_one_up_in_corduroy(cloth: str) -> None:
    for fit in ("close", None):
        choice = choose(SKIRT, woman(waist=30, hip=40), "full skirt", cloth, fit=fit)
        assert (choice.size, choice.runner_up) == ("14", "12")


def test_36_30_42_falls_in_three_sizes_and_a_full_skirt_needs_no_blend_at_the_hip() -> None:
    # common practice
    who = woman(bust=36, waist=30, hip=42)
    full = choose(THREE, who, "full-skirted dress")
    assert (full.size, [(each.place, each.size) for each in full.blends], full.unneeded) == (
        "10", [("waist", "12")], ("hip",),
    )  # fmt: skip
    close = choose(THREE, who, "dress")
    assert [(each.place, each.size, each.from_place, each.from_size) for each in close.blends] == [
        ("waist", "12", "bust", "10"), ("hip", "14", "waist", "12"),
    ]  # fmt: skip
    # plane geometry: a girth that grows by d over two side seams grows by d / 4 at each of their four edges
    assert [each.by for each in close.blends] == pytest.approx([2 * INCH / 4, 4 * INCH / 4])


def test_nobody_cuts_for_a_millimetre() -> None:
    # a girl whose hip lacks 1 mm of the least for comfort in a plain woven
    cloth, who = Cloth(), person({"height": 1040, "chest": 560, "waist": 530, "hip": 590}, body="girl")
    choice = choose_size(built_in_chart("girls", cloth, "regular"), who, garment_kind("dress"), cloth)
    assert "hip" not in [each.place for each in choice.blends]


def test_enough_ease_at_the_hip_needs_no_blend_though_the_body_is_two_sizes_larger() -> None:
    chart = {**THREE, "finished": {"hip": "45 47 49 51 53"}}
    choice = choose(chart, woman(bust=36, waist=28, hip=42), "dress")
    assert (choice.size, choice.blends, choice.unneeded) == ("10", (), ("hip",))


def test_37_31_42_lies_at_15_17_and_18() -> None:
    # a chart read with its page (S263); the interpolated sizes worked from it
    chart = {
        "sizes": "12 14 16 18 20",
        "body": {"bust": "34 36 38 40 42", "waist": "26.5 28 30 32 34", "hip": "36 38 40 42 44"},
    }
    choice = choose(chart, woman(bust=37, waist=31, hip=42))
    numbers = {
        tape.key: int(tape.at.between[0]) + tape.at.share * (int(tape.at.between[1]) - int(tape.at.between[0]))
        for tape in choice.tapes
    }
    assert numbers == pytest.approx({"bust_girth": 15.0, "waist_girth": 17.0, "hip_girth": 18.0})


def test_a_knit_that_would_finish_an_eighth_over_the_body_is_found() -> None:
    chart = {"sizes": "S M L", "cloth": "jersey", "body": {"bust": "32 35 38"}, "finished": {"bust": "31 34 37"}}
    choice = choose(chart, woman(bust=33.875), "knit top", "jersey")
    level = choice.level("bust")
    assert level is not None
    assert level.by_body is not None
    assert level.by_body.size == "M"
    assert choice.ease_in("M", "bust") == pytest.approx(INCH / 8)
    assert level.designed == pytest.approx(-INCH)


def test_a_sleeve_that_ends_2_in_short_of_the_wrist_is_lengthened_by_2_in() -> None:
    chart = {**THREE, "finished": {"sleeve": "21 21 21 21 21"}}
    (change,) = choose(chart, woman(arm_length=23), "top").lengths
    assert (change.key, change.by, change.sd) == ("arm_length", pytest.approx(2 * INCH), None)
    assert choose(chart, woman(arm_length=21.2), "top").lengths == ()


CHILD = {
    "unit": "cm",
    "for": "girl",
    "sizes": ["4-5", "6-8", "10", "12"],
    "body": {
        "height": [108, 128, 134, 146], "chest": [57, 65, 68, 72], "waist": [54, 58, 60, 63],
        "shoulder_length": [8.2, 9.4, 10, 10.8],
    },
}  # fmt: skip


def test_a_child_is_of_four_sizes_by_four_tapes_and_length_and_girth_are_chosen_apart() -> None:
    # a girl of 108 cm, chest 65, waist 63, shoulder 10: by height 4-5, by chest 6-8, by waist 12, by shoulder 10
    who = person(
        {"height": 1080, "chest": 650, "waist": 630, "hip": 680, "shoulder_length": 100}, body="girl", name="Tove"
    )
    choice = choose(CHILD, who, "loose dress")
    assert {tape.key: tape.at.size for tape in choice.tapes} == {
        "stature": "4-5", "bust_girth": "6-8", "waist_girth": "12", "shoulder_length": "10",
    }  # fmt: skip
    assert (choice.size, choice.length_size, choice.unneeded) == ("6-8", "4-5", ("waist",))


def test_a_child_between_two_sizes_takes_the_larger() -> None:
    who = person({"height": 1140, "chest": 600, "waist": 560, "hip": 620}, body="girl")
    choice = choose(CHILD, who, "loose dress")
    assert (choice.size, choice.length_size) == ("6-8", "6-8")


def test_a_child_takes_the_larger_of_its_size_by_the_body_and_by_the_finished_measure_and_is_not_taken_in() -> None:
    frock = {
        "for": "girl",
        "sizes": "3 4 5 6",
        "body": {"height": "38 41 44 47", "chest": "22 23 24 25", "waist": "20.5 21 21.5 22", "hip": "23 24 25 26"},
        "finished": {"chest": "25 26 27 28"},
    }
    mia = person(
        {"stature": 1040.0, "bust_girth": 22.25 * INCH, "waist_girth": 21 * INCH, "hip_girth": 22.75 * INCH},
        body="girl",
    )
    choice = choose(frock, mia)
    assert (choice.size, choice.length_size, choice.blends) == ("4", "4", ())


def test_a_full_bust_goes_by_the_upper_chest_and_is_given_room_in_front() -> None:
    chart = {**THREE, "body": {**THREE["body"], "chest": "32 34 36 38 40"}}
    choice = choose(chart, woman(bust=40, high_bust=36, waist=30, hip=40), "dress")
    assert (choice.size, choice.rules) == ("12", "upper chest")
    assert choice.shape is not None
    # spread of each half front = (own difference - the one drawn for) / 2 (a sewing text; an inch to a cup letter)
    assert (choice.shape.total, choice.shape.per_side) == pytest.approx((2 * INCH, INCH))
    assert choice.blends == ()
    # as far apart as the chart's own: by the bust, and nothing to add
    even = choose(chart, woman(bust=38, high_bust=36, waist=30, hip=40), "dress")
    assert even.shape is not None
    assert (even.size, even.rules, even.shape.total) == ("12", "bust", 0.0)


def test_a_flatter_bust_goes_by_the_bust() -> None:
    chart = {**THREE, "body": {**THREE["body"], "chest": "32 34 36 38 40"}}
    choice = choose(chart, woman(bust=36, high_bust=36, waist=28, hip=38), "dress")
    assert choice.shape is not None
    assert (choice.size, choice.rules, choice.shape.total) == ("10", "bust", 0.0)
    assert (choice.shape.size, choice.shape.flatter) == ("12", True)


def test_without_an_upper_chest_in_the_chart_2_in_are_taken() -> None:
    choice = choose(THREE, woman(bust=40, high_bust=36, waist=30, hip=40), "dress")
    assert choice.shape is not None
    assert (choice.size, choice.shape.from_row, choice.shape.total) == ("12", False, pytest.approx(2 * INCH))


def test_a_pattern_with_cups_is_chosen_by_the_upper_chest_and_the_cup() -> None:
    chart = {**THREE, "cups": "B C D"}
    choice = choose(chart, woman(bust=40, high_bust=36, waist=30, hip=40), "dress")
    assert choice.shape is not None
    assert (choice.size, choice.shape.cup, choice.shape.total) == ("12", "D", 0.0)


@pytest.mark.parametrize(
    ("kind", "size", "rules"),
    [("dress", "10", "bust"), ("gathered-waist dress", "10", "bust"), ("full skirt", "12", "waist"),
     ("skirt", "14", "hip"), ("trousers", "14", "hip")],
)  # fmt: skip
def test_the_level_that_rules_is_that_of_the_kind_of_garment(kind: str, size: str, rules: str) -> None:
    # trade practice: tops by the upper chest, full skirts by the waist, other skirts and trousers by the hip
    choice = choose(THREE, woman(bust=36, waist=30, hip=42), kind)
    assert (choice.size, choice.rules) == (size, rules)


def test_a_wide_style_goes_by_the_body_when_a_fit_is_named() -> None:
    # the jacket of a listing: 6 1/4 in of ease at the bust by design
    chart = {"sizes": "10 12 14", "body": {"bust": "32.5 34 36"}, "finished": {"bust": "38.75 40.25 42.25"}}
    choice = choose(chart, woman(bust=34), "jacket", fit="regular")
    level = choice.level("bust")
    assert level is not None
    assert (choice.size, level.loose) == ("12", True)


def test_what_is_drafted_here_is_chosen_by_the_same_rules() -> None:
    cloth = Cloth()
    chart = built_in_chart("women", cloth, "regular")
    who = person({"height": 1660, "bust": 920, "waist": 840, "hip": 976})
    choice = choose_size(chart, who, garment_kind("dress"), cloth)
    assert choice.size == "92"
    assert [(each.place, each.size) for each in choice.blends] == [("waist", "104")]
    child = person({"height": 1160, "chest": 580, "waist": 530, "hip": 598}, body="girl")
    assert choose_size(built_in_chart("girls", cloth, "regular"), child, garment_kind("dress"), cloth).size == "116"


def test_a_body_beyond_the_chart_is_told_what_the_largest_size_lacks() -> None:
    chart = {**THREE, "finished": {"bust": "36 38 40 42 44", "waist": "27 29 31 33 35", "hip": "38 40 42 44 46"}}
    choice = choose(chart, woman(bust=44, waist=33, hip=44), "dress")
    (short,) = choice.too_small()
    # 44 in finished for a body of 44 where 2 in are wanted
    assert (choice.size, short.place, short.by, short.each_edge) == (
        "16",
        "bust",
        pytest.approx(2 * INCH),
        pytest.approx(12.7),
    )
    assert choose(THREE, woman(bust=50), "dress").too_small()[0].by == pytest.approx(8 * INCH)
    assert choose(chart, woman(bust=42), "dress").too_small() == ()


def test_a_chart_for_another_body_or_without_a_row_is_refused() -> None:
    with pytest.raises(InputProblems, match="a girl or a boy: the chart is for no other body"):
        choose(CHILD, woman())
    with pytest.raises(InputProblems, match="no row for a trousers"):
        choose({"sizes": "S M", "body": {"bust": "34 36"}}, woman(), "trousers")
    with pytest.raises(UnknownName, match="kind of garment"):
        garment_kind("hat")


ROWS = st.lists(st.floats(10.0, 60.0), min_size=2, max_size=8)


@given(ROWS, st.floats(600.0, 1400.0))
@settings(max_examples=60, deadline=None)
def test_where_a_girth_falls_holds_for_any_row(steps: list[float], mm: float) -> None:
    row = [800.0 + sum(steps[:count]) for count in range(len(steps) + 1)]
    sizes = [f"size {count}" for count in range(len(row))]
    at = size_at(sizes, row, mm)
    nearest = min(abs(value - mm) for value in row)
    assert abs(row[sizes.index(at.size)] - mm) == pytest.approx(nearest)
    low, high = (row[sizes.index(size)] for size in at.between)
    assert low + at.share * (high - low) == pytest.approx(mm)


@given(
    st.floats(30.0, 44.0), st.floats(22.0, 40.0), st.floats(32.0, 48.0), st.sampled_from(sorted(GARMENT_KINDS)),
    st.sampled_from(["lawn", "denim", "jersey"]), st.sampled_from([None, "close", "loose"]),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_laws_of_the_choice(bust: float, waist: float, hip: float, kind: str, cloth: str, fit: Any) -> None:
    chart = {**THREE, "finished": {"bust": "37 39 41 43 45", "waist": "27 29 31 33 35", "hip": "39 41 43 45 47"}}
    choice = choose(chart, woman(bust=bust, waist=waist, hip=hip), kind, cloth, fit=fit)
    assert choice.size in choice.chart.sizes
    assert choice.runner_up != choice.size
    for level in choice.levels:
        assert level.by_finished is not None
        ease = choice.ease_in(level.by_finished, level.place)
        assert ease is not None
        # not below the least for comfort, unless the largest size is too small
        assert ease >= level.least - 1.61 or level.by_finished == choice.chart.sizes[-1]
    for blend in choice.blends:
        # a blend leads to the size of that level, and moves its edges by a quarter of the girths' difference
        made = [choice.chart.finished_mm(size, blend.place) for size in (choice.size, blend.size)]
        assert 4.0 * blend.by == pytest.approx((made[1] or 0.0) - (made[0] or 0.0))
    assert not {blend.place for blend in choice.blends} & set(choice.unneeded)
