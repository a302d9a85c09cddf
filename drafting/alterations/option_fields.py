"""The options of an alteration, each declared once: as the field of the class that holds its value.

    @alteration_class
    class NeckGape(Alteration):
        amount: float = option("length", "how much shorter each half of the neckline becomes", 1.0, 60.0, or_less=True)
        half: str = option("choice", "in front or behind", choices=("front", "back"), default="front")

The options of the garment file are made from these fields, in their order, and so are the limits that are checked where
a value is made. A plain field is no option: the step carries its value along, so that it can be taken again.
"""

from __future__ import annotations

from dataclasses import field, fields, replace
from typing import Any, TypeVar, dataclass_transform

from drafting.alterations.alteration import Alteration
from drafting.dataclass import dataclass
from drafting.reading.options import REQUIRED, Kind, Option, Required, Value

__all__ = ["alteration_class", "option"]

A = TypeVar("A", bound=Alteration)


def option(
    kind: Kind,
    about: str,
    low: float | None = None,
    high: float | None = None,
    *,
    choices: tuple[str, ...] = (),
    default: Value | Required = REQUIRED,
    or_less: bool = False,
    goes_with: tuple[str, tuple[str, ...]] | tuple[()] = (),
    seldom: bool = False,
) -> Any:
    """A field for an option; see `Option`.

    or_less: whether it is a length of which less may do where so much cannot be drawn or fails a check
    """
    metadata = {"option": Option("", kind, about, low, high, default, choices, goes_with, seldom), "or_less": or_less}
    return field(metadata=metadata) if isinstance(default, Required) else field(default=default, metadata=metadata)


@dataclass_transform(frozen_default=True, field_specifiers=(option,))
def alteration_class(cls: type[A]) -> type[A]:
    """The class as a frozen dataclass with slots, its `options` and `or_less` those of its fields."""
    made = dataclass(frozen=True, slots=True)(cls)
    declared = [each for each in fields(made) if "option" in each.metadata]
    made.options = tuple(replace(each.metadata["option"], name=each.name) for each in declared)
    made.or_less = tuple(each.name for each in declared if each.metadata["or_less"])
    return made
