"""A draft made again, with what came out the same as before taken from before: all that was measured on it is known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drafting.pattern import Pattern, Piece

__all__ = ["sharing"]


def sharing(pattern: Pattern, before: Pattern) -> Pattern:
    """The same pattern; every piece, edge and seam of it that is equal to one of the state before is that one."""
    was = {piece.name: piece for piece in before.pieces}
    seams = {seam.name: seam for seam in before.seams}
    return replace(
        pattern,
        pieces=tuple(_shared(piece, was) for piece in pattern.pieces),
        seams=tuple(seams[seam.name] if seams.get(seam.name) == seam else seam for seam in pattern.seams),
    )


def _shared(piece: Piece, was: Mapping[str, Piece]) -> Piece:
    old = was.get(piece.name)
    if old is None or piece is old:
        return piece
    if piece == old:
        return old
    edges = {edge.name: edge for edge in old.edges}
    shared = tuple(edges[edge.name] if edges.get(edge.name) == edge else edge for edge in piece.edges)
    same = all(one is other for one, other in zip(shared, piece.edges, strict=True))
    return piece if same else replace(piece, edges=shared)
