"""Alterations: values that make a new pattern of an old one, each with promises that are verified after every use."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from drafting.alterations import base
from drafting.alterations.armhole import ARMHOLE, Armhole
from drafting.alterations.base import Alteration, Promise, apply_step, step_of
from drafting.alterations.blend import BLEND, Blend
from drafting.alterations.darts import MOVE_DART, MoveDart
from drafting.alterations.fit_sleeve import FIT_SLEEVE, FitSleeve
from drafting.alterations.hem import HEM, Hem
from drafting.alterations.lengthen import LENGTHEN, Lengthen
from drafting.alterations.opening import OPENING, Opening
from drafting.alterations.put_in import PUT_SLEEVE_IN, PutSleeveIn, with_sleeve_of
from drafting.alterations.table import Entry, alteration_table, find_entry, make_step, read_step
from drafting.alterations.take_in import TAKE_IN, TakeIn
from drafting.alterations.upper_arm import UPPER_ARM, UpperArm
from drafting.alterations.wrap import WRAP, Wrap
from drafting.pattern import Pattern, Step

__all__ = [
    "ALTERATIONS",
    "Alteration",
    "Armhole",
    "Blend",
    "Entry",
    "FitSleeve",
    "Hem",
    "Lengthen",
    "MoveDart",
    "Opening",
    "Promise",
    "PutSleeveIn",
    "TakeIn",
    "UpperArm",
    "Wrap",
    "alteration_table",
    "apply_step",
    "find_entry",
    "make_step",
    "read_step",
    "replay",
    "step_of",
    "undo",
    "with_sleeve_of",
]

ALTERATIONS: Final = alteration_table(
    LENGTHEN, BLEND, UPPER_ARM, FIT_SLEEVE, PUT_SLEEVE_IN, ARMHOLE, MOVE_DART, TAKE_IN, HEM, OPENING, WRAP
)
"""Every alteration there is."""


def replay(pattern: Pattern, history: Iterable[Step], *, table: Sequence[Entry] = ALTERATIONS) -> Pattern:
    """The pattern that these steps make of the one they began from. Raises as `apply_step` and `make_step` do."""
    return base.replay(pattern, history, lambda step: make_step(step, table))


def undo(drafted: Pattern, pattern: Pattern, *, table: Sequence[Entry] = ALTERATIONS) -> Pattern:
    """The pattern before its last step: all its other steps, taken again from the pattern as it was drafted."""
    return base.undo(drafted, pattern, lambda step: make_step(step, table))
