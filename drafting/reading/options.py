"""Options as a table: what a block or an alteration can be told, so that it can be listed, read and defaulted alike."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from drafting.reading.read_table import Reader

__all__ = ["REQUIRED", "Kind", "Option", "Required", "Value", "misread", "read_option", "read_options"]

Kind = Literal["text", "choice", "flag", "length", "number", "percent", "angle"]
Value = str | float | bool | None


@dataclass(frozen=True, slots=True)
class Required:
    """Stands where an option has no default."""


REQUIRED: Final = Required()


@dataclass(frozen=True, slots=True)
class Option:
    """One option, as a garment file gives it.

    kind:      what is read: a length comes in as mm, a percent as a fraction of one, an angle in degrees
    low, high: the range, in those units; None for no limit
    default:   what stands when it is left out; REQUIRED when it cannot be
    """

    name: str
    kind: Kind
    about: str
    low: float | None = None
    high: float | None = None
    default: Value | Required = REQUIRED
    choices: tuple[str, ...] = ()


def read_options(reader: Reader, options: Sequence[Option]) -> dict[str, Value]:
    """The value of each option; what is wrong is noted in the reader, and a harmless value stands in its place."""
    return {option.name: read_option(reader, option) for option in options}


def read_option(reader: Reader, option: Option) -> Value:
    """The value of one option, in millimetres, as a fraction of one, or in degrees."""
    key, low, high = option.name, option.low, option.high
    rest = {} if isinstance(option.default, Required) else {"default": option.default}
    match option.kind:
        case "text":
            return reader.text(key, **rest)
        case "choice":
            return reader.choice(key, option.choices, **rest)
        case "flag":
            return reader.flag(key, **rest)
        case "length":
            return reader.length(key, low=low, high=high, **rest)
        case "number":
            return reader.number(key, low=low, high=high, **rest)
        case "percent":
            return reader.percent(key, low=low, high=high, **rest)
        case "angle":
            return reader.angle(key, low=low, high=high, **rest)


def misread(option: Option, value: object) -> str:
    """What was expected where a value, given by a program, is none that the option can have; "" where it is one.

    A length is a number of millimetres, a percent a fraction of one, an angle a number of degrees.
    """
    if value is None and option.default is None:
        return ""
    if option.kind in ("text", "choice", "flag"):
        wanted = bool if option.kind == "flag" else str
        if not isinstance(value, wanted):
            return "true or false" if wanted is bool else "a text"
        return "" if option.kind != "choice" or value in option.choices else f"one of {', '.join(option.choices)}"
    if isinstance(value, bool) or not isinstance(value, float | int) or not math.isfinite(value):
        return _NUMBERS[option.kind]
    low, high = option.low, option.high
    if (low is None or value >= low) and (high is None or value <= high):
        return ""
    if low is not None and high is not None:
        return f"{_NUMBERS[option.kind]} from {low:g} to {high:g}"
    return f"{_NUMBERS[option.kind]}, {f'{high:g} or less' if low is None else f'{low:g} or more'}"


_NUMBERS: Final = {
    "length": "a number of millimetres",
    "number": "a number",
    "percent": "a fraction of one",
    "angle": "a number of degrees",
}
