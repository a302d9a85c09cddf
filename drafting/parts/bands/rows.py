"""The bands, as rows of the table of parts."""

from __future__ import annotations

from typing import Final

from drafting.parts.bands.front_band import FRONT_BAND, FRONT_BAND_TO, OPEN_FRONT, draw_front_band
from drafting.parts.bands.knit_bands import (
    HEM_BAND_TO,
    NECK_BAND,
    WRIST_BAND_TO,
    draw_hem_band,
    draw_wrist_band,
    wrist_band_room,
)
from drafting.parts.bands.knit_stretch import HEM_BAND, NECK_BAND_TO, WRIST_BAND
from drafting.parts.bands.neck_bands import draw_neck_band
from drafting.parts.bands.waistband import WAISTBAND, WAISTBAND_TO, draw_waistband
from drafting.parts.part import SHORTER, Part, Room, width_shorter
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["BANDS"]


def _band_width(usual: float) -> Option:
    return Option("width", "length", "how wide it is when it is finished", 10.0, 150.0, default=usual)


_STRETCH: Final = Option(
    "stretch",
    "percent",
    "how far its own knit stretches; left out, what the block was drawn for, or as the cloth",
    0.0,
    2.0,
    default=None,
)
_BAND_SHARE: Final = Option(
    "share",
    "percent",
    "how long it is cut, of the edge it is sewn to; left out, 85 %, or what its knit gives",
    0.5,
    1.0,
    default=None,
)

BANDS: Final = (
    Part(
        WAISTBAND,
        "A straight band as long as the waist as it is sewn, folded at its upper edge; it opens where the waist does.",
        WAISTBAND_TO,
        (Site(Place.WAIST, BodyPart.SKIRT), Site(Place.WAIST, BodyPart.TROUSERS)),
        (
            Option("height", "length", "how high it is when it is finished", 15.0, 80.0, default=30.0),
            Option(
                "underlap",
                "length",
                "how far it reaches past the opening, under its end; left out, 3 cm, over a fly as far as its shield",
                0.0,
                100.0,
                default=None,
            ),
        ),
        draw_waistband,
        unless=(Site(Place.WAIST, BodyPart.BODICE),),
        fills=("waist",),
    ),
    Part(
        NECK_BAND,
        "A band of knit, folded, shorter than the neck so that it lies flat, stretched on between quarter marks.",
        NECK_BAND_TO,
        (Site(Place.NECK, BodyPart.BODICE),),
        (
            Option(
                "width",
                "length",
                "how wide it is when it is finished; left out, what the block was drawn for, or 1.5 cm",
                6.0,
                80.0,
                default=None,
            ),
            _STRETCH,
            Option(
                "share",
                "percent",
                "how long it is cut, of the neck; left out, what its turning asks for",
                0.5,
                1.0,
                default=None,
            ),
        ),
        draw_neck_band,
        fills=("collar", "inside of the neck"),
    ),
    Part(
        FRONT_BAND,
        "The band of a cardigan in one strip: up the front edge, round the neck and down the other, with its buttons.",
        FRONT_BAND_TO,
        (Site(Place.NECK, BodyPart.BODICE),),
        (
            Option(
                "width",
                "length",
                "how wide it is when it is finished; left out, what the block was drawn for",
                10.0,
                100.0,
                default=None,
            ),
            Option("share", "percent", "how long it is cut, of the straight edges in front", 0.9, 1.0, default=1.0),
            Option("buttons", "number", "how many buttons; left out, one about every 8 cm", 2.0, 20.0, default=None),
        ),
        draw_front_band,
        in_one_with=(HEM_BAND,),
        fills=("collar", "inside of the neck", "front"),
        helped_by=(OPEN_FRONT,),
    ),
    Part(
        WRIST_BAND,
        "Bands of knit at the wrists, folded, shorter than the edge of the sleeve, which they draw in.",
        WRIST_BAND_TO,
        (Site(Place.WRIST, BodyPart.SLEEVE),),
        (_band_width(60.0), _STRETCH, _BAND_SHARE, SHORTER),
        draw_wrist_band,
        fills=("wrist",),
        room=Room(wrist_band_room, ("full sleeve",)),
        ends=width_shorter,
    ),
    Part(
        HEM_BAND,
        "A band of knit at the hem all round, folded, shorter than the hem, which it draws in.",
        HEM_BAND_TO,
        (Site(Place.HEM, BodyPart.BODICE),),
        (_band_width(60.0), _STRETCH, _BAND_SHARE, SHORTER),
        draw_hem_band,
        fills=("hem",),
        ends=width_shorter,
    ),
)
