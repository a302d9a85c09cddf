"""The facings, as rows of the table of parts."""

from __future__ import annotations

from typing import Final

from drafting.parts.finishes.armhole_facing import (
    ARMHOLE_FACING,
    ARMHOLE_FACING_TO,
    COMBINED_FACING,
    COMBINED_FACING_TO,
    draw_armhole_facing,
    draw_combined_facing,
)
from drafting.parts.finishes.edge_facing import FACING_NAME, HEM_FACING, WRAP_FACING, draw_edge_facing
from drafting.parts.finishes.facing_in_one import LINING, NECK_FACING, NECK_FACING_TO, STAND_FACING
from drafting.parts.finishes.facing_strip import FACING
from drafting.parts.finishes.neck_facing import draw_neck_facing
from drafting.parts.part import Part, PartOfStep
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["FACINGS", "FACINGS_OF_STEPS"]

FACINGS: Final = (
    Part(
        NECK_FACING,
        "Facings of front and back, drawn to the neck as it is, joined at the shoulders, in one with that of a stand.",
        NECK_FACING_TO,
        (Site(Place.NECK, BodyPart.BODICE),),
        (
            Option(
                "depth",
                "length",
                "how deep it is; left out, 6 cm, or down to 5 cm where a lining needs the room beside a dart",
                30.0,
                120.0,
                default=None,
            ),
        ),
        draw_neck_facing,
        in_one_with=(STAND_FACING, HEM_FACING, LINING),
        fills=("inside of the neck",),
    ),
    Part(
        ARMHOLE_FACING,
        "Facings of the armholes of a garment without sleeves, joined at shoulders and sides.",
        ARMHOLE_FACING_TO,
        (Site(Place.ARMHOLE, BodyPart.BODICE),),
        (Option("depth", "length", "how deep it is", 25.0, 100.0, default=50.0),),
        draw_armhole_facing,
        unless=(Site(Place.WRIST, BodyPart.SLEEVE),),
        fills=("inside of the armhole",),
    ),
    Part(
        COMBINED_FACING,
        "Facings of neck and armholes in one, for narrow shoulders without sleeves.",
        COMBINED_FACING_TO,
        (Site(Place.ARMHOLE, BodyPart.BODICE),),
        (Option("depth", "length", "how deep it is below neck and underarm", 30.0, 120.0, default=FACING),),
        draw_combined_facing,
        unless=(Site(Place.WRIST, BodyPart.SLEEVE),),
        fills=("inside of the neck", "inside of the armhole"),
    ),
)
"""Those that can be ordered."""

FACINGS_OF_STEPS: Final = (
    PartOfStep(HEM_FACING, draw_edge_facing("hem facing"), in_one_with=(STAND_FACING,)),
    PartOfStep(STAND_FACING, draw_edge_facing(FACING_NAME)),
    PartOfStep(WRAP_FACING, draw_edge_facing(FACING_NAME)),
)
"""Those that come with an alteration."""
