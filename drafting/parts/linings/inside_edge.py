r"""A lining that is a hair smaller where its edge is sewn to that of the garment itself and turned, at a neck or an
armhole that nothing faces or binds: so the seam rolls to the inside, and the lining does not show.

        shell        lining, 2 mm inside it
     __/   \__         _/     \_
    |         |       |         |
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.finishes.facing_in_one import LINING
from drafting.parts.finishes.facing_strip import draw_strip
from drafting.parts.linings.cut_away import cut_away
from drafting.parts.linings.lining_seams import LinedPiece
from drafting.pattern import Pattern, Piece, Place, edges_at

__all__ = ["SMALLER", "with_edges_inside"]

SMALLER: Final = 2.0
"""mm by which a lining to the edge is smaller there (common practice)."""


def with_edges_inside(pattern: Pattern, lined: Sequence[LinedPiece], by: float) -> list[LinedPiece]:
    """The linings, smaller by so many mm at a neck and at armholes without sleeves.

    At a place where one of them cannot be smaller all stay as they were, because the seams there would not meet.
    """
    sleeved = any(edges_at(piece, Place.CAP) for piece in pattern.pieces)
    made = list(lined)
    for place in (Place.NECK,) if sleeved else (Place.NECK, Place.ARMHOLE):
        if by and not _has_part(pattern, place):
            try:
                made = [replace(each, lining=_smaller(pattern, each, place, by)) for each in made]
            except NotAPattern:
                continue  # a stand or a dart lies in it: sewn edge on edge there
    return made


def _has_part(pattern: Pattern, place: Place) -> bool:
    """Whether a facing, a binding, a collar or a band is sewn there."""
    return any(part.part != LINING and any(to.place is place for to in part.to) for part in pattern.derived)


def _smaller(pattern: Pattern, each: LinedPiece, place: Place, by: float) -> Piece:
    lining = each.lining
    found = edges_at(lining, place)
    if not found:
        return lining
    if len(found) > 1 or any(edge.place is Place.STAND for edge in lining.beside(found[0].name)):
        raise NotAPattern(lining.name, reason=f"its {place} is not one edge")
    (edge,) = found
    alone = replace(pattern, pieces=(lining,), seams=(), derived=(), measures=())
    strip = draw_strip(alone, lining, {place: by}, name=f"{lining.name} inside its {place}", least=0.0, pointed=True)
    made = cut_away(lining, strip, edge.name, edge.role, place, edge.allowance)
    meant = tuple(pair for pair in made.points_meant if pair in lining.points_meant)
    return replace(made, points_meant=meant)
