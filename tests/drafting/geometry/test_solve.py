"""Root finding: against roots that are known, those that another library finds, and where there are none."""

from __future__ import annotations

import math
from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from drafting.errors import NotAPattern
from drafting.geometry import Vec
from drafting.geometry.solve import Rates, root_between, solve, solve_both


def test_a_root_is_found_near_a_guess_and_far_from_it() -> None:
    assert solve(lambda x: x * x - 400.0, 21.0, 1.0) == pytest.approx(20.0, abs=1e-9)
    assert solve(lambda x: math.exp(0.01 * x) - 20.0, 1.0, 0.5) == pytest.approx(100.0 * math.log(20.0), abs=1e-9)


def test_no_root_is_a_refusal() -> None:
    with pytest.raises(NotAPattern):
        solve(lambda x: x * x + 1.0, 3.0, 0.5)


def test_a_root_is_sought_in_forty_strides_each_way_each_half_as_long_again() -> None:
    tries = []

    def surplus(x: float) -> float:
        tries.append(x)
        return 5.0

    with pytest.raises(NotAPattern):
        solve(surplus, 7.0, 2.0)
    strides = [*accumulate(2.0 * 1.5**k for k in range(40))]
    assert tries[:3] == [7.0, 9.0, 7.0]  # a secant first, then from the guess again
    assert tries[3:] == pytest.approx([7.0 + stride for stride in strides] + [7.0 - stride for stride in strides])


SHAPES = {
    "straight": lambda x: x,
    "flat at the root": lambda x: x**9,
    "steep at the root": lambda x: math.copysign(abs(x) ** 0.2, x),
    "a step": lambda x: math.atan(1e6 * x),
    "one side far steeper": lambda x: math.expm1(9.0 * x),
}


@given(st.sampled_from(sorted(SHAPES)), st.floats(-0.9, 0.9), st.floats(0.1, 1000.0), st.sampled_from((1.0, -1.0)))
def test_a_root_between_two_ends_is_where_another_library_finds_it(
    shape: str, root: float, width: float, way: float
) -> None:
    tries = []

    def value(x: float) -> float:
        tries.append(x)
        return way * SHAPES[shape](x / width - root)

    for low, high in ((-width, width), (width, -width)):
        tries.clear()
        found = root_between(value, low, high)
        assert len(tries) <= 112
        assert all(min(low, high) <= x <= max(low, high) for x in tries)
        theirs = brentq(value, low, high, xtol=1e-13 * width, rtol=1e-14, maxiter=1000)
        # where it is flat any x near it is a root: x^9 is 1e-18 at 0.01
        assert abs(found - theirs) <= (0.02 if shape == "flat at the root" else 1e-9) * width


def test_a_smooth_root_takes_few_tries() -> None:
    tries = []

    def value(x: float) -> float:
        tries.append(x)
        return math.cos(x) - x

    assert root_between(value, 0.0, 1.5) == pytest.approx(0.7390851332151607, abs=1e-14)  # the fixed point of cosine
    assert len(tries) <= 10


def test_where_no_value_is_zero_between_two_ends_the_nearer_end_is_found() -> None:
    assert root_between(lambda x: x + 5.0, 1.0, 2.0) == 1.0
    assert root_between(lambda x: x - 5.0, 1.0, 2.0) == 2.0
    assert root_between(lambda x: -x - 5.0, 1.0, 2.0) == 1.0


@pytest.mark.parametrize("guess", [(320.0, 210.0), (200.0, 300.0)])
def test_two_roots_are_found_where_a_circle_and_an_ellipse_cross(guess: tuple[float, float]) -> None:
    # 300, 400, 500: a right-angled triangle; the ellipse has half axes 300 sqrt 2 and 400 sqrt 2
    def surplus(x: float, y: float) -> tuple[float, float]:
        return math.hypot(x, y) - 500.0, 100.0 * (math.hypot(x / 300.0, y / 400.0) - math.sqrt(2.0))

    found = solve_both(surplus, *guess)
    assert found is not None
    assert found == pytest.approx((300.0, 400.0), abs=1e-6)


def test_two_lines_that_are_parallel_have_no_roots() -> None:
    assert solve_both(lambda x, y: (x + y - 10.0, x + y - 11.0), 2.0, 3.0) is None


def test_a_step_grows_both_values_by_what_is_wanted_and_there_is_none_along_one_rate() -> None:
    rates = Rates(Vec(3.0, 1.0), Vec(-1.0, 2.0))
    step = rates.step(5.0, -7.0)
    assert step is not None
    assert (rates.one.dot(step), rates.other.dot(step)) == pytest.approx((5.0, -7.0))
    assert Rates(Vec(3.0, 1.0), Vec(6.0, 2.0)).step(5.0, -7.0) is None
    assert rates.step(5.0, -7.0, least=7.0) is None


def test_rates_are_learnt_along_a_step_and_kept_square_to_it() -> None:
    step = Vec(0.0, 2.0)
    learnt = Rates(Vec(3.0, 1.0), Vec(-1.0, 2.0)).learnt(step, 10.0, 0.0)
    assert (learnt.one.dot(step), learnt.other.dot(step)) == (10.0, 0.0)
    assert (learnt.one.x, learnt.other.x) == (3.0, -1.0)
