"""The collars, as rows of the table of parts."""

from __future__ import annotations

from typing import Final

from drafting.parts.collars.flat_collar import FLAT_COLLAR, FLAT_COLLAR_TO, POINTED, ROUND, draw_flat_collar
from drafting.parts.collars.two_layers import COLLAR
from drafting.parts.part import Part
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["COLLARS"]

_TO_NECK: Final = (Site(Place.NECK, BodyPart.BODICE),)

_TURN: Final = Option(
    "turn",
    "length",
    "how much smaller the under collar is at its edge; left out, as thick cloth asks for",
    0.0,
    30.0,
    default=None,
)

COLLARS: Final = (
    Part(
        FLAT_COLLAR,
        "A collar that lies on the shoulders, drawn on front and back laid together; with them lapped it rolls.",
        FLAT_COLLAR_TO,
        _TO_NECK,
        (
            Option("width", "length", "how wide it is; left out, 6 cm, 5 cm for a child", 20.0, 250.0, default=None),
            Option(
                "lap",
                "length",
                "how far the shoulder ends are lapped: the more, the higher it stands",
                0.0,
                110.0,
                default=15.0,
            ),
            Option("ends", "choice", "the shape of its ends", default=ROUND, choices=(ROUND, POINTED)),
            Option("ease", "length", "how much shorter than the neck each half is", 0.0, 8.0, default=3.0),
            _TURN,
        ),
        draw_flat_collar,
        fills=(COLLAR,),
    ),
)
