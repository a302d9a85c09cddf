"""The parts of a garment: those that were ordered, and those that finish its blocks where nothing else does; the ease
that they ask for, and the options of blocks that steps ask for.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from blocks.handover import Drafted
from drafting.alterations import Alteration
from drafting.body.complete import Body
from drafting.fit.ease import EaseSet, with_least
from drafting.parts.part import Ends
from drafting.parts.part_table import PARTS, find_part, part_of, rivals_of
from drafting.pattern import Derived, Place, Site
from drafting.reading.options import Option, Value

__all__ = ["all_parts", "ends_for", "options_for_steps", "parts_with_room", "with_part_room"]


def with_part_room(
    ease: EaseSet, parts: Sequence[Derived], steps: Sequence[Alteration], body: Body, asked: Mapping[str, float]
) -> EaseSet:
    """The ease with what the parts ask for, at places where nobody asked for any and no step gives that room."""
    mm = {each.key: each.mm for each in body.known()}
    for derived in parts_with_room(parts, steps):
        room = find_part(derived.part).room
        if room is not None:
            least = {place: more for place, more in room.ease(derived, mm).items() if place not in asked}
            ease = with_least(ease, least, derived.name)
    return ease


def parts_with_room(parts: Sequence[Derived], steps: Sequence[Alteration]) -> tuple[Derived, ...]:
    """The parts that ask for ease which no step gives."""

    def asks(derived: Derived) -> bool:
        room = find_part(derived.part).room
        return room is not None and not any(step.name in room.unless for step in steps)

    return tuple(filter(asks, parts))


def ends_for(parts: Sequence[Derived], sites: Sequence[Site]) -> dict[Place, Ends]:
    """How a block ends, by place, for the parts that go on from there."""
    return {
        site.place: part.ends(derived)
        for derived in parts
        for part in (find_part(derived.part),)
        if part.ends is not None
        for site in part.needs
        if site in sites
    }


def options_for_steps(
    options: Sequence[Option], asked: Mapping[str, Value], steps: Sequence[Alteration]
) -> Mapping[str, Value]:
    """The values of a block's options with what the steps ask of it, where the person left that out."""
    own = {option.name for option in options}
    wanted = {name: value for step in steps for name, value in step.asks if name in own}
    return {**wanted, **asked}


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
