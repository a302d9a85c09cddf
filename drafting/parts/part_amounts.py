"""The amounts with which a part can be drawn and cut, where it cannot be as it was asked for.

Each of its lengths is changed by itself, the others stay, and the whole garment is tried.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

from drafting.errors import NotAPattern, Remedy, Setting
from drafting.parts.part import part_of
from drafting.parts.part_table import PARTS
from drafting.parts.redraw import PartRefused, drawn_again
from drafting.parts.undraw import undrawn
from drafting.pattern import Derived, Pattern
from drafting.reading.possible_amounts import nearest_that

__all__ = ["part_remedies", "part_with", "ways_to_draw", "with_part_set"]


def ways_to_draw(refused: PartRefused, rounded_to: float = 1.0) -> tuple[Remedy, ...]:
    """What lets a part be drawn that was refused: amounts of it, or of a part that it is drawn beside, or another part.

    All of these were tried. What was said with the refusal to be done to the garment or its block comes first, and was
    not; where nothing was, what its row in the table says may help (`Part.helped_by`).
    rounded_to: the amounts are multiples of this, mm
    """
    pattern, part = refused.pattern, refused.part
    own = [each for each in refused.remedies if each.act == "set in part" and _draws(pattern, each)]
    told = {setting.option for each in own for setting in each.settings}
    amounts = part_remedies(pattern, part, rounded_to=rounded_to)
    own += [each for each in amounts if told.isdisjoint(setting.option for setting in each.settings)]
    if not own:
        beside = (each for each in undrawn(pattern).derived if each.name != part.name)
        own = [each for other in beside for each in part_remedies(pattern, other, rounded_to=rounded_to)]
    said = [each for each in refused.remedies if each.act != "set in part"]
    if not refused.remedies and not own:
        said = [each for row in PARTS if row.name == part.part for each in row.helped_by]
    return (*said, *own)


def _draws(pattern: Pattern, remedy: Remedy) -> bool:
    """Whether the parts can be drawn with this set in one."""
    try:
        with_part_set(pattern, remedy.alteration, {each.option: each.value for each in remedy.settings})
    except NotAPattern:
        return False
    return True


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
    """The pattern with these options of one part set, and all parts drawn again; itself where it has no such part.

    options: "name" for another part in its place, at its defaults
    Raises NotAPattern where a part cannot be drawn.
    """
    bare = undrawn(pattern)
    parts = tuple(part_with(each, options) if each.name == name else each for each in bare.derived)
    return drawn_again(replace(bare, derived=parts), replace(bare, derived=()))


def part_with(part: Derived, options: Mapping[str, str | float | bool]) -> Derived:
    """The part with these options set; "name" puts another part in its place, at its defaults."""
    row = next((each for each in PARTS if each.name == options.get("name")), None)
    if row is not None:
        return part_of(row, {}, called=part.called)
    return replace(part, options=tuple({**dict(part.options), **options}.items()))
