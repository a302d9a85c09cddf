"""Trousers, as a row of the table of blocks."""

from __future__ import annotations

from typing import Final

from blocks.block import Block
from blocks.handover import Drafted, Order
from blocks.rows.asked import darts_asked, darts_option, length_asked
from blocks.shared.waist_darts import DARTS
from blocks.trousers.draft import ENDS, FASTENINGS, LEGS, Asked, draft_trousers
from blocks.trousers.pieces import BACK, FRONT, MOST_SHORT
from drafting.errors import CannotDraft
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["TROUSERS"]

_SHORT: Final = 0.5  # mm: what the textbook's half centimetre of drop comes to on its own size
_AT_WAIST: Final = 15.0  # mm: a level strip of 1 to 2 cm between the waist lines (common practice)


def _draft_trousers(order: Order) -> Drafted:
    """Trousers from what was asked of the block; below a bodice they open where it does."""
    options = order.options
    short, at_waist = length_asked(options, "inseam_ease"), length_asked(options, "ease_at_waist")
    fastening = options.get("fastening")
    if fastening == "side" and order.waist is not None:
        raise CannotDraft(
            (),
            "Trousers below a bodice open where the bodice does, at the centre back: a second one at the side leaves "
            'the waist seam closed between them. Leave out fastening = "side" in the block; to open both at the side, '
            'add alter = "opening", at = "side".',
        )
    asked = Asked(
        str(options.get("leg") or LEGS[0]),
        str(options.get("ends") or ENDS[0]),
        length_asked(options, "length"),
        length_asked(options, "hem_width"),
        str(fastening or FASTENINGS[3 if order.pulled_on else 0]),
        _SHORT if short is None else short,
        _AT_WAIST if at_waist is None else at_waist,
        darts_asked(order, "front_darts"),
        darts_asked(order, "back_darts"),
        order.pulled_on,
    )
    solved = frozenset(order.asked) & {"thigh", "knee"}
    return draft_trousers(order.body, order.ease, order.least, order.waist, asked, solved=solved)


TROUSERS: Final = (
    Block(
        "trousers",
        "trousers, front and back, with waist darts and a crease; sewn to a bodice they make a jumpsuit",
        (FRONT, BACK),
        (
            "waist_girth",
            "hip_girth",
            "waist_to_hip",
            "waist_height",
            "crotch_height",
            "knee_height",
            "crotch_length",
            "thigh_girth",
            "knee_girth",
            "calf_girth",
            "ankle_girth",
        ),
        ("waist", "hip", "thigh", "knee", "crotch_depth", "crotch_length"),
        (
            Option("leg", "choice", "how the leg falls from the hip", default=LEGS[0], choices=LEGS),
            Option("ends", "choice", "where the leg ends, unless length says so", default=ENDS[0], choices=ENDS),
            Option(
                "length",
                "length",
                "the outside leg, from the waist to the hem along the side; left out, as ends has it",
                250.0,
                1500.0,
                default=None,
            ),
            Option(
                "hem_width",
                "length",
                "how wide one leg is round its hem; left out, as leg and ends have it",
                200.0,
                2000.0,
                default=None,
            ),
            Option(
                "fastening",
                "choice",
                "where they open: a zip at the centre back or left side, a fly in front; none, where a step does it; "
                "left out, at the back, and with elastic at the waist nowhere",
                default=None,
                choices=FASTENINGS,
            ),
            Option(
                "inseam_ease",
                "length",
                "by how much the back's inside leg is shorter than the front's and stretched to it; left out, 0.5 mm",
                0.0,
                MOST_SHORT,
                default=_SHORT,
            ),
            Option(
                "ease_at_waist",
                "length",
                "below a bodice, how much longer they are between waist and crotch than without one, to sit and reach",
                0.0,
                60.0,
                default=_AT_WAIST,
            ),
            darts_option("front", DARTS[:3]),
            darts_option("back", DARTS),
        ),
        "Practical Textbook of Fashion English, 3rd edition, part 3: basic trousers, worked for hip 94 cm and "
        "waist 68 cm",
        _draft_trousers,
        sites=(Site(Place.WAIST, BodyPart.TROUSERS), Site(Place.CENTRE_FRONT, BodyPart.TROUSERS)),
    ),
)
