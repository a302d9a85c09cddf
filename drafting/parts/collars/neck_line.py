"""The neck of a garment as one line, from the front edge to the centre back, over all the pieces it runs along.

The pieces are laid with their seams closed, or with their shoulders lapped as for a rolled flat collar: front and back
meet at the neck points and lie over each other at the shoulder ends.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import takewhile
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve
from drafting.parts.folded_outline import BETWEEN_PANELS, LaidEdge, laid_from
from drafting.parts.what_helps import in_block
from drafting.pattern import (
    CENTRES,
    BodyPart,
    DrawnTo,
    Edge,
    Half,
    Identity,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
)

__all__ = ["COLLAR_TO", "NeckLine", "NeckPart", "lap_angle", "neck_line", "shoulder_length"]

COLLAR_TO: Final = tuple(
    DrawnTo(Place.NECK, identity)
    for identity in (
        Identity(PieceKind.FRONT, BodyPart.BODICE),
        Identity(PieceKind.BACK, BodyPart.BODICE),
        Identity(PieceKind.YOKE, BodyPart.BODICE, of=PieceKind.FRONT),
        Identity(PieceKind.YOKE, BodyPart.BODICE, of=PieceKind.BACK),
        Identity(PieceKind.SLEEVE, BodyPart.SLEEVE),
    )
)
"""What a collar is drawn to: the neck may run over a yoke, or over a sleeve cut up to it."""

_STAND_NECK: Final = "stand neck"
"""What is called on a collar what a button stand has of the neck beyond the centre front."""

_OVER: Final = BETWEEN_PANELS | {Place.SHOULDER, Place.YOKE, Place.RAGLAN, Place.SADDLE}
_ROUND_NECK: Final = (Place.NECK, Place.STAND)
_ENDS: Final = (*CENTRES, Place.STAND_EDGE, Place.WRAP_EDGE)


@dataclass(frozen=True, slots=True)
class NeckPart:
    """What of the neck lies on one piece of the garment, or on all panels of it.

    edges: from the front to the back, laid; beyond: whether it is what a button stand has beyond the centre front
    name:  "front neck"
    """

    name: str
    edges: tuple[LaidEdge, ...]
    beyond: bool = False

    @property
    def length(self) -> float:
        """How long it is, mm."""
        return sum(each.edge.length for each in self.edges)


@dataclass(frozen=True, slots=True)
class NeckLine:
    """One half of the neck.

    parts: from the front edge to the centre back
    front, back: what lies beside its two ends
    """

    parts: tuple[NeckPart, ...]
    front: Edge
    back: Edge

    @property
    def to_centre(self) -> tuple[NeckPart, ...]:
        """Its parts between the centre front and the centre back."""
        return tuple(part for part in self.parts if not part.beyond)

    @property
    def open_behind(self) -> bool:
        """Whether the garment is open at the centre back, so that a collar ends there."""
        return self.back.role is not Role.FOLD

    def runs(self) -> list[list[Curve]]:
        """Its curves between the centres, part by part."""
        return [[curve for each in part.edges for curve in each.edge.curves] for part in self.to_centre]

    def length_to_centre(self) -> float:
        """From the centre front to the centre back, mm."""
        return sum(part.length for part in self.to_centre)

    def share_behind(self, pattern: Pattern) -> float:
        """What share of it lies behind the shoulder point, on a back or on the back half of a sleeve cut up to it."""
        laid = [each for part in self.to_centre for each in part.edges]
        halves = [each.edge.half or pattern.piece(each.ref.piece).identity.half for each in laid]
        behind = sum(each.edge.length for each, half in zip(laid, halves, strict=True) if half is Half.BACK)
        return behind / self.length_to_centre()

    def length_beyond(self) -> float:
        """What a button stand has of it beyond the centre front, mm; 0 where there is none."""
        return sum(part.length for part in self.parts if part.beyond)


def neck_line(pattern: Pattern, name: str, *, lapped: float = 0.0) -> NeckLine:
    """The neck as it is, with its shoulders lapped by so many radians. name: the part that is drawn to it

    Raises NotAPattern where there is none, where it ends before the centre back, or where it is gathered.
    """
    start = next(_beginnings(pattern), None)
    if start is None:
        raise NotAPattern(name, reason="there is no bodice with a neck that begins at a centre front")
    piece, edge, onward = start
    over = sum(_turns(pattern, piece, edge, onward=onward))
    walk = list(laid_from(pattern, piece, edge, onward=onward, over=_OVER, lapped=lapped / max(1, over)))
    run = list(takewhile(lambda each: each.edge.place in _ROUND_NECK, walk))
    after = walk[len(run) % len(walk)].edge
    back = pattern.piece(run[-1].ref.piece)
    if after.place is not Place.CENTRE_BACK and not (after.place in _ENDS and back.identity.half is not Half.FRONT):
        mend = (in_block("opening", "back slit", "Open the back"),) if after.place is Place.SHOULDER else ()
        raise NotAPattern(
            name, reason=f'the neck ends at "{after.name}" of "{back.name}" and comes to no centre back', remedies=mend
        )
    gathered = next((each.edge.name for each in run if each.edge.drawn_up is not None), None)
    if gathered:
        raise NotAPattern(name, reason=f'the neck is gathered or eased in at "{gathered}": a collar needs a plain neck')
    place = piece.index(edge)
    front = piece.edges[place - 1 if onward else (place + 1) % len(piece.edges)]
    return NeckLine(tuple(_parts(pattern, run)), front, after)


def _beginnings(pattern: Pattern) -> Iterator[tuple[Piece, str, bool]]:
    """Where the neck begins at the front: the piece, the edge, and whether it goes on anticlockwise."""
    for piece in pattern.pieces:
        if piece.identity.half is not Half.FRONT or piece.identity.part is not BodyPart.BODICE:
            continue
        n = len(piece.edges)
        for k, edge in enumerate(piece.edges):
            for step in (1, -1):
                after = (piece.edges[(k + step) % n], piece.edges[(k + 2 * step) % n])
                to_neck = after[0].place is Place.NECK or [each.place for each in after] == [Place.STAND, Place.NECK]
                if to_neck and _ends_front(edge):
                    yield piece, after[0].name, step > 0


def _ends_front(edge: Edge) -> bool:
    return edge.place in (Place.CENTRE_FRONT, Place.STAND_EDGE, Place.WRAP_EDGE)


def _turns(pattern: Pattern, piece: Piece, edge: str, *, onward: bool) -> Iterator[int]:
    """1 for each seam that the neck crosses between its front and its back, panels left out."""
    before = piece
    for each in laid_from(pattern, piece, edge, onward=onward, over=_OVER):
        if each.edge.place not in _ROUND_NECK:
            return
        here = pattern.piece(each.ref.piece)
        yield int(here.identity != before.identity)
        before = here


def _parts(pattern: Pattern, run: Sequence[LaidEdge]) -> Iterator[NeckPart]:
    """What of the run lies on each piece, panels of one together."""
    grouped: list[tuple[tuple[Identity, bool], list[LaidEdge]]] = []
    for each in run:
        key = pattern.piece(each.ref.piece).identity, each.edge.place is Place.STAND
        if not grouped or grouped[-1][0] != key:
            grouped.append((key, []))
        grouped[-1][1].append(each)
    named: list[str] = []
    for (identity, beyond), edges in grouped:
        half = str(identity.of or identity.kind)
        name = f"{half} {identity.kind}" if half in named else half  # a front and its yoke both have some of the neck
        named.append(half)
        yield NeckPart(_STAND_NECK if beyond else f"{name} neck", tuple(edges), beyond)


def shoulder_length(pattern: Pattern) -> float:
    """How long the shoulder seam is, mm; 0 where there is none, as over a sleeve cut up to the neck."""
    for seam in pattern.seams:
        edges = [pattern.piece(ref.piece).edge(ref.edge) for ref in seam.a]
        if all(edge.place is Place.SHOULDER for edge in edges):
            return sum(edge.length for edge in edges)
    return 0.0


def lap_angle(lap: float, shoulder: float) -> float:
    """By how much the back is turned about the neck point, radians, for its shoulder end to lie `lap` mm over the
    front's: the chord of a circle with the shoulder as its radius.
    """
    return 2.0 * math.asin(min(1.0, 0.5 * lap / shoulder)) if shoulder else 0.0
