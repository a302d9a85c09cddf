"""What the parts of a pattern are: the closed vocabulary of the trade that alterations and checks go by.

A name is what a person reads, and may be anything in any language. What a stretch of outline, a piece, a line, a point
or a notch *is* stands beside its name, in one of the types below, and that alone is what code asks for:

    from drafting.pattern import Level, Place, edges_at, is_front, line_at, require_edge

    for piece in pieces_of(pattern, part=BodyPart.BODICE):
        if is_front(piece) and edges_at(piece, Place.NECK):      # () where it has none
            seam = require_edge(piece, Place.SIDE)               # or a plain refusal: '"Vorderteil" has no side seam.'
            bust = line_at(piece, Level.BUST)                    # None where it has none

The functions that ask stand in `drafting/pattern/find.py`. An alteration that draws a new edge says its place:
`Edge(name, curves, place=Place.HEM)`, or `replace(old, curves=...)`, which keeps it. The value of each word is how the
word is written in pattern.json and in sentences.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from drafting.dataclass import dataclass

__all__ = [
    "CENTRES",
    "MIDDLE_SEAMS",
    "BodyPart",
    "BodySide",
    "Fullness",
    "Half",
    "Identity",
    "Landmark",
    "Level",
    "NotchMark",
    "PieceKind",
    "Place",
]


class Place(StrEnum):
    """What a stretch of a piece's outline is. The leg of a dart has none: its dart opens at the edges beside it."""

    NECK = "neck"
    SHOULDER = "shoulder"
    ARMHOLE = "armhole"
    SIDE = "side seam"
    UNDERARM = "underarm seam"
    CAP = "sleeve cap"
    WAIST = "waist"
    HIP = "hip"
    HEM = "hem"
    WRIST = "wrist"
    LEG_OPENING = "leg opening"
    CENTRE_FRONT = "centre front"
    CENTRE_BACK = "centre back"
    INSEAM = "inseam"
    OUTSEAM = "outseam"
    CROTCH = "crotch"
    YOKE = "yoke seam"
    PRINCESS = "princess seam"
    GORE = "gore seam"
    TIER = "tier seam"
    RAGLAN = "raglan seam"
    SADDLE = "saddle seam"
    EMPIRE = "empire seam"
    OVERARM = "overarm seam"
    GUSSET = "gusset seam"
    GODET = "godet seam"
    STAND = "button stand"
    STAND_EDGE = "edge of the button stand"
    WRAP = "wrap"
    WRAP_EDGE = "wrap edge"
    FACING_EDGE = "free edge of a facing"
    COLLAR_EDGE = "outer edge of a collar"
    COLLAR_END = "end of a collar"
    COLLAR_SEAM = "seam between a collar and its stand"
    BAND_EDGE = "edge of a band"
    BAND_END = "end of a band"
    LAP_END = "end of a lap"
    PLEAT_END = "end of a pleat"
    BIB = "bib edge"
    POCKET_MOUTH = "pocket mouth"
    POCKET_EDGE = "pocket edge"
    POCKET_TOP = "upper edge of a pocket"


CENTRES: Final = (Place.CENTRE_FRONT, Place.CENTRE_BACK)
"""The two lines that halve the body."""

MIDDLE_SEAMS: Final = (*CENTRES, Place.CROTCH)
"""Where a left piece is sewn to its mirror image: the centres, and the seam through the crotch."""


class Half(StrEnum):
    """The half of the body a stretch of outline belongs to, on a piece that lies on both, as a sleeve does."""

    FRONT = "front"
    BACK = "back"


class Fullness(StrEnum):
    """How an edge is drawn up to what it is sewn to, as the line over the mouth of a dart left unsewn is."""

    GATHERED = "gathered"
    EASED = "eased"


class PieceKind(StrEnum):
    """What a piece is for."""

    FRONT = "front"
    BACK = "back"
    SLEEVE = "sleeve"
    COLLAR = "collar"
    BAND = "band"
    CUFF = "cuff"
    YOKE = "yoke"
    PANEL = "panel"
    GUSSET = "gusset"
    FACING = "facing"
    LINING = "lining"
    CASING = "casing"
    STRAP = "strap"
    POCKET = "pocket"
    BINDING = "binding"
    TIE = "tie"
    LOOP = "loop"
    TAB = "tab"
    FLY = "fly"


class BodyPart(StrEnum):
    """The part of the body a piece covers."""

    BODICE = "bodice"
    SKIRT = "skirt"
    TROUSERS = "trousers"
    SLEEVE = "sleeve"


class BodySide(StrEnum):
    """The side of the body a piece is for, where it is for one only."""

    LEFT = "left"
    RIGHT = "right"


class Level(StrEnum):
    """What a marked line is."""

    NECK = "neck line"
    CHEST = "chest line"
    BACK_WIDTH = "back width line"
    SCYE = "underarm line"
    BUST = "bust line"
    WAIST = "waist line"
    HIGH_HIP = "high hip line"
    HIP = "hip line"
    CROTCH = "crotch line"
    THIGH = "thigh line"
    KNEE = "knee line"
    HEM = "hem line"
    BICEPS = "biceps line"
    ELBOW = "elbow line"
    WRIST = "wrist line"
    LENGTHEN = "lengthen here"
    LENGTHEN_ABOVE_ELBOW = "lengthen here above the elbow"
    LENGTHEN_ABOVE_KNEE = "lengthen here above the knee"
    LENGTHEN_ABOVE_CROTCH = "lengthen here above the crotch"
    CENTRE_FRONT = "centre front line"
    CENTRE_BACK = "centre back line"
    FOLD = "fold line"
    SLIT = "slit"
    ROLL = "roll line"
    CREASE = "crease line"
    FACING = "facing line"
    POCKET = "pocket line"
    TUCK = "tuck line"
    PLEAT_FOLD = "pleat fold line"
    PLEAT_PLACE = "pleat placement line"
    PLEAT_SEAM = "seam inside a pleat"
    LET_DOWN = "let down line"
    STITCHING = "stitching line"


class Landmark(StrEnum):
    """What a marked point is."""

    NAPE = "nape"
    NECK_PIT = "neck pit"
    SIDE_NECK = "side neck"
    SHOULDER = "shoulder point"
    UNDERARM = "underarm point"
    BUST_POINT = "bust point"
    CROWN = "crown"
    ELBOW = "elbow"
    WRIST = "wrist"
    HIP = "hip point"
    CROTCH = "crotch point"
    KNEE = "knee"
    BUTTON = "button"
    SNAP = "snap"
    STRAP = "strap"
    CENTRE = "on the centre line"
    EDGE = "on the edge beyond the centre"
    CENTRE_TOP = "upper end of the centre line"
    CENTRE_BOTTOM = "lower end of the centre line"
    TURNED_ABOUT = "a dart is turned about here"
    CLOSED_DART = "a dart was closed here"
    CLOSED_TOWARDS = "a dart was closed towards here"
    TAPE_CROSSES = "the tape crosses a seam here"
    SHOULDER_END = "the shoulder ended here"
    POCKET = "pocket corner"


class NotchMark(StrEnum):
    """What a notch marks.

    BALANCE:       a place that meets its like on the other piece: armhole and cap, the sides of a style line
    OPENING_END:   where an opening ends and the seam begins
    POCKET:        where the mouth of a pocket in a seam begins or ends
    GATHERS_END:   how far a gathered seam is laid flat from its end
    DRAWN_UP_FROM, DRAWN_UP_TO, DRAWN_UP_INTO: the ends of a stretch gathered or eased in, and the mark it is drawn to
    DRAWN_UP_BESIDE: how far to either side of such a stretch the cloth is drawn up with it
    """

    BALANCE = "balance"
    CROWN = "crown"
    SHOULDER = "shoulder"
    CENTRE = "centre"
    BUST = "bust level"
    WAIST = "waist"
    HIP = "hip level"
    ELBOW = "elbow level"
    KNEE = "knee level"
    SIDE = "side seam"
    OPENING_END = "end of the opening"
    POCKET = "end of the pocket mouth"
    STAND = "button stand"
    GATHERS_END = "gathers end"
    DRAWN_UP_FROM = "drawn up from"
    DRAWN_UP_TO = "drawn up to"
    DRAWN_UP_INTO = "drawn up into"
    DRAWN_UP_BESIDE = "drawn up beside"
    PLEAT_FOLD = "pleat fold"
    PLEAT_PLACE = "pleat place"
    HEM_FOLD = "hem fold"
    QUARTER = "quarter of a band"


@dataclass(frozen=True, slots=True)
class Identity:
    """What a piece is: its kind, the part of the body it covers, and the side it is for; None where that is not known.

    of:   what a facing, lining, pocket or band belongs to: a facing of the front bodice is
          Identity(PieceKind.FACING, BodyPart.BODICE, of=PieceKind.FRONT)
    side: None for both sides
    """

    kind: PieceKind | None = None
    part: BodyPart | None = None
    of: PieceKind | None = None
    side: BodySide | None = None

    @property
    def half(self) -> Half | None:
        """The half of the body it lies on: front, back, or None for neither or both."""
        for kind in (self.kind, self.of):
            if kind is PieceKind.FRONT:
                return Half.FRONT
            if kind is PieceKind.BACK:
                return Half.BACK
        return None
