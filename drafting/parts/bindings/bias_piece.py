"""The strip of a bias binding as a piece."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Final

from drafting.geometry import Line, Point
from drafting.parts.bands.band_edge import Stretch
from drafting.pattern import Cut, Edge, Grain, Identity, Notch, Piece, PieceKind, Place, Role

__all__ = ["END_SEAM", "bias_piece"]

END_SEAM: Final = 6.0  # mm that is sewn in where the ends of a strip meet (common practice)
_ON_GRAIN: Final = 0.4  # of its depth, to either side of its middle: at 45 degrees (a bias strip)


def bias_piece(
    name: str,
    stretches: Sequence[Stretch],
    deep: float,
    allowances: tuple[float, float],
    count: int,
    notches: Sequence[Notch],
) -> Piece:
    """The strip, so many mm deep between the two lines on which it is sewn, its lower left corner at the origin.

    allowances: along it, and at its two ends, mm
    """
    seam, at_ends = allowances
    xs = list(accumulate((each.rest for each in stretches), initial=0.0))
    whole = xs[-1]
    lower = [
        Edge(each.name, (Line(Point(a, 0.0), Point(b, 0.0)),), Role.SEAM, seam, Place.BAND_EDGE)
        for each, (a, b) in zip(stretches, pairwise(xs), strict=True)
    ]
    rest = [
        Edge(called, (Line(a, b),), Role.SEAM, allowance, place)
        for called, a, b, allowance, place in (
            ("end", Point(whole, 0.0), Point(whole, deep), at_ends, Place.BAND_END),
            ("upper edge", Point(whole, deep), Point(0.0, deep), seam, Place.BAND_EDGE),
            ("beginning", Point(0.0, deep), Point(0.0, 0.0), at_ends, Place.BAND_END),
        )
    ]
    half = _ON_GRAIN * deep
    grain = Grain(Point(0.5 * whole - half, 0.5 * deep - half), Point(0.5 * whole + half, 0.5 * deep + half))
    identity = Identity(PieceKind.BINDING, None)
    return Piece(name, (*lower, *rest), Cut(count), grain, notches=tuple(notches), identity=identity)
