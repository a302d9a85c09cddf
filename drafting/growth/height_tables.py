"""Heights and heads by age, as the growth tables have them (`tables/SOURCES.md`)."""

from __future__ import annotations

import csv
from bisect import bisect_right
from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from typing import Final, Literal, get_args

from drafting.growth.lms import Lms

__all__ = [
    "CHILDREN",
    "GROWN",
    "LYING",
    "Child",
    "day_at",
    "head_spread",
    "height_spread",
    "lying_less_standing",
    "months_between",
]

Child = Literal["girl", "boy"]
CHILDREN: tuple[Child, ...] = get_args(Child)

GROWN: Final = 240.0
"""Months. Where the tables end: nobody grows any more."""

LYING: Final = 24.0
"""Months. Children younger than this are measured lying, older ones standing."""

_HEADS_END: Final = 36.0
_DAYS_A_MONTH: Final = 365.25 / 12.0


def months_between(born: date, day: date) -> float:
    """How old somebody is on a day, in months of 365.25 / 12 days."""
    return (day - born).days / _DAYS_A_MONTH


def day_at(born: date, months: float) -> date:
    """The first day on which somebody is so many months old, to the nearest day."""
    return born + timedelta(days=round(months * _DAYS_A_MONTH))


def height_spread(child: Child, months: float, *, lying: bool | None = None) -> Lms:
    """How the heights of children of one age are spread, mm; beyond 20 years as at 20, before birth as at birth.

    lying: whether they are measured lying; None for what is usual at that age. There are tables of lying to 36 months,
           and of standing from 24.
    """
    taken = "lying" if (months < LYING if lying is None else lying) else "standing"
    return _at(_heights()[child, taken], months)


def head_spread(child: Child, months: float) -> Lms | None:
    """How the girths of the head are spread at an age, mm; None beyond three years, where the tables end."""
    return _at(_heads()[child], months) if months <= _HEADS_END else None


def lying_less_standing(child: Child, months: float) -> float:
    """How much longer the middle child of that age measures lying than standing, mm; from 24 to 36 months."""
    return height_spread(child, months, lying=True).middle - height_spread(child, months, lying=False).middle


_Rows = tuple[tuple[float, Lms], ...]


def _at(rows: _Rows, months: float) -> Lms:
    place = bisect_right(rows, months, key=lambda row: row[0])
    if place == 0 or place == len(rows):
        return rows[max(0, place - 1)][1]
    (before, low), (after, high) = rows[place - 1 : place + 1]
    return low.between(high, (months - before) / (after - before))


@cache
def _heights() -> Mapping[tuple[str, str], _Rows]:
    found: dict[tuple[str, str], list[tuple[float, Lms]]] = {}
    for row in _table("heights.csv"):
        found.setdefault((row["body"], row["taken"]), []).append(_read(row))
    return {key: tuple(rows) for key, rows in found.items()}


@cache
def _heads() -> Mapping[str, _Rows]:
    rows = list(_table("heads.csv"))
    return {child: tuple(_read(row) for row in rows if row["body"] == child) for child in CHILDREN}


def _read(row: Mapping[str, str]) -> tuple[float, Lms]:
    return float(row["months"]), Lms(float(row["l"]), 10.0 * float(row["m"]), float(row["s"]))


def _table(name: str) -> Iterable[dict[str, str]]:
    with (Path(__file__).parent / "tables" / name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)
