"""How much less of an alteration can be had: the most below what was asked for, found to a millimetre.

Which amounts can be had need not be all those below a limit: there may be gaps. So the search begins next to what was
asked for. Eighths of it are tried from above, then halves of the last; between the first that can be had and the one
before it, which cannot, the limit is found by halving. What comes out has been tried, and the next larger one cannot be
had. That takes at most some twenty trials.

    asked |x  .  x  .  x  .  x  .  o  ...      7/8, 6/8, 5/8, 4/8, 3/8 are tried, and 3/8 can be had
                             x-x-o-o           between 4/8 and 3/8 the limit is found by halving
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final, Protocol

from drafting.errors import Setting
from drafting.reading.options import Option
from drafting.reading.units import MM_PER_INCH

__all__ = [
    "Amounts",
    "larger_amounts",
    "most_below",
    "most_that",
    "nearest_that",
    "settings_of",
    "smaller_amounts",
    "step_of",
]

Amounts = dict[str, float]
"""Lengths among the options of a step, mm, by name."""

_HAIR: Final = 1e-9
"""A share of the rounding by which a product may miss a whole number."""


def step_of(unit: str) -> float:
    """To a multiple of how many mm an amount that can be had is rounded for whoever works in that unit.

    An eighth of an inch, a whole millimetre in all others.
    """
    return MM_PER_INCH / 8.0 if unit == "in" else 1.0


class _Step(Protocol):
    @property
    def options(self) -> tuple[Option, ...]: ...


def smaller_amounts(step: _Step, names: Sequence[str], rounded_to: float) -> list[Amounts]:
    """The amounts less than those of a step, from the least; all by the same share, in multiples of `rounded_to` mm.

    names: the lengths among its options that become less
    What is zero stays so, and what lies below the least that an option takes is left out.
    """
    lengths = {name: getattr(step, name) for name in names}
    asked = {name: float(value) for name, value in lengths.items() if isinstance(value, float | int) and value}
    most = max((abs(value) for value in asked.values()), default=0.0)
    lows = {option.name: option.low for option in step.options}
    smaller = []
    for parts in range(1, math.ceil(most / rounded_to - _HAIR)):
        amounts = {
            name: math.floor(abs(value) / most * parts + _HAIR) * math.copysign(rounded_to, value) + 0.0
            for name, value in asked.items()
        }
        if all((low := lows.get(name)) is None or mm >= low for name, mm in amounts.items()):
            smaller.append(amounts)
    return smaller


def larger_amounts(step: _Step, name: str) -> list[Amounts]:
    """The whole millimetres above what a step asks for of an option, up to the most it takes, the greatest first."""
    asked = getattr(step, name)
    high = next((option.high for option in step.options if option.name == name), None)
    if not isinstance(asked, float | int) or high is None:
        return []
    return [{name: mm} for mm in _multiples(asked + _HAIR, high, 1.0)][::-1]


def most_that(can_be_had: Callable[[Amounts], bool], amounts: Sequence[Amounts]) -> Amounts:
    """The largest of these amounts, least first, that can be had, next to one that cannot; {} where none can."""

    def passes(at: int) -> bool:
        return can_be_had(amounts[at - 1])

    failing = whole = len(amounts) + 1
    eighths = (whole * eighth // 8 for eighth in range(7, 0, -1))
    halves = (whole >> power for power in range(4, whole.bit_length()))
    for at in dict.fromkeys((*eighths, *halves)):
        if at and passes(at):
            break
        failing = at or failing
    else:
        return {}
    while failing - at > 1:
        middle = (at + failing) // 2
        at, failing = (middle, failing) if passes(middle) else (at, middle)
    return amounts[at - 1]


def nearest_that(
    can_be_had: Callable[[float], bool], option: Option, asked: object, rounded_to: float = 1.0
) -> float | None:
    """The most below a length that was asked for that can be had, else the least above it, mm; None where none can.

    It lies in the range of its option, and is a multiple of `rounded_to` mm.
    """
    if option.kind != "length" or not isinstance(asked, float | int) or option.low is None or option.high is None:
        return None
    below = most_below(can_be_had, option, asked, rounded_to)
    if below is not None:
        return below
    more = [mm for mm in _multiples(asked, option.high, rounded_to) if mm > asked]
    return _most_of(can_be_had, option.name, more[::-1])


def most_below(
    can_be_had: Callable[[float], bool], option: Option, asked: float, rounded_to: float = 1.0
) -> float | None:
    """The most below a length that was asked for that can be had, mm, a multiple of `rounded_to`; None for none.

    It is no less than the option may be.
    """
    less = [mm for mm in _multiples(option.low or 0.0, asked, rounded_to) if mm < asked]
    return _most_of(can_be_had, option.name, less)


def _most_of(can_be_had: Callable[[float], bool], name: str, lengths: Sequence[float]) -> float | None:
    """The last of these lengths that can be had next to one that cannot, mm; None where none can."""
    found = most_that(lambda each: can_be_had(each[name]), [{name: mm} for mm in lengths])
    return found.get(name)


def _multiples(low: float, high: float, of: float) -> Iterator[float]:
    """The multiples of a length from one number to another, from the least."""
    return (k * of for k in range(math.ceil(low / of - _HAIR), math.floor(high / of + _HAIR) + 1))


def settings_of(amounts: Mapping[str, float]) -> tuple[Setting, ...]:
    """The amounts as options that are set."""
    return tuple(Setting(name, mm, "mm") for name, mm in amounts.items())
