"""What can be had of a part that cannot be drawn, or cannot be cut, as it was asked for.

Each of its lengths is changed by itself, the others left, and the whole is tried.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from drafting.errors import NotAPattern, Remedy, Setting
from drafting.parts.part_table import PARTS
from drafting.parts.redraw import drawn_again
from drafting.parts.undraw import undrawn
from drafting.pattern import Derived, Pattern
from drafting.reading.lesser_amounts import nearest_that

__all__ = ["part_remedies"]


def part_remedies(
    pattern: Pattern, part: Derived, passes: Callable[[Pattern], bool] | None = None, *, rounded_to: float = 1.0
) -> tuple[Remedy, ...]:
    """The amounts of a part with which the whole can be drawn; none where none do, or where it is no part to order.

    pattern:    which has the part among those it asks for
    passes:     what else the pattern has to hold
    rounded_to: the amounts are multiples of this, mm
    """
    row = next((each for each in PARTS if each.name == part.part), None)
    if row is None:
        return ()
    bare, asked = undrawn(pattern), dict(part.options)
    at = next(k for k, each in enumerate(bare.derived) if each.name == part.name)

    def can_be_had(option: str, mm: float) -> bool:
        options = tuple({**asked, option: mm}.items())
        parts = (*bare.derived[:at], replace(bare.derived[at], options=options), *bare.derived[at + 1 :])
        try:
            drawn = drawn_again(replace(bare, derived=parts), replace(bare, derived=()))
        except NotAPattern:
            return False
        return passes is None or passes(drawn)

    found = []
    for option in row.options:
        mm = nearest_that(partial(can_be_had, option.name), option, asked.get(option.name), rounded_to)
        if mm is not None:
            found.append(Remedy("set in part", part.name, (Setting(option.name, mm, "mm"),), lead="So it can be had"))
    return tuple(found)
