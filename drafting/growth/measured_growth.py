"""The growth of a person as her file tells it: her heights with their dates, or everything that stands in the way."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import pairwise
from typing import Final

from drafting.body.earlier import HeightSlip, height_slips
from drafting.body.person import Person
from drafting.errors import InputProblems, Problem
from drafting.growth.height_tables import CHILDREN, GROWN, LYING, height_spread, lying_less_standing
from drafting.growth.own_centile import Growth, Height, oddity_of_rise
from drafting.reading.read_table import refuse
from drafting.reading.units import length_text

__all__ = ["age_words", "doubts_of", "growth_of", "until_problems"]

_LAY: Final = 10.0
"""mm. By so much a child may measure shorter than before, for the hour of the day and the tape (common practice)."""

_RARE: Final = 3.5
"""Standard deviations off the middle: one child in 2,000 is so small or so tall on either side."""

_NO_CHILD: Final = 6.0
"""Standard deviations off the middle, or of a rise between two heights, beyond which it is a slip: the limit at which
the WHO's own software flags a height for its age (from memory)."""

_AHEAD: Final = 6.0  # years beyond the last height that are told of: further ahead a range says nothing (ours)


def growth_of(who: Person) -> Growth:
    """A child's growth from the heights of her file, those of earlier days among them.

    Raises InputProblems with everything that is missing or cannot be: no child, no day of birth, no day on which she
    was measured, a day before birth, two heights of one day, a height that fell.
    """
    where = who.place or who.name or "the person"
    child = next((each for each in CHILDREN if each == who.body), None)
    problems = list(_missing(who, where))
    if child is None or who.born is None or who.measured is None:
        raise InputProblems(problems)
    heights = [Height(day, mm) for day, mm in who.over_time("stature")]
    growth = Growth(child, who.born, tuple(heights))
    refuse([*problems, *_impossible(growth, who, where)])
    return growth


def _missing(who: Person, where: str) -> Iterator[Problem]:
    if who.body not in CHILDREN:
        expected = 'body = "girl" or "boy": growth is told of children, to their 20th birthday'
        yield Problem(f"{where}, body", f'"{who.body}"', expected)
    if who.born is None:
        mend = "Write it above [measurements]: born = 2019-05-21"
        yield Problem(f"{where}, born", "nothing", "the day of birth: how a child grows goes by age", mend)
    if who.measured is None:
        mend = "Write it above [measurements]: measured = 2026-09-20"
        yield Problem(f"{where}, measured", "nothing", "the day on which the height was taken", mend)


def _impossible(growth: Growth, who: Person, where: str) -> Iterator[Problem]:
    """The problems of heights that no child can have: before birth, of a grown person, or falling."""
    for each in growth.heights:
        if each.day <= growth.born:
            expected = f"a day after the day of birth ({growth.born.isoformat()})"
            yield Problem(f"{where}, measured", each.day.isoformat(), expected)
    if any(each.day <= growth.born for each in growth.heights):
        return
    if growth.months(growth.last.day) >= GROWN:
        expected = "a child: at 20 years nobody grows taller"
        yield Problem(f"{where}, born", growth.born.isoformat(), expected)
    for slip in height_slips(who.over_time("stature"), who.body, who.unit):
        if slip.from_mm - slip.to_mm > _stood_up(growth, slip):
            tall, less = length_text(slip.from_mm, who.unit), length_text(slip.to_mm, who.unit)
            read = f"{less} on {slip.after.isoformat()}, after {tall} on {slip.before.isoformat()}"
            mend = "Measure again, or put right the height or the date that was written down wrongly."
            yield Problem(f"{where}, height", read, "a height that does not fall", mend)
    yield from _slips(growth, where, who.unit)


def _slips(growth: Growth, where: str, unit: str) -> Iterator[Problem]:
    """Heights that no child of that age has, and rises that no child makes."""
    mend = "Look at the height, the days and the unit again."
    for each in growth.heights:
        if abs(_off(growth, each)) > _NO_CHILD:
            read = f"{length_text(each.mm, unit)} at {age_words(growth.months(each.day))}"
            yield Problem(f"{where}, height", read, f"a height that a {growth.child} of that age can have", mend)
    for first, second in pairwise(growth.heights):
        if oddity_of_rise(growth, first, second) > _NO_CHILD:
            tall, more = length_text(first.mm, unit), length_text(second.mm, unit)
            read = f"{more} on {second.day.isoformat()}, after {tall} on {first.day.isoformat()}"
            yield Problem(f"{where}, height", read, "no more than a child can grow in that time", mend)


def _stood_up(growth: Growth, slip: HeightSlip) -> float:
    """By how much less a child may measure because it lay before and stands now, mm; 0 for any other."""
    first, second = growth.months(slip.before), growth.months(slip.after)
    return _LAY + lying_less_standing(growth.child, LYING) if first < LYING <= second else 0.0


def until_problems(growth: Growth, until: date, where: str) -> list[Problem]:
    """What is wrong with a day until which something is to last: before the last height, or too far ahead."""
    last = growth.last.day
    if until <= growth.born:
        return [Problem(where, until.isoformat(), f"a day after the day of birth ({growth.born.isoformat()})")]
    if until <= last:
        return [Problem(where, until.isoformat(), f"a day after the last height ({last.isoformat()})")]
    if (until - last).days > _AHEAD * 365.25:
        expected = f"a day no more than {_AHEAD:.0f} years after the last height ({last.isoformat()})"
        return [Problem(where, until.isoformat(), expected, "No garment is cut to grow into for longer.")]
    return []


def doubts_of(growth: Growth, unit: str) -> tuple[str, ...]:
    """Sentences on heights that next to no child of that age has: the date of birth or the height may be wrong."""
    return tuple(
        f"On {each.day.isoformat()} a {growth.child} of {age_words(growth.months(each.day))} and "
        f"{length_text(each.mm, unit)}: fewer than one in 2,000 of that age are so {'tall' if off > 0 else 'small'}. "
        "Look at the day of birth and at the height again."
        for each in growth.heights
        for off in (_off(growth, each),)
        if abs(off) > _RARE
    )


def _off(growth: Growth, taken: Height) -> float:
    return height_spread(growth.child, growth.months(taken.day)).deviations(taken.mm)


def age_words(months: float) -> str:
    """An age in words: "3 years 2 months", "5 months"."""
    years, rest = divmod(int(months), 12)
    parts = [
        f"{count} {word}{'' if count == 1 else 's'}" for count, word in ((years, "year"), (rest, "month")) if count
    ]
    return " ".join(parts) or "less than a month"
