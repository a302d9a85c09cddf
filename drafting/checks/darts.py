"""Can the darts be sewn: legs of one length."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.checks.base import Check, Look, Result, graded, look
from drafting.checks.seams import SEAM_PASS
from drafting.pattern import Dart, Edge, Pattern

__all__ = ["LEGS", "look_at_legs"]

LEGS = 0.5
"""mm by which the two legs of a dart may differ: they are short and cut from one piece, so a third of a seam's 1.5 mm
(our figure; that they must be equal is common practice). Up to a seam's own 1.5 mm is a warning."""


def look_at_legs(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """The legs of every dart; measured is the first, wanted the second, mm."""
    for piece in pattern.pieces:
        for dart in piece.darts:
            yield look(_legs, piece.name, dart, piece.edge(dart.legs[0]), piece.edge(dart.legs[1]))


def _legs(check: Check, piece: str, dart: Dart, one: Edge, other: Edge) -> Iterator[Result]:
    off = abs(one.length - other.length)
    longer = one.name if one.length > other.length else other.name
    yield check.result(
        f"{piece}: {dart.name}",
        graded(off, passing=LEGS, warning=SEAM_PASS),
        measured=one.length,
        wanted=other.length,
        allowed=LEGS,
        remedy=f'The leg "{longer}" is {off:.1f} mm longer: move the dart point until both legs are equal.',
    )
