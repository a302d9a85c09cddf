"""Rompers and dungarees for babies and children, as rows of the table of blocks."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from blocks.block import Block
from blocks.dungarees import BACK as DUNGAREES_BACK
from blocks.dungarees import FRONT as DUNGAREES_FRONT
from blocks.dungarees import STRAP, draft_dungarees
from blocks.handover import Drafted, Order
from blocks.romper import BACK, ELASTIC, FRONT, LEG_ENDS, PLAIN, draft_romper
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
_LET_OUT: Final = 90.0  # mm: 8 to 10 cm, and three buttonholes, last two sizes (common practice)
_ABOVE_FLOOR: Final = 0.12  # of the inside leg, how far above the floor a long leg ends (ours)
_INSEAM: Final = 40.0  # mm below the crotch (ours)
_GATHERED_IN: Final = 1.4  # times the leg that the edge is that elastic draws in, at the least (common practice)
_PLAIN_MORE: Final = 1.15  # the same for a leg that is hemmed (ours)
_TAPERED_FROM: Final = 100.0  # mm: a shorter inseam goes straight down (ours)
_HEM_RISES: Final = 0.7  # of the inseam, the most that a hem rises to the side (ours)
_STEEPEST: Final = math.radians(24.0)  # that a side leans out (ours)
_MOST_TAPER: Final = 0.065  # of the inseam, the most that it comes outward: so its hem lies flat turned up (ours)


def _draft_romper(order: Order) -> Drafted:
    """A romper from what was asked of the block, with the room that a nappy takes."""
    nappy = _nappy(order)
    ease = {**order.ease, "hip": order.ease["hip"] + _round_hip(order, nappy)}
    asked = length_asked(order.options, "loop_ease")
    loop = asked if asked is not None else _LOOP_KNIT if order.cloth.knit else _LOOP_WOVEN
    through_ease = loop + _NAPPY_THROUGH[nappy]
    inseam = length_asked(order.options, "leg_length") or _INSEAM
    end = str(order.options.get("leg_end") or ELASTIC)
    legs = legs_for(order.body, order.body.mm("crotch_length") + through_ease, inseam)
    flare, legs = _shaped(0.5 * (order.body.mm("bust_girth") + ease["bust"]), order.body, legs, gathered=end == ELASTIC)
    below: dict[str, float | str | bool | None] = {"below_waist": -legs.hem, "flare": flare}
    straight = draft_childs_bodice_asked(replace(order, ease=ease, options={**order.options, **below}))
    told: tuple[tuple[str, str | float | bool | None], ...]
    told = (("nappy", nappy), ("loop_ease", loop), ("leg_length", inseam), ("leg_end", end))
    drafted = draft_romper(order.body, straight, legs, through_ease=through_ease, least=order.least, options=told)
    # what a nappy takes was not asked for as ease
    given = {**drafted.given, "hip": drafted.given["hip"] - _round_hip(order, nappy)}
    return replace(drafted, parts=(*drafted.parts, *_finished_by(end)), given=given)


def _to_the_ankle(body: Body, legs: Legs) -> float:
    """How long the inseam of a leg is that ends above the ankle, mm: the lower the crotch, the shorter it is."""
    return max(_INSEAM, body.mm("waist_height") + legs.crotch - _ABOVE_FLOOR * body.mm("crotch_height"))


def _nappy(order: Order) -> str:
    """What is worn beneath: as asked for, else a nappy on a child that is small."""
    usual = NAPPY if order.body.mm("stature") < _NAPPY_UNDER else _NO_NAPPY
    return str(order.options.get("nappy") or usual)


def _round_hip(order: Order, nappy: str) -> float:
    """What a nappy takes round the hip, mm; nothing where it is told as worn beneath, and so has its room already."""
    return 0.0 if "nappy" in order.cloth.over else _NAPPY_ROUND[nappy]


def _shaped(half: float, body: Body, legs: Legs, *, gathered: bool) -> tuple[float, Legs]:
    """(how far each side goes out towards the hem, the legs tapered), so that a leg is as wide there as it is to be.

    half: half the round of the garment above the legs, mm
    """
    girth = half + legs.front_fork + legs.back_fork
    wanted = limb_girth(body, legs.inseam) * (_GATHERED_IN if gathered else _PLAIN_MORE)
    if wanted >= girth:
        return 0.5 * (wanted - girth), legs
    if legs.inseam < _TAPERED_FROM:
        return 0.0, legs
    return 0.0, replace(legs, taper=min(0.5 * (girth - wanted), _MOST_TAPER * legs.inseam))


def _draft_dungarees(order: Order) -> Drafted:
    """Dungarees from what was asked of the block, with the room that a nappy takes."""
    nappy = _nappy(order)
    ease = {**order.ease, "hip": order.ease["hip"] + _round_hip(order, nappy)}
    asked = length_asked(order.options, "crotch_ease")
    own = asked if asked is not None else order.ease["crotch_length"]
    through_ease = own + _NAPPY_THROUGH[nappy]
    through = order.body.mm("crotch_length") + through_ease
    inseam = length_asked(order.options, "leg_length") or _to_the_ankle(order.body, legs_for(order.body, through, 0.0))
    end = str(order.options.get("leg_end") or PLAIN)
    let_out = length_asked(order.options, "let_out")
    let_out = _LET_OUT if let_out is None else let_out
    legs = legs_for(order.body, through, inseam)
    flare, legs = _shaped(0.5 * (order.body.mm("hip_girth") + ease["hip"]), order.body, legs, gathered=end == ELASTIC)
    return draft_dungarees(
        order.body,
        ease,
        order.least,
        legs,
        flare=min(flare, _most_flare(order.body, ease["hip"], legs)),
        through_ease=through_ease,
        let_out=let_out,
        options=(
            ("nappy", nappy),
            ("crotch_ease", own),
            ("leg_length", inseam),
            ("leg_end", end),
            ("let_out", let_out),
        ),
        parts=_finished_by(end),
    )


def _most_flare(body: Body, hip_ease: float, legs: Legs) -> float:
    """How far a side may go out below the hip, mm, for its hem to end below the crotch: the hem rises to meet it."""
    wide = 0.25 * (body.mm("hip_girth") + hip_ease) + legs.back_fork
    lean = min(_STEEPEST, 2.0 * math.atan(_HEM_RISES * legs.inseam / wide))
    return (-legs.hem - body.mm("waist_to_hip")) * math.tan(lean)


def _finished_by(leg_end: str) -> tuple[str, ...]:
    """The part that finishes the legs; none where they are hemmed."""
    return ("leg elastic",) if leg_end == ELASTIC else ()


_NAPPY_OPTION: Final = Option(
    "nappy",
    "choice",
    "what is worn beneath; left out, a nappy under a height of 98 cm",
    default=None,
    choices=_NAPPIES,
)


def _leg_length(usual: str) -> Option:
    return Option("leg_length", "length", f"from the crotch to the hem; left out, {usual}", 25.0, 900.0, default=None)


def _leg_end(default: str) -> Option:
    about = "how the leg ends: drawn in by elastic, or hemmed"
    return Option("leg_end", "choice", about, default=default, choices=LEG_ENDS)


_EXPLAINED: Final = (
    ("snaps", "The snaps along both inseams are there already: leave it out."),
    ("legs", 'Write how long they are, leg_length = "4 cm", and how they end, leg_end = "plain" or "elastic".'),
)

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
            _NAPPY_OPTION,
            Option(
                "loop_ease",
                "length",
                "how much longer than the body it is from neck to neck through the crotch, beside what a nappy takes; "
                "left out, 7 cm, in a knit 5 cm",
                0.0,
                200.0,
                default=None,
            ),
            _leg_length("4 cm"),
            _leg_end(ELASTIC),
        ),
        "common practice; forks after children's bloomers of 1918",
        _draft_romper,
        CHILDREN,
        sites=(*UPPER[:2], Site(Place.LEG_OPENING, BodyPart.BODICE)),
        explained=_EXPLAINED,
    ),
    Block(
        "dungarees",
        "dungarees for a baby or a child: front and back with a bib in one, snaps along the inseams, straps to let out",
        (DUNGAREES_FRONT, DUNGAREES_BACK, STRAP),
        (
            "waist_girth",
            "hip_girth",
            "waist_height",
            "waist_to_hip",
            "neck_base_girth",
            "shoulder_length",
            "back_waist_length",
            "front_waist_length_from_neck_pit",
            "interscye_mid_distance",
            "crotch_length",
            "crotch_height",
            "thigh_girth",
            "ankle_girth",
        ),
        ("hip",),
        (
            _NAPPY_OPTION,
            Option(
                "crotch_ease",
                "length",
                "how much longer than the body it is from waist to waist through the crotch, beside what a nappy "
                "takes; left out, as the cloth and the fit ask for",
                0.0,
                150.0,
                default=None,
            ),
            _leg_length("to the ankle"),
            _leg_end(PLAIN),
            Option("let_out", "length", "what the straps have to be let out", 0.0, 250.0, default=_LET_OUT),
        ),
        "common practice; forks after children's bloomers of 1918",
        _draft_dungarees,
        CHILDREN,
        sites=(Site(Place.LEG_OPENING, BodyPart.TROUSERS), Site(Place.BIB, BodyPart.TROUSERS)),
        explained=_EXPLAINED,
    ),
)
