"""The sizes a garment is made in where it is not made to somebody's own measurements."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from itertools import pairwise
from types import MappingProxyType
from typing import Final

from drafting.body.charts import CHARTS, HEIGHTS, Chart, Height, chart_body, chart_named, nearest_size
from drafting.body.complete import Body
from drafting.body.terms import BodyKind, limits
from drafting.dataclass import dataclass
from drafting.errors import UnknownName, listed
from drafting.reading.key_words import Words
from drafting.reading.read_table import Reader
from drafting.reading.units import MM_PER_INCH, NotRead, length_text, length_unit, parse_length

__all__ = ["MIDDLE_SIZES", "SIZE_WORDS", "Sizes", "each_size", "in_inches", "read_sizes", "sizes_body"]

SIZE_WORDS = Words(
    {
        "chart": "chart",
        "bust": "bust",
        "waist": "waist",
        "hip": "hip",
        "upper_chest": "high_bust",
        "height": "height",
        "nest": "nest",
    },
    {"hips": "hip", "upper bust": "upper_chest", "chest": "bust", "size": "bust"},
)
"""What the places of a size may be called."""

_HALF_INCH: Final = MM_PER_INCH / 2.0
"""mm. A size is called by its girth or height to the half inch by whoever works in inches."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """One size of a chart, or one size here and another there, or a nest of several sizes.

    A woman's size is called by its bust, a child's by its height, both in whole cm.

    bust, waist, hip: the sizes there; None where it is as the block is drafted
    upper_chest:      the size of neck, shoulder and armhole, where it is not the one at the bust; of a child the size
                      of all its lengths
    nest:             the sizes that are drafted side by side, smallest first; empty for one garment
    height:           how tall, of a woman
    Raises UnknownName for a size or a chart that is not there.
    """

    bust: int | None = None
    waist: int | None = None
    hip: int | None = None
    upper_chest: int | None = None
    nest: tuple[int, ...] = ()
    chart: str = "women"
    height: Height = "regular"

    def __post_init__(self) -> None:
        known = chart_named(self.chart).sizes
        if self.height not in HEIGHTS:
            raise UnknownName("height", self.height, HEIGHTS)
        for size in (self.bust, self.waist, self.hip, self.upper_chest, *self.nest):
            if size is not None and size not in known:
                raise UnknownName("size", str(size), [str(each) for each in known])

    @property
    def frame(self) -> int:
        """The size the block is drafted in: at the upper chest, else the bust, else the hip; of a nest the middle."""
        if self.nest:
            return self.nest[(len(self.nest) - 1) // 2]
        given = (self.upper_chest, self.bust, self.hip, self.waist)
        return next((size for size in given if size is not None), chart_named(self.chart).sizes[0])

    @property
    def drafted_apart(self) -> bool:
        """Whether the waist and the hip of other sizes are drafted, not blended in: a child's blocks have no darts."""
        return chart_named(self.chart).body != "woman"

    @property
    def name(self) -> str:
        """What the sizes are called together: "size 92", "size 92 with 96 at the waist", "sizes 84, 88 and 92"."""
        height = "" if self.height == "regular" else f" {self.height}"
        if self.nest:
            return f"sizes {listed([str(size) for size in self.nest])}{height}"
        chest = "bust" if self.chart == "women" else "chest"
        places = ((chest, self.bust), ("waist", self.waist), ("hip", self.hip))
        others = [f"{size} at the {where}" for where, size in places if size not in (None, self.frame)]
        return f"size {self.frame}{height}" + (f" with {listed(others)}" if others else "")


MIDDLE_SIZES: Final[Mapping[BodyKind, Sizes]] = MappingProxyType(
    {
        "woman": Sizes(bust=92),
        "girl": Sizes(bust=104, chart="girls"),
        "boy": Sizes(bust=104, chart="boys"),
    }
)
"""A size of each kind of body, for what is shown on nobody's own."""


def each_size(sizes: Sizes) -> tuple[Sizes, ...]:
    """The members of a nest, each as a size of its own; the sizes themselves where they are no nest."""
    return tuple(Sizes(bust=size, chart=sizes.chart, height=sizes.height) for size in sizes.nest) or (sizes,)


@lru_cache(maxsize=64)  # a nest asks for that of each size once to order it and once to draft it
def sizes_body(sizes: Sizes) -> Body:
    """The body the block is drafted for: the size of the frame, with the bust of the size at the bust.

    Where a woman's waist or hip is of another size, the pattern is blended into it afterwards; a child's is drafted so.
    """
    girths = {"bust_girth": sizes.bust}
    if sizes.drafted_apart:
        girths |= {"waist_girth": sizes.waist, "hip_girth": sizes.hip}
    return chart_body(sizes.frame, girths=girths, chart=sizes.chart, height=sizes.height, name=sizes.name)


def in_inches(size: int) -> str:
    """What a size is called in inches: its girth or height to the half inch: "36 in" for 92."""
    return length_text(round(10.0 * size / _HALF_INCH) * _HALF_INCH, "in")


def read_sizes(reader: Reader) -> Sizes:
    """The sizes that a `[sizes]` table asks for; what is wrong is noted in the reader."""
    chart = chart_named(reader.choice("chart", CHARTS, default=CHARTS[0]))
    read = {key: _size(reader, key, chart) for key in ("bust", "waist", "hip", "upper_chest")}
    nest = _nest(reader, chart)
    given = [key for key in read if key in reader]
    height: Height = "regular"
    if chart.body == "woman":
        written = reader.choice("height", HEIGHTS, default="regular")
        height = next(each for each in HEIGHTS if each == written)
    elif "height" in reader:
        read["upper_chest"] = _size(reader, "height", chart)
        given.append("height")
    if "nest" in reader:
        if given:
            reader.problem(
                "nest",
                f"either a nest or a size at the {reader.called(given[0]).replace('_', ' ')}",
                "Leave one of them out.",
            )
        return Sizes(nest=nest, chart=chart.name, height=height)
    if not {"bust", "hip", "height"} & set(given):
        where = "the size at the bust (for a skirt alone, the size at the hip)"
        if chart.body != "woman":
            where = "the size: height = 104"
        reader.problem("bust", where, f"Sizes are {_all(chart)}.")
    bust = read["bust"] if read["bust"] is not None or chart.body == "woman" else read["upper_chest"]
    return Sizes(bust, read["waist"], read["hip"], read["upper_chest"], chart=chart.name, height=height)


def _size(reader: Reader, key: str, chart: Chart) -> int | None:
    """The size that is written there: by its number, or by its girth or height as people call it: "36 in"."""
    written = reader.written(key)
    if written is None or (isinstance(written, int) and not isinstance(written, bool) and written in chart.sizes):
        return written
    # a bare number in inches is never the height of a size: 56 in a child's chart is size 56
    unit = reader.unit or reader.shows or "cm"
    if (named := _size_named(written, unit if chart.by == "bust_girth" else None, chart)) is not None:
        return named
    girth = chart.by if key == "height" else f"{key}_girth"
    by = "its bust" if chart.by == "bust_girth" else "the height"
    meant = _size_meant(written, girth, unit, chart)
    reader.problem(key, f"a size, called by {by} in cm", f"{meant}Sizes are {_all(chart)}.")
    return None


def _size_named(told: object, unit: str | None, chart: Chart) -> int | None:
    """The size of that name in cm or, to the half inch, in inches; None for what is the name of none."""
    try:
        mm = parse_length(told, unit=unit)
    except NotRead:
        return None
    inches = (length_unit(told) or unit) == "in"
    step = _HALF_INCH if inches else 10.0
    called = (size for size in chart.sizes if abs(round(10.0 * size / step) * step - mm) < 0.01)
    return next(called, None)


def _size_meant(size: object, girth: str, unit: str, chart: Chart) -> str:
    """Which size comes nearest to a girth that was written for a size; "" for what is no girth."""
    low, high = limits(chart.body)[girth]
    if girth == "upper_chest_girth" and chart.body != "woman":
        return ""
    for each in (unit, "in"):
        try:
            mm = parse_length(size, unit=each)
        except NotRead:
            return ""
        if low <= mm <= high:
            shown_in = length_unit(size) or each
            near = nearest_size(mm, girth, chart=chart.name)
            return f"Nearest to {length_text(mm, shown_in)} there is size {near}. "
    return ""


def _nest(reader: Reader, chart: Chart) -> tuple[int, ...]:
    read = reader.wholes("nest", low=chart.sizes[0], high=chart.sizes[-1], default=())
    if read and (len(read) < 2 or not set(read) <= set(chart.sizes) or any(a >= b for a, b in pairwise(read))):
        reader.problem(
            "nest",
            "two sizes of the chart or more, smallest first",
            f"Sizes are {_all(chart)}.",
            read=", ".join(map(str, read)),
        )
        return ()
    return read


def _all(chart: Chart) -> str:
    return ", ".join(map(str, chart.sizes))
