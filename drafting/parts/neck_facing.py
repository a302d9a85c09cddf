"""The facing of a neck, front and back, drawn to the neck as it is now.

5 to 7 cm deep, its free edge parallel to the neck, on the grain of its piece, joined at the shoulders and open where
the garment is (common practice). Where a dart or a panel seam comes within its depth it is traced with that closed. The
parallels of the two necks reach the shoulder a little apart; both are led to the place between, so that the shoulder
seams of the facing are of one length.
"""

from __future__ import annotations

from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.drawn import Drawn
from drafting.parts.facing_strip import Strip, draw_strip, end_length, strip_seams
from drafting.pattern import (
    BodyPart,
    Derived,
    DrawnTo,
    Half,
    Identity,
    Pattern,
    Piece,
    PieceKind,
    Place,
    free_piece_name,
    pieces_drawn_to,
)

__all__ = ["NECK_FACING", "NECK_FACING_TO", "draw_neck_facing"]

NECK_FACING: Final = "neck facing"

NECK_FACING_TO: Final = tuple(
    DrawnTo(Place.NECK, Identity(kind, BodyPart.BODICE)) for kind in (PieceKind.FRONT, PieceKind.BACK)
)
"""What a neck facing is drawn to."""

_FACED: Final = (Place.NECK, Place.STAND)


def draw_neck_facing(pattern: Pattern, derived: Derived) -> Drawn:
    """The front and back neck facing; depth: how deep, mm. Raises NotAPattern where no neck is, or one is too small."""
    pieces = [next(pieces_drawn_to(pattern, source), None) for source in derived.to]
    if not any(pieces):
        raise NotAPattern(NECK_FACING, "there is no bodice with a neck")
    depth = derived.length("depth")
    strips = [_strip(pattern, piece, depth) for piece in pieces if piece is not None]
    long = [end_length(strip, Place.SHOULDER) for strip in strips]
    if len(strips) == len(derived.to) and all(long):
        shared = sum(long) / len(long)
        strips = [
            _strip(pattern, piece, depth, _at_shoulder(strip, shared))
            for piece, strip in zip(pieces, strips, strict=True)
            if piece
        ]
    return Drawn(tuple(strip.piece for strip in strips), strip_seams(pattern, strips))


def _strip(
    pattern: Pattern, piece: Piece, depth: float, ends: tuple[float | None, float | None] = (None, None)
) -> Strip:
    name = free_piece_name(pattern, f"{piece.identity.half or Half.FRONT} {NECK_FACING}")
    return draw_strip(pattern, piece, _FACED, depth, name=name, ends=ends)


def _at_shoulder(strip: Strip, long: float) -> tuple[float | None, float | None]:
    """The lengths to ask for at the ends of a strip: this one at its shoulder."""
    after = strip.piece.edges[len(strip.faced)]
    return (None, long) if after.place is Place.SHOULDER else (long, None)
