"""One step of sewing as a value: what is done, to which seams, edges and darts, and what is to be watched there."""

from __future__ import annotations

from enum import StrEnum

from drafting.dataclass import dataclass
from drafting.pattern import BodyPart, EdgeRef, Place
from drafting.pattern.gathered import Held

__all__ = ["Act", "DartFold", "Fastening", "SewingStep", "Stay", "StayKind", "Strip"]


class Act(StrEnum):
    """What is done in a step.

    FUSE:          iron interfacing on, before anything is sewn
    STAY:          hold edges that would stretch, before they are handled
    DARTS:         sew darts and press them
    JOIN:          sew two edges of the garment together
    JOIN_FACINGS:  sew facings to each other, before they are sewn on
    FACE:          sew facings to the edge they finish, and turn them in
    SET_IN:        sew sleeves into their armholes
    PLEATS:        fold pleats, press them and hold them
    BAND:          sew a waistband on
    INNER_BAND:    sew the inner layer of a shaped band to the outer one
    STRETCH_ON:    sew a band of knit on, stretching it to the edge
    CASING:        turn a casing in and draw elastic through it
    MAKE_COLLAR:   sew the layers of a collar to each other and turn them
    COLLAR:        sew a collar to the neck
    MAKE_LINING:   sew the pieces of a lining to each other
    LINE:          sew a lining into the garment
    SLIT:          cut and bind the slit above a cuff
    CUFF:          sew a cuff on
    PATCH:         sew pockets onto their marks
    BIND:          bind an edge with a bias strip of the pattern, or finish one for which it has no piece
    ZIP, BUTTONS:  fasten an opening
    FLY:           sew facing, shield and zip of a fly in
    SNAPS:         face the two edges of an inseam that opens, and set snaps along it
    LAP_SHOULDERS: bind the neck with its laps, and lay front and back over each other
    ATTACH:        make ties, loops or tabs, and set them on at their marks
    STRAPS:        make straps, sew them on behind and button them in front
    LAP:           fasten what is wrapped over, inside and outside
    HANG:          let a wide hem drop before it is levelled
    TUCK:          sew a tuck that is let out later
    HEM:           turn an edge up
    """

    FUSE = "fuse"
    STAY = "stay"
    DARTS = "sew darts"
    JOIN = "join"
    JOIN_FACINGS = "join facings"
    FACE = "face"
    SET_IN = "set in"
    PLEATS = "fold pleats"
    BAND = "sew band on"
    INNER_BAND = "sew the inner band"
    STRETCH_ON = "stretch band on"
    CASING = "draw elastic in"
    MAKE_COLLAR = "make the collar"
    COLLAR = "sew collar on"
    MAKE_LINING = "make the lining"
    LINE = "sew lining in"
    SLIT = "bind the slit"
    CUFF = "sew cuff on"
    PATCH = "sew pockets on"
    BIND = "bind"
    ZIP = "sew zip in"
    FLY = "sew the fly"
    BUTTONS = "sew buttons on"
    SNAPS = "set snaps"
    LAP_SHOULDERS = "lap shoulders"
    ATTACH = "make and set on"
    STRAPS = "make straps"
    LAP = "fasten the wrap"
    HANG = "let hang"
    TUCK = "sew tucks"
    HEM = "hem"


class StayKind(StrEnum):
    """How an edge is kept from stretching: by a row of stitches in the allowance, or by what is sewn along with it."""

    STITCHES = "stay stitching"
    TAPE = "stay tape"
    ELASTIC = "clear elastic"


@dataclass(frozen=True, slots=True)
class Stay:
    """Edges that are kept from stretching, all alike.

    edges:  on one piece, one half where the piece is cut on the fold
    length: of these edges as they are sewn, mm
    cut:    how long the tape for them is cut, mm; 0.0 where it is a row of stitches
    times:  how often in the garment
    """

    kind: StayKind
    place: Place
    edges: tuple[EdgeRef, ...]
    length: float
    cut: float
    times: int


@dataclass(frozen=True, slots=True)
class DartFold:
    """A dart, and which way it is pressed: "toward the centre" or "down"."""

    piece: str
    dart: str
    pressed: str


@dataclass(frozen=True, slots=True)
class Fastening:
    """How an opening is closed.

    length:     of the opening, mm
    separating: whether it is open at both ends, so that a zip has to come apart
    buttons:    how many; 0 for a zip
    size:       the diameter of the buttons, mm; 0.0 for a zip
    hooks:      how many hooks and eyes hold the neck above a zip
    snaps:      how many snaps close it
    """

    length: float
    separating: bool = False
    buttons: int = 0
    size: float = 0.0
    hooks: int = 0
    snaps: int = 0


@dataclass(frozen=True, slots=True)
class Strip:
    """Straight strips of the cloth that are cut for a step, all alike, mm; no piece of the pattern.

    length, width: as cut, with the allowance all round in them
    interfaced:    whether interfacing is fused to them
    stretch:       how far their own knit has to stretch where the cloth stretches less; 0.0 where the cloth will do
    """

    count: int
    length: float
    width: float
    allowance: float
    interfaced: bool = False
    stretch: float = 0.0


@dataclass(frozen=True, slots=True)
class SewingStep:
    """One step.

    place:    where it is; None where it is in many places
    part:     the part of the body it belongs to; None where it joins two
    pieces:   the names of the pieces that are in hand
    seams:    the names of the seams of the pattern that are sewn in it
    edges:    what is dealt with in it that no seam names: hems, ends of facings, centre seams of two like halves
    darts:    the darts that are sewn
    held:     what is gathered or eased in, on the longer piece
    notches:  the numbers of the notches that meet, in order
    stays:    what is kept from stretching
    fastening: how the opening is closed
    depth:    how much is turned up, or taken up by a tuck, mm
    in_the_round: whether tube is sewn to tube, or a flat edge to a flat one
    strips:   what is cut for it that is no piece of the pattern
    apart:    whether pieces one above the other are not joined yet: each is sewn by itself, below a yoke
    """

    act: Act
    place: Place | None = None
    part: BodyPart | None = None
    pieces: tuple[str, ...] = ()
    seams: tuple[str, ...] = ()
    edges: tuple[EdgeRef, ...] = ()
    darts: tuple[DartFold, ...] = ()
    held: tuple[Held, ...] = ()
    notches: tuple[int, ...] = ()
    stays: tuple[Stay, ...] = ()
    fastening: Fastening | None = None
    depth: float = 0.0
    in_the_round: bool = False
    strips: tuple[Strip, ...] = ()
    apart: bool = False
