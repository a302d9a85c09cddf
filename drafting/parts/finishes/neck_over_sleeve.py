"""The neck of a front or back and of the sleeve that is cut up to it, as one edge to be faced.

The pieces are laid together along the seam between body and sleeve, as they are sewn at the neck, and the facing is
traced round that as far as the shoulder, where front and back facing meet in a seam square to the neck: a neck has as
many pieces of facing over a raglan or a saddle as over a plain shoulder (common practice).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from itertools import takewhile
from typing import Final

from drafting.geometry import Line, Point, Vec, run_ends
from drafting.parts.finishes.laid_strip import LaidRound, turned_about
from drafting.parts.finishes.strip_seams import Strip
from drafting.parts.folded_outline import BETWEEN_PANELS, LaidEdge, laid_from
from drafting.pattern import Edge, EdgeRef, Pattern, Piece, PieceKind, Place, Seam, edges_at, pieces_of

__all__ = ["laid_to_shoulder", "shoulder_seam", "sleeve_at_neck"]

_SLEEVE: Final = frozenset((Place.RAGLAN, Place.SADDLE))
_SHOULDER: Final = "shoulder"
_REACH: Final = 400.0  # mm that the line square to the neck is drawn: it ends where the free edge meets it


def sleeve_at_neck(pattern: Pattern) -> Piece | None:
    """The sleeve that is cut up to the neck; None where none is."""
    return next((piece for piece in pieces_of(pattern, PieceKind.SLEEVE) if edges_at(piece, Place.NECK)), None)


def laid_to_shoulder(pattern: Pattern, laid: LaidRound, places: Collection[Place], allowance: float) -> LaidRound:
    """The edges of a front or back that are faced, led on over the sleeve to the shoulder, and the edges beside them.

    laid: the same for that piece alone; allowance: of the seam at the shoulder, mm. As it is where no sleeve follows.
    """
    faced, onward, back = laid
    half = pattern.piece(faced[0].ref.piece).identity.half
    ahead = onward[0].edge.place in _SLEEVE
    if not ahead and back[0].edge.place not in _SLEEVE:
        return laid

    def goes_on(each: LaidEdge) -> bool:
        own = each.edge.half or pattern.piece(each.ref.piece).identity.half
        return each.edge.place in places and own is half

    first = (faced[0] if ahead else faced[-1]).ref
    start = pattern.piece(first.piece)
    run = tuple(takewhile(goes_on, laid_from(pattern, start, first.edge, onward=ahead, over=BETWEEN_PANELS | _SLEEVE)))
    last = run[-1]
    _, along = run_ends(last.edge.curves)
    end = _square(last.ref.piece, last.edge.end, along.left() if ahead else along.right(), allowance)
    if ahead:
        return run, (end,), back
    turned = (replace(each, ref=replace(each.ref, backward=False)) for each in map(turned_about, reversed(run)))
    return tuple(turned), onward, (end,)


def shoulder_seam(pattern: Pattern, strips: Sequence[Strip]) -> Iterator[Seam]:
    """The seam of two facings that meet on a sleeve at the shoulder; none where they meet as their pieces do."""
    if sleeve_at_neck(pattern) is None:
        return
    ends = [
        EdgeRef(strip.piece.name, edge.name, backward=edge is not strip.piece.edges[len(strip.faced)])
        for strip in strips
        for edge in edges_at(strip.piece, Place.SHOULDER)
    ]
    if len(ends) == len(strips) == 2:
        yield Seam("shoulder of the facings", (ends[0],), (ends[1],))


def _square(piece: str, at: Point, inward: Vec, allowance: float) -> LaidEdge:
    """The end of a facing at the shoulder: an edge of no piece, square to the neck."""
    line = Line(at, at + inward.unit() * _REACH)
    return LaidEdge(EdgeRef(piece, _SHOULDER), Edge(_SHOULDER, (line,), allowance=allowance, place=Place.SHOULDER))
