"""Bands of knit in the picture of the garment: a line beyond the edge that each is sewn to, and its buttons."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from drafting.geometry import Point, Vec
from drafting.pattern import Landmark, Pattern, Piece, PieceKind, Place, Seam, edges_at, points_at, run_total
from drafting.pattern.gathered import is_stretched_on
from output.drawings.flat_shape import FlatShape

__all__ = ["bands_beyond", "buttons_on_band", "short_of_centre"]


def bands_beyond(pattern: Pattern, shapes: Sequence[FlatShape]) -> Iterator[tuple[Point, ...]]:
    """The outer edge of every band along the edges of these shapes."""
    drawn: set[tuple[str, str]] = set()
    for seam in _bands(pattern):
        wide = _width(pattern.piece(seam.b[0].piece))
        for ref in seam.a:
            shape = next((each for each in shapes if each.piece.name == ref.piece), None)
            if shape is not None and (ref.piece, ref.edge) not in drawn:
                drawn.add((ref.piece, ref.edge))
                at, line = next((edge, line) for edge, line in shape.edges if edge.name == ref.edge)
                beyond = _beyond(line, wide)
                if at.place is Place.HEM:  # it draws the hem in, and ends at the side
                    share = 0.5 + 0.5 * run_total(pattern, seam.b) / run_total(pattern, seam.a)
                    beyond = tuple(Point(p.x * share, p.y) for p in beyond)
                    beyond = (line[0], *beyond) if abs(line[0].x) > abs(line[-1].x) else (*beyond, line[-1])
                elif at.place is Place.NECK:  # it ends at the side of the neck
                    ends = sorted((line[0], line[-1]), key=lambda p: abs(p.x))
                    beyond = (*beyond, ends[1]) if ends[1] == line[-1] else (ends[1], *beyond)
                elif at.place is Place.CENTRE_FRONT:  # it goes on over the end of a band at the hem
                    low = min((0, -1), key=lambda k: line[k].y)
                    down = Vec(0.0, -_below_front(pattern))
                    foot = (beyond[low] + down, line[low] + down, line[low])
                    beyond = (*beyond, *foot) if low == -1 else (*foot[::-1], *beyond)
                yield beyond


def _below_front(pattern: Pattern) -> float:
    """How far a front band goes on below the front edge, over the end of a band at the hem, mm."""
    hems = [seam for seam in _bands(pattern) if _at(pattern, seam) is Place.HEM]
    return next((_width(pattern.piece(seam.b[0].piece)) for seam in hems), 0.0)


def _at(pattern: Pattern, seam: Seam) -> Place | None:
    """The place that a band is sewn to."""
    return pattern.piece(seam.a[0].piece).edge(seam.a[0].edge).place


def short_of_centre(pattern: Pattern, piece: Piece) -> float:
    """How far short of the centre line a front ends, whose band lies over it, mm; 0 for any other piece."""
    middle = {edge.name for edge in edges_at(piece, Place.CENTRE_FRONT)}
    on_it = (s for s in _bands(pattern) if any(r.piece == piece.name and r.edge in middle for r in s.a))
    return next((0.5 * _width(pattern.piece(seam.b[0].piece)) for seam in on_it), 0.0)


def buttons_on_band(pattern: Pattern, shapes: Sequence[FlatShape]) -> Iterator[Point]:
    """Where the buttons of a front band lie, on the centre line."""
    if all(short_of_centre(pattern, shape.piece) == 0.0 for shape in shapes):
        return
    low = min(p.y for shape in shapes for p in shape.line(Place.CENTRE_FRONT))
    for band in (piece for piece in pattern.pieces if piece.identity.kind is PieceKind.BAND):
        marks = sorted(points_at(band, Landmark.BUTTON), key=lambda mark: mark.at.x)
        for mark in marks[: len(marks) // 2]:
            yield Point(0.0, low - _below_front(pattern) + mark.at.x)


def _bands(pattern: Pattern) -> Iterator[Seam]:
    return (seam for seam in pattern.seams if is_stretched_on(pattern, seam))


def _width(band: Piece) -> float:
    return 0.5 * max(edge.end.y for edge in band.edges)


def _beyond(line: Sequence[Point], wide: float) -> tuple[Point, ...]:
    """A line beside another, to its right: beyond an outline that is walked anticlockwise."""
    steps = [(b - a).unit() for a, b in pairwise(line) if (b - a).norm() > 0.0]
    places = [line[0], *(b for a, b in pairwise(line) if (b - a).norm() > 0.0)]
    ahead = [steps[0], *(one + other for one, other in pairwise(steps)), steps[-1]]
    return tuple(at + _right(along.unit()) * wide for at, along in zip(places, ahead, strict=True))


def _right(along: Vec) -> Vec:
    return Vec(along.y, -along.x)
