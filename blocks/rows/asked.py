"""What several rows share: an option as it was asked for, and the options that more than one block has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from blocks.handover import Drafted, Order
from blocks.shared.waist_darts import DARTS
from drafting.body.complete import Body
from drafting.errors import CannotDraft
from drafting.parts.part import Ends
from drafting.pattern import BodyPart, Place, Site, hangs_from
from drafting.reading.options import Option, Value

__all__ = [
    "LOWER",
    "SLEEVED",
    "TOP",
    "UPPER",
    "band_at_hem",
    "darts_asked",
    "darts_option",
    "length_asked",
    "number_asked",
    "skirt_length",
    "to_the_knee",
    "with_hem_band",
]

UPPER: Final = tuple(Site(place, BodyPart.BODICE) for place in (Place.NECK, Place.ARMHOLE, Place.WAIST))
SLEEVED: Final = (Site(Place.WRIST, BodyPart.SLEEVE),)
LOWER: Final = (Site(Place.WAIST, BodyPart.SKIRT), Site(Place.HEM, BodyPart.SKIRT))
TOP: Final = tuple(Site(place, BodyPart.BODICE) for place in (Place.NECK, Place.ARMHOLE, Place.HEM))
"""Where something can be sewn to a bodice, a sleeve, a skirt, a top that goes on below the waist."""

_AS_NEEDED: Final = DARTS[0]
_LEAST_BELOW, _USUAL_BELOW = 20.0, 120.0  # mm of a top between its waist and a band at its hem (ours)


def length_asked(options: Mapping[str, Value], name: str) -> float | None:
    """The length of that name that was asked for, mm; None where it was left out."""
    asked = options.get(name)
    return float(asked) if isinstance(asked, float | int) else None


def number_asked(options: Mapping[str, Value], name: str) -> float | None:
    """The number of that name that was asked for; None where it was left out."""
    return length_asked(options, name)


def darts_asked(order: Order, name: str) -> str:
    """How many waist darts were asked for, as one of `DARTS`."""
    return str(order.options.get(name) or _AS_NEEDED)


def darts_option(where: str, choices: tuple[str, ...]) -> Option:
    """The option for the number of waist darts of a half, "front" or "back"."""
    about = f"how many waist darts each half of the {where} has; as needed, so many that none is too wide"
    return Option(f"{where}_darts", "choice", about, default=_AS_NEEDED, choices=choices, seldom=True)


def band_at_hem(order: Order, below: float | None) -> float:
    """By how much a top ends above its hem, as a band goes on from there, mm.

    below: how far it is to go on below the waist, None where that was left out. Raises CannotDraft where too little
    of it would be left.
    """
    band = order.ends.get(Place.HEM, Ends()).shorter
    if band and below is not None and below < band + _LEAST_BELOW:
        raise CannotDraft(
            (),
            f"A hem band takes {band:.0f} mm off a top that goes on {below:.0f} mm below the waist: write "
            f'below_waist = "{band + _USUAL_BELOW:.0f} mm", say, or make the band narrower.',
            part="hem band",
        )
    return band


def with_hem_band(drafted: Drafted, band: float) -> Drafted:
    """What a top gave, with a band that goes on at its hem counted in where its length is told, mm."""
    if not band:
        return drafted
    pieces = {piece.name: piece for piece in drafted.pieces}
    return replace(
        drafted,
        options=tuple(
            (name, value + band if name == "below_waist" and isinstance(value, float) else value)
            for name, value in drafted.options
        ),
        measures=tuple(
            replace(each, beyond=band) if hangs_from(pieces, each) is BodyPart.BODICE else each
            for each in drafted.measures
        ),
    )


def skirt_length(least: float, most: float) -> Option:
    """The option for the length of a skirt, between these, mm."""
    about = "from the waist to the hem at the centre; left out, to the middle of the knee"
    return Option("length", "length", about, least, most, default=None)


def to_the_knee(body: Body) -> float:
    """From the waist to the middle of the knee, mm."""
    return body.mm("waist_height") - body.mm("knee_height")
