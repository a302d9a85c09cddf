"""Alterations: values that make a new pattern of an old one, each with promises that are verified after every use."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from drafting.alterations import alteration
from drafting.alterations.alteration import Alteration, Promise, apply_step, step_of
from drafting.alterations.alteration_table import Entry, Layer, alteration_table, find_entry, make_step, read_step
from drafting.alterations.bodice.armhole import ARMHOLE, Armhole
from drafting.alterations.bodice.back import BACK_WIDTH, ROUNDED_BACK, BackWidth, RoundedBack
from drafting.alterations.bodice.bust import FULL_BUST, SMALL_BUST, FullBust, SmallBust
from drafting.alterations.bodice.neck_gape import NECK_GAPE, NeckGape
from drafting.alterations.bodice.neckline import NECKLINE, Neckline
from drafting.alterations.bodice.shoulder import FORWARD_SHOULDER, SHOULDER_WIDTH, ForwardShoulder, ShoulderWidth
from drafting.alterations.bodice.shoulder_slope import SHOULDER_SLOPE, ShoulderSlope
from drafting.alterations.bodice.sway_back import SWAY_BACK, SwayBack
from drafting.alterations.darts.dart_to_gathers import DART_INTO_GATHERS, DartIntoGathers
from drafting.alterations.darts.move_dart import MOVE_DART, MoveDart
from drafting.alterations.darts.style_line import DART_INTO_SEAM, DartIntoSeam
from drafting.alterations.finishes.hem import HEM, Hem
from drafting.alterations.finishes.opening import OPENING, Opening
from drafting.alterations.skirt.flare_skirt import FLARE_SKIRT, FlareSkirt
from drafting.alterations.skirt.gather_skirt import GATHER_SKIRT, GatherSkirt
from drafting.alterations.skirt.wrap_over import WRAP, Wrap
from drafting.alterations.sleeve.fit_sleeve import FIT_SLEEVE, FitSleeve
from drafting.alterations.sleeve.full_sleeve import FULL_SLEEVE, FullSleeve
from drafting.alterations.sleeve.other_sleeve import PUT_SLEEVE_IN, PutSleeveIn, with_sleeve_of
from drafting.alterations.sleeve.upper_arm import UPPER_ARM, UpperArm
from drafting.alterations.step_order import order_of_steps, waits_for
from drafting.alterations.whole_garment.blend_sizes import BLEND, Blend
from drafting.alterations.whole_garment.lengthen import LENGTHEN, Lengthen
from drafting.alterations.whole_garment.take_in import TAKE_IN, TakeIn
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
    "Layer",
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
    "order_of_steps",
    "read_step",
    "replay",
    "step_of",
    "undo",
    "waits_for",
    "with_sleeve_of",
]

ALTERATIONS: Final = alteration_table(
    BLEND,
    LENGTHEN,
    TAKE_IN,
    FULL_BUST,
    SMALL_BUST,
    SWAY_BACK,
    ARMHOLE,
    ROUNDED_BACK,
    BACK_WIDTH,
    SHOULDER_SLOPE,
    FORWARD_SHOULDER,
    SHOULDER_WIDTH,
    PUT_SLEEVE_IN,
    UPPER_ARM,
    FIT_SLEEVE,
    NECKLINE,
    NECK_GAPE,
    MOVE_DART,
    WRAP,
    FLARE_SKIRT,
    GATHER_SKIRT,
    FULL_SLEEVE,
    DART_INTO_GATHERS,
    OPENING,
    HEM,
    DART_INTO_SEAM,
)
"""Every alteration there is, in the order in which steps are taken where the engine chooses it."""


def replay(pattern: Pattern, history: Iterable[Step], *, table: Sequence[Entry] = ALTERATIONS) -> Pattern:
    """The pattern that these steps make of the one they began from. Raises as `apply_step` and `make_step` do."""
    return alteration.replay(pattern, history, lambda step: make_step(step, table))


def undo(drafted: Pattern, pattern: Pattern, *, table: Sequence[Entry] = ALTERATIONS) -> Pattern:
    """The pattern before its last step: all its other steps, taken again from the pattern as it was drafted."""
    return alteration.undo(drafted, pattern, lambda step: make_step(step, table))
