"""The child's bodice, sleeve and skirt, as rows of the table of blocks."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from blocks import skirt, sleeve
from blocks.block import Block
from blocks.child import draft_childs_bodice
from blocks.child.draft import Long
from blocks.child.openings import (
    BACK_SLIT,
    BUTTON_SHOULDER,
    FRONT_SLIT,
    KNIT_BAND,
    LAPPED,
    OPENINGS,
    Band,
    Way,
    banded,
    lapped_shoulders,
    shoulders_open,
    way_over_the_head,
)
from blocks.child.skirt import FLAT, GATHERED, WAISTS, draft_childs_skirt
from blocks.handover import Drafted, Order
from blocks.rows.asked import (
    LOWER,
    SLEEVED,
    UPPER,
    band_at_hem,
    length_asked,
    skirt_length,
    to_the_knee,
    with_hem_band,
)
from blocks.rows.fitted import draft_to_armhole
from blocks.shared import dartless_pieces as childs_bodice
from blocks.shared.sleeve_room import biceps_for_cap
from drafting.body.terms import BodyKind
from drafting.errors import CannotDraft
from drafting.pattern import BodyPart, Place, Site
from drafting.reading.options import Option

__all__ = ["CHILDREN", "CHILDS", "OVER_THE_HEAD", "draft_childs_bodice_asked"]

_CHILDS_CAP: Final = 3.5
"""The height of a child's cap: the armhole over this. 3.5 to 4 is common practice; an old book has 4 in to 14."""
_BAND_WIDTH: Final = 15.0  # mm of knit band (common practice)
CHILDREN: Final[tuple[BodyKind, ...]] = ("girl", "boy")


def draft_childs_bodice_asked(order: Order) -> Drafted:
    """The child's bodice with the opening that was asked for, or the usual one of its cloth."""
    below = length_asked(order.options, "below_waist") or 0.0
    band = band_at_hem(order, below)
    long = Long(below - band, length_asked(order.options, "flare") or 0.0)

    def drafted(way: Way) -> Drafted:
        made = draft_childs_bodice(
            order.body, order.ease, order.least, long=long, way=way, for_sleeve=order.with_sleeve
        )
        return with_hem_band(made, band)

    asked, knit = order.options.get("opening"), order.cloth.knit
    neckline = order.body.mm("neck_base_girth") + order.ease["neck"]
    if asked == KNIT_BAND or (asked is None and knit):
        if not knit:
            reason = 'A neck is bound with a knit band where the cloth is a knit: take another opening, "back slit".'
            raise CannotDraft((), reason)
        stretch = order.options.get("band_stretch")
        width = length_asked(order.options, "band_width") or _BAND_WIDTH
        knit_band = Band(width, float(stretch) if isinstance(stretch, float | int) else order.cloth.stretch)
        try:
            return drafted(banded(order.body, neckline, knit_band, order.cloth.stretch))
        except CannotDraft:
            if asked:
                raise
            # the neck would be too wide for this knit; at the waist a dress has to open behind anyway
            asked = BUTTON_SHOULDER if long.below else BACK_SLIT
    if asked == BUTTON_SHOULDER:
        return drafted(shoulders_open(order.body, neckline, order.cloth.stretch if knit else 0.0))
    if asked == LAPPED:
        return drafted(lapped_shoulders(order.body, neckline, order.cloth.stretch if knit else 0.0))
    return drafted(
        way_over_the_head(order.body, str(asked or BACK_SLIT), neckline, length_asked(order.options, "slit"))
    )


def _draft_childs_sleeve(order: Order) -> Drafted:
    """A sleeve whose cap is low, as a child's is: wider than the arm asks for, unless that ease was asked for."""
    if order.armhole is None or "upper_arm" in order.asked:
        return draft_to_armhole(order)
    hole = order.armhole.front + order.armhole.back
    low = biceps_for_cap(hole + order.ease["cap_ease"], hole / _CHILDS_CAP) - order.body.mm("upper_arm_girth")
    if low <= order.ease["upper_arm"]:
        return draft_to_armhole(order)
    made = draft_to_armhole(replace(order, ease={**order.ease, "upper_arm": low}))
    return replace(made, given={place: mm for place, mm in made.given.items() if place != "upper_arm"})


def _draft_childs_skirt(order: Order) -> Drafted:
    """A child's skirt from what was asked of the block; to the knee where no length was."""
    if order.armhole is not None and order.waist is None:
        reason = "The bodice goes straight on below the waist: leave the skirt out, or the bodice's below_waist."
        raise CannotDraft((), reason)
    long, fullness = length_asked(order.options, "length"), length_asked(order.options, "fullness")
    return draft_childs_skirt(
        order.body,
        order.ease,
        order.least,
        order.waist,
        long=to_the_knee(order.body) if long is None else long,
        gathered=order.options.get("waist") != FLAT,
        fullness=fullness or 2.0,
    )


OVER_THE_HEAD: Final = (
    Option(
        "opening",
        "choice",
        "how the head gets through; left out, a slit at the back, in a knit a band, or buttons on the shoulder "
        "where it stretches too little",
        default=None,
        choices=OPENINGS,
    ),
    Option(
        "slit",
        "length",
        "how long the slit is; left out, so that the head passes",
        40.0,
        500.0,
        default=None,
        goes_with=("opening", (BACK_SLIT, FRONT_SLIT)),
    ),
    Option(
        "band_width",
        "length",
        "how wide a knit band is when it is finished; left out, 15 mm",
        8.0,
        40.0,
        default=None,
        goes_with=("opening", (KNIT_BAND, BUTTON_SHOULDER, LAPPED)),
    ),
    Option(
        "band_stretch",
        "percent",
        "how far the knit of the band stretches; left out, as the cloth does",
        0.0,
        2.0,
        default=None,
        goes_with=("opening", (KNIT_BAND, BUTTON_SHOULDER, LAPPED)),
    ),
)
"""The options by which a head gets through, of everything that is drawn on the child's bodice."""

CHILDS: Final = (
    Block(
        "child's bodice",
        "bodice for a child, front and back, without darts, to the waist or straight through to a hem",
        (childs_bodice.FRONT, childs_bodice.BACK),
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
        ),
        ("bust", "waist", "hip", "neck", "across_back", "scye_depth"),
        (
            *OVER_THE_HEAD,
            Option(
                "below_waist",
                "length",
                "how far it goes on below the waist, straight through; left out, it ends at the waist",
                40.0,
                1000.0,
                default=None,
            ),
            Option(
                "flare",
                "length",
                "how much further each side goes out towards the hem; left out, none",
                0.0,
                250.0,
                default=None,
            ),
        ),
        "common practice; proportions against School Needlework and Hand Sewing Lessons",
        draft_childs_bodice_asked,
        CHILDREN,
        instead="bodice",
        sites=(*UPPER, Site(Place.HEM, BodyPart.BODICE)),
    ),
    Block(
        "child's sleeve",
        "set-in sleeve for a child in one piece, drawn to the bodice's armhole",
        (sleeve.SLEEVE,),
        ("upper_arm_girth", "elbow_girth", "wrist_girth", "arm_length", "shoulder_to_elbow"),
        ("upper_arm", "elbow", "wrist", "cap_ease"),
        (),
        "the sleeve triangle: diagonals, cap height and biceps, any two giving the third",
        _draft_childs_sleeve,
        CHILDREN,
        instead="sleeve",
        after="child's bodice",
        sites=SLEEVED,
    ),
    Block(
        "child's skirt",
        "skirt for a child, front and back, without darts, gathered into the waist or flat there",
        (skirt.FRONT, skirt.BACK),
        ("waist_girth", "hip_girth", "waist_to_hip", "waist_height", "knee_height"),
        ("waist", "hip"),
        (
            skirt_length(60.0, 1200.0),
            Option("waist", "choice", "how it is sewn to the waist", default=GATHERED, choices=WAISTS),
            Option("fullness", "number", "how many times the waist a gathered one is wide", 1.2, 4.0, default=2.0),
        ),
        "common practice",
        _draft_childs_skirt,
        CHILDREN,
        instead="skirt",
        sites=LOWER,
    ),
)
