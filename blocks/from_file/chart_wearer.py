"""A garment made in the sizes of her own chart: the body that the chart gives for them."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Final

from drafting.body.charts import chart_mm, nearest_size
from drafting.body.person import Person, person
from drafting.body.terms import BASICS, limits, measurement
from drafting.errors import InputProblems
from drafting.reading.files import LoadTables
from drafting.reading.read_table import Reader
from drafting.reading.units import shown
from drafting.sizing.pattern_chart import PatternChart
from drafting.sizing.read_chart import read_chart

__all__ = ["chart_wearer", "names_a_file"]

_PLACES: Final = {"bust": "bust_girth", "waist": "waist_girth", "hip": "hip_girth", "upper_chest": "upper_chest_girth"}


def names_a_file(reader: Reader) -> bool:
    """Whether the chart of a `[sizes]` table is a file of hers: chart = "landing-dress.toml"."""
    chart = reader.peek("chart")
    return isinstance(chart, str) and chart.casefold().endswith(".toml")


def chart_wearer(reader: Reader, folder: Path, load: LoadTables | None) -> Person | None:
    """The body of the sizes that a `[sizes]` table asks for in a chart of hers; None, with the problems noted.

    Bust, waist, hip and high bust are of the sizes named for them; every other length is of the size at the high bust,
    else at the bust, else at the hip. Where the chart has no height a woman has that of the built-in size of her bust.
    """
    path = Path(os.path.normpath(folder / reader.text("chart")))
    try:
        chart = read_chart(load(path) if load else path, place=str(path))
    except InputProblems as wrong:
        reader.problems.extend(wrong.problems)
        reader.ignore_rest()
        return None
    named = {place: _size(reader, place, chart) for place in _PLACES}
    frame = next((named[place] for place in ("upper_chest", "bust", "hip", "waist") if named[place]), None)
    if frame is None:
        if not any(place in reader for place in _PLACES):
            reader.problem("bust", "the size at the bust (for a skirt alone, the size at the hip)", _sizes(chart))
        return None
    lengths = {row.word: row.values[chart.sizes.index(frame)] for row in chart.body}
    for place, key in _PLACES.items():
        size = named[place]
        if size is not None and (mm := chart.body_mm(size, key)) is not None:
            lengths[key] = mm
    if "stature" not in lengths and chart.body_kind == "woman" and "bust_girth" in lengths:
        lengths["stature"] = chart_mm(nearest_size(lengths["bust_girth"], "bust_girth"), "stature")
    missing = [measurement(key).word for key in BASICS if key not in lengths]
    if missing:
        expected = f"a chart with rows under [body] for {', '.join(missing)}"
        reader.problem("chart", expected, "A pattern is drafted from height, bust, waist and hip.")
        return None
    low_high = limits(chart.body_kind)
    fitting = {key: mm for key, mm in lengths.items() if low_high[key][0] <= mm <= low_high[key][1]}
    others = [f"{size} at the {place.replace('_', ' ')}" for place, size in named.items() if size not in (None, frame)]
    name = f"{chart.title}, size {frame}" + (f" with {' and '.join(others)}" if others else "")
    unit = reader.unit or reader.shows or chart.unit
    return person(fitting, name=name, body=chart.body_kind, unit=unit)


def _size(reader: Reader, place: str, chart: PatternChart) -> str | None:
    written = reader.written(place)
    name = str(written) if isinstance(written, int | str) and not isinstance(written, bool) else ""
    if written is None or name in chart.sizes:
        return name or None
    reader.problem(place, "a size of the chart, as it is called there", _sizes(chart), read=shown(written))
    return None


def _sizes(chart: PatternChart) -> str:
    return f"Sizes are {', '.join(chart.sizes)}."
