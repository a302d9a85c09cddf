"""What hangs from a seam, drawn up to it: a skirt on a waist, a gathered piece on a yoke."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.geometry import Point, Vec
from drafting.pattern import CENTRES, BodyPart, Place
from drafting.pattern.pleats import is_pleated
from output.drawings.flat_shape import FlatShape, mapped_shape
from output.drawings.skirt_rows import top_line

__all__ = ["height_at", "hung_from", "sewn_on", "waist_of"]

_UPRIGHT: Final = 3.0
"""mm that a centre seam strays from a straight line before it is drawn upright (ours)."""

_DRAWN_UP: Final = 180.0
"""mm below the waist over which a skirt widens from the waist it is sewn to, to its own width."""

_GATHERED: Final = 0.85
"""The share of its own waist to which a skirt is drawn up, below which it is gathered (ours)."""

_STANDS_OFF: Final = 0.4
"""How far the side of a gathered skirt leaves the body on its way down, as a share of that way (ours)."""

_FOLDS: Final = 14
"""How many folds are drawn in the half of a gathered skirt."""

_FOLD_DEPTHS: Final = (0.2, 0.1, 0.35, 0.08, 0.26)
"""How far down they reach, in turn, as shares of the skirt."""


def sewn_on(above: Sequence[Point], skirt: Sequence[FlatShape]) -> tuple[list[FlatShape], list[tuple[Point, ...]]]:
    """The skirt with its waist laid onto a line, drawn up to it where it is wider; and the folds of its gathers."""
    below = top_line(skirt)
    if len(above) < 2 or len(below) < 2:
        return list(skirt), []
    drop = Vec(0.0, above[0].y - below[0].y)
    wide = abs(above[-1].x) / max(1.0, abs(below[-1].x))
    gathered = wide <= _GATHERED and not any(is_pleated(shape.piece) for shape in skirt)

    # what is gathered falls wide as a whole, down to the hem, but stands off the body by no more than cloth does
    long = max(p.y for p in below) - min(p.y for s in skirt for p in s.outline)
    reach = long if gathered else _DRAWN_UP
    falls = min(1.0, (abs(above[-1].x) + _STANDS_OFF * long) / max(1.0, abs(below[-1].x))) if gathered else 1.0

    def place(p: Point) -> Point:
        share = abs(p.x) / max(1.0, abs(below[-1].x))
        waist, goal = height_at(below, share), height_at(above, share)
        fades = max(0.0, 1.0 - max(0.0, waist - p.y) / reach)
        eased = fades * fades * (3.0 - 2.0 * fades)
        return Point(p.x * (falls + (wide - falls) * eased), p.y + drop.y + (goal - waist - drop.y) * eased)

    folds = []
    for k in range(_FOLDS if gathered else 0):
        x, y = below[-1].x * (k + 0.5) / _FOLDS, height_at(below, (k + 0.5) / _FOLDS)
        deep = long * _FOLD_DEPTHS[k % len(_FOLD_DEPTHS)]
        folds.append(tuple(place(Point(x, y - deep * step / 8)) for step in range(9)))
    return [mapped_shape(shape, place) for shape in skirt], folds


def hung_from(own: Iterable[Point], goal: Iterable[Point]) -> Callable[[Point], Point]:
    """Where the places of a piece lie when its upper edge is drawn up to another; further down less and less."""
    edge, seam = (sorted(line, key=lambda p: abs(p.x)) for line in (own, goal))
    wide = abs(seam[-1].x) / max(1.0, abs(edge[-1].x))

    def place(p: Point) -> Point:
        share = min(1.0, abs(p.x) / max(1.0, abs(edge[-1].x)))
        top = height_at(edge, share)
        near = max(0.0, 1.0 - max(0.0, top - p.y) / _DRAWN_UP)
        return Point(p.x * (1.0 + (wide - 1.0) * near), p.y + (height_at(seam, share) - top) * near)

    return place


def with_gathers(shape: FlatShape, own: Iterable[Point], goal: Iterable[Point]) -> FlatShape:
    """A shape with the folds of what is gathered where its upper edge is drawn up to a shorter one, as it is cut."""
    edge = sorted(own, key=lambda p: abs(p.x))
    if max(abs(p.x) for p in goal) > _GATHERED * abs(edge[-1].x):
        return shape
    long = edge[0].y - min(p.y for p in shape.outline)
    folds = []
    for k in range(_FOLDS):
        share = (k + 0.5) / _FOLDS
        top, deep = Point(share * edge[-1].x, height_at(edge, share)), long * _FOLD_DEPTHS[k % len(_FOLD_DEPTHS)]
        folds.append(tuple(top - Vec(0.0, deep * step / 8) for step in range(9)))
    return replace(shape, darts=(*shape.darts, *folds))


def with_centre_upright(shape: FlatShape) -> FlatShape:
    """A shape whose centre seam is curved, as that of a skirt of four gores is, as it hangs: straight down."""
    line = sorted(shape.line(*CENTRES), key=lambda p: p.y)
    if shape.piece.identity.part is not BodyPart.SKIRT or len(line) < 2 or max(abs(p.x) for p in line) < _UPRIGHT:
        return shape

    def off(y: float) -> float:
        for a, b in pairwise(line):
            if a.y <= y <= b.y and a.y < b.y:
                return a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y)
        return line[0].x if y < line[0].y else line[-1].x

    return mapped_shape(shape, lambda p: Point(p.x - off(p.y), p.y))


def height_at(waist: Sequence[Point], share: float) -> float:
    """How high a waist is at a share of its width."""
    x = share * abs(waist[-1].x)
    for a, b in pairwise(waist):
        if abs(b.x) >= x:
            wide = abs(b.x) - abs(a.x)
            return a.y + (b.y - a.y) * ((x - abs(a.x)) / wide if wide > 0.0 else 0.0)
    return waist[-1].y


def waist_of(shapes: Iterable[FlatShape]) -> tuple[Point, ...]:
    """The waist from the centre to the side, as far as it lies on this half of the body."""
    line = [p for shape in shapes for p in shape.line(Place.WAIST)]
    return tuple(sorted(line, key=lambda p: abs(p.x)))
