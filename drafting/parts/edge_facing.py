"""A facing of a hem, of a button stand or of a wrap edge: one strip for each line that is faced."""

from __future__ import annotations

from functools import partial
from typing import Final

from drafting.parts.drawn import Draw, Drawn
from drafting.parts.facing_strip import Strip, draw_strip, strip_seams
from drafting.pattern import Derived, DrawnTo, Pattern, Piece, Place, free_name, pieces_drawn_to

__all__ = ["HEM_FACING", "STAND_FACING", "WRAP_FACING", "draw_edge_facing", "edge_facing"]

HEM_FACING: Final = "hem facing"
STAND_FACING: Final = "facing of the button stand"
WRAP_FACING: Final = "facing of the wrap edge"


def edge_facing(part: str, place: Place, pieces: tuple[Piece, ...], depth: float) -> Derived:
    """The facing of these pieces along their edges at a place, `depth` mm deep, as a part to be drawn."""
    return Derived(part, tuple(DrawnTo(place, each.identity, each.name) for each in pieces), (("depth", depth),))


def draw_edge_facing(called: str) -> Draw:
    """How such a facing is drawn; called: what follows the name of the piece in its own."""
    return partial(_draw, called)


def _draw(called: str, pattern: Pattern, derived: Derived) -> Drawn:
    strips: list[Strip] = []
    for source in derived.to:
        for piece in pieces_drawn_to(pattern, source):
            if any(ref.piece == piece.name for strip in strips for ref in strip.faced):
                continue  # a panel that the strip of its neighbour runs over
            name = free_name(f"{source.piece} {called}", [strip.piece.name for strip in strips])
            strips.append(draw_strip(pattern, piece, {source.place}, derived.length("depth"), name=name))
    return Drawn(tuple(strip.piece for strip in strips), strip_seams(pattern, strips))
