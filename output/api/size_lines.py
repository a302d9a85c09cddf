"""The size charts, as `trueseam list sizes` and the page show them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Final

from drafting.body.charts import CHARTS, HEIGHTS, beyond_chart, chart_length, chart_lines, chart_named, nearest_size
from drafting.body.sizes import MIDDLE_SIZES, in_inches
from drafting.body.terms import BodyKind
from drafting.dataclass import dataclass
from drafting.errors import UnknownName
from drafting.reading.units import length_text, sentence_in
from output.api.plain_passage import plain_passage
from output.report.tables import Column, Row, Table

__all__ = [
    "ABOVE",
    "BELOW",
    "CHARTS",
    "COLUMNS",
    "SizeLine",
    "chart_to_choose",
    "nearest_sizes",
    "size_lines",
    "sizes_written",
]

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
            if not chart_lines(name) or (beyond_chart(size, name) and chart.body != "woman"):
                remark, mark = "second hand", " **"
            elif beyond_chart(size, name):
                remark, mark = "drawn on", " *"
            cells = (f"{name} {size}{mark}", in_inches(size).removesuffix(" in"))
            texts = (length_text(found[key], unit) if key in found else "" for key in _SHOWN)
            plain = (str(size), f"size {size}") if name == CHARTS[0] else ()
            data: dict[str, object] = {"chart": name, "size": size, **found, "remark": remark}
            yield SizeLine((*plain, f"{name} {size}"), (*cells, *texts), data)


def chart_to_choose(name: str, unit: str) -> dict[str, Any]:
    """A chart to look at or to choose a size from, plain values: name, body, sizes, heights, middle, table.

    heights: how tall, of a woman; empty for a child, whose size is its height
    middle:  a size to begin with
    table:   its rows, as `plain_passage` gives a table
    """
    chart = chart_named(name)
    rows = tuple(Row(line.cells) for line in size_lines(unit) if line.data["chart"] == name)
    below = tuple(sentence_in(unit, sentence) for sentence in (ABOVE, *BELOW))
    middle = MIDDLE_SIZES[chart.body].frame
    return {
        "name": name,
        "body": chart.body,
        "sizes": list(chart.sizes),
        "heights": list(HEIGHTS) if chart.body == "woman" else [],
        "middle": middle if middle in chart.sizes else chart.sizes[-1],
        "table": plain_passage(Table(f"Sizes for {name}", COLUMNS, rows, below=below)),
    }


def nearest_sizes(body: BodyKind, mm: Mapping[str, float]) -> tuple[dict[str, object], ...]:
    """For each chart of a kind of body, what `[sizes]` says of the size that is nearest to hers.

    mm: her lengths by their keys, the bust and the height among them
    """
    charts = [chart_named(name) for name in CHARTS]
    fitting = [each for each in charts if each.body == body]
    return tuple(sizes_written(each.name, nearest_size(mm[each.by], each.by, chart=each.name)) for each in fitting)


def sizes_written(chart: str, size: int, height: str = "") -> dict[str, object]:
    """What stands under `[sizes]` for a size of a chart. height: of a woman, "" for the usual one"""
    if chart_named(chart).body != "woman":
        return {"chart": chart, "height": size}
    return {"chart": chart, "bust": size} | ({"height": height} if height and height != HEIGHTS[1] else {})


def _mm(size: int, key: str, chart: str) -> float | None:
    try:
        return chart_length(size, key, chart=chart).mm
    except UnknownName:
        return None
