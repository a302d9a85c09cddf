"""The parts of a garment: those that were ordered, and those that finish its blocks where nothing else does."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from blocks.handover import Drafted
from drafting.parts.part_table import PARTS, find_part, part_of, rivals_of
from drafting.pattern import Derived

__all__ = ["all_parts"]


def all_parts(ordered: Sequence[Derived], made: Iterable[Drafted]) -> tuple[Derived, ...]:
    """What was ordered, then what the blocks come with: the knit band of a child's neck, elastic in a romper's legs.

    A part that takes up the same place as one that was ordered is left out.
    """
    known = {part.name for part in PARTS}
    there = [find_part(each.part) for each in ordered if each.part in known]
    found = list(ordered)
    for name in dict.fromkeys(name for drafted in made for name in drafted.parts):
        part = find_part(name)
        if part not in there and not rivals_of(part, there):
            found.append(part_of(part, {}))
    return tuple(found)
