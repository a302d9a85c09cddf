"""A person's lengths on all the days they were measured: how they changed, and how fast a child grew."""

from __future__ import annotations

import datetime
from typing import Final

from drafting.body.person import Person
from drafting.body.terms import MEASUREMENTS, measurement_for
from drafting.dataclass import dataclass
from output.api.making import accept

__all__ = ["LengthOverTime", "over_time"]

_YEAR: Final = 365.25

_SHORTEST: Final = 90
"""Days: between two that lie nearer, what a tape is off by is more than what a child grows (our figure)."""


@dataclass(frozen=True, slots=True)
class LengthOverTime:
    """One length on each day it was measured.

    key, name: as the code and as a reader calls it
    days:      the days, oldest first, each with the length in millimetres; two or more
    per_year:  by how many millimetres it changed in a year, from the first day to the last; None where these lie less
               than 90 days apart
    """

    key: str
    name: str
    days: tuple[tuple[datetime.date, float], ...]
    per_year: float | None


def over_time(person: Person) -> tuple[LengthOverTime, ...]:
    """The lengths that were measured on more than one day, in the order of a report. Raises InputProblems."""
    accept("over_time", person, Person, "a person: read_person(...) or person(...)")
    found = []
    for about in MEASUREMENTS:
        days = person.over_time(about.key)
        if len(days) > 1:
            (first, mm_first), (last, mm_last) = days[0], days[-1]
            apart = (last - first).days
            per_year = (mm_last - mm_first) / apart * _YEAR if apart >= _SHORTEST else None
            found.append(LengthOverTime(about.key, measurement_for(about.key, person.body).name, days, per_year))
    return tuple(found)
