"""Alterations: values that make a new pattern of an old one, each with promises that are verified after every use."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from drafting.alterations.alteration import Alteration, Promise, step_of
from drafting.alterations.alteration_table import AlterationTable, Entry, Layer, make_step, read_step
from drafting.alterations.finishing_steps import apply_as_written, apply_in_order
from drafting.alterations.step_order import order_of_steps, waits_for
from drafting.errors import StepRefused
from drafting.pattern import Pattern, Step

__all__ = [
    "ALTERATIONS",
    "Alteration",
    "AlterationTable",
    "Entry",
    "Layer",
    "Promise",
    "apply_step",
    "make_step",
    "order_of_steps",
    "read_step",
    "replay",
    "step_of",
    "undo",
    "waits_for",
]

ALTERATIONS: Final = AlterationTable(
    {
        "blend": "whole_garment.blend_sizes:BLEND",
        "lengthen": "whole_garment.lengthen:LENGTHEN",
        "take in": "whole_garment.take_in:TAKE_IN",
        "full bust": "bodice.bust:FULL_BUST",
        "small bust": "bodice.bust:SMALL_BUST",
        "sway back": "bodice.sway_back:SWAY_BACK",
        "armhole": "bodice.armhole:ARMHOLE",
        "rounded back": "bodice.back:ROUNDED_BACK",
        "back width": "bodice.back:BACK_WIDTH",
        "shoulder slope": "bodice.shoulder_slope:SHOULDER_SLOPE",
        "forward shoulder": "bodice.shoulder:FORWARD_SHOULDER",
        "shoulder width": "bodice.shoulder:SHOULDER_WIDTH",
        "put sleeve in": "sleeve.other_sleeve:PUT_SLEEVE_IN",
        "upper arm": "sleeve.upper_arm:UPPER_ARM",
        "fit sleeve": "sleeve.fit_sleeve:FIT_SLEEVE",
        "neckline": "bodice.neckline:NECKLINE",
        "neck gape": "bodice.neck_gape:NECK_GAPE",
        "move a dart": "darts.move_dart:MOVE_DART",
        "wrap over": "skirt.wrap_over:WRAP",
        "flare skirt": "skirt.flare_skirt:FLARE_SKIRT",
        "gather skirt": "skirt.gather_skirt:GATHER_SKIRT",
        "full sleeve": "sleeve.full_sleeve:FULL_SLEEVE",
        "dart into gathers": "darts.dart_to_gathers:DART_INTO_GATHERS",
        "opening": "finishes.opening:OPENING",
        "hem": "finishes.hem:HEM",
        "dart into seam": "darts.style_line:DART_INTO_SEAM",
    },
    finishing=("wrap over", "gather skirt", "dart into gathers", "opening", "hem", "dart into seam"),
)
"""Every alteration there is, in the order in which steps are taken where the engine chooses it."""


def __getattr__(name: str) -> type[Alteration]:
    """The class of an alteration (`from drafting.alterations import Lengthen`); all of them are imported then."""
    for entry in ALTERATIONS if name[:1].isupper() else ():
        if entry.alteration.__name__ == name:
            return entry.alteration
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def apply_step(
    pattern: Pattern, step: Alteration, *, as_written: bool = False, table: AlterationTable = ALTERATIONS
) -> Pattern:
    """The pattern with one more step in its history; every promise was measured before and after.

    The step is taken before the openings, hems and other finishing steps there are, and those are taken again after it.
    as_written: take it on the pattern as it is now
    Raises StepRefused for what makes no sense here, and BrokenPromise when a promised number is off by more than
    1e-6 mm. Either way the pattern that was given is as it was.
    """
    return (apply_as_written if as_written else apply_in_order)(pattern, step, table)


def replay(pattern: Pattern, history: Iterable[Step], *, table: AlterationTable = ALTERATIONS) -> Pattern:
    """The pattern that these steps make, in this order, of the one they began from.

    Raises as `apply_step` and `make_step` do.
    """
    for step in history:
        pattern = apply_as_written(pattern, make_step(step, table), table)
    return pattern


def undo(drafted: Pattern, pattern: Pattern, *, table: AlterationTable = ALTERATIONS) -> Pattern:
    """The pattern before the last step of its history: all the others, taken again from the pattern as it was drafted.

    Raises StepRefused where no step was taken.
    """
    if not pattern.history:
        raise StepRefused("undo", "no step has been taken yet")
    return replay(drafted, pattern.history[:-1], table=table)
