"""A child's own centile from one or more dated heights, and the height to expect on another day, with a range.

A child keeps near her centile, but not on it. Heights of one child, each as standard deviations from the middle of its
age, go together the less the longer the time between them: by `_KEPT` to the power of the years that pass (a stationary
Gaussian process, for which the heights that were taken give mean and spread of every other one exactly). A tape at home
is off by `_TAPE`. So with one height the range widens from day to day, and every height that is added narrows it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.growth.height_tables import GROWN, Child, day_at, height_spread, months_between
from drafting.growth.lms import centile_of, deviations_of

__all__ = [
    "SHARE",
    "Expected",
    "Growth",
    "Height",
    "Reached",
    "expected_height",
    "kept_between",
    "oddity_of_rise",
    "when_reached",
]

SHARE: Final = 0.8
"""How many of the children who measured so lie within a range: 8 of 10."""

_TAPE: Final = 6.0
"""mm. How far off a height taken at home may be, one standard deviation: a child is up to 1 cm shorter in the evening,
and trained hands repeat a height to 3 to 5 mm (common practice; the figure is ours)."""

_KEPT: Final = {
    "girl": ((1.0, 0.60), (2.0, 0.85), (3.0, 0.94), (9.0, 0.985), (13.0, 0.97), (20.0, 0.99)),
    "boy": ((1.0, 0.60), (2.0, 0.85), (3.0, 0.94), (11.0, 0.985), (15.0, 0.97), (20.0, 0.99)),
}
"""Up to which age (years) heights a year apart go together by how much: their correlation.

For the spurt it is checked: 26 boys of Oxford, measured nine times between 11 and 13 (H. Goldstein, *Multilevel Models
in Educational and Social Research*, 1987), changed by 0.23 standard deviations in a year and 0.35 in two, where 0.97
gives 0.24 and 0.34. The other figures are from memory: together they give 0.77 from 3 to 18 years and 0.72 from 2,
where growth studies found 0.7 to 0.8."""

_STEP: Final = timedelta(days=28)  # between two days on which a height that is to be reached is looked for


@dataclass(frozen=True, slots=True)
class Height:
    """A height that was taken, mm, and the day."""

    day: date
    mm: float


@dataclass(frozen=True, slots=True)
class Growth:
    """A child and the heights that were taken of it, oldest first, one or more."""

    child: Child
    born: date
    heights: tuple[Height, ...]

    @property
    def last(self) -> Height:
        """The height that was taken last."""
        return self.heights[-1]

    def months(self, day: date) -> float:
        """How old the child is on a day, months."""
        return months_between(self.born, day)


@dataclass(frozen=True, slots=True)
class Expected:
    """The height to expect of a child on a day, mm.

    low, high: the range that holds for SHARE of the children who measured so
    centile:   of the height to expect: how many of 100 children of that age are shorter
    """

    day: date
    months: float
    mm: float
    low: float
    high: float
    centile: float


@dataclass(frozen=True, slots=True)
class Reached:
    """When a child reaches a height: on what day most likely, and the range for SHARE of the children who measured so.

    None where that is not to be expected before it is grown.
    """

    early: date | None
    middle: date | None
    late: date | None


def kept_between(child: Child, months: float, later: float) -> float:
    """How far the heights of one child at two ages go together: their correlation, 1 for the same age."""
    first, last = sorted((months / 12.0, later / 12.0))
    kept, begins = 1.0, 0.0
    for ends, a_year in _KEPT[child]:
        kept *= a_year ** max(0.0, min(last, ends) - max(first, begins))
        begins = ends
    return kept


def expected_height(growth: Growth, day: date) -> Expected:
    """The height to expect on a day, before, between or after the days on which heights were taken."""
    months = min(growth.months(day), GROWN)
    at, off = _off_middle(growth, months)
    spread, far = height_spread(growth.child, months), deviations_of(50.0 + 50.0 * SHARE) * off
    reached = growth.last.mm if day >= growth.last.day else 0.0  # nobody grows shorter than she measured
    mm, high = max(spread.value(at), reached), max(spread.value(at + far), reached)
    return Expected(day, months, mm, min(mm, spread.value(at - far)), high, centile_of(at))


def oddity_of_rise(growth: Growth, first: Height, second: Height) -> float:
    """How far a child rose beside others between two heights, in standard deviations of such a change."""
    ages = growth.months(first.day), growth.months(second.day)
    spreads = [height_spread(growth.child, age) for age in ages]
    before, after = (spread.deviations(each.mm) for spread, each in zip(spreads, (first, second), strict=True))
    tape = sum((_TAPE / (spread.spread * spread.middle)) ** 2 for spread in spreads)
    return (after - before) / math.sqrt(2.0 - 2.0 * kept_between(growth.child, *ages) + tape)


def when_reached(growth: Growth, mm: float) -> Reached:
    """When the child reaches a height, mm, counted from the day it was measured last."""
    end = max(day_at(growth.born, GROWN), growth.last.day)
    days = [growth.last.day]
    while days[-1] < end:
        days.append(min(end, days[-1] + _STEP))
    found = [expected_height(growth, day) for day in days]
    return Reached(
        early=_first_day(days, [each.high for each in found], mm),
        middle=_first_day(days, [each.mm for each in found], mm),
        late=_first_day(days, [each.low for each in found], mm),
    )


def _first_day(days: Sequence[date], heights: Sequence[float], mm: float) -> date | None:
    """The first day on which one of these heights is reached, read off a straight line between two days."""
    if heights[0] >= mm:
        return days[0]
    for (day, height), (later, higher) in pairwise(zip(days, heights, strict=True)):
        if higher >= mm:
            return day + (later - day) * ((mm - height) / (higher - height))
    return None


def _off_middle(growth: Growth, months: float) -> tuple[float, float]:
    """By how many standard deviations a child is expected off the middle at an age, and how sure that is (one sd)."""
    ages = [min(growth.months(each.day), GROWN) for each in growth.heights]
    spreads = [height_spread(growth.child, age) for age in ages]
    off = [spread.deviations(each.mm) for spread, each in zip(spreads, growth.heights, strict=True)]
    tape = [_TAPE / (spread.spread * spread.middle) for spread in spreads]
    together = [
        [
            kept_between(growth.child, one, other) + (tape[row] ** 2 if row == column else 0.0)
            for column, other in enumerate(ages)
        ]
        for row, one in enumerate(ages)
    ]
    along = [kept_between(growth.child, age, months) for age in ages]
    weights = _solved(together, along)
    mean = sum(weight * each for weight, each in zip(weights, off, strict=True))
    known = sum(weight * each for weight, each in zip(weights, along, strict=True))
    return mean, math.sqrt(max(0.0, 1.0 - known))


def _solved(rows: Sequence[Sequence[float]], wanted: Sequence[float]) -> list[float]:
    """The solution of a small symmetric system with a strong diagonal, by elimination."""
    system = [[*row, value] for row, value in zip(rows, wanted, strict=True)]
    for place, row in enumerate(system):
        for other in system[place + 1 :]:
            share = other[place] / row[place]
            for column in range(place, len(row)):
                other[column] -= share * row[column]
    found = [0.0] * len(system)
    for place in reversed(range(len(system))):
        row = system[place]
        known = sum(row[column] * found[column] for column in range(place + 1, len(system)))
        found[place] = (row[-1] - known) / row[place]
    return found
