"""A line redrawn without its corners: as long as before, and turning through the same angle in all.

The neck of a collar is drawn so. Where two pieces are laid together with their shoulders lapped, the neck has a corner.
The line is written down as its direction at each length; a corner is spread over the cloth on both sides of it; and the
line is drawn again from its directions.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Final

from drafting.geometry import (
    Curve,
    Point,
    Vec,
    end_tangents,
    mapped,
    polar,
    run_length,
    run_tangent,
    smooth_through,
)
from drafting.geometry.tolerance import SOLVED

__all__ = ["Direction", "direction_along", "drawn_from", "grown_to"]

Direction = Callable[[float], float]
"""Which way a line goes, radians, so many mm from its start."""

_STEP: Final = 5.0  # mm between the places at which a direction is read
_SPREAD: Final = 30.0  # mm on either side of a corner over which it is spread (ours)
_FURTHER: Final = 60.0  # mm more for each radian that it turns by (ours)
_CORNER: Final = math.radians(0.05)  # what turns by less at a joint runs straight on
_KNOTS: Final = 16.0  # mm between the places that a drawn line goes through
_GAUSS: Final = ((-0.7745966692414834, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.7745966692414834, 5.0 / 9.0))


def direction_along(runs: Sequence[Sequence[Curve]]) -> tuple[Direction, float]:
    """Which way a line of these runs goes, its corners spread, and how long it is, mm."""
    places: list[float] = []
    turned: list[float] = []
    corners: list[float] = []
    gone = 0.0
    for run in runs:
        whole = run_length(run, SOLVED)
        count = max(2, math.ceil(whole / _STEP))
        read = [k / count * whole for k in range(count + 1)]
        ways = [end_tangents(run[0])[0], *(run_tangent(run, at) for at in read[1:-1]), end_tangents(run[-1])[1]]
        for at, way in zip(read, ways, strict=True):
            angle = way.angle()
            if turned:
                angle = turned[-1] + math.remainder(angle - turned[-1], 2.0 * math.pi)
            if at == 0.0 and turned and abs(angle - turned[-1]) > _CORNER:
                corners.append(gone)
            places.append(gone + at)
            turned.append(angle)
        gone += whole
    for corner in corners:
        places, turned = _spread(places, turned, corner, gone)

    def direction(at: float) -> float:
        k = min(max(bisect_right(places, at), 1), len(places) - 1)
        low, high = places[k - 1], places[k]
        share = (at - low) / (high - low) if high > low else 0.0
        return turned[k - 1] + (turned[k] - turned[k - 1]) * share

    return direction, gone


def _spread(
    places: Sequence[float], turned: Sequence[float], corner: float, whole: float
) -> tuple[list[float], list[float]]:
    """The readings with a corner, and what turns near it, turned evenly over the cloth beside it."""
    at = next(k for k, (one, other) in enumerate(pairwise(places)) if one == other == corner)
    reach = min(_SPREAD + _FURTHER * abs(turned[at + 1] - turned[at]), corner, whole - corner)
    first = max(k for k, place in enumerate(places) if place <= corner - reach)
    last = min(k for k, place in enumerate(places) if place >= corner + reach)
    low, high = places[first], places[last]
    before, after = _rate(places, turned, first - 1), _rate(places, turned, last)
    whole_turn, long = turned[last] - turned[first], high - low
    out = [(place, angle) for place, angle in zip(places[: first + 1], turned, strict=False)]
    for place in dict.fromkeys(places[first + 1 : last]):
        t = (place - low) / long
        # a cubic between the two directions that turns at its ends as the line does there
        eased = whole_turn * t * t * (3.0 - 2.0 * t)
        out.append((place, turned[first] + eased + long * t * (1.0 - t) * (before * (1.0 - t) - after * t)))
    out += zip(places[last:], turned[last:], strict=True)
    return [place for place, _ in out], [angle for _, angle in out]


def _rate(places: Sequence[float], turned: Sequence[float], k: int) -> float:
    """How fast the line turns there, radians for each mm; 0 at its ends."""
    if not 0 <= k < len(places) - 1 or places[k] == places[k + 1]:
        return 0.0
    return (turned[k + 1] - turned[k]) / (places[k + 1] - places[k])


def drawn_from(direction: Direction, length: float) -> tuple[Curve, ...]:
    """The line that goes so, from the origin, so many mm long."""
    count = max(2, math.ceil(length / _KNOTS))
    at = [length * k / count for k in range(count + 1)]
    places = [Point(0.0, 0.0)]
    for one, other in pairwise(at):
        middle, half = 0.5 * (one + other), 0.5 * (other - one)
        step = Vec(0.0, 0.0)
        for node, weight in _GAUSS:
            step = step + polar(direction(middle + node * half), weight * half)
        places.append(places[-1] + step)
    run = smooth_through(places, polar(direction(0.0)), polar(direction(length)))
    return grown_to(run, length)


def grown_to(run: Sequence[Curve], length: float) -> tuple[Curve, ...]:
    """The run made larger or smaller as a whole, about its start, so that it is so many mm long."""
    start, by = run[0].start, length / run_length(run, SOLVED)
    return mapped(run, lambda place: start + (place - start) * by)
