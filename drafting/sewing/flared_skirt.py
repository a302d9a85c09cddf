"""Whether a skirt is hung before its hem is levelled, and how far it may drop where.

Cloth keeps its length along both grains and stretches between them. Of a skirt so long, of cloth that its own weight
stretches by a share s on the bias, what hangs at an angle to the grain drops by length * s * sin(2 angle)^2 (a model;
s from common practice: half a hundredth for lawn, three for crepe, five for a heavy loose cloth).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Point, length, run_hits, split, tangent
from drafting.pattern import BodyPart, Edge, Pattern, Piece, Place, edges_at
from drafting.pattern.find import line_at
from drafting.pattern.locate import across
from drafting.pattern.places import Level
from drafting.sewing.seam_kinds import is_inside
from drafting.sewing.stays import times_cut

__all__ = ["USUAL_STRETCH", "Drop", "drop_at", "drops", "is_flared"]

_FLARED: Final = 1.3
"""How many times as wide as at the hip a skirt is at its hem from where on it is hung before it is levelled (ours)."""


def is_flared(pattern: Pattern) -> bool:
    """Whether a skirt is so much wider at its hem than at the hip that its seams lie across the grain and drop."""
    hem = hip = 0.0
    for piece in pattern.pieces:
        line = line_at(piece, Level.HIP)
        if piece.identity.part is BodyPart.SKIRT and not is_inside(piece) and line is not None:
            hip += times_cut(piece) * across(piece, line.name)
            hem += times_cut(piece) * sum(edge.length for edge in piece.edges if edge.place is Place.HEM)
    return hip > 0.0 and hem > _FLARED * hip


USUAL_STRETCH: Final = 0.03
"""How much cloth stretches on the bias under its own weight, as a share: crepe (common practice)."""

_STEPS: Final = 8  # places looked at on each curve of a hem
_SEEN: Final = 5.0  # mm of a drop from where on it is worth telling: so much a hem may be off level (common practice)


@dataclass(frozen=True, slots=True)
class Drop:
    """Where a piece drops most: how far, and how far along its hem from the edge at this place, mm."""

    piece: str
    mm: float
    along: float
    place: Place | None


def drop_at(long: float, stretch: float, angle: float) -> float:
    """How far a skirt so long drops where it hangs at that angle, radians, to the grain, mm; stretch: a share."""
    return long * stretch * math.sin(2.0 * angle) ** 2


def drops(pattern: Pattern, stretch: float = USUAL_STRETCH) -> tuple[Drop, ...]:
    """Where each piece of a skirt drops most, of those that drop by more than a hem may be off level."""
    found = (
        max(_drops(piece, edge, stretch), key=lambda each: each.mm)
        for piece in pattern.pieces
        if piece.identity.part is BodyPart.SKIRT and not is_inside(piece) and piece.grain is not None
        for edge in edges_at(piece, Place.HEM)
    )
    return tuple(drop for drop in found if drop.mm > _SEEN)


def _drops(piece: Piece, hem: Edge, stretch: float) -> Iterator[Drop]:
    """How far places all along a hem drop, each told from the end of the hem that is nearer."""
    assert piece.grain is not None
    grain = piece.grain.end - piece.grain.start
    before, after = piece.beside(hem.name)
    for curve, along, at in _places(hem):
        up = tangent(curve, at).left()
        here = split(curve, at)[0].end if 0.0 < at < 1.0 else (curve.end if at else curve.start)
        angle = abs(up.angle_to(grain))
        near, place = min((along, before.place), (hem.length - along, after.place), key=lambda each: each[0])
        yield Drop(piece.name, drop_at(_above(piece, here, curve, at), stretch, angle), near, place)


def _places(hem: Edge) -> Iterator[tuple[Curve, float, float]]:
    """Places along a hem: the curve, how far along the hem, mm, and the curve's parameter."""
    gone = 0.0
    for curve in hem.curves:
        for k in range(_STEPS + 1):
            part = split(curve, k / _STEPS)[0] if 0 < k < _STEPS else curve
            yield curve, gone + (length(part) if k else 0.0), k / _STEPS
        gone += length(curve)


def _above(piece: Piece, here: Point, curve: Curve, at: float) -> float:
    """How far the cloth reaches above a place of the hem, square to it, mm."""
    hits = run_hits(piece.outline, here, tangent(curve, at).left())
    return max((hit.along for _, hit in hits), default=0.0)
