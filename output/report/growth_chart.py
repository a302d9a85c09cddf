"""A child's height over time, drawn: her own line with its range among the centiles, her heights, what happens when."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from html import escape
from typing import Final

from drafting.dataclass import dataclass
from drafting.growth.height_tables import height_spread, months_between
from drafting.growth.lms import deviations_of
from drafting.growth.outlook import Outlook, course
from drafting.reading.units import MM_PER_INCH, length_text
from output.report.growth_words import month_words

__all__ = ["ChartMark", "growth_chart"]

_WIDE: Final = 360.0
"""How wide the drawing is: a narrow phone, so that its writing can be read there."""

_LEFT, _RIGHT, _TOP, _HIGH = 34.0, 34.0, 12.0, 250.0
_LINE: Final = 17.0
_CENTILES: Final = (3, 25, 50, 75, 97)
_BEFORE, _AFTER = timedelta(days=200), timedelta(days=120)
_APART: Final = 17.0


@dataclass(frozen=True, slots=True)
class ChartMark:
    """Something that happens on a day: a hem that is let down, a size that is outgrown."""

    day: date
    words: str


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Where days and heights lie on the drawing."""

    first: date
    last: date
    low: float
    high: float

    def x(self, day: date) -> float:
        return _LEFT + (_WIDE - _LEFT - _RIGHT) * (day - self.first).days / (self.last - self.first).days

    def y(self, mm: float) -> float:
        return _TOP + _HIGH * (self.high - mm) / (self.high - self.low)


def growth_chart(found: Outlook, *, unit: str = "cm", name: str = "", marks: Sequence[ChartMark] = ()) -> str:
    """The chart as SVG, drawn in the colour of the text around it: all of it is told apart without colour.

    unit:  in which heights are written; name: whose it is, for whoever hears the drawing read
    marks: what happens when, numbered on the drawing and named below it
    """
    sheet = _sheet(found, marks)
    told = [
        *marks,
        ChartMark(found.until, f"{length_text(found.then.mm, unit)} to be expected ({found.until.isoformat()})"),
    ]
    told.sort(key=lambda each: each.day)
    tall = _TOP + _HIGH + 24.0 + _LINE * (len(told) + 3)
    about = escape(f"Height over time{f' of {name}' if name else ''}, with what is to be expected", quote=True)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDE:g} {tall:g}" role="img" aria-label="{about}" '
        'font-family="system-ui, DejaVu Sans, sans-serif" font-size="11" color="inherit">',
        *_grid(sheet, unit),
        *_centiles(found, sheet),
        *_own(found, sheet),
        *_marked(found, sheet, told),
        "</svg>",
    ]
    return "\n".join(parts)


def _sheet(found: Outlook, marks: Sequence[ChartMark]) -> _Sheet:
    growth = found.growth
    first = max(growth.born, growth.heights[0].day - _BEFORE)
    last = max([found.until, *(mark.day for mark in marks)]) + _AFTER
    edges = [
        height_spread(growth.child, months_between(growth.born, day)).value(deviations_of(centile))
        for day, centile in ((first, 3.0), (last, 97.0))
    ]
    taken = [each.mm for each in growth.heights]
    low, high = min(edges[0], *taken), max(edges[1], *taken, found.then.high)
    return _Sheet(first, last, 50.0 * math.floor(low / 50.0), 50.0 * math.ceil(high / 50.0))


def _grid(sheet: _Sheet, unit: str) -> Iterator[str]:
    """Heights on the left, years and halves of them below."""
    right, bottom = _WIDE - _RIGHT, _TOP + _HIGH
    yield '<g stroke="currentColor" stroke-width=".4" stroke-opacity=".35">'
    step = 4.0 * MM_PER_INCH if unit == "in" else 100.0
    rungs = [step * count for count in range(math.ceil(sheet.low / step), math.floor(sheet.high / step) + 1)]
    for mm in rungs:
        yield f'<line x1="{_LEFT:g}" x2="{right:g}" y1="{sheet.y(mm):.1f}" y2="{sheet.y(mm):.1f}"/>'
    days = list(_half_years(sheet))
    for day in days:
        yield f'<line x1="{sheet.x(day):.1f}" x2="{sheet.x(day):.1f}" y1="{_TOP:g}" y2="{bottom:g}"/>'
    yield "</g>"
    yield '<g fill="currentColor" stroke="none">'
    for mm in rungs:
        written = f"{mm / MM_PER_INCH:.0f}" if unit == "in" else f"{mm / 10:.0f}" if unit == "cm" else f"{mm:.0f}"
        yield f'<text x="{_LEFT - 4:g}" y="{sheet.y(mm) + 4:.1f}" text-anchor="end">{written}</text>'
    yield f'<text x="{_LEFT - 4:g}" y="{bottom + 14:g}" text-anchor="end">{unit}</text>'
    years = [day for day in days if day.month == 1] or days[:1]
    for day in (day for day in years if sheet.x(day) > _LEFT + 14.0):  # clear of the name of the unit
        yield f'<text x="{sheet.x(day):.1f}" y="{bottom + 14:g}" text-anchor="middle">{day.year}</text>'
    yield "</g>"


def _half_years(sheet: _Sheet) -> Iterator[date]:
    for year in range(sheet.first.year, sheet.last.year + 1):
        for month in (1, 7):
            if sheet.first < (day := date(year, month, 1)) < sheet.last:
                yield day


def _centiles(found: Outlook, sheet: _Sheet) -> Iterator[str]:
    """The centiles of all children of that age, thin, each with its number at its end."""
    growth = found.growth
    days = [sheet.first + (sheet.last - sheet.first) * step / 40 for step in range(41)]
    spreads = [height_spread(growth.child, months_between(growth.born, day)) for day in days]
    for centile in _CENTILES:
        off = deviations_of(float(centile))
        line = _points((sheet.x(day), sheet.y(spread.value(off))) for day, spread in zip(days, spreads, strict=True))
        dashes = "" if centile == 50 else ' stroke-dasharray="1 2.5"'
        yield f'<polyline points="{line}" fill="none" stroke="currentColor" stroke-width=".8"{dashes}/>'
        end = sheet.y(spreads[-1].value(off)) + 4
        yield f'<text x="{_WIDE - _RIGHT + 4:g}" y="{end:.1f}" fill="currentColor" stroke="none">{centile}</text>'


def _own(found: Outlook, sheet: _Sheet) -> Iterator[str]:
    """Her own line with its range, and the heights that were taken."""
    growth = found.growth
    line = course(growth, growth.heights[0].day, sheet.last)
    ahead = course(growth, growth.last.day, sheet.last)
    band = [*((sheet.x(each.day), sheet.y(each.high)) for each in ahead)]
    band += [(sheet.x(each.day), sheet.y(each.low)) for each in reversed(ahead)]
    yield f'<polygon points="{_points(band)}" fill="currentColor" fill-opacity=".16"/>'
    own = _points((sheet.x(each.day), sheet.y(each.mm)) for each in line)
    yield f'<polyline points="{own}" fill="none" stroke="currentColor" stroke-width="2.2"/>'
    for taken in growth.heights:
        x, y = sheet.x(taken.day), sheet.y(taken.mm)
        yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3.6" fill="currentColor" stroke="none"/>'


def _marked(found: Outlook, sheet: _Sheet, told: Sequence[ChartMark]) -> Iterator[str]:
    """A numbered line for each mark, and below the drawing what each of them is."""
    bottom, below = _TOP + _HIGH, _TOP + _HIGH + 24.0
    last, level = -math.inf, 0
    circles: list[str] = []
    for number, mark in enumerate(told, 1):
        x = sheet.x(mark.day)
        level = (level + 1) % 4 if x - last < _APART else 0
        last = x
        y = bottom - 12.0 - _APART * level
        yield (
            f'<line x1="{x:.1f}" x2="{x:.1f}" y1="{_TOP:g}" y2="{bottom:g}" stroke="currentColor" stroke-width="1" '
            'stroke-dasharray="5 3"/>'
        )
        circles.append(
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="8" fill="Canvas" stroke="currentColor"/>'
            f'<text x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle" fill="currentColor" stroke="none">{number}</text>'
        )
    yield from circles
    lines = [f"{number}  {month_words(mark.day)}: {mark.words}" for number, mark in enumerate(told, 1)]
    lines += [
        "dots: measured; thick line: what to expect",
        "grey: so it is for 8 of 10 who measured so",
        f"thin lines: {', '.join(map(str, _CENTILES))} of 100 {found.growth.child}s are shorter",
    ]
    yield '<g fill="currentColor" stroke="none">'
    for place, line in enumerate(lines):
        yield f'<text x="4" y="{below + _LINE * (place + 0.8):.1f}">{escape(line)}</text>'
    yield "</g>"


def _points(places: Sequence[tuple[float, float]] | Iterator[tuple[float, float]]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in places)
