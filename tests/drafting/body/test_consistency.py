"""The odd one out is named: on real women with one slip of the tape each, and on nobody who made none."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

import numpy as np
import pytest

from drafting.body.charts import SIZES
from drafting.body.complete import complete
from drafting.body.consistency import Odd, _inverse, _joint, judges, odd_ones
from drafting.body.sizes import Sizes, sizes_body
from drafting.body.terms import BASICS
from tests.bodies import WOMENS_KEYS, women

EVERY = 110
"""Every so many women of the survey: 11 of them, each with every length off one by one."""

Taken = Mapping[str, float]


def bodies(*, some: int = len(WOMENS_KEYS)) -> Iterator[dict[str, float]]:
    """Women with the four basics and as many of their other lengths, other ones for each."""
    others = [key for key in WOMENS_KEYS if key not in BASICS]
    for place, woman in enumerate(women()[::EVERY]):
        whole = dict(woman.measurements)
        kept = {others[(place * 7 + step * 11) % len(others)] for step in range(some)}
        yield {key: whole[key] for key in WOMENS_KEYS if key in BASICS or key in kept or some >= len(others)}


def named(taken: Taken) -> str:
    """The first one that is found odd; "" for none."""
    found = odd_ones(taken, "woman")
    return "" if not found or found[0].swapped_with else found[0].key


@cache
def share_named(by: float, some: int = len(WOMENS_KEYS)) -> float:
    """Of lengths that are off by so many mm, one at a time, the share that is named."""
    tries = [
        (key, {**taken, key: taken[key] + off})
        for taken in bodies(some=some)
        for key in taken
        for off in (by, -by)
        if taken[key] + off > 30.0
    ]
    return sum(named(taken) == key for key, taken in tries) / len(tries)


def test_a_slip_of_ten_centimetres_is_named_on_nearly_every_body() -> None:
    assert share_named(100.0) > 0.95
    assert share_named(60.0) > 0.82
    assert share_named(40.0) > 0.6


def test_with_fewer_lengths_to_judge_by_fewer_slips_are_found() -> None:
    assert 0.8 < share_named(100.0, some=12) < share_named(100.0)
    assert 0.6 < share_named(100.0, some=5) < share_named(100.0, some=12)


@pytest.mark.parametrize(("one", "other"), [("waist_girth", "hip_girth"), ("back_waist_length", "arm_length")])
def test_two_lengths_that_were_swapped_are_told_together(one: str, other: str) -> None:
    for taken in bodies():
        (found,) = odd_ones({**taken, one: taken[other], other: taken[one]}, "woman")
        assert {found.key, found.swapped_with} == {one, other}


def test_a_length_is_judged_by_all_others_as_a_regression_on_them_would() -> None:
    # numpy's least squares of one length on three others over the same women; what we allow the tape at home (5 mm)
    # draws the expected towards the mean by little
    keys = ("bust_girth", "waist_girth", "hip_girth", "stature", "upper_chest_girth")
    table = np.array([[dict(woman.measurements)[key] for key in keys] for woman in women()])
    design = np.column_stack([np.ones(len(table)), table[:, :-1]])
    factors, *_ = np.linalg.lstsq(design, table[:, -1], rcond=None)
    rest = float(np.std(table[:, -1] - design @ factors))
    for row in table[::EVERY]:
        taken = dict(zip(keys, row, strict=True)) | {"upper_chest_girth": 1500.0}
        (found,) = odd_ones(taken, "woman")
        assert found.key == "upper_chest_girth"
        assert found.expected_mm == pytest.approx(float(factors @ [1.0, *row[:-1]]), abs=4.0)
        assert found.sd_mm == pytest.approx(rest, rel=0.1)
        assert found.off == pytest.approx((1500.0 - found.expected_mm) / found.sd_mm)


@pytest.mark.parametrize("size", SIZES)
def test_no_size_of_the_chart_has_an_odd_length(size: int) -> None:
    body = sizes_body(Sizes(bust=size))
    assert odd_ones({value.key: value.mm for value in body.known()}, "woman") == ()


@pytest.mark.parametrize("girths", [(1300, 1150, 1320), (1400, 1280, 1420), (1600, 1500, 1620)])
def test_a_body_larger_than_any_that_was_measured_is_not_taken_for_a_slip(girths: tuple[int, int, int]) -> None:
    for stature in (1500.0, 1650.0, 1800.0):
        taken = {"stature": stature} | dict(zip(BASICS[1:], map(float, girths), strict=True))
        assert odd_ones(taken, "woman") == ()


def test_several_slips_are_found_one_by_one() -> None:
    taken = next(bodies())
    slips = {"back_waist_length": -100.0, "arm_length": 120.0, "bust_girth": 150.0}
    found: tuple[Odd, ...] = odd_ones({key: mm + slips.get(key, 0.0) for key, mm in taken.items()}, "woman")
    assert {odd.key for odd in found} == set(slips)
    assert all(odd.off * slips[odd.key] > 0.0 for odd in found)


def test_where_it_is_not_known_how_lengths_go_together_nothing_is_odd() -> None:
    assert judges("woman")
    assert not judges("girl")
    assert odd_ones(dict(complete(women()[0]).person.measurements), "boy") == ()


def test_the_inverse_of_the_covariances_is_the_one_that_another_library_finds() -> None:
    joint = _joint("woman")
    for keys in (joint.keys, BASICS, joint.keys[::3]):
        covariance = np.array(joint.among(keys))
        assert np.array(_inverse(joint.among(keys))) == pytest.approx(np.linalg.inv(covariance), rel=1e-8)
