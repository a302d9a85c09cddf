"""Size charts: the body that a size stands for, every length a smooth function of the bust.

A size is called by its bust girth in whole centimetres. The chart is rebuilt from the survey by `rechart`, which says
how it is smoothed and how its girths compare with EN 13402-3; `tables/SOURCES.md` says where the figures come from.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path
from types import MappingProxyType

from drafting.body.complete import Body, Measured
from drafting.body.person import person
from drafting.body.terms import BASICS, KEYS
from drafting.errors import UnknownName

__all__ = [
    "CHARTS",
    "HEADER",
    "MIDDLE",
    "SIZES",
    "SURVEYED",
    "ChartLine",
    "beyond_chart",
    "chart_body",
    "chart_length",
    "chart_lines",
    "chart_mm",
    "nearest_size",
]

CHARTS = ("women",)
"""The charts there are."""

SIZES = (76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128)
"""The sizes of the women's chart by bust, cm: in fours to 104 and in sixes from there, as EN 13402-3 steps."""

SURVEYED = (76, 110)
"""The least and the largest size that were measured. Beyond them a length goes straight on as it does there."""

MIDDLE = 92
"""The size about which the lines of the chart are written down."""

_TABLES: Mapping[str, str] = MappingProxyType({"women": "women_chart.csv"})
_WHOSE: Mapping[str, str] = MappingProxyType({"women": "women measured in 1988"})


@dataclass(frozen=True, slots=True)
class ChartLine:
    """One length as a function of the size, centimetres: at_92 + slope * d + bend * d * d, with d = size - 92.

    n:      how many women it rests on
    bend:   zero for a length that rises by the same from size to size
    sd:     how far women of one size differ (one standard deviation), cm
    misfit: the furthest that the mean of a size lies from the smooth line, cm
    source: "full survey", "open half", or the two lengths it is the sum or difference of
    """

    key: str
    n: int
    at_92: float
    slope: float
    bend: float
    sd: float
    misfit: float
    source: str

    def cm(self, size: float) -> float:
        """The length in this size, cm; beyond the sizes that were measured straight on along the slope there."""
        inside = min(max(size, SURVEYED[0]), SURVEYED[1])
        d = inside - MIDDLE
        slope_there = self.slope + 2.0 * self.bend * d
        return self.at_92 + self.slope * d + self.bend * d * d + slope_there * (size - inside)

    def cells(self) -> tuple[object, ...]:
        """The line as a row of its table."""
        return tuple(getattr(self, name) for name in HEADER)


HEADER = tuple(field.name for field in fields(ChartLine))


def beyond_chart(size: int) -> bool:
    """Whether a size lies outside those that were measured."""
    return not SURVEYED[0] <= size <= SURVEYED[1]


@cache
def chart_lines(chart: str = "women") -> Mapping[str, ChartLine]:
    """The lines of a chart by measurement. Raises UnknownName for a chart that is not there."""
    if chart not in _TABLES:
        raise UnknownName("chart", chart, CHARTS)
    path = Path(__file__).parent / "tables" / _TABLES[chart]
    with path.open(encoding="utf-8", newline="") as file:
        return MappingProxyType({row["key"]: _line(row) for row in csv.DictReader(file)})


def chart_mm(size: int, key: str, *, chart: str = "women") -> float:
    """One length of a size, mm. Raises UnknownName for a size or a length that the chart has not."""
    if size not in SIZES:
        raise UnknownName("size", str(size), [str(each) for each in SIZES])
    found = chart_lines(chart)
    if key not in found:
        raise UnknownName("measurement", key, found)
    return 10.0 * found[key].cm(size)


def nearest_size(mm: float, key: str, *, chart: str = "women") -> int:
    """The size whose length of that key comes nearest to one, mm. Raises UnknownName as `chart_mm` does."""
    return min(SIZES, key=lambda size: abs(chart_mm(size, key, chart=chart) - mm))


def chart_length(size: int, key: str, *, chart: str = "women") -> Measured:
    """One length of a size with how far off it may be. Raises UnknownName as `chart_mm` does."""
    return Measured(
        key, chart_mm(size, key, chart=chart), "chart", 10.0 * chart_lines(chart)[key].sd, _how(chart, size)
    )


def chart_body(size: int, *, bust: int | None = None, chart: str = "women", name: str = "") -> Body:
    """The body of a size, every length from the chart and as far off as women of that size differ.

    bust: the size whose bust girth it has, for a bust that is fuller or flatter than its frame; None for its own
    name: what it is called; "size 92" when left empty
    Raises UnknownName for a size or a chart that is not there.
    """
    at_bust = size if bust is None else bust
    values = tuple(chart_length(at_bust if key == "bust_girth" else size, key, chart=chart) for key in KEYS)
    basics = {value.key: value.mm for value in values if value.key in BASICS}
    return Body(person(basics, name=name or f"size {size}", place=f"the {chart}'s chart"), values)


@cache
def _how(chart: str, size: int) -> str:
    text = f"{chart}'s chart, size {size}"
    if beyond_chart(size):
        nearest = min(SURVEYED, key=lambda measured: abs(measured - size))
        text += f", drawn on beyond size {nearest}, the last of the {_WHOSE[chart]}"
    return text


def _line(row: Mapping[str, str]) -> ChartLine:
    numbers = {name: float(row[name]) for name in ("at_92", "slope", "bend", "sd", "misfit")}
    return ChartLine(key=row["key"], n=int(row["n"]), source=row["source"], **numbers)
