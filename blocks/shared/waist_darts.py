"""How many waist darts there are, where they lie along the sewn waist, and whether they came out too wide."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from blocks.shared.dart_edge import Opened
from drafting.geometry import distance
from drafting.pattern import Edge, Role, Station, widest_waist_dart

__all__ = ["DARTS", "darts_needed", "excess_dart_width", "spaced", "station_from_side"]

DARTS: Final = ("as needed", "one", "two", "three")
"""How many waist darts a half may be asked to have; three on the back of a skirt only."""


def darts_needed(intake: float, lengths: Sequence[float], *, least: int, spare: float) -> int:
    """The fewest darts of these lengths, `least` or more, that take in so much and are none too wide; else all of them.

    spare: mm by which each is to be narrower than the widest
    """
    fits = (n for n in range(least, len(lengths)) if intake / n <= widest_waist_dart(lengths[n - 1]) - spare)
    return next(fits, len(lengths))


def spaced(given: Sequence[float], count: int, whole: float) -> tuple[float, ...]:
    """Where darts lie along a waist `whole` mm long: at the given places, the others evenly from there to its end."""
    last = given[-1] if given else 0.0
    more = count - len(given[:count])
    return (*given[:count], *(last + (whole - last) * (i + 1) / (more + 1) for i in range(more)))


def excess_dart_width(waist: Opened) -> float:
    """By how much the widest dart is wider than one dart should be, mm; below zero where none is."""
    mouths = ((distance(one.start, other.end), one) for one, other in waist.legs)
    return max((wide - widest_waist_dart(distance(leg.start, leg.end)) for wide, leg in mouths), default=-1.0)


def station_from_side(edges: Sequence[Edge], at: float) -> Station:
    """The place `at` mm of sewn waist from its side, whatever darts lie between; edges from the side to the centre."""
    sewn = [edge for edge in edges if edge.role is Role.SEAM]
    for edge in sewn[:-1]:
        if at <= edge.length:
            return Station(edge.name, at)
        at -= edge.length
    return Station(sewn[-1].name, min(at, sewn[-1].length))
