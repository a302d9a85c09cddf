"""The knit top and its sleeve, as rows of the table of blocks."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from blocks import sleeve
from blocks.block import Block
from blocks.handover import Drafted, Order
from blocks.knit import BACK, FRONT, Style, draft_knit_top
from blocks.rows.asked import SLEEVED, TOP, band_at_hem, length_asked, with_hem_band
from blocks.rows.fitted import draft_to_armhole
from drafting.reading.options import Option

__all__ = ["KNITS"]

_ARM_ROOM: Final = 20.0  # mm by which a knit sleeve is wider than the arm as the cloth lets it be, 2 to 4 cm (common
# practice)
_OVER: Final = {"bust": 60.0, "waist": 60.0, "hip": 60.0, "across_back": 10.0, "scye_depth": 10.0}
"""mm by which a cardigan, worn over a top, is wider than one: 4 to 8 cm (common practice)."""

_ARM_OVER: Final = {"elbow": 30.0, "wrist": 20.0}
"""mm by which the sleeve of a cardigan is wider: it goes on over another, 3 to 4 cm at the elbow (common practice)."""

_FRONT_BAND: Final = 30.0  # mm (common practice)
_FRONTS: Final = ("closed", "open")
_SIDES: Final = ("shaped", "straight")


def _draft_top(order: Order) -> Drafted:
    """A knit top or a cardigan from what was asked of the block."""
    width = length_asked(order.options, "band_width")
    stretch = order.options.get("band_stretch")
    ease, is_open = order.ease, order.options.get("front") == _FRONTS[1]
    if is_open:
        ease = {place: mm + (0.0 if place in order.asked else _OVER.get(place, 0.0)) for place, mm in ease.items()}
    style = Style(
        open=is_open,
        front_band=length_asked(order.options, "front_band") or _FRONT_BAND,
        neck_depth=length_asked(order.options, "neck_depth"),
        below=length_asked(order.options, "below_waist"),
        shorter=band_at_hem(order, length_asked(order.options, "below_waist")),
        shaped=order.options.get("sides") != _SIDES[1],
        band=width,
        band_stretch=float(stretch) if isinstance(stretch, float | int) else order.cloth.stretch,
    )
    made = draft_knit_top(order.body, ease, order.least, order.cloth, style, for_sleeve=order.with_sleeve)
    made = with_hem_band(made, style.shorter)
    # nobody asked how close it is to lie at the waist: the sides come in as far as they can; nor how much wider than
    # a top a cardigan is
    left_out = {"waist", *(_OVER if is_open else ())} - set(order.asked)
    return replace(made, given={place: mm for place, mm in made.given.items() if place not in left_out})


def _draft_sleeve(order: Order) -> Drafted:
    """A sleeve that is set in flat: a little wider than the cloth asks for, that of a cardigan at the elbow and the
    wrist too, unless that ease was asked for.
    """
    over = _ARM_OVER if order.armhole is not None and order.armhole.worn_over else {}
    more = {place: by for place, by in {"upper_arm": _ARM_ROOM, **over}.items() if place not in order.asked}
    wider = {place: mm + more.get(place, 0.0) for place, mm in order.ease.items()}
    made = draft_to_armhole(replace(order, ease=wider))
    return replace(made, given={place: mm for place, mm in made.given.items() if place not in more})


KNITS: Final = (
    Block(
        "knit top",
        "top for a knit, front and back, without darts: as wide as the cloth and the fit ask for; to the hip",
        (FRONT, BACK),
        (
            "bust_girth",
            "upper_chest_girth",
            "waist_girth",
            "hip_girth",
            "neck_base_girth",
            "shoulder_length",
            "shoulder_drop",
            "back_waist_length",
            "front_waist_length_from_neck_pit",
            "scye_depth",
            "interscye_mid_distance",
            "bust_point_breadth",
            "neck_to_bust_point",
            "upper_arm_girth",
            "waist_to_hip",
        ),
        ("bust", "waist", "hip", "neck", "across_back", "scye_depth"),
        (
            Option(
                "below_waist",
                "length",
                "how far it goes on below the waist; left out, to 3 cm below the hip",
                20.0,
                1000.0,
                default=None,
            ),
            Option(
                "sides",
                "choice",
                "whether the sides come in to the waist or go straight down to the hip",
                default=_SIDES[0],
                choices=_SIDES,
            ),
            Option(
                "front",
                "choice",
                "closed, or open as a cardigan's: a V and half a band short of the centre, for the part front band",
                default=_FRONTS[0],
                choices=_FRONTS,
            ),
            Option(
                "front_band",
                "length",
                "how wide the band of a cardigan is when it is finished",
                15.0,
                80.0,
                default=_FRONT_BAND,
            ),
            Option(
                "neck_depth",
                "length",
                "how far below the hollow of the neck a cardigan's V ends; left out, 2 cm above the bust",
                0.0,
                400.0,
                default=None,
            ),
            Option(
                "band_width",
                "length",
                "how wide the band at the neck is when it is finished; left out, 1.5 cm, less in a knit that gives "
                "little; 0 for a neck without one",
                0.0,
                40.0,
                default=None,
            ),
            Option(
                "band_stretch",
                "percent",
                "how far the knit of the band stretches; left out, as the cloth does",
                0.0,
                2.0,
                default=None,
            ),
        ),
        "common practice",
        _draft_top,
        instead="child's bodice",
        sites=TOP,
        cloth="jersey",
    ),
    Block(
        "knit sleeve",
        "sleeve for a knit in one piece, drawn to the top's armhole, with next to no ease in its cap",
        (sleeve.SLEEVE,),
        ("upper_arm_girth", "elbow_girth", "wrist_girth", "arm_length", "shoulder_to_elbow"),
        ("upper_arm", "elbow", "wrist", "cap_ease"),
        (),
        "the sleeve triangle: diagonals, cap height and biceps, any two giving the third",
        _draft_sleeve,
        instead="child's sleeve",
        after="knit top",
        sites=SLEEVED,
        cloth="jersey",
    ),
)
"""The blocks for a knit."""
