"""When elastic is drawn into a casing: when the seams that the casing runs over are closed."""

from __future__ import annotations

from drafting.pattern import Place
from drafting.pattern.casings import casings
from drafting.sewing.sewing_step import Act, SewingStep
from drafting.sewing.stages import Found, Sewing, Stage

__all__ = ["elastic_drawn_in"]


def elastic_drawn_in(sewing: Sewing) -> Found:
    """A step for each kind of casing: turned in, the elastic drawn through, its ends joined."""
    for casing in casings(sewing.pattern):
        pieces = tuple(dict.fromkeys(ref.piece for ref in casing.edges))
        part = sewing.pattern.piece(pieces[0]).identity.part
        depth = max(sewing.pattern.piece(ref.piece).edge(ref.edge).allowance for ref in casing.edges)
        stage = Stage.BAND if casing.place is Place.WAIST else Stage.HEMS
        yield stage, SewingStep(Act.CASING, casing.place, part, pieces, edges=casing.edges, depth=depth)
