"""The growth tables against what was published: a stranger reads the centile columns and the WHO's tables."""

import csv
import math
from datetime import date
from pathlib import Path

import pytest

from drafting.growth.height_tables import day_at, head_spread, height_spread, lying_less_standing, months_between
from drafting.growth.lms import Lms, centile_of, deviations_of

DATA = Path(__file__).parents[2] / "data" / "growth"


def rows(name):
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_every_published_centile_of_height_comes_out_to_a_tenth_of_a_millimetre():
    worst, seen = 0.0, 0
    for row in rows("cdc2000_centiles.csv"):
        spread = height_spread(row["body"], float(row["months"]), lying=row["taken"] == "lying")
        for column in (name for name in row if name.startswith("P")):
            mm = spread.value(deviations_of(float(column[1:])))
            worst, seen = max(worst, abs(mm - 10 * float(row[column]))), seen + 1
    assert seen == 9 * 510
    assert worst < 0.1  # mm: 0.01 cm


def test_every_published_centile_of_the_head_comes_out_to_a_tenth_of_a_millimetre():
    for row in rows("cdc2000_head_centiles.csv"):
        spread = head_spread(row["body"], float(row["months"]))
        for column in (name for name in row if name.startswith("P")):
            assert spread.value(deviations_of(float(column[1:]))) == pytest.approx(10 * float(row[column]), abs=0.1)
    assert head_spread("girl", 37.0) is None


def test_a_published_centile_read_the_other_way_gives_its_number_back():
    for row in rows("cdc2000_centiles.csv")[::7]:
        spread = height_spread(row["body"], float(row["months"]), lying=row["taken"] == "lying")
        for column in (name for name in row if name.startswith("P")):
            # the columns are rounded to 0.001 cm, worth up to 0.02 of a centile near the middle
            assert centile_of(spread.deviations(10 * float(row[column]))) == pytest.approx(float(column[1:]), abs=0.02)


def test_between_two_rows_the_centiles_lie_between_theirs():
    before, after = height_spread("girl", 100.5), height_spread("girl", 101.5)
    for z in (-2.0, 0.0, 1.3):
        assert height_spread("girl", 101.0).value(z) == pytest.approx((before.value(z) + after.value(z)) / 2, abs=0.01)


@pytest.mark.parametrize("child", ["girl", "boy"])
def test_lying_a_child_of_two_to_three_is_7_or_8_mm_longer_than_standing(child):
    # the 0.7 to 0.8 cm that the makers of growth charts give for the difference
    for months in (24.5, 27.5, 30.5, 33.5, 35.5):
        assert 6.5 < lying_less_standing(child, months) < 8.6


def test_nine_of_ten_girls_of_eight_are_46_to_54_inches_tall_and_the_middle_one_50():
    # "90 % of 8-year-old girls are 46 to 54 in tall, the middle one 50": a sewing teacher's reading of the charts
    spread = height_spread("girl", 96.0)
    assert spread.middle / 25.4 == pytest.approx(50.0, abs=0.5)
    inside = centile_of(spread.deviations(54 * 25.4)) - centile_of(spread.deviations(46 * 25.4))
    assert 90.0 < inside < 96.0


def test_a_child_of_2_to_14_is_30_inches_and_2_and_a_half_for_each_year():
    # the rule of thumb of paediatricians: age * 2.5 + 30 inches; 6 years, 45 in
    for child in ("girl", "boy"):
        for years in range(2, 15):
            assert height_spread(child, 12.0 * years).middle / 25.4 == pytest.approx(
                2.5 * years + 30, abs=2.0
            )  # girls stop at 14


def test_in_the_first_year_a_baby_grows_by_25_cm():
    for child in ("girl", "boy"):
        grown = height_spread(child, 12.0).middle - height_spread(child, 0.0).middle
        assert grown == pytest.approx(250, abs=12)


def test_the_middle_child_of_the_who_is_within_three_hundredths_of_ours():
    # another sample (six countries; and the WHO's own fit to older American data) by another hand
    off = [
        abs(height_spread(row["body"], float(row["months"])).middle / (10 * float(row["m"])) - 1)
        for row in rows("who_heights.csv")
    ]
    assert len(off) > 150
    assert max(off) < 0.03
    assert sum(off) / len(off) < 0.008


def test_beyond_20_years_nobody_grows():
    assert height_spread("boy", 300.0) == height_spread("boy", 240.0)


def test_a_spread_without_a_power_is_the_limit_of_small_ones():
    plain, near = Lms(0.0, 1000.0, 0.04), Lms(1e-6, 1000.0, 0.04)
    assert plain.value(1.5) == pytest.approx(1000.0 * math.exp(0.06))
    assert near.value(1.5) == pytest.approx(plain.value(1.5), abs=0.01)
    assert plain.deviations(plain.value(-0.7)) == pytest.approx(-0.7)


def test_beyond_where_a_power_ends_a_length_is_zero_or_without_bound():
    above, below = Lms(1.0, 1000.0, 0.1), Lms(-1.0, 1000.0, 0.1)
    assert above.value(-10.0) == above.value(-11.0) == 0.0
    assert below.value(9.0) == pytest.approx(10_000.0)  # 1000 * (1 - 0.9) ** -1
    assert below.value(10.0) == below.value(11.0) == math.inf


def test_a_month_is_a_twelfth_of_a_year_and_days_come_back():
    born = date(2019, 5, 1)
    assert months_between(born, date(2023, 5, 1)) == pytest.approx(48.0)
    assert day_at(born, 48.0) == date(2023, 5, 1)
