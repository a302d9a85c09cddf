"""Measurements of the same person on an earlier day, and what the days tell about each other."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final

from drafting.body.measurement_words import measurement_words
from drafting.body.terms import KEYS, BodyKind, limits
from drafting.dataclass import dataclass
from drafting.errors import Problem
from drafting.reading.given import Given, list_problems, number_problem, type_problem
from drafting.reading.read_table import Reader, refuse
from drafting.reading.units import length_text, shown

__all__ = ["MOST_EARLIER", "Earlier", "HeightSlip", "day_problems", "height_slips", "read_earlier"]

MOST_EARLIER: Final = 200
"""How many earlier days a file may hold (our figure): one each month for sixteen years."""

_DAY: Final = "a day: datetime.date(2026, 9, 12)"
_PAIRS: Final = 'pairs: (("bust_girth", 560.0),)'

_SAME_HEIGHT: Final[Mapping[BodyKind, float]] = {"woman": 20.0, "girl": 10.0, "boy": 10.0}
"""mm that two heights may be apart against what a body does (ours): one is a centimetre taller in the morning than at
night, a book on the head is not held quite level, and a grown woman may lose another over the years."""


@dataclass(frozen=True, slots=True)
class Earlier(Given):
    """What was measured on an earlier day. Raises InputProblems for what is no day or no length.

    measured:     that day
    measurements: lengths in millimetres by key, in the order of `MEASUREMENTS`; at least one
    """

    measured: datetime.date
    measurements: tuple[tuple[str, float], ...]

    def __post_init__(self) -> None:
        problems = [type_problem("earlier, measured", self.measured, datetime.date, _DAY)]
        problems += list_problems("earlier, measurements", self.measurements, tuple, _PAIRS, least=1)
        refuse([*filter(None, problems)])
        refuse([*filter(None, (_pair_problem(pair) for pair in self.measurements))])

    def mm(self, key: str) -> float | None:
        """The length of that key in millimetres; None where it was not measured then."""
        return dict(self.measurements).get(key)


@dataclass(frozen=True, slots=True)
class HeightSlip:
    """Two heights that one body did not have on these two days: one of them, or a day, is wrong.

    before, after: the days; from_mm, to_mm: the heights
    """

    before: datetime.date
    after: datetime.date
    from_mm: float
    to_mm: float
    sentence: str


def read_earlier(
    reader: Reader, body: BodyKind, measured: datetime.date | None, born: datetime.date | None
) -> tuple[Earlier, ...]:
    """The `[[earlier]]` tables of a person's file, the oldest first; what is wrong is noted at its place.

    measured, born: the last day of measuring and the day of birth, where they are known
    """
    found, days = [], []
    for table in reader.tables("earlier", most=MOST_EARLIER, mend="Leave some of the oldest out."):
        table.use_words(measurement_words(body))
        before = len(table.problems)
        day = table.date("measured")
        if len(table.problems) == before:
            days.append((table.where("measured"), day))
        lengths = table.lengths(limits(body))
        if not any(key in table for key in KEYS):
            table.problem("stature", "at least one length that was measured on that day")
        if len(table.problems) == before:
            found.append(Earlier(day, tuple(lengths.items())))
    reader.problems.extend(day_problems(days, measured, born, reader.where("measured")))
    return tuple(sorted(found, key=lambda each: each.measured))


def day_problems(
    days: Sequence[tuple[str, datetime.date]],
    measured: datetime.date | None,
    born: datetime.date | None,
    last: str,
) -> Iterator[Problem]:
    """What is wrong with earlier days: one before birth, one twice, one that is no earlier than the last.

    days: each with its place; last: the place of the last day, `measured`
    """
    if days and measured is None:
        expected = "the day on which what stands below [measurements] was taken"
        yield Problem(last, "nothing", expected, "It is needed where earlier days are written down.")
    seen = set()
    for where, day in days:
        if day in seen:
            mend = "Write what was measured on one day below one [[earlier]]."
            yield Problem(where, f"{day.isoformat()} again", "each day once", mend)
        elif measured and day >= measured:
            expected = f"a day before the last of measuring ({measured.isoformat()})"
            mend = "What was measured last stands below [measurements], its day at the top of the file."
            yield Problem(where, day.isoformat(), expected, mend)
        if born and day < born:
            yield Problem(where, day.isoformat(), f"a day after birth ({born.isoformat()})")
        seen.add(day)


def height_slips(
    heights: Iterable[tuple[datetime.date, float]], body: BodyKind, unit: str = "cm"
) -> tuple[HeightSlip, ...]:
    """Heights (mm, with their days, oldest first) that fell, by more than a tape is off; or rose, of a grown woman.

    unit: what the sentences speak in
    """
    slips, room = [], _SAME_HEIGHT[body]
    for (before, mm_before), (after, mm_after) in pairwise(heights):
        change = mm_after - mm_before
        if change < -room or (body == "woman" and change > room):
            words = (
                f"height: {length_text(mm_before, unit)} on {before.isoformat()}, then {length_text(mm_after, unit)}"
            )
            why = "a grown body keeps its height" if body == "woman" else "a child does not get smaller"
            sentence = f"{words} on {after.isoformat()}: {why}. One of the two, or its day, is a slip: look at both."
            slips.append(HeightSlip(before, after, mm_before, mm_after, sentence))
    return tuple(slips)


def _pair_problem(pair: tuple[object, ...]) -> Problem | None:
    if len(pair) != 2 or pair[0] not in KEYS:
        return Problem("earlier, measurements", shown(list(pair)), f"a list of {_PAIRS}")
    return number_problem(f"earlier, {pair[0]}", "length", pair[1])
