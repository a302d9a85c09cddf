"""The blocks there are, as a table: what each drafts, what it needs to know, what options it takes."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from blocks import skirt, sleeve
from blocks.bodice import draft_bodice
from blocks.bodice import pieces as bodice
from blocks.child import draft_childs_bodice
from blocks.child import pieces as childs_bodice
from blocks.child.draft import Long
from blocks.child.openings import (
    BACK_SLIT,
    BUTTON_SHOULDER,
    KNIT_BAND,
    OPENINGS,
    Band,
    Way,
    banded,
    shoulders_open,
    way_over_the_head,
)
from blocks.child.skirt import FLAT, GATHERED, WAISTS, draft_childs_skirt
from blocks.handover import Drafted, Order
from blocks.shared.sleeve_room import biceps_for_cap
from blocks.shared.waist_darts import DARTS
from drafting.body.complete import Body
from drafting.body.terms import BodyKind
from drafting.errors import CannotDraft, InputProblems, Problem, UnknownName
from drafting.reading.options import Option, Value

__all__ = ["BLOCKS", "Block", "accept_body", "blocks_for", "drafted_as", "find_block"]

AS_NEEDED: Final = DARTS[0]
_CHILDS_CAP: Final = 3.4  # the height of a child's cap: the armhole over 3.5 to 4 (common practice), rather higher
_BAND_WIDTH: Final = 15.0  # mm of knit band (common practice)
CHILDREN: Final[tuple[BodyKind, ...]] = ("girl", "boy")


@dataclass(frozen=True, slots=True)
class Block:
    """One block.

    pieces: the names of the pieces it makes
    needs:  the measurements it is drawn from
    places: where it adds ease
    bodies: the kinds of body that it is drawn for
    source: whose construction it follows
    instead: the block that takes its place for the other kinds of body
    after:  the block that it cannot be drafted without; "" for none
    """

    name: str
    about: str
    pieces: tuple[str, ...]
    needs: tuple[str, ...]
    places: tuple[str, ...]
    options: tuple[Option, ...]
    source: str
    draft: Callable[[Order], Drafted]
    bodies: tuple[BodyKind, ...] = ("woman",)
    instead: str = ""
    after: str = ""


def _draft_bodice(order: Order) -> Drafted:
    angle = order.options.get("bust_dart")
    return draft_bodice(
        order.body,
        order.ease,
        order.least,
        bust_dart=math.radians(angle) if isinstance(angle, float | int) else None,
        front_darts=_darts(order, "front_darts"),
        back_darts=_darts(order, "back_darts"),
        for_sleeve=order.with_sleeve,
    )


def _draft_childs_bodice(order: Order) -> Drafted:
    long = Long(_length(order.options, "below_waist") or 0.0, _length(order.options, "flare") or 0.0)

    def drafted(way: Way) -> Drafted:
        return draft_childs_bodice(
            order.body, order.ease, order.least, long=long, way=way, for_sleeve=order.with_sleeve
        )

    asked, knit = order.options.get("opening"), order.cloth.knit
    neckline = order.body.mm("neck_base_girth") + order.ease["neck"]
    if asked == KNIT_BAND or (asked is None and knit):
        if not knit:
            reason = 'A neck is bound with a knit band where the cloth is a knit: take another opening, "back slit".'
            raise CannotDraft((), reason)
        stretch = order.options.get("band_stretch")
        width = _length(order.options, "band_width") or _BAND_WIDTH
        band = Band(width, float(stretch) if isinstance(stretch, float | int) else order.cloth.stretch)
        try:
            return drafted(banded(order.body, neckline, band, order.cloth.stretch))
        except CannotDraft:
            if asked:
                raise
            # the neck would be too wide for this knit; at the waist a dress has to open behind anyway
            asked = BUTTON_SHOULDER if long.below else BACK_SLIT
    if asked == BUTTON_SHOULDER:
        return drafted(shoulders_open(order.body, neckline, order.cloth.stretch if knit else 0.0))
    return drafted(way_over_the_head(order.body, str(asked or BACK_SLIT), neckline, _length(order.options, "slit")))


def _length(options: Mapping[str, Value], name: str) -> float | None:
    asked = options.get(name)
    return float(asked) if isinstance(asked, float | int) else None


def _draft_sleeve(order: Order) -> Drafted:
    if order.armhole is None:
        raise CannotDraft((), "A sleeve is drawn to an armhole: draft the bodice it goes into before it.")
    return sleeve.draft_sleeve(order.body, order.ease, order.least, order.armhole)


def _draft_childs_sleeve(order: Order) -> Drafted:
    """A sleeve whose cap is low, as a child's is: wider than the arm asks for, unless that ease was asked for."""
    if order.armhole is None or "upper_arm" in order.asked:
        return _draft_sleeve(order)
    hole = order.armhole.front + order.armhole.back
    low = biceps_for_cap(hole + order.ease["cap_ease"], hole / _CHILDS_CAP) - order.body.mm("upper_arm_girth")
    if low <= order.ease["upper_arm"]:
        return _draft_sleeve(order)
    made = sleeve.draft_sleeve(order.body, {**order.ease, "upper_arm": low}, order.least, order.armhole)
    return replace(made, given={place: mm for place, mm in made.given.items() if place != "upper_arm"})


def _draft_skirt(order: Order) -> Drafted:
    asked = order.options.get("length")
    long = float(asked) if isinstance(asked, float | int) else _to_the_knee(order.body)
    return skirt.draft_skirt(
        order.body,
        order.ease,
        order.least,
        order.waist,
        long=long,
        front_darts=_darts(order, "front_darts"),
        back_darts=_darts(order, "back_darts"),
    )


def _draft_childs_skirt(order: Order) -> Drafted:
    if order.armhole is not None and order.waist is None:
        reason = "The bodice goes straight on below the waist: leave the skirt out, or the bodice's below_waist."
        raise CannotDraft((), reason)
    long, fullness = _length(order.options, "length"), _length(order.options, "fullness")
    return draft_childs_skirt(
        order.body,
        order.ease,
        order.least,
        order.waist,
        long=_to_the_knee(order.body) if long is None else long,
        gathered=order.options.get("waist") != FLAT,
        fullness=fullness or 2.0,
    )


def _darts(order: Order, name: str) -> str:
    return str(order.options.get(name) or AS_NEEDED)


def _darts_option(where: str, choices: tuple[str, ...]) -> Option:
    about = f"how many waist darts each half of the {where} has; as needed, so many that none is too wide"
    return Option(f"{where}_darts", "choice", about, default=AS_NEEDED, choices=choices)


def _skirt_length(least: float, most: float) -> Option:
    about = "from the waist to the hem at the centre; left out, to the middle of the knee"
    return Option("length", "length", about, least, most, default=None)


def _to_the_knee(body: Body) -> float:
    return body.mm("waist_height") - body.mm("knee_height")


BLOCKS: tuple[Block, ...] = (
    Block(
        "bodice",
        "fitted bodice, front and back, with bust dart, back shoulder dart and waist darts; open at the centre back",
        (bodice.FRONT, bodice.BACK),
        (
            "bust_girth",
            "upper_chest_girth",
            "waist_girth",
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
        ),
        ("bust", "waist", "neck", "across_back", "scye_depth"),
        (
            Option(
                "bust_dart",
                "angle",
                "the angle of the bust dart; left out, the one that the bust asks for",
                7.0,
                30.0,
                default=None,
            ),
            _darts_option("front", DARTS[:3]),
            _darts_option("back", DARTS[:3]),
        ),
        "W. Aldrich, Metric Pattern Cutting for Women's Wear, close-fitting block, worked for bust 88",
        _draft_bodice,
        instead="child's bodice",
    ),
    Block(
        "sleeve",
        "set-in sleeve in one piece, drawn to the bodice's armhole",
        (sleeve.SLEEVE,),
        ("upper_arm_girth", "elbow_girth", "wrist_girth", "arm_length", "shoulder_to_elbow"),
        ("upper_arm", "elbow", "wrist", "cap_ease"),
        (),
        "the sleeve triangle: diagonals, cap height and biceps, any two giving the third",
        _draft_sleeve,
        instead="child's sleeve",
        after="bodice",
    ),
    Block(
        "skirt",
        "straight skirt, front and back, with darts; open at the centre back from the waist to the hip",
        (skirt.FRONT, skirt.BACK),
        ("waist_girth", "hip_girth", "waist_to_hip", "waist_height", "knee_height"),
        ("waist", "hip"),
        (
            _skirt_length(150.0, 1400.0),
            _darts_option("front", DARTS[:3]),
            _darts_option("back", DARTS),
        ),
        "W. Aldrich, Metric Pattern Cutting for Women's Wear, straight skirt, worked for hip 94 and waist 68",
        _draft_skirt,
        instead="child's skirt",
    ),
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
            Option(
                "opening",
                "choice",
                "how the head gets through; left out, a slit at the back, in a knit a band, or buttons on the shoulder "
                "where it stretches too little",
                default=None,
                choices=OPENINGS,
            ),
            Option(
                "slit", "length", "how long the slit is; left out, so that the head passes", 40.0, 500.0, default=None
            ),
            Option(
                "band_width",
                "length",
                "how wide a knit band is when it is finished; left out, 15 mm",
                8.0,
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
        _draft_childs_bodice,
        CHILDREN,
        instead="bodice",
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
    ),
    Block(
        "child's skirt",
        "skirt for a child, front and back, without darts, gathered into the waist or flat there",
        (skirt.FRONT, skirt.BACK),
        ("waist_girth", "hip_girth", "waist_to_hip", "waist_height", "knee_height"),
        ("waist", "hip"),
        (
            _skirt_length(60.0, 1200.0),
            Option("waist", "choice", "how it is sewn to the waist", default=GATHERED, choices=WAISTS),
            Option("fullness", "number", "how many times the waist a gathered one is wide", 1.2, 4.0, default=2.0),
        ),
        "common practice",
        _draft_childs_skirt,
        CHILDREN,
        instead="skirt",
    ),
)


def blocks_for(body: BodyKind, table: tuple[Block, ...] = BLOCKS) -> tuple[Block, ...]:
    """The blocks that are drawn for this kind of body."""
    return tuple(block for block in table if body in block.bodies)


def accept_body(blocks: Iterable[Block], body: BodyKind, whose: str) -> None:
    """Raise InputProblems where a block is not drawn for this kind of body, with the one that is."""
    wrong = [block for block in blocks if body not in block.bodies]
    if wrong:
        names = " and ".join(f'"{block.name}"' for block in wrong)
        there = " and ".join(f'"{block.instead}"' for block in wrong)
        mend = f"For a {body} name {there} instead."
        raise InputProblems([Problem(whose, f'body = "{body}"', f"a body that {names} can be drafted for", mend)])


def find_block(name: str, table: tuple[Block, ...] = BLOCKS) -> Block:
    """The block of that name. Raises UnknownName, with the nearest."""
    for block in table:
        if block.name == name:
            return block
    raise UnknownName("block", name, [block.name for block in table])


def drafted_as(block: Block) -> int:
    """Which block it is of those drafted one after another, from 0; one that is in no table comes last."""
    names = [each.name for each in BLOCKS]
    return names.index(block.name) if block.name in names else len(names)
