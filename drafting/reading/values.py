"""Single values: each is read or refused with what was expected there, ranges and examples in the unit she works in."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable

from drafting.errors import meant
from drafting.reading.key_words import file_word
from drafting.reading.units import FILE_UNITS, NotRead, least_text, length_unit, most_text, parse_length, shown

__all__ = [
    "Limit",
    "between_lengths",
    "beyond_lengths",
    "expectation",
    "nearest_end",
    "other_unit",
    "outside",
    "parse_choice",
    "parse_date",
    "parse_flag",
    "parse_text",
    "unit_that_fits",
    "within",
]

Limit = float | None
"""The end of a range; None for no end."""


def parse_text(value: object) -> str:
    """A text that is not empty, of at most 200 letters on one line. Raises NotRead."""
    expected = "a text of up to 200 letters on one line"
    if not isinstance(value, str) or not value.strip() or len(value) > 200 or not value.isprintable():
        raise NotRead(shown(value), expected)
    return value.strip()


def parse_choice(value: object, known: tuple[str, ...]) -> str:
    """One of the names, however it is spelt in capitals and spaces; a number where a number is one. Raises NotRead."""
    if isinstance(value, int) and str(value) in known:
        return str(value)
    if isinstance(value, str) and value in known:
        return value
    if isinstance(value, str):
        for name in known:
            if file_word(name) == file_word(value):
                return name
    expected = ", ".join(f'"{name}"' for name in known[:-1]) + f' or "{known[-1]}"' if known[1:] else f'"{known[0]}"'
    raise NotRead(shown(value), expected, meant(value, known) if isinstance(value, str) else "")


def parse_flag(value: object) -> bool:
    """True or false. Raises NotRead."""
    if not isinstance(value, bool):
        raise NotRead(shown(value), "true or false")
    return value


def parse_date(value: object) -> datetime.date:
    """A calendar day. Raises NotRead."""
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value
    if isinstance(value, str) and re.fullmatch("[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
        try:
            return datetime.date.fromisoformat(value)
        except ValueError:
            pass  # the thirteenth month: refused below like any other text
    raise NotRead(shown(value), "a day, such as 2026-09-12")


def within(
    parse: Callable[[object], float], what: str, low: Limit, high: Limit, show: Callable[[float], str]
) -> Callable[[object], float]:
    """`parse`, and refuse what lies outside the limits."""

    def checked(value: object) -> float:
        number = parse(value)
        if outside(number, low, high):
            raise NotRead(shown(value), between(what, low, high, show), nearest=nearest_end(number, low, high))
        return number

    return checked


def outside(number: float, low: Limit, high: Limit) -> bool:
    """Whether a number lies outside a range, both ends of which are in it."""
    # No NaN comes here: every parser has refused it.
    return (low is not None and number < low) or (high is not None and number > high)


def nearest_end(number: float, low: Limit, high: Limit) -> float | None:
    """The end of a range that lies nearest to a number beyond it; None for a number within."""
    if low is not None and number < low:
        return low
    return high if high is not None and number > high else None


def between_lengths(low: Limit, high: Limit, unit: str | None) -> str:
    """The range of a length as it may be copied: rounded inward, so that either end is in it."""
    least = None if low is None else least_text(low, unit)
    most = None if high is None else most_text(high, unit)
    if least is not None and most is not None:
        return f"a length from {least} to {most}"
    return f"a length of {least} or more" if least is not None else f"a length of {most} or less"


def beyond_lengths(
    value: object, mm: float, low: Limit, high: Limit, *, unit: str | None, shows: str | None
) -> NotRead:
    """What is told of a length that is read and lies beyond its range, with the end that lies nearest.

    unit, shows: what bare lengths of its file are taken in, and what is shown where she wrote no unit
    """
    expected = between_lengths(low, high, length_unit(value) or unit or shows)
    return NotRead(shown(value), expected, other_unit(value, unit, low, high), nearest_end(mm, low, high))


def between(what: str, low: Limit, high: Limit, show: Callable[[float], str]) -> str:
    if low is not None and high is not None:
        return f"{what} from {show(low)} to {show(high)}"
    if low is not None:
        return f"{what} of {show(low)} or more"
    return f"{what} of {show(high)} or less" if high is not None else what


def expectation(parse: Callable[[object], object]) -> str:
    """What a parser expects: learnt by handing it what nobody can mean."""
    try:
        parse(None)
    except NotRead as error:
        return error.expected
    return "a value"


def unit_that_fits(value: object, low: Limit, high: Limit, usual: str | None) -> str | None:
    """The first of her usual unit, cm, in and mm in which a bare number lies between the limits: a bust of 39 can only
    be inches. None where none is, or there is no limit.
    """
    if low is None or high is None or not isinstance(value, int | float):
        return None
    units = (usual, "cm", "in", "mm") if usual else ("cm", "in", "mm")
    return next((unit for unit in units if low <= parse_length(value, unit=unit) <= high), None)


def other_unit(value: object, unit: str | None, low: Limit, high: Limit) -> str:
    """How to mend a bare number that would do in another unit than the file's; "" for what would not."""
    if isinstance(value, str):
        return ""
    for other in FILE_UNITS:
        if other != unit and not outside(parse_length(value, unit=other), low, high):
            return f'If {shown(value)} {other} was meant, write "{shown(value)} {other}".'
    if parse_length(value, unit="mm") >= 1.0 and not outside(parse_length(value, unit="ft"), low, high):
        return _in_feet(shown(value))
    return ""


def _in_feet(written: str) -> str:
    """How feet are written with inches behind them: 5.5 may be 5 ft 5 in, or five feet and a half."""
    feet, _, behind = written.partition(".")
    halves = f"{round(12.0 * float(f'0.{behind or 0}'), 2):g}"
    ways = [
        f'for {feet} feet {inches} write "{feet} ft {inches} in"' for inches in dict.fromkeys((behind or "0", halves))
    ]
    return f"{ways[0].capitalize()}{''.join(f', {way}' for way in ways[1:])}."
