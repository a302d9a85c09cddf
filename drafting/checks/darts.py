"""Can the darts be sewn: legs of one length."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.checks.base import Check, Result, graded
from drafting.checks.seams import SEAM_PASS
from drafting.pattern import Pattern

__all__ = ["LEGS", "look_at_legs"]

LEGS = 0.5
"""mm by which the two legs of a dart may differ: they are short and cut from one piece, so a third of a seam's 1.5 mm
(our figure; that they must be equal is common practice). Up to a seam's own 1.5 mm is a warning."""


def look_at_legs(check: Check, pattern: Pattern) -> Iterator[Result]:
    """The legs of every dart; measured is the first, wanted the second, mm."""
    for piece in pattern.pieces:
        for dart in piece.darts:
            one, other = (piece.edge(name).length for name in dart.legs)
            off = abs(one - other)
            longer = dart.legs[0] if one > other else dart.legs[1]
            yield check.result(
                f"{piece.name}: {dart.name}",
                graded(off, passing=LEGS, warning=SEAM_PASS),
                measured=one,
                wanted=other,
                allowed=LEGS,
                remedy=f'The leg "{longer}" is {off:.1f} mm longer: move the dart point until both legs are equal.',
            )
