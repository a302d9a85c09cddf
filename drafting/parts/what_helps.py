"""What may help where a part cannot be drawn, as data: a step before it, an option of the part or of the block, or
another part in its place. Whoever offers it tries it first (`drafting/parts/part_amounts.py`, `blocks/take_steps.py`).
"""

from __future__ import annotations

from drafting.errors import Remedy, Setting

__all__ = ["in_block", "opened_at", "other_part", "set_here", "step_first"]


def step_first(alteration: str, *settings: Setting) -> Remedy:
    """An alteration to be taken beside it."""
    return Remedy("add", alteration, settings, lead="So it can be drawn")


def opened_at(place: str, fasten: str = "") -> Remedy:
    """An opening at a centre line."""
    closed = (Setting("fasten", fasten),) if fasten else ()
    return Remedy("add", "opening", (Setting("at", place), *closed), lead=f"Open the {place.removeprefix('centre ')}")


def in_block(option: str, value: str, lead: str) -> Remedy:
    """An option of the block. lead: what it does, in words"""
    return Remedy("set in block", "", (Setting(option, value),), lead=lead)


def set_here(option: str, value: str | float, unit: str = "") -> Remedy:
    """An option of the part itself, which is named where it is drawn."""
    return Remedy("set in part", "", (Setting(option, value, unit),), lead="So it can be had")


def other_part(name: str) -> Remedy:
    """Another part, at its defaults, in the place of this one."""
    return Remedy("set in part", "", (Setting("name", name),), lead="In its place")
