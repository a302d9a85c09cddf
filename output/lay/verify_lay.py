"""The lay judged by an independent polygon library: nothing overlaps, nothing lies off the cloth or off its fold."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Final

from drafting.geometry import Point
from output.lay.lay_values import Lay, Stretch

__all__ = ["faults_in_lay"]

_ROUNDING: Final = 1e-6  # mm
_NEARER: Final = 0.1  # mm that two pieces may be nearer than the gap: the solver works in single precision


def faults_in_lay(lay: Lay) -> tuple[str, ...]:
    """A sentence for each two pieces that overlap or lie nearer than the gap, and each that lies off the cloth."""
    return tuple(fault for stretch in lay.stretches for fault in _faults(stretch))


def _faults(stretch: Stretch) -> Iterator[str]:
    """What is wrong with a lay, in sentences: pieces off the cloth, turned wrongly, or too near to each other."""
    from shapely import Polygon

    cloth = stretch.cloth
    shapes = [(each, Polygon([(p.x, p.y) for p in each.outline])) for each in stretch.placements]
    for placed, shape in shapes:
        name = placed.piece.name
        if not shape.is_valid:
            yield f"{name}: its outline crosses itself"
        left, bottom, _, top = shape.bounds
        lowest = cloth.bottom(on_fold=placed.piece.on_fold) - _ROUNDING
        reaches = [sorted((strip.y(bottom), strip.y(top))) for strip in cloth.strips]
        within = [low for low, high in reaches if lowest <= low and high <= cloth.top + _ROUNDING]
        if left < cloth.start - _ROUNDING or not within:
            yield f"{name}: it lies off the cloth"
        if placed.piece.on_fold and min(abs(low) for low, _ in reaches) > _ROUNDING:
            yield f"{name}: it does not lie at the fold"
        if cloth.repeat_across and placed.piece.middle is not None:
            middle = placed.move.point(Point(0.0, placed.piece.middle)).y
            if not any(cloth.on_middle(strip.y(middle)) for strip in cloth.strips):
                yield f"{name}: its middle does not lie on a middle of the pattern"
        if placed.turned and True not in cloth.turns:
            yield f"{name}: it lies upside down on cloth with a direction"
        if not placed.piece.on_fold and placed.flipped not in placed.piece.flips:
            yield f"{name}: it lies on its wrong side"
    for (one, a), (other, b) in combinations(shapes, 2):
        if a.distance(b) < cloth.gap - _NEARER:
            yield f"{one.piece.name} and {other.piece.name}: they lie over each other or without a gap"
