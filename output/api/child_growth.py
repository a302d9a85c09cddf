"""How a child grows, from Python: what is to be expected, until when a garment fits, and the chart of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from drafting.body.person import Person
from drafting.dataclass import dataclass
from drafting.growth.lasting import Lasting, lasting
from drafting.growth.outlook import Outlook, outlook
from drafting.growth.own_centile import Expected, Reached
from drafting.pattern import Pattern
from drafting.reading.given import type_problem
from drafting.reading.read_table import refuse
from output.api.plain_passage import plain_passage
from output.report.growth_chart import ChartMark, growth_chart
from output.report.growth_page import growth_html
from output.report.growth_words import growth_passages, lasting_table, too_soon
from output.report.let_down_words import left_to_let_down

__all__ = [
    "Growing",
    "garment_growth_html",
    "growing",
    "growing_data",
    "growing_page",
    "growing_passages",
    "let_down_marks",
]


@dataclass(frozen=True, slots=True)
class Growing:
    """How a child grows until a day, and what of a garment fits until when.

    found: what is to be expected of her; lasts: the girths and lengths of the garment, the first to be outgrown first
    """

    person: Person
    found: Outlook
    lasts: tuple[Lasting, ...] = ()

    def chart(self) -> str:
        """Her height over time as SVG, with the days on which something is let down or outgrown."""
        return growth_chart(self.found, unit=self.person.unit, name=self.person.name, marks=let_down_marks(self))

    def data(self) -> dict[str, object]:
        """All of it as plain values for a program: lengths in mm, days as text."""
        return growing_data(self)

    def _repr_html_(self) -> str:
        return self.chart()


def growing(who: Person, until: date | None = None, pattern: Pattern | None = None, *, place: str = "until") -> Growing:
    """How a child grows until a day (left out: for a year), and until when the garment of a pattern fits her.

    place: what a sentence about that day calls it
    Raises InputProblems where she is no child, a date is missing or cannot be, or a height fell.
    """
    problems = (
        type_problem("growing, who", who, Person, "a person: read_person(...) or person(...)"),
        type_problem("growing, until", until, (date, type(None)), "a day: datetime.date(2027, 8, 1)"),
        type_problem("growing, pattern", pattern, (Pattern, type(None)), "the pattern of a draft: drafted.pattern"),
    )
    refuse([*filter(None, problems)])
    found = outlook(who, until, place=place)
    return Growing(who, found, () if pattern is None else lasting(pattern, found.growth))


def growing_passages(grows: Growing) -> list[dict[str, object]]:
    """All that is told of it, as passages and tables in her unit: what is to be expected, what lasts until when."""
    unit = grows.person.unit
    first, *others = growth_passages(grows.found, grows.person.name, unit)
    lasts = [lasting_table(grows.lasts, grows.found.growth.last.day, unit)] if grows.lasts else []
    return [plain_passage(each) for each in (first, *lasts, *others)]


def growing_page(grows: Growing) -> str:
    """How the child grows, as a page to be printed, HTML."""
    from output.report.growth_page import growth_page

    unit = grows.person.unit
    first, *others = growth_passages(grows.found, grows.person.name, unit)
    lasts = [lasting_table(grows.lasts, grows.found.growth.last.day, unit)] if grows.lasts else []
    return growth_page(f"How {grows.person.name or 'the child'} grows", grows.chart(), [first, *lasts, *others])


def garment_growth_html(who: Person, until: date, pattern: Pattern) -> Iterator[str]:
    """The part of the report that tells of the child's growth, as lines of HTML."""
    grows = growing(who, until, pattern)
    lasts = lasting_table(grows.lasts, grows.found.growth.last.day, who.unit)
    left = (*left_to_let_down(pattern, who.unit), *too_soon(grows.lasts, until))
    yield from growth_html(grows.chart(), left, lasts, until.isoformat())


def let_down_marks(grows: Growing) -> tuple[ChartMark, ...]:
    """What happens when: each length that is let down, until when it then lasts, and the size that is outgrown."""
    last = grows.found.growth.last.day
    marks = [
        ChartMark(each.until.middle, f"let down the {each.place}")
        for each in grows.lasts
        if each.let_down > each.finished and each.place != each.name and each.until.middle and each.until.middle > last
    ]
    if not grows.lasts:
        marks += [
            ChartMark(each.until.middle, f"size {each.size} is outgrown")
            for each in grows.found.sizes
            if each.until.middle and last < each.until.middle <= grows.found.until
        ]
    return tuple(mark for mark in marks if mark.day <= _latest(grows))


def _latest(grows: Growing) -> date:
    """The last day that is shown: twice as far ahead as was asked for."""
    return grows.found.until + (grows.found.until - grows.found.growth.last.day)


def growing_data(grows: Growing) -> dict[str, object]:
    """How a child grows as plain values: lengths in mm, days as text, None where nothing is to be expected."""
    found = grows.found
    return {
        "name": grows.person.name,
        "body": found.growth.child,
        "born": found.growth.born.isoformat(),
        "heights": [{"day": each.day.isoformat(), "mm": each.mm} for each in found.growth.heights],
        "now": _expected(found.now),
        "until": _expected(found.then),
        "girths": [
            {"measurement": key, "mm": round(now, 1), "expected_mm": round(then, 1)} for key, now, then in found.girths
        ],
        "head": {"mm": round(found.head[0], 1), "expected_mm": round(found.head[1], 1)},
        "sizes": [{"size": each.size, **_reached(each.until)} for each in found.sizes],
        "chest_sizes": list(found.chest_sizes),
        "leave": [
            {
                "place": each.place.name,
                "what": each.place.what,
                "grows_mm": round(each.expected, 1),
                "at_most_mm": round(each.high, 1),
                "custom_mm": round(each.custom, 1),
                "leave_mm": each.leave,
            }
            for each in found.leave
        ],
        "lasts": [_lasts(each) for each in grows.lasts],
        "doubts": list(found.doubts),
    }


def _lasts(each: Lasting) -> Mapping[str, object]:
    return {
        "name": each.name,
        "place": each.place,
        "girth": each.girth,
        "finished_mm": round(each.finished, 1),
        "let_down_mm": round(each.let_down, 1),
        "until": _reached(each.until),
        "until_let_down": _reached(each.until_let_down),
    }


def _expected(each: Expected) -> Mapping[str, object]:
    return {
        "day": each.day.isoformat(),
        "months": round(each.months, 2),
        "mm": round(each.mm, 1),
        "low_mm": round(each.low, 1),
        "high_mm": round(each.high, 1),
        "centile": round(each.centile, 1),
    }


def _reached(each: Reached) -> Mapping[str, object]:
    days: Sequence[tuple[str, date | None]] = (("early", each.early), ("middle", each.middle), ("late", each.late))
    return {name: day.isoformat() if day else None for name, day in days}
