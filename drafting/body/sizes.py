"""The sizes a garment is made in where it is not made to somebody's own measurements."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from drafting.body.charts import CHARTS, SIZES, chart_body, nearest_size
from drafting.body.complete import Body
from drafting.body.terms import limits
from drafting.errors import UnknownName
from drafting.reading.key_words import Words
from drafting.reading.read_table import Reader
from drafting.reading.units import NotRead, length_text, length_unit, parse_length

__all__ = ["SIZE_WORDS", "Sizes", "each_size", "read_sizes", "sizes_body"]

SIZE_WORDS = Words(
    {"chart": "chart", "bust": "bust", "waist": "waist", "hip": "hip", "upper_chest": "high_bust", "nest": "nest"},
    {"hips": "hip", "upper bust": "upper_chest"},
)
"""What the places of a size may be called."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """One size of a chart, or one size here and another there, or a nest of several sizes; each by its bust in cm.

    bust, waist, hip: the sizes there; None where it is as the block is drafted
    upper_chest:      the size of neck, shoulder and armhole, where it is not the one at the bust
    nest:             the sizes that are drafted side by side, smallest first; empty for one garment
    Raises UnknownName for a size or a chart that is not there.
    """

    bust: int | None = None
    waist: int | None = None
    hip: int | None = None
    upper_chest: int | None = None
    nest: tuple[int, ...] = ()
    chart: str = "women"

    def __post_init__(self) -> None:
        if self.chart not in CHARTS:
            raise UnknownName("chart", self.chart, CHARTS)
        for size in (self.bust, self.waist, self.hip, self.upper_chest, *self.nest):
            if size is not None and size not in SIZES:
                raise UnknownName("size", str(size), [str(each) for each in SIZES])

    @property
    def frame(self) -> int:
        """The size the block is drafted in: at the upper chest, else the bust, else the hip; of a nest the middle."""
        if self.nest:
            return self.nest[(len(self.nest) - 1) // 2]
        return next(size for size in (self.upper_chest, self.bust, self.hip, self.waist, SIZES[0]) if size is not None)

    @property
    def name(self) -> str:
        """What the sizes are called together: "size 92", "size 92 with 96 at the waist", "sizes 84, 88 and 92"."""
        if self.nest:
            return "sizes " + _listed([str(size) for size in self.nest])
        places = (("bust", self.bust), ("waist", self.waist), ("hip", self.hip))
        others = [f"{size} at the {where}" for where, size in places if size not in (None, self.frame)]
        return f"size {self.frame}" + (f" with {_listed(others)}" if others else "")


def each_size(sizes: Sizes) -> tuple[Sizes, ...]:
    """The members of a nest, each as a size of its own; the sizes themselves where they are no nest."""
    return tuple(Sizes(bust=size, chart=sizes.chart) for size in sizes.nest) or (sizes,)


def sizes_body(sizes: Sizes) -> Body:
    """The body the block is drafted for: the size of the frame, with the bust of the size at the bust.

    Where the waist or the hip is of another size, the pattern is blended into it afterwards.
    """
    return chart_body(sizes.frame, bust=sizes.bust, chart=sizes.chart, name=sizes.name)


def read_sizes(reader: Reader) -> Sizes:
    """The sizes that a `[sizes]` table asks for; what is wrong is noted in the reader."""
    chart = reader.choice("chart", CHARTS, default=CHARTS[0])
    read = {key: _size(reader, key, chart) for key in ("bust", "waist", "hip", "upper_chest")}
    nest = _nest(reader)
    given = [key for key in read if key in reader]
    if "nest" in reader:
        if given:
            reader.problem(
                "nest",
                f"either a nest or a size at the {reader.called(given[0]).replace('_', ' ')}",
                "Leave one of them out.",
            )
        return Sizes(nest=nest, chart=chart)
    if read["bust"] is None and read["hip"] is None and not {"bust", "hip"} & set(given):
        reader.problem("bust", "the size at the bust (for a skirt alone, the size at the hip)", f"Sizes are {_all()}.")
    return Sizes(read["bust"], read["waist"], read["hip"], read["upper_chest"], chart=chart)


def _size(reader: Reader, key: str, chart: str) -> int | None:
    size = reader.written(key)
    if size is None or (isinstance(size, int) and not isinstance(size, bool) and size in SIZES):
        return size
    meant = _size_meant(size, f"{key}_girth", reader.unit or reader.shows or "cm", chart)
    reader.problem(key, "a size, called by its bust in cm", f"{meant}Sizes are {_all()}.")
    return None


def _size_meant(size: object, girth: str, unit: str, chart: str) -> str:
    """Which size comes nearest to a girth that was written for a size; "" for what is no girth."""
    low, high = limits("woman")[girth]
    for each in (unit, "in"):
        try:
            mm = parse_length(size, unit=each)
        except NotRead:
            return ""
        if low <= mm <= high:
            shown_in = length_unit(size) or each
            return f"Nearest to {length_text(mm, shown_in)} there is size {nearest_size(mm, girth, chart=chart)}. "
    return ""


def _nest(reader: Reader) -> tuple[int, ...]:
    read = reader.wholes("nest", low=SIZES[0], high=SIZES[-1], default=())
    if read and (len(read) < 2 or not set(read) <= set(SIZES) or any(a >= b for a, b in pairwise(read))):
        reader.problem(
            "nest",
            "two sizes of the chart or more, smallest first",
            f"Sizes are {_all()}.",
            read=", ".join(map(str, read)),
        )
        return ()
    return read


def _all() -> str:
    return ", ".join(map(str, SIZES))


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
