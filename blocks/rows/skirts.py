"""Skirts by flare, gore, tier and pleat, as rows of the table of blocks."""

from __future__ import annotations

from typing import Final

from blocks.block import Block
from blocks.handover import Drafted, Order
from blocks.rows.asked import LOWER, length_asked, number_asked, skirt_length, to_the_knee
from blocks.skirts.circle import CIRCLES, draft_circle_skirt
from blocks.skirts.gored import FASTENINGS, GORES, SHARED, draft_gored_skirt
from blocks.skirts.pleated import draft_pleated_skirt
from blocks.skirts.tiered import draft_tiered_skirt
from drafting.alterations.skirt.pleat_plan import KNIFE, PLEATS
from drafting.body.terms import BodyKind
from drafting.reading.options import Option

__all__ = ["SKIRTS"]

_PIECES: Final = ("skirt front", "skirt back")
_NEEDS: Final = ("waist_girth", "hip_girth", "waist_to_hip", "waist_height", "knee_height")
_EASES: Final = ("waist", "hip")
_ALL: Final[tuple[BodyKind, ...]] = ("woman", "girl", "boy")
_USUAL_CIRCLE: Final = "half"
_USUAL_GORES: Final = "6"
_FLARE: Final = 50.0  # mm (ours)
_GORES: Final = tuple(f"skirt {half}{where}" for half in ("front", "back") for where in ("", ", centre", ", side"))
_PLEAT: Final = 50.0  # mm of a pleat seen at the hip (ours)
_PANELS: Final = tuple(
    f"skirt {half}{where}" for half in ("front", "back") for where in ("", ", centre", ", middle", ", side")
)
_USUAL_TIERS: Final = "3"
_RATIO, _GROWING = 1.5, 1.25  # a home economics bulletin; common practice
_TIERS: Final = tuple(f"skirt {half}, tier {k}" for half in ("front", "back") for k in range(1, 6))
_LENGTH: Final = skirt_length(150.0, 1400.0)


def _long(order: Order) -> float:
    asked = length_asked(order.options, "length")
    return to_the_knee(order.body) if asked is None else asked


def _draft_circle(order: Order) -> Drafted:
    return draft_circle_skirt(order, long=_long(order), circle=str(order.options.get("circle") or _USUAL_CIRCLE))


def _draft_gored(order: Order) -> Drafted:
    flare = length_asked(order.options, "flare")
    gores = int(str(order.options.get("gores") or _USUAL_GORES))
    asked = order.options.get("fastening")
    return draft_gored_skirt(
        order,
        long=_long(order),
        gores=gores,
        flare=_FLARE if flare is None else flare,
        fastening=None if asked is None else str(asked),
        shared=str(order.options.get("shared") or SHARED[0]),
    )


def _draft_tiered(order: Order) -> Drafted:
    ratio, growing = (number_asked(order.options, name) for name in ("ratio", "growing"))
    return draft_tiered_skirt(
        order,
        long=_long(order),
        tiers=int(str(order.options.get("tiers") or _USUAL_TIERS)),
        ratio=_RATIO if ratio is None else ratio,
        growing=_GROWING if growing is None else growing,
    )


def _draft_pleated(order: Order) -> Drafted:
    wide = length_asked(order.options, "wide")
    return draft_pleated_skirt(
        order,
        long=_long(order),
        pleats=str(order.options.get("pleats") or KNIFE),
        wide=_PLEAT if wide is None else wide,
        depth=length_asked(order.options, "depth"),
    )


SKIRTS: tuple[Block, ...] = (
    Block(
        "circle skirt",
        "skirt cut as a whole circle or a part of one, without darts or gathers; open at the centre back",
        _PIECES,
        _NEEDS,
        _EASES,
        (
            _LENGTH,
            Option("circle", "choice", "how much of a circle it is", default=_USUAL_CIRCLE, choices=tuple(CIRCLES)),
        ),
        "plane geometry: an arc of radius r over an angle a is r a long",
        _draft_circle,
        _ALL,
        sites=LOWER,
    ),
    Block(
        "gored skirt",
        "skirt of four to eight gores, close over the hip and flared below; open at the centre back or the left side",
        _GORES,
        _NEEDS,
        _EASES,
        (
            _LENGTH,
            Option("gores", "choice", "of how many gores it is", default=_USUAL_GORES, choices=tuple(map(str, GORES))),
            Option(
                "flare",
                "length",
                "how far each edge of a gore swings out from the hip to the hem",
                0.0,
                250.0,
                default=_FLARE,
            ),
            Option(
                "fastening",
                "choice",
                "where its zip lies; left out, behind, and in a skirt of six gores without a bodice at the left side",
                default=None,
                choices=FASTENINGS,
            ),
            Option(
                "shared",
                "choice",
                "how the seams share what is taken in from hip to waist: by place, least at the centre front and most "
                "at the sides, or alike",
                default=SHARED[0],
                choices=SHARED,
            ),
        ),
        "a six-gore skirt of 1916: a twelfth of the hip for half of the middle gore; the rest common practice",
        _draft_gored,
        sites=LOWER,
    ),
    Block(
        "tiered skirt",
        "skirt of straight tiers, each gathered to the one above, the first to the waist; open at the centre back",
        _TIERS,
        _NEEDS,
        _EASES,
        (
            _LENGTH,
            Option("tiers", "choice", "of how many tiers it is", default=_USUAL_TIERS, choices=("2", "3", "4", "5")),
            Option("ratio", "number", "how many times as wide as the one above a tier is", 1.2, 2.5, default=_RATIO),
            Option(
                "growing", "number", "how many times as high as the one above a tier is", 1.0, 2.0, default=_GROWING
            ),
        ),
        "a home economics bulletin: the first tier six inches more than the hip, then 1.5 to 2 times the one above",
        _draft_tiered,
        _ALL,
        sites=LOWER,
    ),
    Block(
        "pleated skirt",
        "skirt in pleats all round, from the waist to the hem; open at the centre back",
        _PANELS,
        _NEEDS,
        _EASES,
        (
            _LENGTH,
            Option("pleats", "choice", "how they are folded", default=KNIFE, choices=PLEATS),
            Option("wide", "length", "about how much of each pleat is seen at the hip", 15.0, 250.0, default=_PLEAT),
            Option(
                "depth",
                "length",
                "how deep each fold lies; left out, as deep as it can without lapping over the next",
                5.0,
                250.0,
                default=None,
            ),
        ),
        "a sewing teacher: what is seen and twice the depth of every fold; 50 cm laid in pleats of 2.5 cm takes 150 cm",
        _draft_pleated,
        _ALL,
        sites=LOWER,
    ),
)
