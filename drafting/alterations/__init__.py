"""Alterations: values that make a new pattern of an old one, each with promises that are verified after every use."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise, step_of
from drafting.alterations.alteration_table import AlterationTable, make_step, read_step
from drafting.alterations.finishing_steps import apply_as_written, apply_in_order
from drafting.alterations.step_order import order_of_steps, waits_for
from drafting.errors import StepRefused
from drafting.pattern import Pattern, Step

__all__ = [
    "ALTERATIONS",
    "Alteration",
    "AlterationTable",
    "Layer",
    "Promise",
    "apply_step",
    "make_step",
    "order_of_steps",
    "read_step",
    "replay",
    "step_of",
    "try_step",
    "undo",
    "waits_for",
]

ALTERATIONS: Final = AlterationTable(
    {
        "blend": "whole_garment.blend_sizes:Blend",
        "lengthen": "whole_garment.lengthen:Lengthen",
        "take in": "whole_garment.take_in:TakeIn",
        "full bust": "bodice.bust:FullBust",
        "small bust": "bodice.bust:SmallBust",
        "crotch length": "trousers.crotch_length:CrotchLength",
        "seat": "trousers.crotch_length:Seat",
        "full thigh": "trousers.full_thigh:FullThigh",
        "crotch curve": "trousers.crotch_curve:CrotchCurve",
        "leg line": "trousers.leg_line:LegLine",
        "sway back": "bodice.sway_back:SwayBack",
        "armhole": "bodice.armhole:Armhole",
        "rounded back": "bodice.back:RoundedBack",
        "back width": "bodice.back:BackWidth",
        "shoulder slope": "bodice.shoulder_slope:ShoulderSlope",
        "forward shoulder": "bodice.shoulder:ForwardShoulder",
        "shoulder width": "bodice.shoulder:ShoulderWidth",
        "put sleeve in": "sleeve.other_sleeve:PutSleeveIn",
        "upper arm": "sleeve.upper_arm:UpperArm",
        "fit sleeve": "sleeve.fit_sleeve:FitSleeve",
        "dropped shoulder": "styles.dropped_shoulder:DroppedShoulder",
        "neckline": "bodice.neckline:Neckline",
        "neck gape": "bodice.neck_gape:NeckGape",
        "move a dart": "darts.move_dart:MoveDart",
        "pointed waist": "skirt.pointed_waist:PointedWaist",
        "skirt yoke": "skirt.band_and_yoke:SkirtYoke",
        "shaped band": "skirt.band_and_yoke:ShapedBand",
        "pleat skirt": "skirt.pleat_skirt:PleatSkirt",
        "flare skirt": "skirt.flare_skirt:FlareSkirt",
        "wrap over": "skirt.wrap_over:Wrap",
        "gather skirt": "skirt.gather_skirt:GatherSkirt",
        "full sleeve": "sleeve.full_sleeve:FullSleeve",
        "dart into gathers": "darts.dart_to_gathers:DartIntoGathers",
        "opening": "finishes.opening:Opening",
        "side pocket": "finishes.side_pocket:SidePocket",
        "slanted pocket": "finishes.slanted_pocket:SlantedPocket",
        "patch pocket": "finishes.patch_pocket:PatchPocket",
        "godet": "skirt.godet:Godet",
        "hem": "finishes.hem:Hem",
        "room to grow": "whole_garment.room_to_grow:RoomToGrow",
        "yoke": "styles.yoke:Yoke",
        "smock": "styles.smock:Smock",
        "raglan": "styles.raglan:Raglan",
        "saddle shoulder": "styles.saddle:Saddle",
        "kimono": "styles.kimono:Kimono",
        "empire seam": "styles.empire:Empire",
        "dart into seam": "darts.style_line:DartIntoSeam",
    },
    finishing=(
        "wrap over",
        "gather skirt",
        "dart into gathers",
        "opening",
        "side pocket",
        "godet",
        "slanted pocket",
        "patch pocket",
        "hem",
        "room to grow",
        "yoke",
        "smock",
        "raglan",
        "saddle shoulder",
        "kimono",
        "empire seam",
        "dart into seam",
    ),
)
"""Every alteration there is, in the order in which steps are taken where the engine chooses it."""


def __getattr__(name: str) -> type[Alteration]:
    """The class of an alteration (`from drafting.alterations import Lengthen`); all of them are imported then."""
    for alteration in ALTERATIONS if name[:1].isupper() else ():
        if alteration.__name__ == name:
            return alteration
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


def try_step(pattern: Pattern, step: Alteration) -> Pattern:
    """The pattern with one more step. For trying only: a refusal comes without other amounts, which are not looked for.

    Raises as `apply_step` does, or NotAPattern, and sooner: what can be had in place of it is not looked for.
    """
    return apply_as_written(pattern, step, ALTERATIONS, offers=False)


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
        raise StepRefused("undo", reason="no step has been taken yet")
    return replay(drafted, pattern.history[:-1], table=table)
