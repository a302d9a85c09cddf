"""The bands, as rows of the table of parts."""

from __future__ import annotations

from typing import Final

from drafting.parts.bands.waistband import WAISTBAND, WAISTBAND_TO, draw_waistband
from drafting.parts.part import Part
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["BANDS"]

BANDS: Final = (
    Part(
        WAISTBAND,
        "A straight band as long as the waist as it is sewn, folded at its upper edge; it opens where the skirt does.",
        WAISTBAND_TO,
        (Site(Place.WAIST, BodyPart.SKIRT),),
        (
            Option("height", "length", "how high it is when it is finished", 15.0, 80.0, default=30.0),
            Option(
                "underlap",
                "length",
                "how far it reaches past the opening, under its other end",
                0.0,
                100.0,
                default=30.0,
            ),
        ),
        draw_waistband,
        unless=(Site(Place.WAIST, BodyPart.BODICE),),
        fills=("waist",),
    ),
)
