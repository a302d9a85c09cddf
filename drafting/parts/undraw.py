"""A pattern without the pieces and seams that were drawn for its parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.pattern import Derived, Edge, EdgeAs, LineRef, NotchRef, Pattern, Piece

__all__ = ["as_asked", "edge_as_it_is", "undrawn", "with_edges_as", "without_derived"]


def without_derived(pattern: Pattern) -> Pattern:
    """The pattern without what was drawn for its parts; it still says which parts there are."""
    if not pattern.derived:
        return pattern
    pieces = {name for each in pattern.derived for name in each.pieces}
    seams = {name for each in pattern.derived for name in each.seams}
    notches = {mark for each in pattern.derived for mark in each.notches}
    lines = {mark for each in pattern.derived for mark in each.lines}
    edges = [edge for each in pattern.derived for edge in each.edges]
    return replace(
        pattern,
        pieces=tuple(
            with_edges_as(_without(piece, notches, lines), edges)
            for piece in pattern.pieces
            if piece.name not in pieces
        ),
        seams=tuple(seam for seam in pattern.seams if seam.name not in seams),
    )


def undrawn(pattern: Pattern) -> Pattern:
    """The pattern with each of its parts asked for and none of them drawn."""
    bare = without_derived(pattern)
    return replace(bare, derived=tuple(map(as_asked, bare.derived)))


def as_asked(part: Derived) -> Derived:
    """The part with its options alone, without the pieces, seams and marks that were drawn for it."""
    return Derived(part.part, part.to, part.options, called=part.called)


def _without(piece: Piece, notches: set[NotchRef], lines: set[LineRef]) -> Piece:
    kept = tuple(notch for notch in piece.notches if NotchRef(piece.name, notch.name) not in notches)
    left = tuple(line for line in piece.lines if LineRef(piece.name, line.name) not in lines)
    same = len(kept) == len(piece.notches) and len(left) == len(piece.lines)
    return piece if same else replace(piece, notches=kept, lines=left)


def with_edges_as(piece: Piece, wanted: Sequence[EdgeAs]) -> Piece:
    """The piece with the roles and allowances that its edges are to have."""
    mine = {each.edge: each for each in wanted if each.piece == piece.name}
    if not mine:
        return piece
    return replace(piece, edges=tuple(_as(edge, mine.get(edge.name)) for edge in piece.edges))


def _as(edge: Edge, wanted: EdgeAs | None) -> Edge:
    return edge if wanted is None else replace(edge, role=wanted.role).with_allowance(wanted.allowance)


def edge_as_it_is(pieces: Sequence[Piece], wanted: EdgeAs) -> EdgeAs:
    """The edge that is meant, as it is on these pieces."""
    edge = next(piece for piece in pieces if piece.name == wanted.piece).edge(wanted.edge)
    return EdgeAs(wanted.piece, wanted.edge, edge.role, edge.allowance)
