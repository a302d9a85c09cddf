"""Reading her chart of a bought pattern: sizes called anything, and under them rows of numbers as on the packet.

A row is a list, `bust = [32, "33 1/2", 35]`, or one text as it is typed from the packet, `bust = "32  33 1/2  35"`. A
body may be given as a range, `"82-86  86-90"`: its middle counts. Every fault of the file is found in one go.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from drafting.body.measurement_words import measurement_words
from drafting.body.terms import BODY_KINDS, BodyKind, limits
from drafting.errors import InputProblems, Problem, UnknownName, meant
from drafting.fit.cloth_table import cloth_meant, cloth_table
from drafting.reading.files import load_toml
from drafting.reading.key_words import Words
from drafting.reading.read_table import Reader, refuse
from drafting.reading.units import NotRead, length_text, length_unit, parse_length, printable, shown, unit_written
from drafting.sizing.garment_kinds import GARMENT_KINDS, garment_kind
from drafting.sizing.pattern_chart import BODY_OF, FINISHED_WORDS, ChartRow, PatternChart
from drafting.sizing.slips import slips

__all__ = ["read_chart"]

CUPS: Final = ("AA", "A", "B", "C", "D", "DD", "E", "F", "G")
"""Cups by the inches that the bust is more than the upper chest: AA 0, A 1, B 2 and so on (a letter to the inch)."""

_MOST_SIZES: Final = 60
_FINISHED_LIMITS: Final = (10.0, 4000.0)
"""mm. Nothing of a garment is shorter or longer (ours, against slips of the unit)."""

_GAPS: Final = {"-", "--", "?", "x", "_", "."}
_NUMBER: Final = r"[0-9]+(?:[.,][0-9]+)?(?:\s*[-\s]\s*[0-9]+/[0-9]+)?|[0-9]+/[0-9]+"
_CELL: Final = re.compile(
    rf"(?:{_NUMBER})(?:\s*(?:cm|mm|in|inches|\"))?(?:[-–](?:{_NUMBER})(?:\s*(?:cm|mm|in|inches|\"))?)?"
    r"|[^\s,;|]+"
)
_FRACTIONS: Final = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
_RANGE: Final = re.compile(r"(?P<low>.*[0-9\"nm])\s*[-–]\s*(?P<high>[0-9]+(?:[.,][0-9]+)?(?:\s+[0-9]+/[0-9]+)?.*)")


def read_chart(source: str | Path | Mapping[str, object], *, place: str | None = None) -> PatternChart:
    """The chart in a TOML file, or in the tables already read from one.

    place: what the sentences about problems call the file
    Raises InputProblems with everything that is wrong.
    """
    table = source if isinstance(source, Mapping) else load_toml(source)
    where = place if place is not None else "the chart" if isinstance(source, Mapping) else str(source)
    if "measurements" in table:
        mend = "The chart is named first, then the person."
        raise InputProblems([Problem(where, "a person's file", "a chart's file, with sizes, [body], [finished]", mend)])
    if {"block", "wearer"} & table.keys():
        mend = "`trueseam new chart` begins one."
        raise InputProblems([Problem(where, "a garment file", "a chart's file, with sizes, [body], [finished]", mend)])
    problems: list[Problem] = []
    reader = Reader(table, place=where, problems=problems, words=_TOP)
    title = reader.text("title", default="") or (Path(where).stem.replace("-", " ") if where else "")
    written = reader.choice("body_kind", BODY_KINDS, default="woman")
    body_kind: BodyKind = next(each for each in BODY_KINDS if each == written)
    unit = reader.file_unit() or unit_written(table) or "cm"
    if "unit" not in reader and unit_written(table) is None:
        reader.problem("unit", '"cm", "in" or "mm"', "It says what plain numbers are in.")
    sizes = _sizes(reader)
    cloth = _cloth(reader)
    garment = _garment(reader)
    cups = _cups(reader)
    even = not reader.flag("ease_differs", default=False)
    body = _rows(reader, "body", _body_words(table, body_kind), limits(body_kind), sizes, unit)
    known = dict.fromkeys(FINISHED_WORDS, _FINISHED_LIMITS)
    known |= {word: _wider(limits(body_kind)[key]) for word, key in BODY_OF.items()}
    finished = _rows(reader, "finished", _FINISHED, known, sizes, unit)
    if not problems and not body and not finished:
        reader.problem("body", "rows of numbers under [body] or [finished], as on the packet", read="no rows")
    reader.finish()
    chart = PatternChart(title, sizes, body, finished, cloth, garment, cups, body_kind, unit, where)
    problems.extend(slips(chart, even=even))
    refuse(problems)
    return chart


_TOP: Final = Words(
    {
        "title": "title",
        "unit": "unit",
        "sizes": "sizes",
        "cloth": "cloth",
        "garment": "garment",
        "body_kind": "for",
        "cups": "cups",
        "ease_differs": "ease_differs",
        "body": "body",
        "finished": "finished",
    },
    {"name": "title", "size": "sizes", "cup": "cups", "whose": "body_kind", "fabric": "cloth", "kind": "garment"},
)
_FINISHED: Final = Words(
    {word: word for word in FINISHED_WORDS}, {also: word for word, others in FINISHED_WORDS.items() for also in others}
)


def _body_words(table: Mapping[str, object], kind: BodyKind) -> Words:
    """What the rows of bodies may be called; "chest" beside "bust" is the upper chest."""
    words = measurement_words(kind)
    rows = table.get("body")
    named = {words.key(str(word)) for word in rows} if isinstance(rows, Mapping) else set()
    chest = "upper_chest_girth" if kind == "woman" and "bust_girth" in named else "bust_girth"
    return Words(
        words.names, {**{str(also): key for also, key in words.also.items()}, "chest": chest}, {}, words.listed
    )


def _wider(ends: tuple[float, float]) -> tuple[float, float]:
    """What a garment may measure where a body has these limits: less in a knit, much more in a wide style."""
    return 0.5 * ends[0], 2.5 * ends[1]


def _sizes(reader: Reader) -> tuple[str, ...]:
    """What the sizes of a chart are called, the smallest first; () where that cannot be read, which is then noted."""
    written = reader.written("sizes")
    cells = written.replace(",", " ").replace(";", " ").split() if isinstance(written, str) else written
    expected = 'what the sizes are called: sizes = ["8", "10", "12"]'
    if not isinstance(cells, list) or not all(isinstance(each, str | int) and str(each).strip() for each in cells):
        reader.problem("sizes", expected, "Smallest first, as on the packet.")
        return ()
    names = tuple(printable(str(each).strip(), most=20) for each in cells)
    if not 2 <= len(names) <= _MOST_SIZES:
        reader.problem("sizes", f"2 to {_MOST_SIZES} sizes", read=f"{len(names)}")
        return ()
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        reader.problem("sizes", "each size once", read=f"{', '.join(twice)} more than once")
    return names


def _cloth(reader: Reader) -> str:
    written = reader.text("cloth", default="woven")
    if cloth_meant(written) is None:
        names = [row.word for row in cloth_table()]
        reader.problem("cloth", "woven, knit, or a cloth that `trueseam list cloths` shows", meant(written, names))
        return "woven"
    return written


def _garment(reader: Reader) -> str:
    written = reader.text("garment", default="")
    try:
        return garment_kind(written).name if written else ""
    except UnknownName:
        reader.problem("garment", ", ".join(GARMENT_KINDS), meant(written, GARMENT_KINDS))
        return ""


def _cups(reader: Reader) -> tuple[str, ...]:
    written = reader.written("cups")
    if written is None:
        return ()
    cells = written.replace(",", " ").replace("/", " ").split() if isinstance(written, str) else written
    named = [str(each).strip().upper() for each in cells] if isinstance(cells, list) else []
    if not named or any(each not in CUPS for each in named):
        reader.problem("cups", f'cups such as "B C D", of {", ".join(CUPS)}')
        return ()
    return tuple(sorted(named, key=CUPS.index))


def _rows(
    outer: Reader,
    key: str,
    words: Words,
    known: Mapping[str, tuple[float, float]],
    sizes: tuple[str, ...],
    unit: str,
) -> tuple[ChartRow, ...]:
    """The rows of a chart under one key, a length for each size, mm; what is wrong is noted and left out."""
    reader = outer.table(key, words)
    rows = []
    for name, ends in known.items():
        written = reader.written(name)
        if written is None:
            continue
        cells = _cells(written)
        if cells is None:
            reader.problem(name, 'a number under each size: "31 1/2  32 1/2  34", or a list of them')
        elif sizes and len(cells) != len(sizes):
            holes = f"{len(cells)} numbers for {len(sizes)} sizes"
            reader.problem(name, "one number under each size", f"The sizes are {', '.join(sizes)}.", read=holes)
        elif sizes:
            values = [_value(reader, name, size, cell, ends, unit) for size, cell in zip(sizes, cells, strict=True)]
            if None not in values:
                rows.append(ChartRow(name, tuple(value for value in values if value is not None)))
    return tuple(rows)


def _cells(told: object) -> list[object] | None:
    """The numbers of a row, still as they are written; None for what is no row."""
    if isinstance(told, list):
        return list(told)
    if isinstance(told, str):
        for sign, plain in _FRACTIONS.items():
            told = told.replace(sign, plain)
        return list(_CELL.findall(" ".join(told.split())))  # runs of spaces make the search slow
    return None


def _value(reader: Reader, name: str, size: str, cell: object, ends: tuple[float, float], unit: str) -> float | None:
    """One length of a row, mm; None, with the problem noted, for what is none."""
    if isinstance(cell, str) and cell.strip() in ("", *_GAPS):
        reader.problem(
            name, f"a number in size {size}", "A hole in the chart: fill it from the packet.", read="nothing"
        )
        return None
    try:
        mm = _length(cell, unit)
    except NotRead as wrong:
        reader.problem(name, f"{wrong.expected}, in size {size}", wrong.mend, read=wrong.read)
        return None
    low, high = ends
    if low <= mm <= high:
        return mm
    other = "in" if (length_unit(cell) or unit) != "in" else "cm"
    mend = ""
    try:
        if length_unit(cell) is None and low <= _length(cell, other) <= high:
            plain = "inches" if unit == "in" else unit
            mend = f'Plain numbers are in {plain} here: if {shown(cell)} {other} was meant, write "{cell} {other}".'
    except NotRead:
        pass
    ranged = f"{length_text(low, unit)} to {length_text(high, unit)}"
    reader.problem(name, f"a length from {ranged} in size {size}", mend, read=shown(cell))
    return None


def _length(cell: object, unit: str) -> float:
    """A length, or the middle of a range, mm. Raises NotRead."""
    ranged = _RANGE.fullmatch(cell.strip()) if isinstance(cell, str) and "/" not in cell.split("-")[-1] else None
    if ranged:
        high_unit = length_unit(ranged["high"]) or unit
        low, high = parse_length(ranged["low"], unit=high_unit), parse_length(ranged["high"], unit=unit)
        if low < high:
            return 0.5 * (low + high)
        raise NotRead(shown(cell), "a range that rises, such as 82-86")
    return parse_length(cell, unit=unit)
