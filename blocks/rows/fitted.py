"""The fitted bodice, its sleeve and the straight skirt, as rows of the table of blocks."""

from __future__ import annotations

import math
from typing import Final

from blocks import skirt, sleeve
from blocks.block import Block
from blocks.bodice import pieces as bodice
from blocks.bodice import plan_bodice
from blocks.handover import Drafted, Order, Planned
from blocks.rows.asked import (
    LOWER,
    SLEEVED,
    UPPER,
    darts_asked,
    darts_option,
    skirt_length,
    to_the_knee,
)
from blocks.shared.waist_darts import DARTS
from drafting.errors import CannotDraft
from drafting.parts.part import Ends
from drafting.pattern import Place
from drafting.reading.options import Option

__all__ = ["BUST_DART", "FITTED", "MEASURED_FOR_BODICE", "draft_to_armhole"]


def _draft_bodice(order: Order) -> Drafted:
    return _plan_bodice(order).draft()


def _plan_bodice(order: Order) -> Planned:
    angle = order.options.get("bust_dart")
    return plan_bodice(
        order.body,
        order.ease,
        order.least,
        bust_dart=math.radians(angle) if isinstance(angle, float | int) else None,
        front_darts=darts_asked(order, "front_darts"),
        back_darts=darts_asked(order, "back_darts"),
        for_sleeve=order.with_sleeve,
    )


def draft_to_armhole(order: Order) -> Drafted:
    """The set-in sleeve for the armhole handed over. Raises CannotDraft where there is none."""
    if order.armhole is None:
        raise CannotDraft((), "A sleeve is drawn to an armhole: draft the bodice it goes into before it.")
    end = order.ends.get(Place.WRIST, Ends())
    return sleeve.draft_sleeve(order.body, order.ease, order.least, order.armhole, end)


def _draft_skirt(order: Order) -> Drafted:
    asked = order.options.get("length")
    long = float(asked) if isinstance(asked, float | int) else to_the_knee(order.body)
    return skirt.draft_skirt(
        order.body,
        order.ease,
        order.least,
        order.waist,
        long=long,
        front_darts=darts_asked(order, "front_darts"),
        back_darts=darts_asked(order, "back_darts"),
        zip_opening=not order.pulled_on,
    )


BUST_DART: Final = Option(
    "bust_dart",
    "angle",
    "the angle of the bust dart; left out, the one that the bust asks for",
    7.0,
    30.0,
    default=None,
)

MEASURED_FOR_BODICE: Final = (
    "bust_girth",
    "upper_chest_girth",
    "waist_girth",
    "neck_base_girth",
    "shoulder_length",
    "shoulder_drop",
    "back_waist_length",
    "front_waist_length_from_neck_pit",
    "scye_depth",
    "interscye_mid_distance",
    "bust_point_breadth",
    "neck_to_bust_point",
    "upper_arm_girth",
)

FITTED: Final = (
    Block(
        "bodice",
        "fitted bodice, front and back, with bust dart, back shoulder dart and waist darts; open at the centre back",
        (bodice.FRONT, bodice.BACK),
        MEASURED_FOR_BODICE,
        ("bust", "waist", "neck", "across_back", "scye_depth"),
        (
            BUST_DART,
            darts_option("front", DARTS[:3]),
            darts_option("back", DARTS[:3]),
        ),
        "W. Aldrich, Metric Pattern Cutting for Women's Wear, close-fitting block, worked for bust 88 cm",
        _draft_bodice,
        plan=_plan_bodice,
        instead="child's bodice",
        sites=UPPER,
    ),
    Block(
        "sleeve",
        "set-in sleeve in one piece, drawn to the bodice's armhole",
        (sleeve.SLEEVE,),
        ("upper_arm_girth", "elbow_girth", "wrist_girth", "arm_length", "shoulder_to_elbow"),
        ("upper_arm", "elbow", "wrist", "cap_ease"),
        (),
        "the sleeve triangle: diagonals, cap height and biceps, any two giving the third",
        draft_to_armhole,
        instead="child's sleeve",
        after="bodice",
        sites=SLEEVED,
    ),
    Block(
        "skirt",
        "straight skirt, front and back, with darts; open at the centre back from the waist to the hip",
        (skirt.FRONT, skirt.BACK),
        ("waist_girth", "hip_girth", "waist_to_hip", "waist_height", "knee_height"),
        ("waist", "hip"),
        (
            skirt_length(150.0, 1400.0),
            darts_option("front", DARTS[:3]),
            darts_option("back", DARTS),
        ),
        "W. Aldrich, Metric Pattern Cutting for Women's Wear, straight skirt, worked for hip 94 cm and waist 68 cm",
        _draft_skirt,
        instead="child's skirt",
        sites=LOWER,
    ),
)
