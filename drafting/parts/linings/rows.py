"""The linings, as rows of the table of parts."""

from __future__ import annotations

from typing import Final

from drafting.parts.finishes.facing_in_one import LINING
from drafting.parts.linings.inside_edge import SMALLER
from drafting.parts.linings.lining import BACK_PLEAT, LINED, LINING_TO, SHORTER, draw_lining
from drafting.parts.part import Part
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["LININGS"]

LININGS: Final = (
    Part(
        LINING,
        "The pieces once more, of lining: to the neck or its facing, above the hem, sewn to the tape of a zip.",
        LINING_TO,
        (
            Site(Place.NECK, BodyPart.BODICE),
            Site(Place.WAIST, BodyPart.SKIRT),
            Site(Place.WAIST, BodyPart.TROUSERS),
        ),
        (
            Option("of", "choice", "what of the garment is lined", default=LINED[0], choices=LINED),
            Option("shorter", "length", "how far above the finished hem it ends", 10.0, 80.0, default=SHORTER),
            Option(
                "pleat",
                "length",
                "how deep the pleat at its centre back is, so that it gives; none where that is open or in a knit",
                0.0,
                30.0,
                default=BACK_PLEAT,
            ),
            Option(
                "smaller",
                "length",
                "how far inside the edge of a neck or an armhole that nothing faces it ends, so that the seam rolls in",
                0.0,
                5.0,
                default=SMALLER,
            ),
        ),
        draw_lining,
        fills=("lining",),
    ),
)
