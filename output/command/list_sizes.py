"""The size charts, as `trueseam list sizes` shows them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from drafting.body.charts import CHARTS, beyond_chart, chart_length, chart_named
from drafting.body.sizes import in_inches
from drafting.errors import UnknownName
from drafting.reading.units import length_text
from output.report.tables import Column

__all__ = ["ABOVE", "BELOW", "COLUMNS", "SizeLine", "size_lines"]

_SHOWN: Final = ("stature", "bust_girth", "upper_chest_girth", "waist_girth", "hip_girth")

COLUMNS: Final = (
    Column("size"),
    Column("inch", True),
    Column("height", True),
    Column("bust", True),
    Column("high bust", True),
    Column("waist", True),
    Column("hip", True),
)
ABOVE: Final = (
    'Under [sizes], and in blend, it is the size that is written, not the girth: chart = "girls", height = 104. '
    "A woman's size is called by her bust, a child's by its height."
)
BELOW: Final = (
    "A woman may be short, regular or tall for her size: height = \"tall\" lengthens what runs up and down as the "
    "survey has it for 8 cm of height, and leaves the girths.",
    "* drawn on: nobody of that size was measured. ** second hand: a textbook's chart, or drawn towards it.",
    "Beside EN 13402-3 as it is commonly quoted, the women's waist is 2 to 3.3 cm off, the hip 2.7 cm more in size 76, "
    "7.2 cm less from size 110 on.",
    "The children's girths are the bare means of children measured in 1977: a girl of about 104 cm comes out one or "
    "two sizes larger by them than by the charts of the trade, which add something.",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class SizeLine:
    """One size of one chart: what it may be asked for by, its cells, and the same for a program (mm)."""

    words: tuple[str, ...]
    cells: tuple[str, ...]
    data: dict[str, object]


def size_lines(unit: str) -> Iterator[SizeLine]:
    """Every size of every chart, lengths shown in the unit."""
    for name in CHARTS:
        chart = chart_named(name)
        for size in chart.sizes:
            found = {key: mm for key in _SHOWN if (mm := _mm(size, key, name)) is not None}
            remark, mark = "", ""
            if name == "babies" or (beyond_chart(size, name) and chart.body != "woman"):
                remark, mark = "second hand", " **"
            elif beyond_chart(size, name):
                remark, mark = "drawn on", " *"
            cells = (f"{name} {size}{mark}", in_inches(size).removesuffix(" in"))
            texts = (length_text(found[key], unit) if key in found else "" for key in _SHOWN)
            plain = (str(size), f"size {size}") if name == CHARTS[0] else ()
            data: dict[str, object] = {"chart": name, "size": size, **found, "remark": remark}
            yield SizeLine((*plain, f"{name} {size}"), (*cells, *texts), data)


def _mm(size: int, key: str, chart: str) -> float | None:
    try:
        return chart_length(size, key, chart=chart).mm
    except UnknownName:
        return None
