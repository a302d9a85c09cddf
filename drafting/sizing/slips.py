"""Slips in a chart that was typed from a packet: what a row of numbers cannot mean, by where it stands in the file.

Designed ease is the same in all sizes of one pattern (a listing read with its chart: 6 1/4 in at the bust and 7 1/2 in
at the hip in each of five sizes): where it is not, within half an inch, a number is a slip or the pattern was drawn
again for that size.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from drafting.body.terms import measurement
from drafting.errors import Problem
from drafting.fit.cloth_table import cloth_meant
from drafting.reading.units import MM_PER_INCH, length_text
from drafting.sizing.pattern_chart import BODY_OF, ChartRow, PatternChart, row_name

__all__ = ["EVEN", "slips"]

EVEN: Final = 13.0
"""mm by which the ease of one size may differ from the others' (half an inch: trade practice)."""

_MM_PER: Final = {"mm": 1.0, "cm": 10.0, "in": MM_PER_INCH}

_SLACK: Final = 0.05
"""mm for the rounding of an eighth of an inch."""

_ROUND: Final = ("bust", "upper_chest", "waist", "hip", "upper_arm", "thigh", "knee")
_LEVEL: Final = frozenset(("inside_leg", "outside_leg", "sleeve_length", "skirt_length", "back_length"))
"""Lengths of a garment that many patterns keep the same in all sizes."""


def slips(chart: PatternChart, *, even: bool = True) -> Iterator[Problem]:
    """What cannot be right in a chart. even: whether the ease has to be the same in all sizes."""
    for section, rows in (("body", chart.body), ("finished", chart.finished)):
        for row in rows:
            yield from _falls(chart, section, row)
    for place in _ROUND:
        finished, body = chart.finished_row(place), chart.body_row(BODY_OF[place])
        if finished and body:
            eases = [made - worn for made, worn in zip(finished, body, strict=True)]
            yield from _too_small(chart, place, eases)
            if even:
                yield from _uneven(chart, place, eases)


def _falls(chart: PatternChart, section: str, row: ChartRow) -> Iterator[Problem]:
    """Where a row falls from one size to the next, or stands still though a girth has to rise."""
    girth = section == "body" and measurement(row.word).kind == "girth"
    girth = girth or (section == "finished" and row.word in _ROUND)
    for (small, less), (large, more) in pairwise(zip(chart.sizes, row.values, strict=True)):
        if more < less - _SLACK or (girth and more < less + _SLACK):
            read = f"{_length_text(chart, less)} in size {small} and {_length_text(chart, more)} in size {large}"
            what = "a girth that rises" if girth else "a length that does not fall"
            mend = _other_unit(chart, row, small) or _other_unit(chart, row, large) or "Look at both again."
            yield Problem(_where(chart, section, row.word), read, f"{what} from size to size", mend)


def _other_unit(chart: PatternChart, row: ChartRow, size: str) -> str:
    """How to mend a number that would stand between its neighbours in the other unit; "" for what would not."""
    at, other = chart.sizes.index(size), "cm" if chart.unit == "in" else "in"
    factor = {"in": 10.0, "cm": MM_PER_INCH, "mm": MM_PER_INCH}[chart.unit] / _MM_PER[chart.unit]
    mm = row.values[at] * factor
    below, above = row.values[max(0, at - 1)], row.values[min(at + 1, len(row.values) - 1)]
    if not (below < mm or at == 0) or not (mm < above or at == len(row.values) - 1):
        return ""
    number = f"{row.values[at] / _MM_PER[chart.unit]:g}"
    return f'In {other} it would stand between its neighbours: if that was meant, write "{number} {other}".'


def _too_small(chart: PatternChart, place: str, eases: list[float]) -> Iterator[Problem]:
    """Sizes of a woven pattern that finish smaller than the body they are meant for."""
    cloth = cloth_meant(chart.cloth)
    if cloth is None or cloth.structure == "knit" or cloth.stretch:
        return
    tight = [size for size, ease in zip(chart.sizes, eases, strict=True) if ease < -_SLACK]
    if tight:
        read = f"less than the body in size {', '.join(tight)}"
        mend = 'Look at both rows again; for a pattern of knit cloth write cloth = "knit" at the top.'
        yield Problem(_where(chart, "finished", place), read, "at least the body's girth in a woven", mend)


def _uneven(chart: PatternChart, place: str, eases: list[float]) -> Iterator[Problem]:
    """Sizes whose ease differs from that of most."""
    from statistics import median

    usual = median(eases)
    off = [(size, ease) for size, ease in zip(chart.sizes, eases, strict=True) if abs(ease - usual) > EVEN]
    if off:
        read = "; ".join(f"{_length_text(chart, ease)} of ease in size {size}" for size, ease in off)
        expected = f"about {_length_text(chart, usual)}, as in the others: finished less body, the same in all sizes"
        mend = "Look at both rows again; if the packet has it so, write ease_differs = true at the top."
        yield Problem(_where(chart, "finished", place), read, expected, mend)


def _where(chart: PatternChart, section: str, name: str) -> str:
    return f"{chart.place}, [{section}] {row_name(name) if section == 'body' else name}"


def _length_text(chart: PatternChart, mm: float) -> str:
    return length_text(mm, chart.unit)
