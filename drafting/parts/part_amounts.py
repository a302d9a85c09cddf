"""What can be had of a part that cannot be drawn, or cannot be cut, as it was asked for.

Each of its lengths is changed by itself, the others left, and the whole is tried.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

from drafting.errors import NotAPattern, Remedy, Setting
from drafting.parts.part_table import PARTS
from drafting.parts.redraw import drawn_again
from drafting.parts.undraw import undrawn
from drafting.pattern import Derived, Pattern
from drafting.reading.possible_amounts import nearest_that

__all__ = ["part_remedies", "with_part_set"]


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
    asked = dict(part.options)

    def can_be_had(option: str, mm: float) -> bool:
        try:
            drawn = with_part_set(pattern, part.name, {option: mm})
        except NotAPattern:
            return False
        return passes is None or passes(drawn)

    found = []
    for option in row.options:
        mm = nearest_that(partial(can_be_had, option.name), option, asked.get(option.name), rounded_to)
        if mm is not None:
            found.append(Remedy("set in part", part.name, (Setting(option.name, mm, "mm"),), lead="So it can be had"))
    return tuple(found)


def with_part_set(pattern: Pattern, name: str, options: Mapping[str, str | float | bool]) -> Pattern:
    """The pattern with these options in a part of it, all parts drawn again; as it was where it has no such part.

    Raises NotAPattern where a part cannot be drawn.
    """
    bare = undrawn(pattern)
    parts = tuple(
        replace(each, options=tuple({**dict(each.options), **options}.items())) if each.name == name else each
        for each in bare.derived
    )
    return drawn_again(replace(bare, derived=parts), replace(bare, derived=()))
