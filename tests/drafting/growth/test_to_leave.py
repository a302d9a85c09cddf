"""How much cloth is left for growth, against what sewing books leave and against the bodies of the survey."""

import csv
from datetime import date
from pathlib import Path

import pytest

from drafting.growth.height_tables import height_spread
from drafting.growth.lengths import grown_mm, typical_mm
from drafting.growth.own_centile import Growth, Height
from drafting.growth.to_leave import PLACES_TO_LET_DOWN, to_leave, wider

BANDS = Path(__file__).parents[2] / "data" / "children_1977_bands.csv"


def middle(child, years, until_years):
    """The growth of the middle child of an age, and a day so many years after it was born."""
    born = date(2020, 1, 1)
    day = date(2020 + years, 1, 1)
    growth = Growth(child, born, (Height(day, height_spread(child, 12.0 * years).middle),))
    return growth, date(2020 + until_years, 1, 1)


def left(child, years):
    return {each.place.name: each for each in to_leave(*middle(child, years, years + 1))}


@pytest.mark.parametrize("years", [3, 4, 5, 6])
def test_for_a_year_a_skirt_gets_four_centimetres_and_a_bodice_half_an_inch(years):
    # "Growing clothes", the Ensign 1976: from 4 to 5 and 5 to 6, 1 1/2 in on the skirt and 1/2 in on the bodice; the
    # home rule is 4 cm a year on a skirt
    found = left("girl", years)
    assert found["skirt"].custom == pytest.approx(38.1, abs=4.0)
    assert found["skirt"].leave in (35.0, 40.0, 45.0)
    assert found["bodice"].custom == pytest.approx(12.7, abs=1.5)
    assert found["bodice"].leave in (15.0, 20.0)


def test_a_sleeve_gets_two_to_three_centimetres_for_a_year():
    # a tuck of 2 cm and a hem of 4 to 5 are what is left in a sleeve: common practice
    assert 20.0 <= left("girl", 6)["sleeve"].leave <= 35.0


def test_the_straps_and_the_crotch_together_get_four_centimetres_for_a_size():
    # nape to seat grows by 2 cm for 6 cm of height: 4 on the loop for a size, 8 for two
    found = left("boy", 3)["straps"]
    growth, _ = middle("boy", 3, 4)
    grown = height_spread("boy", 48.0).middle - growth.last.mm
    assert found.custom == pytest.approx(40.0 * grown / 60.0, rel=0.01)


def test_a_girl_who_hardly_grows_any_more_is_left_hardly_anything():
    assert left("girl", 16)["skirt"].leave < 15.0
    assert left("girl", 5)["skirt"].leave > 30.0


def test_no_less_is_left_than_nine_of_ten_will_need():
    for each in to_leave(*middle("boy", 8, 10)):
        assert each.expected < each.high <= each.leave
        assert each.leave % 5.0 == 0.0


def test_growth_in_width_is_left_to_the_usual_ease_until_it_is_more_than_2_cm():
    # growth allowances are none in width for a size: the Ensign 1976; wider only for more than 2 cm in a season
    year, until = middle("girl", 4, 5)
    one = wider(year, "bust_girth", 540.0, until)
    assert 20.0 < one.expected < one.high
    assert one.more < 5.0
    assert wider(year, "bust_girth", 540.0, date(2024, 7, 1)).more == 0.0
    two = wider(year, "bust_girth", 540.0, date(2027, 1, 1))
    assert two.more == pytest.approx(two.expected - 20.0)


def test_a_length_goes_with_the_height_as_the_survey_found_it():
    # means of the whole survey in bands 6 cm wide
    with BANDS.open(encoding="utf-8", newline="") as file:
        bands = [row for row in csv.DictReader(file) if 920 <= float(row["stature"]) <= 1640]
    assert len(bands) > 20
    for row in bands:
        for key, within in (("bust_girth", 22), ("waist_girth", 22), ("hip_girth", 32), ("arm_length", 15)):
            if row[key]:
                assert typical_mm(row["body"], key, float(row["stature"])) == pytest.approx(float(row[key]), abs=within)


def test_a_child_keeps_her_own_offset():
    stout = 1.1 * typical_mm("girl", "waist_girth", 1200.0)
    assert grown_mm("girl", "waist_girth", stout, 1200.0, 1300.0) == pytest.approx(
        1.1 * typical_mm("girl", "waist_girth", 1300.0)
    )
    assert grown_mm("girl", "stature", 1200.0, 1200.0, 1300.0) == 1300.0


def test_the_crotch_height_is_told_too():
    assert 0.5 < (typical_mm("boy", "crotch_height", 1400.0) - typical_mm("boy", "crotch_height", 1200.0)) / 200.0 < 0.7


@pytest.mark.parametrize("child", ["girl", "boy"])
def test_a_baby_grows_between_nape_and_seat_as_a_chart_of_babies_has_it(child):
    """W. Aldrich at second hand, sizes 56 and 86: nape to seat 26.0 and 36.7 cm, back to waist 15.8 and 21.8."""
    grows = {place.name: place.grows(child, 860.0) - place.grows(child, 560.0) for place in PLACES_TO_LET_DOWN}
    assert grows["straps"] == pytest.approx(2 * (367.0 - 260.0), abs=10.0)
    assert grows["bodice"] == pytest.approx(218.0 - 158.0, abs=5.0)
    assert grows["legs"] == pytest.approx(345.0 - 160.0, abs=20.0)
    just = {place.name: place.grows(child, 860.5) - place.grows(child, 859.5) for place in PLACES_TO_LET_DOWN}
    assert all(0.0 < by < 3.0 for by in just.values()), "no step where the chart ends"
