"""Size charts: the body that a size stands for, every length a smooth function of the size.

A woman's size is called by its bust girth in whole centimetres, a child's by its height. The charts are rebuilt from
the surveys by `rechart`, which says how they are smoothed and how their girths compare with EN 13402-3;
`tables/SOURCES.md` says where the figures come from.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final, Literal, get_args

from drafting.body.complete import Body, Measured, complete
from drafting.body.person import person
from drafting.body.terms import BASICS, KEYS, BodyKind, measurement
from drafting.dataclass import dataclass
from drafting.errors import UnknownName

__all__ = [
    "CHARTS",
    "HEADER",
    "HEIGHTS",
    "SIZES",
    "SIZE_LIMITS",
    "Chart",
    "ChartLine",
    "Height",
    "beyond_chart",
    "chart_body",
    "chart_length",
    "chart_lines",
    "chart_mm",
    "chart_named",
    "nearest_size",
]

Height = Literal["short", "regular", "tall"]
HEIGHTS: tuple[Height, ...] = get_args(Height)
"""How tall a woman of a size is. A child's size is its height."""

_HEIGHT_STEP: Final = 8.0
"""cm from one height to the next, as EN 13402-3 steps (from memory: common practice)."""

_EN_SLOPES: Final[Mapping[str, float]] = MappingProxyType({"waist_girth": 1.0, "hip_girth": 5.0 / 6.0})
"""By how much waist and hip rise with each cm of the bust beyond 110: EN 13402-3 steps 6 and 5 to 6 of the bust."""

_BABY: Final = 56
"""The size of the babies' chart from which a child's girths rise evenly to the smallest that was surveyed."""


@dataclass(frozen=True, slots=True)
class Chart:
    """One chart that is built in.

    by:       the measurement a size is called by, in whole cm: "bust_girth" or "stature"
    sizes:    the sizes, smallest first
    surveyed: the least and the largest size that were measured; beyond them a length is drawn on, and says so
    middle:   the size about which its lines are written down
    whose:    the people it comes from, as a sentence calls them
    table:    its file
    """

    name: str
    body: BodyKind
    by: str
    sizes: tuple[int, ...]
    surveyed: tuple[int, int]
    middle: int
    whose: str
    table: str

    @property
    def title(self) -> str:
        """What a sentence calls it: "women's chart", "girls' chart"."""
        return f"{self.name}'{'' if self.name.endswith('s') else 's'} chart"


_CHILDREN: Final = (*range(50, 177, 6),)
_CHARTS: Final[Mapping[str, Chart]] = MappingProxyType(
    {
        each.name: each
        for each in (
            Chart(
                "women",
                "woman",
                "bust_girth",
                # in fours to 104 and in sixes from there, as EN 13402-3 steps
                (*range(76, 105, 4), *range(110, 153, 6)),
                (76, 110),
                92,
                "women measured in 1988",
                "women_chart.csv",
            ),
            Chart("girls", "girl", "stature", _CHILDREN, (86, 176), 128, "girls measured in 1977", "girls_chart.csv"),
            Chart("boys", "boy", "stature", _CHILDREN, (86, 176), 128, "boys measured in 1977", "boys_chart.csv"),
            Chart(
                "babies",
                "girl",
                "stature",
                (56, 64, 72, 80, 86, 92),
                (56, 92),
                72,
                "babies of a textbook's chart, read at second hand",
                "babies_chart.csv",
            ),
        )
    }
)

CHARTS: Final = tuple(_CHARTS)
"""The charts there are."""

SIZES: Final = _CHARTS["women"].sizes
"""The sizes of the women's chart by bust, cm."""

SIZE_LIMITS: Final = (
    min(chart.sizes[0] for chart in _CHARTS.values()),
    max(chart.sizes[-1] for chart in _CHARTS.values()),
)
"""The least and the greatest number that is a size in any chart."""


@dataclass(frozen=True, slots=True)
class ChartLine:
    """One length of a chart as a function of the size, cm.

    at_middle + slope * d + bend * d * d + turn * d * d * d, with d = size - middle

    n:         how many people it rests on
    bend:      zero for a length that rises by the same from size to size
    sd:        how far people of one size differ (one standard deviation), cm; of children at the middle size,
               in proportion at the others
    misfit:    the furthest that the mean of a size lies from the smooth line, cm
    by_height: cm that it grows with each cm by which a woman is taller than the others of her size
    at_baby:   cm in size 56, to which a child's length falls evenly below the survey: the babies' chart's, or in
               proportion; None for a woman's
    source:    "full survey", "open half", or the two lengths it is the sum or difference of
    """

    key: str
    n: int
    at_middle: float
    slope: float
    bend: float
    turn: float
    sd: float
    misfit: float
    by_height: float
    at_baby: float | None
    source: str

    def cm(self, size: float, chart: Chart) -> float:
        """The length in this size, cm; beyond the sizes that were measured it is drawn on."""
        low, high = chart.surveyed
        inside = min(max(size, low), high)
        d = inside - chart.middle
        there = self.at_middle + d * (self.slope + d * (self.bend + d * self.turn))
        if size < low and self.at_baby is not None:
            return there + (size - low) * (there - self.at_baby) / (low - _BABY)
        slope_there = self.slope + d * (2.0 * self.bend + d * 3.0 * self.turn)
        if size > high:
            slope_there = _EN_SLOPES.get(self.key, slope_there)
        return there + slope_there * (size - inside)

    def cells(self) -> tuple[object, ...]:
        """The line as a row of its table."""
        return tuple("" if (value := getattr(self, name)) is None else value for name in HEADER)


HEADER: Final = (
    "key", "n", "at_middle", "slope", "bend", "turn", "sd", "misfit", "by_height", "at_baby", "source",
)  # fmt: skip


def chart_named(name: str) -> Chart:
    """The chart of that name. Raises UnknownName."""
    if name not in _CHARTS:
        raise UnknownName("chart", name, CHARTS)
    return _CHARTS[name]


def beyond_chart(size: int, chart: str = "women") -> bool:
    """Whether a size lies outside those that were measured."""
    low, high = chart_named(chart).surveyed
    return not low <= size <= high


@cache
def chart_lines(chart: str = "women") -> Mapping[str, ChartLine]:
    """The lines of a chart by measurement; none for babies, whose sizes are a table. Raises UnknownName."""
    if chart == "babies":
        return MappingProxyType({})
    return MappingProxyType({row["key"]: _line(row) for row in _rows(chart_named(chart).table)})


def chart_mm(size: int, key: str, *, chart: str = "women", height: Height = "regular") -> float:
    """One length of a size, mm. Raises UnknownName for a size or a length that the chart has not."""
    return chart_length(size, key, chart=chart, height=height).mm


def nearest_size(mm: float, key: str, *, chart: str = "women") -> int:
    """The size whose length of that key comes nearest to one, mm. Raises UnknownName as `chart_mm` does."""
    return min(chart_named(chart).sizes, key=lambda size: abs(chart_mm(size, key, chart=chart) - mm))


def chart_length(size: int, key: str, *, chart: str = "women", height: Height = "regular") -> Measured:
    """One length of a size with how far off it may be. Raises UnknownName as `chart_mm` does."""
    found = _length(chart_named(chart), size, key, height)
    if found is None:
        raise UnknownName("measurement", key, _keys_of(chart))
    return found


def chart_body(
    size: int,
    *,
    girths: Mapping[str, int | None] = MappingProxyType({}),
    chart: str = "women",
    height: Height = "regular",
    name: str = "",
) -> Body:
    """The body of a size, every length from the chart and as far off as people of that size differ.

    What the chart of a child has not is estimated as for a child who was measured.

    girths: for a girth that is not its own the size that it is of: a bust fuller than the frame; None for its own
    height: how tall among the women of the size; her girths and breadths stay, as the trade keeps them
    name:   what it is called; "size 92" when left empty
    Raises UnknownName for a size or a chart that is not there.
    """
    of = chart_named(chart)
    found = {}
    for key in KEYS:
        other = girths.get(key)
        found[key] = _length(of, size if other is None else other, key, height)
    basics = {key: value.mm for key, value in found.items() if value is not None and key in BASICS}
    who = person(basics, name=name or f"size {size}", body=of.body, place=f"the {of.title}")
    if None not in found.values():
        return Body(who, tuple(found.values()))
    estimated = complete(who)
    return Body(who, tuple(found[key] or value for key, value in zip(KEYS, estimated.values, strict=True)))


def _length(chart: Chart, size: int, key: str, height: Height) -> Measured | None:
    """One length of a size; None for what the chart has not there. Raises UnknownName for a size that is not there."""
    if size not in chart.sizes:
        raise UnknownName("size", str(size), [str(each) for each in chart.sizes])
    if height not in HEIGHTS:
        raise UnknownName("height", height, HEIGHTS)
    how = _how(chart.name, size, height)
    if chart.name == "babies":
        by_size = _baby_cm().get(key)
        # how far babies of a size differ is not in the chart: as the smallest children of the survey do
        return None if by_size is None else Measured(key, 10.0 * by_size[size], "chart", None, how)
    line = chart_lines(chart.name).get(key)
    if line is None:
        return None
    cm = line.cm(size, chart)
    sd = line.sd if chart.body == "woman" else line.sd * cm / line.at_middle
    if measurement(key).kind in ("length", "height"):
        cm += line.by_height * _HEIGHT_STEP * (HEIGHTS.index(height) - 1)
    return Measured(key, 10.0 * cm, "chart", 10.0 * sd, how)


def _keys_of(chart: str) -> tuple[str, ...]:
    return tuple(_baby_cm() if chart == "babies" else chart_lines(chart))


@cache
def _how(chart: str, size: int, height: Height) -> str:
    of = chart_named(chart)
    text = f"{of.title}, size {size}"
    if height != "regular":
        text += f" {height}"
    if chart == "babies":
        return f"{text}: {of.whose}"
    if not beyond_chart(size, chart):
        return text
    nearest = min(of.surveyed, key=lambda measured: abs(measured - size))
    if of.body == "woman":
        return f"{text}, drawn on beyond size {nearest}, the last of the {of.whose}"
    return f"{text}, drawn on from size {nearest}, the smallest of the {of.whose}, to a textbook's babies (second hand)"


@cache
def _baby_cm() -> Mapping[str, Mapping[int, float]]:
    """The lengths of the babies' chart, cm, by measurement and size."""
    rows = _rows(_CHARTS["babies"].table)
    return MappingProxyType(
        {row["key"]: {int(size): float(cm) for size, cm in row.items() if size.isdigit()} for row in rows}
    )


def _rows(name: str) -> list[dict[str, str]]:
    path = Path(__file__).parent / "tables" / name
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _line(row: Mapping[str, str]) -> ChartLine:
    names = ("at_middle", "slope", "bend", "turn", "sd", "misfit", "by_height")
    numbers = {name: float(row[name]) for name in names}
    at_baby = float(row["at_baby"]) if row["at_baby"] else None
    return ChartLine(key=row["key"], n=int(row["n"]), at_baby=at_baby, source=row["source"], **numbers)
