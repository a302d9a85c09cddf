"""How a child grows in plain words: what is to be expected, what lasts until when, how much cloth to leave."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from drafting.body.terms import measurement
from drafting.growth.height_tables import LYING, lying_less_standing
from drafting.growth.lasting import SHORT_SKIRT, SHORT_WAIST, Lasting
from drafting.growth.measured_growth import age_words
from drafting.growth.outlook import Outlook, course
from drafting.growth.own_centile import Reached
from drafting.growth.to_leave import ToLeave
from drafting.reading.units import MM_PER_INCH, length_text
from output.report.tables import Column, Passage, Row, Said, Table

__all__ = ["growth_passages", "lasting_table", "left_text", "month_words", "reached_words", "too_soon"]

_MONTHS: Final = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]

_FAR: Final = timedelta(days=6 * 365)
"""So far ahead a date says nothing (ours)."""

_ROWS: Final = 4
"""How many days, about, are told between now and then."""


def month_words(day: date) -> str:
    """A day by its month and year: "March 2027"."""
    return f"{_MONTHS[day.month - 1]} {day.year}"


def reached_words(reached: Reached, last: date) -> str:
    """When a height is reached, by its month, and in a line below the range for 8 of 10 who measured so.

    last: the day on which the child was measured last: what is reached by then is past
    """
    if reached.middle is None or reached.middle - last > _FAR:
        earliest = reached.early if reached.early is not None and reached.early - last <= _FAR else None
        return "for more than 6 years" + (f"\n(or from {month_words(earliest)} on no longer)" if earliest else "")
    if reached.middle <= last:
        return "no longer"
    early = month_words(reached.early) if reached.early and reached.early > last else "now"
    late = month_words(reached.late) if reached.late is not None and reached.late - last <= _FAR else "later"
    return f"until {month_words(reached.middle)}\n({early} to {late})"


def left_text(mm: float, unit: str) -> str:
    """A length to be left, never less than enough: to half a centimetre, in inches to the next quarter."""
    return length_text(math.ceil(mm * 4.0 / MM_PER_INCH - 1e-6) * MM_PER_INCH / 4.0 if unit == "in" else mm, unit)


def growth_passages(found: Outlook, name: str, unit: str) -> tuple[Said, ...]:
    """What there is to tell of a child without a garment: passages and tables."""
    return (
        _now_and_then(found, name, unit),
        *((Passage("Look at this first", found.doubts),) if found.doubts else ()),
        _course_table(found, unit),
        _size_table(found),
        _leave_table(found, unit),
    )


def _now_and_then(found: Outlook, name: str, unit: str) -> Passage:
    """What is told of a child's height today and on the day that was asked for."""
    growth, now, then = found.growth, found.now, found.then
    whose = "heights that were" if len(growth.heights) > 1 else "height that was"
    last = growth.last
    return Passage(
        ", ".join(part for part in (name, growth.child, age_words(growth.months(last.day))) if part),
        (
            f"{length_text(last.mm, unit)} tall on {last.day.isoformat()}: of 100 {growth.child}s of that age about "
            f"{min(99, max(1, round(now.centile)))} are shorter.",
            f"On {then.day.isoformat()}, at {age_words(then.months)}, {length_text(then.mm, unit)} is to be expected, "
            f"and {length_text(then.low, unit)} to {length_text(then.high, unit)} for 8 of 10 children who measured so "
            f"(from the {whose} taken; a spurt may come earlier or later).",
            *_lying_words(found, unit),
            *_girth_words(found, unit),
        ),
    )


def _lying_words(found: Outlook, unit: str) -> tuple[str, ...]:
    """That a child is measured lying until it is two, and standing is shorter; nothing for an older one."""
    if found.now.months >= LYING:
        return ()
    less = length_text(lying_less_standing(found.growth.child, LYING), unit)
    return (f"Until two years a child is measured lying; standing, it is {less} shorter, and so is the chart.",)


def _girth_words(found: Outlook, unit: str) -> tuple[str, ...]:
    grown = ", ".join(
        f"{_girth_name(key)} from {length_text(now, unit)} to about {length_text(then, unit)}"
        for key, now, then in found.girths
    )
    return (
        f"The girths grow with the height, each with its own offset: {grown}. In a spurt a girth may stay as it is.",
        f"Round the head about {length_text(found.head[1], unit)} then: a neck opening has to let that through.",
    )


def _girth_name(key: str) -> str:
    return "chest" if key == "bust_girth" else measurement(key).name


def _course_table(found: Outlook, unit: str) -> Table:
    """The heights to expect of a child, day by day."""
    days = course(found.growth, found.growth.last.day, found.until)
    step = max(1, (len(days) - 1) // _ROWS)
    rows = tuple(
        Row(
            (
                each.day.isoformat(),
                age_words(each.months),
                length_text(each.mm, unit),
                f"{length_text(each.low, unit)} to {length_text(each.high, unit)}",
            )
        )
        for each in (*days[:-1:step], days[-1])
    )
    columns = (Column("day"), Column("age"), Column("height", True), Column("8 of 10", True))
    return Table("Height to expect", columns, rows)


def _size_table(found: Outlook) -> Table:
    """Until when each size by height fits a child."""
    rows = tuple(
        Row(
            (
                f"size {each.size}",
                f"{each.size - 3} to {each.size + 3} cm",
                reached_words(each.until, found.growth.last.day),
            )
        )
        for each in found.sizes
    )
    now, then = found.chest_sizes
    below = (
        f"By the chest the size is {now}{f', and {then} in the end' if then != now else ''}: take the length by the "
        "height and the width by the chest.",
    )
    columns = (Column("by height"), Column("for a height of", True), Column("fits"))
    return Table("Sizes", columns, rows, below=below)


def _leave_table(found: Outlook, unit: str) -> Table:
    rows = tuple(Row((each.place.what, *_amounts(each, unit))) for each in found.leave)
    above = f"So much more than the usual hem or seam, to be let down until {found.until.isoformat()}."
    columns = (Column(""), Column("grows there by", True), Column("at most", True), Column("leave", True))
    below = (
        "At most: of 10 children who measured so, 9 grow less. Where sewing books leave more for so much growth "
        "(1 1/2 in on a skirt and 1/2 in on a bodice for a size), that is left. Of the straps' part three quarters go "
        "into the straps and a quarter into a tuck at the crotch (common practice).",
    )
    return Table("Cloth to leave now", columns, rows, above=above, below=below)


def _amounts(each: ToLeave, unit: str) -> tuple[str, str, str]:
    grows, high = (length_text(max(0.0, mm), unit) for mm in (each.expected, each.high))
    return grows, high, left_text(each.leave, unit)


def too_soon(lasts: Sequence[Lasting], until: date) -> tuple[str, ...]:
    """A sentence for each girth and length that is outgrown before that day, though all is let down."""
    return tuple(
        f"{each.name.capitalize()}: too {'tight' if each.girth else 'short'} from {month_words(day)} on, though "
        "all that is left is let down. Nothing more could be left there: lengthen it, or give it more ease."
        for each in lasts
        if (day := each.until_let_down.middle) is not None and day < until
    )


def lasting_table(lasts: Sequence[Lasting], last: date, unit: str, *, short: bool = False) -> Table:
    """Until when each girth and length of a garment fits, as it is now and let down. last: the day she was measured."""
    rows = tuple(
        Row(
            (
                each.name,
                length_text(each.finished, unit),
                reached_words(each.until, last),
                length_text(each.let_down, unit) if each.let_down > each.finished else "",
                reached_words(each.until_let_down, last) if each.let_down > each.finished else "",
            )
        )
        for each in lasts
    )
    columns = (
        Column(""),
        Column("now", True),
        Column("fits"),
        Column("let down", True),
        Column("then"),
    )
    below = (
        "A girth fits while it leaves the least ease that it can be worn with; a length, until it comes out "
        f"{length_text(SHORT_SKIRT, unit)} short at the wrist or the hem of a skirt, {length_text(SHORT_WAIST, unit)} "
        "at the waist. Below a date stands the range for 8 of 10 children who measured so.",
    )
    return Table("What fits until when", columns, rows, below=() if short else below)
