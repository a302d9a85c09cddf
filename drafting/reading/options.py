"""Options as a table: what a block or an alteration takes, so that it can be listed, read and defaulted alike."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final, Literal

from drafting.dataclass import dataclass
from drafting.reading.read_table import Reader

__all__ = ["REQUIRED", "UNITS", "Kind", "Option", "Required", "Value", "read_option", "read_options"]

Kind = Literal["text", "choice", "flag", "length", "number", "percent", "angle"]
Value = str | float | bool | None


UNITS: Final[Mapping[str, str]] = {"length": "mm", "percent": "%", "angle": "deg"}
"""The unit of a number in a `Setting`, by the kind of its option; "" for every other kind."""


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
    goes_with: another option, and what of it gives this one a meaning: ("fasten", ("buttons",)); () for always
    seldom:    whether few ever ask for it: folded away where there is little room
    """

    name: str
    kind: Kind
    about: str
    low: float | None = None
    high: float | None = None
    default: Value | Required = REQUIRED
    choices: tuple[str, ...] = ()
    goes_with: tuple[str, tuple[str, ...]] | tuple[()] = ()
    seldom: bool = False


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
