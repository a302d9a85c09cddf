"""What a program gives, judged where a value is made: the same plain sentences as for what a person writes in a file.

A program gives a length in millimetres, a share as a fraction of one, an angle in degrees.
"""

from __future__ import annotations

import math
import os
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from numbers import Real
from pathlib import Path
from typing import Final, Self, TypeVar

from drafting.errors import Problem, Setting, UnknownName, meant
from drafting.reading.options import UNITS, Kind, Option
from drafting.reading.units import MM_PER_INCH, NotRead, parse_length, shown
from drafting.reading.values import Limit, nearest_end, outside, parse_text

__all__ = [
    "LEAST_ALLOWANCE",
    "Given",
    "allowance_problem",
    "list_problems",
    "number_problem",
    "option_problems",
    "path_problem",
    "plain_number",
    "text_problem",
    "type_problem",
]

_NUMBERS: Final[Mapping[Kind, str]] = {
    "length": "a number of millimetres",
    "number": "a number",
    "percent": "a fraction of one",
    "angle": "a number of degrees",
}
_OTHER_UNITS: Final[Mapping[Kind, Mapping[str, float]]] = {
    "length": {"cm": 10.0, "in": MM_PER_INCH},
    "percent": {"%": 0.01},
    "angle": {"radians": math.degrees(1.0)},
}
"""The units that a number is given in by mistake, each with what it is in the unit that is expected."""

LEAST_ALLOWANCE: Final = 3.0
"""mm. An allowance is none at all, or this at the least (ours: narrower, and centimetres were meant)."""

_Any = TypeVar("_Any")


class Given:
    """A dataclass that a program makes: a name it has not is refused, with the nearest one that it has.

    Raises UnknownName.
    """

    __slots__ = ()

    def __new__(cls, *_values: object, **named: object) -> Self:
        known = cls.__dataclass_fields__  # type: ignore[attr-defined]
        for name in named:
            if name not in known:
                raise UnknownName("option", name, known, getattr(cls, "name", "") or cls.__name__)
        return super().__new__(cls)


def option_problems(where: str, options: Sequence[Option], values: Mapping[str, object]) -> Iterator[Problem]:
    """What is wrong with the values of options, each at its place: "lengthen, by".

    Raises UnknownName, with the nearest, for a name that is no option.
    """
    known = {option.name: option for option in options}
    for name, value in values.items():
        if name not in known:
            raise UnknownName("option", name, known, where)
        if problem := _option_problem(f"{where}, {name}", known[name], value):
            yield replace(problem, nearest=_nearest(known[name], value))


def number_problem(where: str, kind: Kind, value: object, low: Limit = None, high: Limit = None) -> Problem | None:
    """What is wrong with a number from `low` to `high`; None for one that will do.

    A number that would do in another unit is answered with what it is in the right one.
    """
    if type(value) is float and math.isfinite(value) and not outside(value, low, high):
        return None  # as nearly all are: nothing is put into words for them
    expected = _range(kind, low, high)
    if isinstance(value, str) and kind == "length":
        return Problem(where, shown(value), expected, _in_mm(value))
    if isinstance(value, bool) or not isinstance(value, Real):
        return Problem(where, shown(value), expected)
    try:
        number = float(value)
    except OverflowError:
        return Problem(where, shown(value), expected)
    if math.isfinite(number) and not outside(number, low, high):
        return None
    return Problem(where, shown(value), expected, _other_unit(kind, number, low, high))


def allowance_problem(where: str, value: object, most: float) -> Problem | None:
    """What is wrong with the width of an allowance or the depth of a hem; None for none at all, or one to be sewn."""
    problem = number_problem(where, "length", value, 0.0, most)
    if problem is not None or value == 0:
        return problem
    problem = number_problem(where, "length", value, LEAST_ALLOWANCE, most)
    return problem and replace(problem, expected=f"0, or {problem.expected}")


def plain_number(value: _Any) -> _Any | float:
    """A number of any kind, whole ones and those of numpy among them, as a float; anything else as it is."""
    return float(value) if isinstance(value, Real) and not isinstance(value, bool) else value


def text_problem(where: str, value: object, *, empty: bool = False) -> Problem | None:
    """What is wrong with a text; None for one that a file may hold, or for "" where that will do."""
    if empty and value == "":
        return None
    try:
        parse_text(value)
    except NotRead as error:
        return Problem(where, _value_text(value), error.expected)
    return None


def type_problem(
    where: str, value: object, of: type | tuple[type, ...], expected: str, mend: str = ""
) -> Problem | None:
    """What is wrong with a value that is to be one of these types; None for one that is.

    expected: what it is to be, as a program writes it: "a cloth: Cloth(...)"
    """
    return None if isinstance(value, of) else Problem(where, _value_text(value), expected, mend)


def path_problem(where: str, value: object, expected: str) -> Problem | None:
    """What is wrong with the path of a file or a folder; None for one that there may be."""
    if not isinstance(value, str | Path):
        return type_problem(where, value, (str, Path), expected)
    try:
        sound = b"\0" not in os.fsencode(value)
    except UnicodeEncodeError:
        sound = False
    return None if sound else Problem(where, shown(str(value)), expected, "No file can be called so.")


def list_problems(where: str, values: object, of: type, expected: str, *, least: int = 0) -> Iterator[Problem]:
    """What is wrong with what is to be a list of values of one type, at least so many."""
    if isinstance(values, str | bytes) or not isinstance(values, Sequence):
        yield Problem(where, _value_text(values), f"a list of {expected}")
        return
    if len(values) < least:
        yield Problem(where, "an empty list", f"a list of {expected}")
    for value in values:
        if problem := type_problem(where, value, of, f"a list of {expected}"):
            yield problem


def _value_text(value: object) -> str:
    """What a program gave, in words; its own classes by their names."""
    if value is None or isinstance(value, str | bool | int | float | dict | list):
        return shown(value)
    return f"the class {value.__name__}" if isinstance(value, type) else f"a {type(value).__name__}"


def _option_problem(where: str, option: Option, value: object) -> Problem | None:
    """What is wrong with the value given for an option; None where nothing is."""
    if value is None and option.default is None:
        return None
    match option.kind:
        case "flag":
            return None if isinstance(value, bool) else Problem(where, shown(value), "True or False")
        case "text" if not isinstance(value, str):
            return Problem(where, shown(value), "a text")
        case "choice" if value not in option.choices:
            mend = meant(value, option.choices) if isinstance(value, str) else ""
            return Problem(where, shown(value), f"one of {', '.join(option.choices)}", mend)
        case "text" | "choice":
            return None
        case kind:
            return number_problem(where, kind, value, option.low, option.high)


def _nearest(option: Option, value: object) -> Setting | None:
    """For a number beyond the range of an option the end that lies nearest; None for anything else."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    end = nearest_end(value, option.low, option.high)
    return None if end is None else Setting(option.name, end, UNITS.get(option.kind, ""))


def _range(kind: Kind, low: Limit, high: Limit) -> str:
    what = _NUMBERS[kind]
    if low is not None and high is not None:
        return f"{what} from {low:g} to {high:g}"
    if low is None and high is None:
        return what
    return f"{what}, {f'{high:g} or less' if low is None else f'{low:g} or more'}"


def _in_mm(written: str) -> str:
    """What a length that was given as a text is in millimetres."""
    try:
        return f"Give the number alone: {parse_length(written, unit='mm'):g}."
    except NotRead:
        return ""


def _other_unit(kind: Kind, number: float, low: Limit, high: Limit) -> str:
    for unit, share in _OTHER_UNITS.get(kind, {}).items():
        if math.isfinite(number) and not outside(number * share, low, high):
            return f"If {number:g} {unit} was meant, give {number * share:g}."
    return ""
