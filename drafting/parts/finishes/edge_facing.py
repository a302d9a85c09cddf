"""A facing of a hem, of a button stand or of a wrap edge: one strip for each line that is faced."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.drawn import Draw, Drawn
from drafting.parts.finishes.facing_in_one import (
    HEM_FACING,
    STAND_FACING,
    goes_round_corner,
    stand_facing_beside,
    stand_facings,
)
from drafting.parts.finishes.facing_strip import draw_strip
from drafting.parts.finishes.laid_strip import LAPPING
from drafting.parts.finishes.strip_seams import Strip, strip_seams
from drafting.pattern import Derived, DrawnTo, Edge, Pattern, Piece, Place, edges_at, free_piece_name, pieces_drawn_to

__all__ = ["FACING_NAME", "HEM_FACING", "WRAP_FACING", "draw_edge_facing", "edge_facing", "strips_along_stands"]

FACING_NAME: Final = "facing"
"""What follows the name of a piece in that of the facing of its front edge."""

WRAP_FACING: Final = "facing of the wrap edge"


_BEYOND: Final = (Place.STAND, Place.WRAP)
"""What carries a hem on beyond the centre, and is faced with it; at an edge that laps over it lies beside that."""


def edge_facing(part: str, faced: Iterable[tuple[Piece, Edge]], depth: float) -> Derived:
    """The facing of these edges, `depth` mm deep, as a part to be drawn; NotAPattern for an edge of unknown place."""
    to = []
    for piece, edge in faced:
        if edge.place is None:
            raise NotAPattern(
                piece.name, reason=f'it is not known what its "{edge.name}" is, so that no facing can follow it'
            )
        to.append(DrawnTo(edge.place, piece.identity, piece.name))
    return Derived(part, tuple(to), (("depth", depth),))


def draw_edge_facing(called: str) -> Draw:
    """How such a facing is drawn; called: what follows the name of the piece in its own."""
    return partial(_draw, called)


def _draw(called: str, pattern: Pattern, derived: Derived) -> Drawn:
    strips = _strips(called, pattern, derived)
    mine = {strip.piece.name for strip in strips}
    others = strips_along_stands(pattern) if derived.part == HEM_FACING else []
    seams = strip_seams(pattern, [*strips, *(each for each in others if each.piece.name not in mine)])
    own = tuple(seam for seam in seams if any(ref.piece in mine for ref in (*seam.a, *seam.b)))
    return Drawn(tuple(strip.piece for strip in strips), own)


def strips_along_stands(pattern: Pattern) -> list[Strip]:
    """The facings that run along a stand or round its lower corner, but for those drawn with a neck's."""
    # what was drawn for these parts last is redrawn, under the same names
    derived = (
        Derived(each.part, each.to, each.options) if each.part in (HEM_FACING, STAND_FACING) else each
        for each in pattern.derived
    )
    pattern = replace(pattern, derived=tuple(derived))
    strips = [strip for part in stand_facings(pattern) for strip in _strips(FACING_NAME, pattern, part)]
    for part in (each for each in pattern.derived if each.part == HEM_FACING):
        there = _strips(HEM_FACING, pattern, part)
        strips += [each for each in there if edges_at(each.piece, Place.STAND_EDGE)]
    return strips


def _strips(called: str, pattern: Pattern, derived: Derived) -> list[Strip]:
    """The facings of these edges, except of a stand that is faced in one with the neck or hem beside it."""
    strips: list[Strip] = []
    for source in derived.to:
        if goes_round_corner(pattern, source):
            continue
        depths = dict.fromkeys((source.place,), derived.length("depth"))
        name = f"{source.piece} {called}"
        stand = stand_facing_beside(pattern, source) if source.place is Place.HEM else None
        if stand is not None:
            name, depths[Place.STAND_EDGE] = f"{stand[0]} {FACING_NAME}", stand[1]
        elif source.place not in LAPPING:
            depths |= dict.fromkeys(_BEYOND, derived.length("depth"))
        for piece in pieces_drawn_to(pattern, source):
            if any(ref.piece == piece.name for strip in strips for ref in strip.faced):
                continue  # a panel that the strip of its neighbour runs over
            called_so = free_piece_name(pattern, name, [strip.piece.name for strip in strips])
            strips.append(draw_strip(pattern, piece, depths, name=called_so))
    return strips
