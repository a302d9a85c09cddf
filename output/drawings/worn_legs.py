"""Trousers as they hang: what wraps the body between the legs is drawn in, so that the legs lie beside each other."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from drafting.geometry import Point
from drafting.pattern import Piece, Place
from output.drawings.flat_shape import FlatShape, mapped_shape

__all__ = ["as_worn", "has_legs"]

_APART: Final = 5.0
"""mm from the middle to the inside leg, so that two legs are seen (ours)."""


def has_legs(piece: Piece) -> bool:
    """Whether a piece has a leg: half of a pair of trousers, a romper or dungarees."""
    return any(edge.place is Place.INSEAM for edge in piece.edges)


def as_worn(shape: FlatShape) -> FlatShape:
    """The shape with its centre, crotch and inside leg at the middle of the body, its side where it is."""
    inner = shape.line(Place.CENTRE_FRONT, Place.CENTRE_BACK, Place.CROTCH, Place.INSEAM)
    legs, outer = shape.line(Place.INSEAM), shape.line(Place.SIDE)
    if not legs or not outer:
        return shape
    outward = 1.0 if outer[0].x > inner[0].x else -1.0
    fork = max(p.y for p in legs)

    def place(p: Point) -> Point:
        within = outward * _at(inner, min(p.y, max(q.y for q in inner)), outward)
        side = outward * _at(outer, min(p.y, max(q.y for q in outer)), outward)
        middle = max(within, _APART) if p.y < fork else 0.0
        share = (outward * p.x - within) / max(1.0, side - within)
        return Point(outward * (middle + share * max(1.0, side - middle)), p.y)

    return mapped_shape(shape, place)


def _at(line: Sequence[Point], y: float, outward: float) -> float:
    """How far across a line is at a height: the one nearest to the middle where it is met twice."""
    found = []
    for a, b in pairwise(line):
        if min(a.y, b.y) <= y <= max(a.y, b.y):
            found.append(a.x if a.y == b.y else a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
    if not found:
        found = [min(line, key=lambda p: abs(p.y - y)).x]
    return min(found, key=lambda x: outward * x)
