"""The blouse, as a row of the table of blocks."""

from __future__ import annotations

import math
from typing import Final

from blocks.block import Block
from blocks.bodice import draft_blouse
from blocks.bodice import pieces as bodice
from blocks.handover import Drafted, Order
from blocks.rows.asked import TOP, length_asked
from blocks.rows.fitted import BUST_DART, MEASURED_FOR_BODICE
from drafting.reading.options import Option

__all__ = ["BLOUSE"]

_BELOW_HIP: Final = 30.0  # mm below the hip that a blouse ends where nothing is said (common practice)


def _draft_blouse(order: Order) -> Drafted:
    angle = order.options.get("bust_dart")
    return draft_blouse(
        order.body,
        order.ease,
        order.least,
        below=length_asked(order.options, "below_waist") or _BELOW_HIP + order.body.mm("waist_to_hip"),
        bust_dart=math.radians(angle) if isinstance(angle, float | int) else None,
        for_sleeve=order.with_sleeve,
    )


BLOUSE: Final = (
    Block(
        "blouse",
        "bodice drawn on to the hip without a waist seam, its waist darts left open; open at the centre back",
        (bodice.FRONT, bodice.BACK),
        (*MEASURED_FOR_BODICE, "hip_girth", "waist_to_hip"),
        ("bust", "waist", "hip", "neck", "across_back", "scye_depth"),
        (
            Option(
                "below_waist",
                "length",
                "how far it goes on below the waist; left out, to 3 cm below the hip",
                60.0,
                900.0,
                default=None,
            ),
            BUST_DART,
        ),
        "the bodice; waist darts left open and the sides led on to the hip, common practice",
        _draft_blouse,
        instead="child's bodice",
        sites=TOP,
    ),
)
