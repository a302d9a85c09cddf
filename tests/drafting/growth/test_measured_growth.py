"""A child's growth from her file, and the sentences where it cannot be told."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from drafting.body.person import person
from drafting.errors import InputProblems
from drafting.growth.measured_growth import age_words, doubts_of, growth_of, until_problems
from drafting.growth.outlook import outlook
from drafting.growth.own_centile import expected_height
from tests.drafting.growth.children import BORN, wren


def sentences(who):
    with pytest.raises(InputProblems) as refused:
        growth_of(who)
    return [problem.sentence() for problem in refused.value.problems]


def test_all_heights_of_her_file_stand_in_her_growth_oldest_first():
    growth = growth_of(wren())
    assert [each.mm for each in growth.heights] == [1105.0, 1155.0, 1200.0]
    assert growth.last.day == date(2026, 3, 1)


def test_everything_that_is_missing_is_said_at_once():
    who = wren(born=None, measured=None, earlier={})
    told = sentences(replace(who, body="woman"))
    assert len(told) == 3
    assert "girl" in told[0]
    assert "born = 2019-05-21" in told[1]
    assert "measured = 2026-09-20" in told[2]


def test_a_height_that_fell_is_refused_with_both_heights_and_days():
    (told,) = sentences(wren(height=1120.0))
    assert "112.0 cm on 2026-03-01" in told
    assert "115.5 cm on 2025-06-01" in told


def test_a_child_that_stands_for_the_first_time_may_measure_less():
    lying = {date(2021, 3, 1): {"height": 872.0}}
    growth = growth_of(wren(height=858.0, measured=date(2021, 6, 1), earlier=lying))
    assert growth.last.mm == 858.0


def test_a_fall_on_the_way_to_standing_is_still_a_fall():
    assert sentences(wren(height=840.0, measured=date(2021, 6, 1), earlier={date(2021, 3, 1): {"height": 872.0}}))


def test_at_twenty_nobody_grows():
    assert "20 years" in sentences(wren(born=date(2000, 1, 1), earlier={}))[0]


@pytest.mark.parametrize(
    ("until", "says"),
    [
        (date(2018, 1, 1), "day of birth (2019-05-01)"),
        (date(2026, 3, 1), "after the last height (2026-03-01)"),
        (date(2040, 1, 1), "no more than 6 years"),
    ],
)
def test_a_day_that_makes_no_sense_is_refused_in_a_sentence(until, says):
    (problem,) = until_problems(growth_of(wren()), until, "the command line, --until")
    assert says in problem.sentence()


def test_a_height_that_next_to_no_child_has_is_doubted():
    assert doubts_of(growth_of(wren()), "cm") == ()
    (told,) = doubts_of(growth_of(wren(height=1500.0, earlier={})), "in")
    assert "one in 2,000" in told
    assert "59 in" in told
    (doubt,) = outlook(wren(height=1500.0, earlier={})).doubts
    assert doubt.startswith("On 2026-03-01 a girl of 6 years 10 months and 150.0 cm")


def test_ages_are_said_in_years_and_months():
    assert [age_words(each) for each in (0.4, 1.0, 12.0, 13.2, 98.9)] == [
        "less than a month",
        "1 month",
        "1 year",
        "1 year 1 month",
        "8 years 2 months",
    ]
    assert growth_of(wren()).months(BORN) == 0.0


def test_the_head_of_a_baby_grows_by_the_tables_and_that_of_a_child_with_its_height():
    baby = wren(height=680.0, born=date(2025, 9, 1), measured=date(2026, 3, 1), earlier={})
    head = outlook(baby, date(2026, 9, 1)).head
    assert head == pytest.approx((422.0, 449.0), abs=8.0)  # CDC, middle girl of 6 and of 12 months
    now, then = outlook(wren(), date(2027, 8, 1)).head
    assert now == pytest.approx(515.0, abs=15.0)  # study means: 51.5 at 8 years, 53.2 at 12
    assert 0.0 < then - now < 15.0


@pytest.mark.parametrize("child", ["girl", "boy"])
@pytest.mark.parametrize("months", [0.5, 1, 4, 13, 25, 48, 97, 140, 190, 239])
def test_no_height_at_any_age_crashes_and_nobody_is_expected_to_shrink(child, months):
    measured = date(2026, 9, 6)
    born = measured - timedelta(days=round(30.4375 * months))
    told = 0
    for height in range(450, 2060, 40):
        girths = {"bust": 500, "waist": 480, "hip": 520} if height < 1100 else {"bust": 700, "waist": 620, "hip": 740}
        who = person({"height": height, **girths}, body=child, born=born, measured=measured)
        try:
            growth = growth_of(who)
        except InputProblems:  # a height that no child of that age has
            continue
        told += 1
        for year in (2026, 2027, 2030):
            expected = expected_height(growth, date(year, 12, 1))
            assert height <= expected.mm <= expected.high < 2400
            assert 0 < expected.low <= expected.mm
    assert told


def test_a_rise_that_no_child_makes_is_refused_as_a_fall_is():
    girths = {"bust": 610, "waist": 570, "hip": 640}
    day = date(2026, 9, 6)
    for earlier, mm in ((date(2026, 9, 5), 1100), (date(2024, 8, 20), 450)):
        who = person(
            {"height": 1245, **girths},
            body="girl",
            born=date(2019, 5, 21),
            measured=day,
            earlier={earlier: {"height": mm}},
        )
        with pytest.raises(InputProblems, match=r"grow in that time|of that age can have"):
            growth_of(who)
