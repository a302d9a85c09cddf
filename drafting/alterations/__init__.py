"""Alterations: values that make a new pattern of an old one, each with promises that are verified after every use."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from drafting.alterations import base
from drafting.alterations.armhole import ARMHOLE, Armhole
from drafting.alterations.back import BACK_WIDTH, ROUNDED_BACK, BackWidth, RoundedBack
from drafting.alterations.base import Alteration, Promise, apply_step, step_of
from drafting.alterations.blend import BLEND, Blend
from drafting.alterations.bust import FULL_BUST, SMALL_BUST, FullBust, SmallBust
from drafting.alterations.darts import MOVE_DART, MoveDart
from drafting.alterations.fit_sleeve import FIT_SLEEVE, FitSleeve
from drafting.alterations.full_sleeve import FULL_SLEEVE, FullSleeve
from drafting.alterations.gape import NECK_GAPE, NeckGape
from drafting.alterations.gathers import DART_INTO_GATHERS, DartIntoGathers
from drafting.alterations.hem import HEM, Hem
from drafting.alterations.lengthen import LENGTHEN, Lengthen
from drafting.alterations.neckline import NECKLINE, Neckline
from drafting.alterations.opening import OPENING, Opening
from drafting.alterations.put_in import PUT_SLEEVE_IN, PutSleeveIn, with_sleeve_of
from drafting.alterations.shoulder import FORWARD_SHOULDER, SHOULDER_WIDTH, ForwardShoulder, ShoulderWidth
from drafting.alterations.skirt import FLARE_SKIRT, GATHER_SKIRT, FlareSkirt, GatherSkirt
from drafting.alterations.slope import SHOULDER_SLOPE, ShoulderSlope
from drafting.alterations.style_line import DART_INTO_SEAM, DartIntoSeam
from drafting.alterations.sway_back import SWAY_BACK, SwayBack
from drafting.alterations.table import Entry, alteration_table, find_entry, make_step, read_step
from drafting.alterations.take_in import TAKE_IN, TakeIn
from drafting.alterations.upper_arm import UPPER_ARM, UpperArm
from drafting.alterations.wrap import WRAP, Wrap
from drafting.pattern import Pattern, Step

__all__ = [
    "ALTERATIONS",
    "Alteration",
    "Armhole",
    "BackWidth",
    "Blend",
    "DartIntoGathers",
    "DartIntoSeam",
    "Entry",
    "FitSleeve",
    "FlareSkirt",
    "ForwardShoulder",
    "FullBust",
    "FullSleeve",
    "GatherSkirt",
    "Hem",
    "Lengthen",
    "MoveDart",
    "NeckGape",
    "Neckline",
    "Opening",
    "Promise",
    "PutSleeveIn",
    "RoundedBack",
    "ShoulderSlope",
    "ShoulderWidth",
    "SmallBust",
    "SwayBack",
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
    LENGTHEN,
    BLEND,
    UPPER_ARM,
    FIT_SLEEVE,
    PUT_SLEEVE_IN,
    ARMHOLE,
    FULL_SLEEVE,
    FLARE_SKIRT,
    GATHER_SKIRT,
    MOVE_DART,
    TAKE_IN,
    HEM,
    OPENING,
    WRAP,
    SWAY_BACK,
    ROUNDED_BACK,
    BACK_WIDTH,
    FORWARD_SHOULDER,
    SHOULDER_SLOPE,
    SHOULDER_WIDTH,
    NECKLINE,
    NECK_GAPE,
    FULL_BUST,
    SMALL_BUST,
    DART_INTO_GATHERS,
    DART_INTO_SEAM,
)
"""Every alteration there is."""


def replay(pattern: Pattern, history: Iterable[Step], *, table: Sequence[Entry] = ALTERATIONS) -> Pattern:
    """The pattern that these steps make of the one they began from. Raises as `apply_step` and `make_step` do."""
    return base.replay(pattern, history, lambda step: make_step(step, table))


def undo(drafted: Pattern, pattern: Pattern, *, table: Sequence[Entry] = ALTERATIONS) -> Pattern:
    """The pattern before its last step: all its other steps, taken again from the pattern as it was drafted."""
    return base.undo(drafted, pattern, lambda step: make_step(step, table))
