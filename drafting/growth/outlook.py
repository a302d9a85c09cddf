"""What is to be expected of a child: her height from day to day, her sizes and until when each fits, what to leave."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Final

from drafting.body.charts import chart_named, nearest_size
from drafting.body.person import Person
from drafting.dataclass import dataclass
from drafting.growth.height_tables import GROWN, day_at, head_spread
from drafting.growth.lengths import grown_mm, typical_mm
from drafting.growth.measured_growth import doubts_of, growth_of, until_problems
from drafting.growth.own_centile import Expected, Growth, Reached, expected_height, when_reached
from drafting.growth.to_leave import ToLeave, to_leave
from drafting.reading.read_table import refuse

__all__ = ["GIRTHS", "Outlook", "SizeLasts", "course", "outlook"]

GIRTHS: Final = ("bust_girth", "waist_girth", "hip_girth")

_HALF_SIZE: Final = 30.0
"""mm. A size is for heights up to 3 cm more than it is called by (EN 13402-3: steps of 6 cm)."""

_CHARTS: Final = {"girl": "girls", "boy": "boys"}
_A_YEAR: Final = timedelta(days=365)
_STEPS: Final = 24
"""How many stretches the way to the last day is told in."""


@dataclass(frozen=True, slots=True)
class SizeLasts:
    """Until when a size by height (cm) fits: until the child is 3 cm taller than it is called by."""

    size: int
    until: Reached


@dataclass(frozen=True, slots=True)
class Outlook:
    """What is to be expected of a child from the day she was measured last until another.

    now, then:   her height on both days
    girths:      chest, waist and hip: key, now, and to be expected then, mm
    head:        round the head, now and to be expected then, mm
    sizes:       her size by height and those that follow it, until that day
    chest_sizes: the size by the chest, now and then
    leave:       how much cloth to leave now
    doubts:      sentences on heights that next to no child of that age has
    """

    growth: Growth
    until: date
    now: Expected
    then: Expected
    girths: tuple[tuple[str, float, float], ...]
    head: tuple[float, float]
    sizes: tuple[SizeLasts, ...]
    chest_sizes: tuple[int, int]
    leave: tuple[ToLeave, ...]
    doubts: tuple[str, ...]


def outlook(who: Person, until: date | None = None, *, place: str = "until") -> Outlook:
    """What is to be expected of a child until a day; until a year after she was measured last where none is said.

    place: what a sentence about that day calls it
    Raises InputProblems as `growth_of` does, and for a day that makes no sense.
    """
    growth = growth_of(who)
    end = growth.last.day + _A_YEAR if until is None else until
    refuse(until_problems(growth, end, place))
    now, then = expected_height(growth, growth.last.day), expected_height(growth, end)
    measured = dict(who.measurements)
    girths = tuple((key, measured[key], grown_mm(growth.child, key, measured[key], now.mm, then.mm)) for key in GIRTHS)
    chart = _CHARTS[growth.child]
    chest = tuple(nearest_size(mm, "bust_girth", chart=chart) for mm in girths[0][1:])
    return Outlook(
        growth,
        end,
        now,
        then,
        girths,
        _head(growth, measured.get("head_girth"), now, then),
        tuple(_sizes(growth, then)),
        (chest[0], chest[1]),
        to_leave(growth, end),
        doubts_of(growth, who.unit),
    )


def course(growth: Growth, begin: date, end: date) -> tuple[Expected, ...]:
    """The height to expect from one day to another, both counted in, in even steps."""
    begin, end = max(begin, growth.born), min(end, day_at(growth.born, GROWN))
    days = (begin + (end - begin) * step / _STEPS for step in range(_STEPS + 1))
    return tuple(expected_height(growth, day) for day in days)


def _head(growth: Growth, taken: float | None, now: Expected, then: Expected) -> tuple[float, float]:
    """Round the head now and then, mm: up to three years by age from the tables of heads, later with the height."""
    child = growth.child
    spread, later = head_spread(child, now.months), head_spread(child, then.months)
    usual = typical_mm(child, "head_girth", now.mm) if spread is None else spread.middle
    first = usual if taken is None else taken
    if spread is not None and later is not None:
        return first, later.value(spread.deviations(first))
    return first, grown_mm(child, "head_girth", first, now.mm, then.mm)


def _sizes(growth: Growth, then: Expected) -> Iterator[SizeLasts]:
    """Her size by height, and those she grows into before she is as tall as then."""
    for size in chart_named(_CHARTS[growth.child]).sizes:
        last = 10.0 * size + _HALF_SIZE
        if last > growth.last.mm:
            yield SizeLasts(size, when_reached(growth, last))
            if last > then.high:
                return
