"""A skirt for the picture of the garment: its rows from the waist down, its pleats closed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from drafting.geometry import Point, lerp
from drafting.pattern import Pattern, Piece, Place, edges_at
from drafting.pattern.pleats import pleats_of
from output.drawings.flat_shape import FlatShape, mapped_shape

__all__ = ["bottom_line", "pleats_closed", "rows_of", "top_line"]

_STEPS: Final = 24  # parts of a fold line, each of which is bent with the rest
_BETWEEN: Final = (Place.YOKE, Place.TIER)
"""What lies between two rows: the seam of a yoke or a band, and of two tiers."""


def rows_of(pattern: Pattern, pieces: Iterable[Piece]) -> list[list[Piece]]:
    """The pieces row by row: a yoke and what hangs from it, tier below tier."""
    waiting = list(pieces)
    rows = [[piece for piece in waiting if edges_at(piece, Place.WAIST)]]
    waiting = [piece for piece in waiting if piece not in rows[0]]
    while waiting:
        above = {piece.name for piece in rows[-1]}
        below = {
            ref.piece
            for seam in pattern.seams
            for run, other in ((seam.a, seam.b), (seam.b, seam.a))
            if all(ref.piece in above for ref in other)
            for ref in run
            if pattern.piece(ref.piece).edge(ref.edge).place in _BETWEEN
        }
        row = [piece for piece in waiting if piece.name in below]
        if not row:
            rows[-1] += waiting
            break
        rows.append(row)
        waiting = [piece for piece in waiting if piece not in row]
    return [row for row in rows if row]


def top_line(shapes: Iterable[FlatShape]) -> tuple[Point, ...]:
    """The upper edge of a row from the centre outward."""
    return _line(shapes, upper=True)


def bottom_line(shapes: Iterable[FlatShape]) -> tuple[Point, ...]:
    """The lower edge of a row from the centre outward."""
    return _line(shapes, upper=False)


def _line(shapes: Iterable[FlatShape], *, upper: bool) -> tuple[Point, ...]:
    out: list[Point] = []
    for shape in shapes:
        high, low = max(p.y for p in shape.outline), min(p.y for p in shape.outline)
        for edge, line in shape.edges:
            middle = sum(p.y for p in line) / len(line)
            at_waist = upper and edge.place is Place.WAIST
            if at_waist or (edge.place in _BETWEEN and (middle > 0.5 * (high + low)) is upper):
                out += line
    return tuple(sorted(out, key=lambda p: abs(p.x)))


def pleats_closed(shape: FlatShape) -> FlatShape:
    """A shape with its pleats folded, as wide everywhere as at the hip, and their folds drawn as darts are."""
    gone = [tuple(sorted((each.fold.end.x, each.place.end.x))) for each in pleats_of(shape.piece)]
    if not gone:
        return shape
    right = sum(p.x for p in shape.outline) > 0.0  # a front lies to the left of its centre line

    def place(p: Point) -> Point:
        if right:
            return Point(p.x - sum(max(0.0, min(p.x, b) - a) for a, b in gone), p.y)
        return Point(p.x + sum(max(0.0, b - max(p.x, a)) for a, b in gone), p.y)

    ends = {round(p.x, 3) for edge in shape.piece.edges for p in (edge.start, edge.end)}
    inner = [each.fold for each in pleats_of(shape.piece) if round(each.fold.end.x, 3) not in ends]
    down = [[lerp(Point(fold.end.x, fold.start.y), fold.end, k / _STEPS) for k in range(_STEPS + 1)] for fold in inner]
    return mapped_shape(replace(shape, darts=(*shape.darts, *map(tuple, down))), place)
