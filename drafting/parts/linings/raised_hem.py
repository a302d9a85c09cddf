"""The hem of a lining: the piece cut off a distance above its own hem.

Where a dart ends at the hem, as a dart in a blouse below the bust does, each part of the hem is raised by itself, and
the dart ends at the new line.
"""

from __future__ import annotations

from dataclasses import replace

from drafting.geometry import run_reversed
from drafting.parts.finishes.facing_strip import draw_strip
from drafting.parts.finishes.laid_strip import LaidRound
from drafting.parts.folded_outline import LaidEdge
from drafting.parts.linings.cut_away import cut_away
from drafting.pattern import Edge, EdgeRef, Pattern, Piece, Place, Role, edges_at, with_edges

__all__ = ["with_hem_raised"]


def with_hem_raised(pattern: Pattern, piece: Piece, hem: Edge, name: str, *, by: float, allowance: float) -> Piece:
    """The piece ended so many mm above one of its hems, with an allowance there. name: what is drawn, for a refusal

    Raises NotAPattern where the piece is too small for it.
    """
    place = hem.place or Place.HEM
    others = [edge for edge in edges_at(piece, place) if edge.name != hem.name]
    alone = with_edges(piece, *(replace(edge, place=None) for edge in others))
    darted = any(edge.role is Role.DART_LEG for edge in alone.beside(hem.name))
    laid = _outline_from(alone, hem) if darted else None
    by_itself = replace(pattern, pieces=(alone,), seams=(), derived=(), measures=())
    strip = draw_strip(by_itself, alone, {place: by}, name=name, laid=laid)
    raised = cut_away(alone, strip, hem.name, Role.HEM, place, allowance, over_darts=darted)
    return with_edges(raised, *(replace(raised.edge(edge.name), place=place) for edge in others))


def _outline_from(piece: Piece, hem: Edge) -> LaidRound:
    """The hem, what follows it on the outline and what comes before it, walked away from it, its darts open."""
    at = piece.index(hem.name)
    ring = (*piece.edges[at + 1 :], *piece.edges[:at])
    onward = tuple(LaidEdge(EdgeRef(piece.name, edge.name), edge) for edge in ring)
    back = (
        LaidEdge(EdgeRef(piece.name, edge.name, backward=True), replace(edge, curves=run_reversed(edge.curves)))
        for edge in reversed(ring)
    )
    return (LaidEdge(EdgeRef(piece.name, hem.name), hem),), onward, tuple(back)
