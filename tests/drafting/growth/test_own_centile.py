"""A child's own centile: where heights were taken it is theirs, and the range is what growth studies found."""

import math
from datetime import date, timedelta

import pytest

from drafting.growth.height_tables import height_spread
from drafting.growth.lms import deviations_of
from drafting.growth.own_centile import Growth, Height, expected_height, kept_between, when_reached

BORN = date(2019, 5, 1)


def girl(*heights):
    return Growth("girl", BORN, tuple(Height(day, mm) for day, mm in heights))


ONE = girl((date(2026, 3, 1), 1200.0))


def test_the_height_to_expect_on_the_day_of_the_tape_is_what_was_taken():
    found = expected_height(ONE, date(2026, 3, 1))
    assert found.mm == pytest.approx(1200.0, abs=1.0)
    assert found.low < 1200.0 < found.high


def test_a_child_on_the_middle_is_expected_on_the_middle():
    day = date(2027, 3, 1)
    months = (date(2026, 3, 1) - BORN).days / 30.4375
    found = expected_height(girl((date(2026, 3, 1), height_spread("girl", months).middle)), day)
    assert found.centile == pytest.approx(50.0)
    assert found.mm == pytest.approx(height_spread("girl", found.months).middle)


@pytest.mark.parametrize(("years", "found"), [(1.0, 0.226), (2.0, 0.351)])
def test_between_11_and_13_boys_wander_as_those_of_oxford_did(years, found):
    # 26 boys, nine heights each over two years, as standard deviations from the middle of their age: by how much they
    # changed (one standard deviation). Goldstein 1987, worked out against the same growth tables.
    for begins in (11.25, 11.25 + (2.0 - years)):
        kept = kept_between("boy", 12 * begins, 12 * (begins + years))
        assert math.sqrt(2.0 * (1.0 - kept)) == pytest.approx(found, rel=0.1)


def test_height_at_three_tells_of_height_at_eighteen_as_growth_studies_found():
    for child in ("girl", "boy"):
        assert 0.7 < kept_between(child, 36.0, 216.0) < 0.85  # from memory: 0.75 to 0.8
        assert kept_between(child, 36.0, 36.0) == 1.0
        assert kept_between(child, 216.0, 36.0) == kept_between(child, 36.0, 216.0)


def test_the_range_widens_with_time_and_narrows_with_every_height():
    later = [expected_height(ONE, date(2026 + years, 3, 2)) for years in range(4)]
    widths = [each.high - each.low for each in later]
    assert widths == sorted(widths)
    two = girl((date(2025, 9, 1), 1172.0), (date(2026, 3, 1), 1200.0))
    day = date(2026, 9, 1)
    of_one, of_two = expected_height(ONE, day), expected_height(two, day)
    assert of_two.high - of_two.low < of_one.high - of_one.low


def test_several_heights_give_what_a_stranger_finds_by_normal_variables():
    numpy = pytest.importorskip("numpy")
    heights = ((date(2023, 3, 1), 985.0), (date(2024, 9, 1), 1090.0), (date(2026, 3, 1), 1200.0))
    growth, day = girl(*heights), date(2027, 1, 1)
    ages = [growth.months(each) for each, _ in heights]
    spreads = [height_spread("girl", age) for age in ages]
    off = numpy.array([spread.deviations(mm) for spread, (_, mm) in zip(spreads, heights, strict=True)])
    joint = numpy.array([[kept_between("girl", a, b) for b in ages] for a in ages])
    joint += numpy.diag([(6.0 / (each.spread * each.middle)) ** 2 for each in spreads])
    along = numpy.array([kept_between("girl", each, growth.months(day)) for each in ages])
    weights = numpy.linalg.solve(joint, along)
    sure = math.sqrt(1.0 - along @ weights)
    spread = height_spread("girl", growth.months(day))
    found = expected_height(growth, day)
    assert found.mm == pytest.approx(spread.value(float(weights @ off)))
    assert found.high == pytest.approx(spread.value(float(weights @ off) + deviations_of(90.0) * sure))


def test_a_height_is_reached_when_it_is_to_be_expected():
    found = when_reached(ONE, 1260.0)
    assert found.early < found.middle < found.late
    assert expected_height(ONE, found.early).high == pytest.approx(1260.0, abs=0.5)
    assert expected_height(ONE, found.middle).mm == pytest.approx(1260.0, abs=0.5)
    assert expected_height(ONE, found.late).low == pytest.approx(1260.0, abs=0.5)


def test_what_is_reached_already_is_reached_now_and_what_never_will_be_not_at_all():
    assert when_reached(ONE, 1100.0).middle == ONE.last.day
    assert when_reached(ONE, 2200.0).early is None


def test_grown_she_stays_as_tall_as_she_is():
    grown = expected_height(ONE, BORN + timedelta(days=365 * 21))
    assert grown.mm == pytest.approx(expected_height(ONE, BORN + timedelta(days=365 * 25)).mm)
