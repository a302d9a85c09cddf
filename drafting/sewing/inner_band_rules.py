"""When the inner layer of a shaped band is sewn in: after the zip and the stand, whose ends it covers."""

from __future__ import annotations

from drafting.pattern import EdgeRef, Place
from drafting.pattern.unfinished import has_inner_layer
from drafting.sewing.sewing_step import Act
from drafting.sewing.stages import Found, Sewing, Stage, left_over

__all__ = ["inner_bands"]


def inner_bands(sewing: Sewing) -> Found:
    """One step for all pieces of a band; its edges are those of the waist that no bodice is sewn to."""
    bands = [piece for piece in sewing.pattern.pieces if has_inner_layer(piece)]
    if not bands:
        return
    places = {piece.name: {edge.name: edge.place for edge in piece.edges} for piece in bands}
    edges = tuple(
        EdgeRef(ref.piece, ref.edge)
        for piece in bands
        for ref in left_over(sewing.pattern, piece)
        if places[ref.piece][ref.edge] is Place.WAIST
    )
    pieces = tuple(piece.name for piece in bands)
    yield Stage.BAND, sewing.step(Act.INNER_BAND, (), place=Place.WAIST, pieces=pieces, edges=edges)
