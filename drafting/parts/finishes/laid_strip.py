"""The edges that a facing is traced from: those it runs along and those beside them, laid out with the darts folded."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Final

from drafting.geometry import run_reversed
from drafting.parts.folded_outline import LaidEdge, laid_from
from drafting.pattern import Pattern, Piece, Place, Role

__all__ = ["LAPPING", "LaidRound", "laid_round", "laps_over", "turned_about"]

LaidRound = tuple[tuple[LaidEdge, ...], tuple[LaidEdge, ...], tuple[LaidEdge, ...]]
"""The edges that are faced, those that follow them, and those that come before, walked away from them."""

LAPPING: Final = (Place.STAND_EDGE, Place.WRAP_EDGE)
"""Edges that lap over: a corner lies between one of them and what it meets."""


def laps_over(each: LaidEdge) -> bool:
    """Whether an edge laps over."""
    return each.edge.place in LAPPING


def laid_round(pattern: Pattern, piece: Piece, depths: Mapping[Place, float]) -> LaidRound:
    """The edges that are faced, those after them, and those before them; the last are walked away from the facing."""

    def along(walk: Iterable[LaidEdge]) -> Iterator[LaidEdge]:
        """The edges of a walk that are faced: up to an edge that laps over, without the edges behind that."""
        for count, each in enumerate(walk):
            if each.edge.place not in depths:
                return
            yield each
            if count and laps_over(each):
                return

    some = next(edge for edge in piece.edges if edge.place is next(iter(depths)) and edge.role is not Role.DART_LEG)
    *_, first = along(laid_from(pattern, piece, some.name, onward=False))
    start = pattern.piece(first.ref.piece)
    onward = tuple(laid_from(pattern, start, first.ref.edge, onward=True))
    faced = tuple(along(onward))
    back = tuple(laid_from(pattern, start, first.ref.edge, onward=False))
    return faced, onward[len(faced) :], back[1:]


def turned_about(each: LaidEdge) -> LaidEdge:
    """The laid edge, walked the other way."""
    return replace(each, edge=replace(each.edge, curves=run_reversed(each.edge.curves)))
