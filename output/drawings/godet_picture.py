"""Godets in the picture of the garment: the hem over a slit, and the cloth that falls beside a seam."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from drafting.geometry import Point, Vec, distance, lerp
from drafting.pattern import Pattern, PieceKind, Place, edges_at, pieces_of
from output.drawings.drawing import LineKind
from output.drawings.flat_shape import FlatShape

__all__ = ["godet_lines"]

_AT_SIDE: Final = 0.45  # of its hem, how far a godet in a side seam stands out, folded in two (ours)
_FOLD: Final = 0.18  # of its hem, how far from a seam within the skirt a fold of it lies (ours)
_DIPS: Final = 8.0  # mm by which the hem of a godet in a slit hangs lower in its middle (ours)


def godet_lines(pattern: Pattern, shapes: Sequence[FlatShape]) -> Iterator[tuple[LineKind, tuple[Point, ...]]]:
    """The lines of the godets that are sewn to these shapes of one half of the body."""
    wide = _let_in(pattern)
    every = [p.x for shape in shapes for p in shape.outline]
    outward = -1.0 if sum(every) < 0.0 else 1.0
    for shape in shapes:
        found = [(edge, line) for edge, line in shape.edges if (shape.piece.name, edge.name) in wide]
        low = [line[0] for edge, line in found if edge.place is Place.GODET]
        low += [line[-1] for edge, line in found if edge.place is Place.GODET]
        if low:  # a slit: its two edges come together at its point
            one, *_, other = sorted(low, key=lambda p: (round(p.y), p.x))[: len(low) // 2]
            yield LineKind.TO_SEW, (one, lerp(one, other, 0.5) + Vec(0.0, -_DIPS), other)
        for edge, line in found:
            high, foot = (line[0], line[-1]) if line[0].y > line[-1].y else (line[-1], line[0])
            hem = wide[shape.piece.name, edge.name]
            if edge.place is Place.SIDE:
                out = _as_long(high, foot + Vec(outward * _AT_SIDE * hem, 0.0), foot)
                yield LineKind.TO_SEW, (high, out, foot)
            elif edge.place is not Place.GODET:
                own = sum(p.x for p in shape.outline) / len(shape.outline) - foot.x
                aside = _FOLD * hem if own > 0.0 else -_FOLD * hem
                yield LineKind.IN_HAND, (lerp(high, foot, 0.3), foot + Vec(aside, 0.0))


def _let_in(pattern: Pattern) -> Mapping[tuple[str, str], float]:
    """The edges of other pieces that a godet is sewn to, by piece and edge, with the length of its hem, mm."""
    hems = {
        panel.name: sum(edge.length for edge in edges_at(panel, Place.HEM))
        for panel in pieces_of(pattern, PieceKind.PANEL)
        if edges_at(panel, Place.GODET)
    }
    return {
        (ref.piece, ref.edge): hems[godet[0].piece]
        for seam in pattern.seams
        for godet, other in ((seam.a, seam.b), (seam.b, seam.a))
        if godet[0].piece in hems
        for ref in other
    }


def _as_long(high: Point, goal: Point, foot: Point) -> Point:
    """The place toward a goal that is as far from the point of a godet as the foot of its seam."""
    return high + (goal - high).unit() * distance(high, foot)
