"""Ties, loops and tabs, as rows of the table of parts."""

from __future__ import annotations

from typing import Final

from drafting.parts.attached.loops import (
    BELT_LOOPS,
    BUTTON_LOOPS,
    SLEEVE_TABS,
    draw_belt_loops,
    draw_button_loops,
    draw_sleeve_tabs,
)
from drafting.parts.attached.ties import AT_NECK, AT_WAIST, SASH, TIES, draw_sash, draw_ties
from drafting.parts.part import Part
from drafting.pattern import BodyPart, DrawnTo, Identity, PieceKind, Place, Site
from drafting.reading.options import Option

__all__ = ["ATTACHED"]

_HALVES: Final = (PieceKind.FRONT, PieceKind.BACK)
_LOWER: Final = (BodyPart.SKIRT, BodyPart.TROUSERS)
_ALL: Final = (BodyPart.BODICE, *_LOWER)


def _to(place: Place, *parts: BodyPart) -> tuple[DrawnTo, ...]:
    return tuple(DrawnTo(place, Identity(kind, part)) for part in parts for kind in _HALVES)


ATTACHED: Final = (
    Part(
        TIES,
        "A pair of ties, caught in the side seams at the waist, or at an opening of the neck; a child's are short.",
        (*_to(Place.SIDE, *_ALL), *_to(Place.NECK, BodyPart.BODICE)),
        (Site(Place.WAIST, BodyPart.BODICE), Site(Place.HEM, BodyPart.BODICE), Site(Place.WAIST, BodyPart.SKIRT)),
        (
            Option("at", "choice", "where they are", default=AT_WAIST, choices=(AT_WAIST, AT_NECK)),
            Option(
                "length",
                "length",
                "how long each is; left out, 90 cm at the waist, 35 cm at the neck, 14 cm for a child",
                80.0,
                2000.0,
                default=None,
            ),
            Option("width", "length", "how wide they are when they are finished", 8.0, 120.0, default=30.0),
        ),
        draw_ties,
        fills=("ties",),
    ),
    Part(
        SASH,
        "A sash that is loose, once round the waist and tied; a child's ends are short.",
        _to(Place.WAIST, *_ALL),
        (Site(Place.WAIST, BodyPart.BODICE), Site(Place.HEM, BodyPart.BODICE), Site(Place.WAIST, BodyPart.SKIRT)),
        (
            Option(
                "ends",
                "length",
                "how long its ends hang; left out, 50 cm, 30 cm for a child",
                100.0,
                1500.0,
                default=None,
            ),
            Option("width", "length", "how wide it is when it is finished", 20.0, 250.0, default=60.0),
        ),
        draw_sash,
        fills=("ties",),
    ),
    Part(
        BELT_LOOPS,
        "Loops for a belt along the waist, cut from one strip.",
        _to(Place.WAIST, *_LOWER),
        tuple(Site(Place.WAIST, part) for part in _LOWER),
        (
            Option("belt", "length", "how wide the belt is", 10.0, 100.0, default=35.0),
            Option("width", "length", "how wide each is when it is finished", 5.0, 30.0, default=10.0),
            Option("count", "number", "how many: five, or seven with two more behind", 5.0, 7.0, default=5.0),
        ),
        draw_belt_loops,
    ),
    Part(
        BUTTON_LOOPS,
        "Bias loops for buttons along an opening at the neck.",
        _to(Place.NECK, BodyPart.BODICE),
        (Site(Place.NECK, BodyPart.BODICE),),
        (
            Option("button", "length", "how wide the buttons are", 6.0, 40.0, default=12.0),
            Option("count", "number", "how many", 1.0, 40.0, default=1.0),
        ),
        draw_button_loops,
    ),
    Part(
        SLEEVE_TABS,
        "Tabs that hold a rolled sleeve up, sewn on inside above the elbow and buttoned outside.",
        (DrawnTo(Place.WRIST, Identity(PieceKind.SLEEVE, BodyPart.SLEEVE)),),
        (Site(Place.WRIST, BodyPart.SLEEVE),),
        (
            Option("length", "length", "how long it is", 60.0, 250.0, default=130.0),
            Option("width", "length", "how wide it is", 15.0, 60.0, default=30.0),
        ),
        draw_sleeve_tabs,
    ),
)
"""The small pieces."""
