"""Rompers and dungarees for babies and children, as rows of the table of blocks."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from blocks.block import Block
from blocks.handover import Drafted, Order
from blocks.romper import BACK, ELASTIC, FRONT, LEG_ENDS, draft_romper
from blocks.rows.asked import UPPER, length_asked
from blocks.rows.child import CHILDREN, OVER_THE_HEAD, draft_childs_bodice_asked
from blocks.shared.childs_leg import Legs, legs_for, limb_girth
from drafting.body.complete import Body
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["ROMPERS"]

_NO_NAPPY, NAPPY, CLOTH_NAPPY = "none", "nappy", "cloth nappy"
_NAPPIES: Final = (_NO_NAPPY, NAPPY, CLOTH_NAPPY)
_NAPPY_UNDER: Final = 980.0  # mm of height: about three years (ours)
_NAPPY_THROUGH: Final = {_NO_NAPPY: 0.0, NAPPY: 50.0, CLOTH_NAPPY: 60.0}
_NAPPY_ROUND: Final = {_NO_NAPPY: 0.0, NAPPY: 20.0, CLOTH_NAPPY: 50.0}
"""mm that a nappy takes through the crotch, 4 to 6 cm, and round the hip, where 8 to 10 cm of ease are usual over one
and 12 over a cloth nappy (common practice)."""
_LOOP_WOVEN, _LOOP_KNIT = 70.0, 50.0
"""mm that a romper is longer than the body from neck to neck through the crotch, so that it does not pull on the
shoulders: 6 to 8 cm (common practice), in a knit that gives two less (ours)."""
_INSEAM: Final = 40.0  # mm below the crotch (ours)
_GATHERED_IN: Final = 1.4  # times the leg that the edge is that elastic draws in, at the least (common practice)
_PLAIN_MORE: Final = 1.15  # the same for a leg that is hemmed (ours)
_TAPERED_FROM: Final = 100.0  # mm: a shorter inseam goes straight down (ours)
_MOST_TAPER: Final = 0.25  # of the inseam, the most that it comes outward (ours)


def _draft_romper(order: Order) -> Drafted:
    nappy = _nappy(order)
    ease = {**order.ease, "hip": order.ease["hip"] + _round_hip(order, nappy)}
    asked = length_asked(order.options, "loop_ease")
    loop = asked if asked is not None else _LOOP_KNIT if order.cloth.knit else _LOOP_WOVEN
    through_ease = loop + _NAPPY_THROUGH[nappy]
    inseam = length_asked(order.options, "leg_length") or _INSEAM
    end = str(order.options.get("leg_end") or ELASTIC)
    legs = legs_for(order.body, order.body.mm("crotch_length") + through_ease, inseam)
    flare, legs = _shaped(order.body, ease, legs, gathered=end == ELASTIC)
    below: dict[str, float | str | bool | None] = {"below_waist": -legs.hem, "flare": flare}
    straight = draft_childs_bodice_asked(replace(order, ease=ease, options={**order.options, **below}))
    told: tuple[tuple[str, str | float | bool | None], ...]
    told = (("nappy", nappy), ("loop_ease", loop), ("leg_length", inseam), ("leg_end", end))
    drafted = draft_romper(order.body, straight, legs, through_ease=through_ease, least=order.least, options=told)
    return replace(drafted, because={**drafted.because, "hip": "for the nappy, or because it hangs from the chest"})


def _nappy(order: Order) -> str:
    """What is worn beneath: as asked for, else a nappy on a child that is small."""
    usual = NAPPY if order.body.mm("stature") < _NAPPY_UNDER else _NO_NAPPY
    return str(order.options.get("nappy") or usual)


def _round_hip(order: Order, nappy: str) -> float:
    """What a nappy takes round the hip, mm; nothing where it is told as worn beneath, and so has its room already."""
    return 0.0 if "nappy" in order.cloth.over else _NAPPY_ROUND[nappy]


def _shaped(body: Body, ease: dict[str, float], legs: Legs, *, gathered: bool) -> tuple[float, Legs]:
    """(how far each side goes out towards the hem, the legs tapered), so that a leg is as wide there as it is to be."""
    girth = 0.5 * (body.mm("bust_girth") + ease["bust"]) + legs.front_fork + legs.back_fork
    wanted = limb_girth(body, legs.inseam) * (_GATHERED_IN if gathered else _PLAIN_MORE)
    if wanted >= girth:
        return 0.5 * (wanted - girth), legs
    if legs.inseam < _TAPERED_FROM:
        return 0.0, legs
    return 0.0, replace(legs, taper=min(0.5 * (girth - wanted), _MOST_TAPER * legs.inseam))


ROMPERS: Final = (
    Block(
        "romper",
        "romper for a baby or a child, front and back in one with its legs, snaps along both inseams",
        (FRONT, BACK),
        (
            "bust_girth",
            "waist_girth",
            "hip_girth",
            "head_girth",
            "neck_base_girth",
            "shoulder_length",
            "back_waist_length",
            "front_waist_length_from_neck_pit",
            "scye_depth",
            "interscye_mid_distance",
            "upper_arm_girth",
            "waist_to_hip",
            "crotch_length",
            "crotch_height",
            "thigh_girth",
            "ankle_girth",
        ),
        ("bust", "waist", "hip", "neck", "across_back", "scye_depth"),
        (
            *OVER_THE_HEAD,
            Option(
                "nappy",
                "choice",
                "what is worn beneath; left out, a nappy under a height of 98 cm",
                default=None,
                choices=_NAPPIES,
            ),
            Option(
                "loop_ease",
                "length",
                "how much longer than the body it is from neck to neck through the crotch, beside what a nappy takes; "
                "left out, 7 cm, in a knit 5 cm",
                0.0,
                200.0,
                default=None,
            ),
            Option("leg_length", "length", "from the crotch to the hem; left out, 4 cm", 25.0, 900.0, default=None),
            Option(
                "leg_end",
                "choice",
                "how the leg ends: drawn in by elastic, or hemmed",
                default=ELASTIC,
                choices=LEG_ENDS,
            ),
        ),
        "common practice; forks after children's bloomers of 1918",
        _draft_romper,
        CHILDREN,
        sites=(*UPPER[:2], Site(Place.LEG_OPENING, BodyPart.BODICE)),
    ),
)
