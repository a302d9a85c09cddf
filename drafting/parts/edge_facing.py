"""A facing of a hem, of a button stand or of a wrap edge: one strip for each line that is faced."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.drawn import Draw, Drawn
from drafting.parts.facing_strip import Strip, draw_strip, strip_seams
from drafting.pattern import Derived, DrawnTo, Edge, Pattern, Piece, Place, free_piece_name, pieces_drawn_to

__all__ = ["HEM_FACING", "STAND_FACING", "WRAP_FACING", "draw_edge_facing", "edge_facing"]

HEM_FACING: Final = "hem facing"
STAND_FACING: Final = "facing of the button stand"
WRAP_FACING: Final = "facing of the wrap edge"


_LAPPING: Final = (Place.STAND_EDGE, Place.WRAP_EDGE)
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
    strips: list[Strip] = []
    for source in derived.to:
        places = (source.place,) if source.place in _LAPPING else (source.place, *_BEYOND)
        for piece in pieces_drawn_to(pattern, source):
            if any(ref.piece == piece.name for strip in strips for ref in strip.faced):
                continue  # a panel that the strip of its neighbour runs over
            name = free_piece_name(pattern, f"{source.piece} {called}", [strip.piece.name for strip in strips])
            strips.append(draw_strip(pattern, piece, places, derived.length("depth"), name=name))
    return Drawn(tuple(strip.piece for strip in strips), strip_seams(pattern, strips))
