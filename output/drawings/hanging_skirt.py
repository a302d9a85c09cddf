"""A flared skirt as it hangs from the waist: cloth of a circle falls in folds and never stands off the body level."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import cache
from itertools import accumulate, pairwise
from typing import Final

from drafting.geometry import Point, distance, lerp
from output.drawings.flat_shape import FlatShape, mapped_shape
from output.drawings.skirt_rows import bottom_line, top_line

__all__ = ["as_it_hangs"]

_STANDS_OFF: Final = math.tan(math.radians(24.0))
"""How far the side of a skirt leaves the body on its way down, as a share of that way (ours)."""

_SHORT: Final = 200.0
"""mm from its upper edge to its lower within which a row is a band or a yoke, and lies as it is cut (ours)."""

_RISES: Final = 15.0
"""mm that a waist is higher at the side than at the centre, on the body (ours)."""

_WAVE: Final = 9.0
"""mm by which the hem rises and falls along its folds (ours)."""

_FOLDS_RISE: Final = 0.55
"""How far up from the hem a fold is seen, as a share of the length (ours)."""


def as_it_hangs(row: Sequence[FlatShape]) -> tuple[list[FlatShape], list[tuple[Point, ...]]]:
    """A row of a skirt, its upper edge drawn level, and its folds; as it is where it is no wider than it would hang."""
    waist = top_line(row)
    every = [p for shape in row for p in shape.outline]
    if len(waist) < 2:
        return list(row), []
    below = _from(waist)
    long = max(below(p)[1] for p in every)
    widest = max(abs(p.x) for p in every)
    if long < _SHORT and abs(waist[-1].y - waist[0].y) > _RISES:
        return _unrolled(row, waist), []
    if long < _SHORT or widest - abs(waist[-1].x) <= 1.3 * _STANDS_OFF * long:
        return list(row), []
    round_waist = sum(distance(a, b) for a, b in pairwise(waist))
    outward = -1.0 if waist[-1].x < 0.0 else 1.0
    folds = max(2, round((widest - round_waist) / long * 3.0))

    def hung(share: float, deep: float) -> Point:
        at = deep / long
        wave = _WAVE * at**3 * math.cos(2.0 * math.pi * folds * share)
        return Point(outward * share * (round_waist + _STANDS_OFF * deep), waist[0].y - deep + wave)

    def place(p: Point) -> Point:
        share, deep = below(p)
        return hung(share, deep)

    tops = ((k + 0.5) / folds for k in range(folds))
    lines = [
        tuple(hung(share, long * (1.0 - _FOLDS_RISE * (0.6 + 0.4 * (k % 2)) * step / 8)) for step in range(9))
        for k, share in enumerate(tops)
    ]
    return [mapped_shape(shape, place) for shape in row], lines


def _unrolled(row: Sequence[FlatShape], waist: Sequence[Point]) -> list[FlatShape]:
    """A yoke, which is cut as a part of a ring, as it lies on the body: its two edges nearly level."""
    lower = bottom_line(row)
    above, below = (sum(distance(a, b) for a, b in pairwise(line)) for line in (waist, lower))
    if len(lower) < 2:
        return list(row)
    from_waist = _from(waist)
    deep = from_waist(lower[0])[1]
    outward = -1.0 if waist[-1].x < 0.0 else 1.0

    def place(p: Point) -> Point:
        share, down = from_waist(p)
        wide = above + (below - above) * down / deep
        return Point(outward * share * wide, waist[0].y + _RISES * share * share - down)

    return [mapped_shape(shape, place) for shape in row]


def _from(waist: Sequence[Point]) -> Callable[[Point], tuple[float, float]]:
    """How far along the waist the nearest place of it is, as a share of it, and how far away, mm: for any point."""
    gone = [0.0, *accumulate(distance(a, b) for a, b in pairwise(waist))]
    parts = [
        (a, b, b - a, distance(a, b) ** 2, start) for (a, b), start in zip(pairwise(waist), gone[:-1], strict=True)
    ]

    @cache
    def below(p: Point) -> tuple[float, float]:
        best = (math.inf, 0.0)
        for a, b, along, square, start in parts:
            share = min(1.0, max(0.0, (p - a).dot(along) / square)) if square else 0.0
            best = min(best, (distance(p, lerp(a, b, share)), start + share * math.sqrt(square)))
        return (best[1] / gone[-1] if gone[-1] else 0.0), best[0]

    return below
