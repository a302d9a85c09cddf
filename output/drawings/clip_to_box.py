"""Cutting a drawing to a rectangle: the lines themselves are cut, so nothing reaches outside for any reader."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from drafting.geometry import Curve, Line, Point, Vec, line_hits, point_at, split
from output.drawings.drawing import Box, Item, Text
from output.drawings.lettering import corners

__all__ = ["curve_within", "hull_box", "item_box", "within"]

_SAME_PARAMETER = 1e-9


def within(curves: Iterable[Curve], box: Box) -> tuple[Curve, ...]:
    """What of the curves lies inside the box, in the same order and direction."""
    kept: list[Curve] = []
    for curve in curves:
        kept.extend(curve_within(curve, box))
    return tuple(kept)


def curve_within(curve: Curve, box: Box, hull: Box | None = None) -> tuple[Curve, ...]:
    """The parts of one curve inside the box; the curve itself where all of it is. A part along a side counts.

    hull: the `hull_box` of the curve, where it is known
    """
    hull = hull or hull_box(curve)
    if box.apart(hull):
        return ()
    if box.holds(Point(hull.left, hull.bottom)) and box.holds(Point(hull.right, hull.top)):
        return (curve,)
    stops = _stops(curve, box)
    parts = []
    for low, high in pairwise(stops):
        middle = point_at(curve, 0.5 * (low + high))
        if high - low > _SAME_PARAMETER and box.holds(middle):
            parts.append(_between(curve, low, high))
    return tuple(parts)


def hull_box(curve: Curve) -> Box:
    """A box that surely holds the curve: that of its end points and handles."""
    return _around(
        (curve.start, curve.end) if isinstance(curve, Line) else (curve.start, curve.c1, curve.c2, curve.end)
    )


def item_box(item: Item) -> Box:
    """A box that surely holds a stroke, or the room of a text."""
    if isinstance(item, Text):
        return _around(corners(item))
    hulls = [hull_box(curve) for curve in item.curves]
    return _around([p for box in hulls for p in (Point(box.left, box.bottom), Point(box.right, box.top))])


def _around(points: Sequence[Point]) -> Box:
    xs, ys = [p.x for p in points], [p.y for p in points]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _stops(curve: Curve, box: Box) -> list[float]:
    """Where the curve crosses the lines of the four sides, with both its ends, in order."""
    across, up = Vec(1.0, 0.0), Vec(0.0, 1.0)
    low, high = Point(box.left, box.bottom), Point(box.right, box.top)
    sides = ((low, across), (low, up), (high, across), (high, up))
    return sorted({0.0, 1.0, *(hit.t for corner, way in sides for hit in line_hits(curve, corner, way))})


def _between(curve: Curve, low: float, high: float) -> Curve:
    before = split(curve, high)[0] if high < 1.0 else curve
    return split(before, low / high)[1] if low > 0.0 else before
