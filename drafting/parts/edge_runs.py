"""An edge of the garment as one run over all the pieces it lies on: from the centre front to the centre back, or round
an armhole from the front's side to the back's.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import accumulate, groupby, islice, pairwise, takewhile
from operator import itemgetter
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import end_tangents
from drafting.parts.collars.neck_line import neck_line
from drafting.parts.folded_outline import BETWEEN_PANELS, LaidEdge, laid_from
from drafting.parts.what_helps import in_block
from drafting.pattern import CENTRES, BodyPart, Edge, Half, Pattern, Piece, PieceKind, Place

__all__ = ["EdgeRun", "RunPart", "edge_run"]

_LAPS: Final = (Place.STAND, Place.WRAP)
_FRONT_ENDS: Final = (Place.CENTRE_FRONT, Place.STAND_EDGE, Place.WRAP_EDGE)
_INSIDE: Final = (PieceKind.FACING, PieceKind.LINING, PieceKind.POCKET)
_OVER_SHOULDER: Final = BETWEEN_PANELS | {Place.SHOULDER, Place.SADDLE}
_OVER_SIDES: Final = BETWEEN_PANELS | {Place.SIDE, Place.OUTSEAM, Place.GODET}
_CORNER: Final = math.radians(30.0)  # from which a turn between two edges is a corner, round which a strip is folded


@dataclass(frozen=True, slots=True)
class RunPart:
    """What of the run lies on one half of the garment, "front neck": its edges as they lie in the run, in its order."""

    name: str
    edges: tuple[LaidEdge, ...]

    @property
    def length(self) -> float:
        """Mm."""
        return sum(each.edge.length for each in self.edges)

    @property
    def turning(self) -> float:
        """By how much it turns into the cloth in all, radians, corners left out; below 0 where it turns outward."""
        total = 0.0
        for each in self.edges:
            sign = 1.0 if each.ref.backward else -1.0
            ends = [end_tangents(curve) for curve in each.edge.curves]
            bends = [first.angle_to(last) for first, last in ends]
            joints = [one[1].angle_to(other[0]) for one, other in pairwise(ends)]
            total += sign * (sum(bends) + sum(turn for turn in joints if abs(turn) < _CORNER))
        return total


@dataclass(frozen=True, slots=True)
class EdgeRun:
    """One half of an edge of the garment, over all its pieces; or the whole edge round one armhole.

    parts: in order, from the front; start, end: the edges that lie beside its two ends
    halved: whether the other half of the body has its mirror image, joined to this at the centres
    """

    parts: tuple[RunPart, ...]
    start: Edge
    end: Edge
    halved: bool

    @property
    def length(self) -> float:
        """Mm."""
        return sum(part.length for part in self.parts)


def edge_run(pattern: Pattern, name: str, place: Place, part: BodyPart) -> EdgeRun:
    """The edge at a place of a part of the garment; name: of the part that is drawn to it.

    Raises NotAPattern where there is none, or it comes to no centre (an armhole: to no side).
    """
    if place is Place.NECK:
        line = neck_line(pattern, name)
        return EdgeRun(tuple(RunPart(each.name, each.edges) for each in line.parts), line.front, line.back, True)
    armhole = place is Place.ARMHOLE
    ends: tuple[Place, ...] = (Place.SIDE,) if armhole else _FRONT_ENDS
    over, places = (_OVER_SHOULDER, (place,)) if armhole else (_OVER_SIDES, (place, *_LAPS))
    for piece, edge, onward in _beginnings(pattern, part, places, ends):
        walk = list(laid_from(pattern, piece, edge, onward=onward, over=over))
        run = list(takewhile(lambda each: each.edge.place in places, walk))
        at = piece.index(edge)
        start = piece.edges[at - 1 if onward else (at + 1) % len(piece.edges)]
        end = walk[len(run) % len(walk)].edge
        if end.place in ((Place.SIDE,) if armhole else (*CENTRES, *_FRONT_ENDS)):
            return EdgeRun(tuple(_parts(pattern, run, place)), start, end, not armhole)
        mend = (in_block("opening", "back slit", "Open the back"),) if end.place is Place.SHOULDER else ()
        raise NotAPattern(name, reason=f'the {place} ends at "{end.name}"', remedies=mend)
    raise NotAPattern(name, reason=f"there is no {place} in front to begin at")


def _beginnings(
    pattern: Pattern, part: BodyPart, places: Sequence[Place], ends: Sequence[Place]
) -> Iterator[tuple[Piece, str, bool]]:
    """Where the edge may begin in front: the piece, the edge, and whether it goes on anticlockwise."""
    for piece in pattern.pieces:
        kind = piece.identity
        if kind.half is Half.FRONT and kind.part is part and kind.kind not in _INSIDE:
            for before, edge in zip((piece.edges[-1], *piece.edges), piece.edges, strict=False):
                for one, other, onward in ((before, edge, True), (edge, before, False)):
                    if one.place in ends and other.place in places:
                        yield piece, other.name, onward


def _parts(pattern: Pattern, run: Sequence[LaidEdge], place: Place) -> Iterator[RunPart]:
    """What of a run lies on the front and on the back; what is set in between, as a godet, to the half before it."""
    halves = accumulate((pattern.piece(each.ref.piece).identity.half for each in run), _carried, initial=Half.FRONT)
    for name, edges in groupby(zip(islice(halves, 1, None), run, strict=True), key=itemgetter(0)):
        yield RunPart(f"{name} {place}", tuple(edge for _, edge in edges))


def _carried(before: Half, here: Half | None) -> Half:
    return here or before
