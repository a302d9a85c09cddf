"""The collars, as rows of the table of parts."""

from __future__ import annotations

from typing import Final

from drafting.errors import Remedy, Setting
from drafting.parts.collars.flat_collar import FLAT_COLLAR, FLAT_COLLAR_TO, POINTED, ROUND, draw_flat_collar
from drafting.parts.collars.sailor_collar import SAILOR_COLLAR, SAILOR_COLLAR_TO, draw_sailor_collar
from drafting.parts.collars.shirt_collar import SHIRT_COLLAR, SHIRT_COLLAR_TO, draw_shirt_collar
from drafting.parts.collars.stand_collar import ROUNDED, SQUARE, STAND_COLLAR, STAND_COLLAR_TO, draw_stand_collar
from drafting.parts.collars.turn_over_collar import TURN_OVER_COLLAR, TURN_OVER_COLLAR_TO, draw_turn_over_collar
from drafting.parts.collars.two_layers import COLLAR, MOST_TURN
from drafting.parts.part import Part
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["COLLARS"]

_TO_NECK: Final = (Site(Place.NECK, BodyPart.BODICE),)

_BUTTONED: Final = (
    Remedy("add", "opening", (Setting("at", "centre front"), Setting("fasten", "buttons")), lead="To open the front"),
)
_TURN: Final = Option(
    "turn",
    "length",
    "how much smaller the under collar is at its edge; left out, as thick cloth asks for",
    0.0,
    MOST_TURN,
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
    Part(
        STAND_COLLAR,
        "A strip that stands up from the neck and leans to it; it goes to the edge of a button stand.",
        STAND_COLLAR_TO,
        _TO_NECK,
        (
            Option("height", "length", "how high it stands", 10.0, 80.0, default=30.0),
            Option(
                "rise",
                "length",
                "how far its end rises: the more, the closer to the neck",
                0.0,
                60.0,
                default=15.0,
            ),
            Option("ends", "choice", "the shape of its ends", default=ROUNDED, choices=(ROUNDED, SQUARE)),
            Option("ease", "length", "how much shorter than the neck each half is", 0.0, 8.0, default=0.0),
            _TURN,
        ),
        draw_stand_collar,
        fills=(COLLAR,),
        helped_by=_BUTTONED,
    ),
    Part(
        SHIRT_COLLAR,
        "A stand that is buttoned in front, and a fall that turns down over it.",
        SHIRT_COLLAR_TO,
        _TO_NECK,
        (
            Option("stand", "length", "how high the stand is", 15.0, 60.0, default=30.0),
            Option("rise", "length", "how far its end rises: the more, the closer", 0.0, 40.0, default=15.0),
            Option(
                "fall",
                "length",
                "how wide the fall is; left out, 12 mm more than the stand",
                25.0,
                120.0,
                default=None,
            ),
            Option("point", "length", "how long the front edge of the fall is", 30.0, 150.0, default=70.0),
            _TURN,
        ),
        draw_shirt_collar,
        fills=(COLLAR,),
        helped_by=_BUTTONED,
    ),
    Part(
        TURN_OVER_COLLAR,
        "A collar in one piece, whose upper part turns down over the lower; worn open or shut.",
        TURN_OVER_COLLAR_TO,
        _TO_NECK,
        (
            Option("stand", "length", "how high it stands behind", 5.0, 60.0, default=25.0),
            Option("fall", "length", "how far it turns down behind", 20.0, 120.0, default=40.0),
            Option("point", "length", "how long its front end is", 30.0, 200.0, default=80.0),
            Option("ease", "length", "how much shorter than the neck each half is", 0.0, 8.0, default=2.0),
            _TURN,
        ),
        draw_turn_over_collar,
        fills=(COLLAR,),
    ),
    Part(
        SAILOR_COLLAR,
        "A collar that lies square on the back and runs out in front, at the point of a V.",
        SAILOR_COLLAR_TO,
        _TO_NECK,
        (
            Option(
                "depth",
                "length",
                "how deep it is behind; left out, 16 cm, 10 cm for a child",
                60.0,
                350.0,
                default=None,
            ),
            Option(
                "width",
                "length",
                "how wide at the shoulder; left out, four fifths of it",
                20.0,
                250.0,
                default=None,
            ),
            Option("lap", "length", "how far the shoulder ends are lapped", 0.0, 60.0, default=12.0),
            Option("ease", "length", "how much shorter than the neck each half is", 0.0, 8.0, default=3.0),
            _TURN,
        ),
        draw_sailor_collar,
        fills=(COLLAR,),
    ),
)
