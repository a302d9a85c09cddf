"""A garment that orders a nest, drafted in each of its sizes."""

from __future__ import annotations

from blocks.garment import Garment, finish
from blocks.nest import nest_members
from drafting.pattern import Nest, Sized

__all__ = ["draft_nest"]


def draft_nest(garment: Garment) -> Nest:
    """The garment in each size of its nest, every step taken in each."""
    members = nest_members(garment)
    sizes = tuple(Sized(size, finish(member, drafted=pattern)) for size, member, pattern in members)
    return Nest(garment.title, sizes)
