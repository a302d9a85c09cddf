"""The curves of drafted bodices and sleeves, as a cutter's eye finds them in pattern.json, on real bodies and sizes.

What `python -m tests.sweep_curves` finds of all of them is in DEVELOPERS.md; here a fixed sample of it.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest

from tests.bodies import women
from tests.outside import curves_table
from tests.sweep_curves import Worst, dressed, on_the_chart, ordered, swept

ON_THE_BACK = ("back armhole: share of its turning in 40 mm", "back armhole: rise over the first 15 mm, degrees")
"""The lines that a narrow back cannot always have: they are few, the checks warn, and nothing else is missed."""


@cache
def sample(*, girths_only: bool) -> tuple[int, dict[str, Worst]]:
    return swept(dressed(ordered(who) for who in women(girths_only=girths_only)[5::55]))


@pytest.mark.parametrize("girths_only", [False, True])
def test_no_line_of_the_table_is_missed_but_on_a_narrow_back(girths_only: bool) -> None:
    count, worst = sample(girths_only=girths_only)
    assert count > 18
    missed = {what: mine.missed for what, mine in worst.items() if mine.missed}
    assert [what for what in missed if what not in ON_THE_BACK] == []
    assert sum(map(len, missed.values())) <= 0.1 * count


def test_every_size_of_the_chart_has_every_line_but_the_smallest_at_its_back() -> None:
    count, worst = swept(dressed(on_the_chart()))
    assert count >= 10
    assert {what: mine.missed for what, mine in worst.items() if mine.missed} == {ON_THE_BACK[0]: ["size 76"]}


def test_the_reader_finds_the_radius_and_the_turning_of_a_circle() -> None:
    turn = np.linspace(0.0, 0.5 * math.pi, 2001)
    quarter = curves_table.line(np.c_[30.0 * np.sin(turn), 30.0 - 30.0 * np.cos(turn)])
    assert quarter.tightest() == pytest.approx(30.0, rel=1e-4)
    assert quarter.turned_within(15.0) == pytest.approx(0.5, abs=1e-3)
    assert quarter.most_turning(20.0) == pytest.approx(20.0 / (15.0 * math.pi), abs=1e-3)
    assert quarter.wavering() == 0.0


def test_the_reader_finds_a_waver() -> None:
    along = np.linspace(0.0, 100.0, 2001)
    waves = curves_table.line(np.c_[along, 5.0 * np.sin(along / 100.0 * 2.0 * math.pi)])
    assert waves.wavering() > 15.0
