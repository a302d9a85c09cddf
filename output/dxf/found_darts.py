"""The darts in a stranger's outline: two edges as long as each other, that run into the piece and back from a point."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.geometry import Vec, distance
from drafting.pattern import Dart, Edge, Role

__all__ = ["with_found_darts"]

_ALIKE: Final = 3.0
"""mm by which the legs of one dart may differ and still be meant as one; the check says what is too much."""

_SHORTEST: Final = 30.0
_WIDEST: Final = 90.0
_STEEPEST: Final = math.radians(40.0)
"""mm, mm, and the angle between the legs: a V neck is wider, a nick of the outline shorter (our figures)."""

_INTO: Final = math.radians(20.0)
"""An outline turns by at least this where it goes into a dart, and where it comes out of it (our figure)."""


def with_found_darts(edges: Sequence[Edge]) -> tuple[tuple[Edge, ...], tuple[Dart, ...]]:
    """The edges of a closed outline with the legs of plain darts marked as such, and the darts: "dart 1", "dart 2"."""
    found = list(edges)
    darts: list[Dart] = []
    for at, into in enumerate(edges):
        following = (at + 1) % len(edges)
        out = edges[following]
        if len(edges) > 3 and _is_dart(edges[at - 1], into, out, edges[(at + 2) % len(edges)]):
            found[at], found[following] = (replace(leg, role=Role.DART_LEG, allowance=0.0) for leg in (into, out))
            darts.append(Dart(f"dart {len(darts) + 1}", (into.name, out.name), into.end))
    return tuple(found), tuple(darts)


def _is_dart(before: Edge, into: Edge, out: Edge, after: Edge) -> bool:
    """Whether two edges, between the one before and the one after them, are the legs of a dart."""
    if Role.FOLD in (into.role, out.role):
        return False
    mouth, shorter = distance(into.start, out.end), min(into.length, out.length)
    sized = shorter >= _SHORTEST and mouth <= min(_WIDEST, shorter) and abs(into.length - out.length) <= _ALIKE
    runs_in, runs_out = _turn(_chord(before), _chord(into)), _turn(_chord(out), _chord(after))
    at_point = _turn(_chord(into), _chord(out))
    return sized and at_point <= _STEEPEST - math.pi and min(runs_in, runs_out) >= _INTO


def _chord(edge: Edge) -> Vec:
    return edge.end - edge.start


def _turn(one: Vec, other: Vec) -> float:
    """By how much the outline turns from one edge to the next, radians; above zero to the left."""
    return one.angle_to(other)
