"""A facing of a hem, of a button stand or of a wrap edge: one strip for each line that is faced."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.drawn import Draw, Drawn
from drafting.parts.finishes.facing_in_one import has_neck_facing
from drafting.parts.finishes.facing_strip import LAPPING, Strip, draw_strip, strip_seams
from drafting.pattern import Derived, DrawnTo, Edge, Pattern, Piece, Place, free_piece_name, pieces_drawn_to

__all__ = ["FACING_NAME", "HEM_FACING", "WRAP_FACING", "draw_edge_facing", "edge_facing", "edge_strips"]

FACING_NAME: Final = "facing"
"""What follows the name of a piece in that of the facing of its front edge."""

HEM_FACING: Final = "hem facing"
WRAP_FACING: Final = "facing of the wrap edge"


_BEYOND: Final = (Place.STAND, Place.WRAP)
"""What carries a hem on beyond the centre, and is faced with it; at an edge that laps over it lies beside that."""


def edge_facing(part: str, faced: Iterable[tuple[Piece, Edge]], depth: float) -> Derived:
    """The facing of these edges of pieces, `depth` mm deep, as a part to be drawn. Raises NotAPattern for one of which
    it is not known what it is.
    """
    to = []
    for piece, edge in faced:
        if edge.place is None:
            raise NotAPattern(piece.name, f'it is not known what its "{edge.name}" is, so that no facing can follow it')
        to.append(DrawnTo(edge.place, piece.identity, piece.name))
    return Derived(part, tuple(to), (("depth", depth),))


def draw_edge_facing(called: str) -> Draw:
    """How such a facing is drawn; called: what follows the name of the piece in its own."""
    return partial(_draw, called)


def _draw(called: str, pattern: Pattern, derived: Derived) -> Drawn:
    strips = edge_strips(called, pattern, derived)
    return Drawn(tuple(strip.piece for strip in strips), strip_seams(pattern, strips))


def edge_strips(called: str, pattern: Pattern, derived: Derived) -> list[Strip]:
    """The facings of these edges, but for a stand whose facing is drawn with that of the neck above it."""
    strips: list[Strip] = []
    for source in derived.to:
        if has_neck_facing(pattern, source):
            continue
        places = (source.place,) if source.place in LAPPING else (source.place, *_BEYOND)
        for piece in pieces_drawn_to(pattern, source):
            if any(ref.piece == piece.name for strip in strips for ref in strip.faced):
                continue  # a panel that the strip of its neighbour runs over
            name = free_piece_name(pattern, f"{source.piece} {called}", [strip.piece.name for strip in strips])
            strips.append(draw_strip(pattern, piece, dict.fromkeys(places, derived.length("depth")), name=name))
    return strips
