"""Sash, ties and belt loops in the picture of the garment, as they are worn: a band at the waist, a bow, its ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from drafting.geometry import Point, Vec, lerp
from drafting.parts.attached.ties import AT_NECK
from drafting.pattern import BodyPart, Half, Pattern, Piece, PieceKind, pieces_of

__all__ = ["loop_outlines", "tied_lines"]

_END: Final = 260.0
"""mm that the end of a bow hangs down, where it is long enough (ours)."""

_LOOP: Final = (6.0, 40.0)
"""mm that a belt loop is drawn below the waist and above it (ours)."""

_KNOT: Final = 18.0
"""mm: half as high and as wide as the knot (ours)."""


def tied_lines(pattern: Pattern, waist: Sequence[Point], half: Half) -> Iterator[tuple[Point, ...]]:
    """What is tied round the waist, on one half of the body: a sash in front, ties at the back; none without either.

    waist: from the centre to the side
    """
    at_neck = {name for part in pattern.derived if ("at", AT_NECK) in part.options for name in part.pieces}
    ties = [piece for piece in pieces_of(pattern, PieceKind.TIE) if piece.name not in at_neck]
    if not ties or len(waist) < 2:
        return
    loose = [piece for piece in ties if piece.identity.part is None]
    if loose:
        yield from _band(waist, _wide(loose[0]))
    if bool(loose) is (half is Half.FRONT):
        tie = (loose or ties)[0]
        if not loose:
            yield from _band(waist, _wide(tie))
        yield from _bow(waist[0], waist[-1].x, _wide(tie), min(_END, 0.25 * _long(tie)))


def _band(waist: Sequence[Point], wide: float) -> Iterator[tuple[Point, ...]]:
    up = Vec(0.0, 0.5 * wide)
    outline = (*(p + up for p in waist), *(p - up for p in reversed(waist)))
    yield outline


def _bow(knot: Point, side: float, wide: float, long: float) -> Iterator[tuple[Point, ...]]:
    """One half of the knot, one loop of the bow and one end of it; side: on which side of the centre they lie."""
    out = -1.0 if side < 0.0 else 1.0

    def at(across: float, down: float) -> Point:
        return Point(knot.x + out * across, knot.y - down)

    yield at(0.0, -_KNOT), at(0.6 * _KNOT, -_KNOT), at(0.6 * _KNOT, _KNOT), at(0.0, _KNOT)
    loop = 0.45 * long
    yield at(0.6 * _KNOT, -8.0), at(loop, -0.6 * wide), at(1.1 * loop, 0.4 * wide), at(0.6 * _KNOT, 8.0)
    yield at(4.0, _KNOT), at(0.25 * long, long), at(0.25 * long + wide, 0.96 * long), at(4.0 + 0.7 * wide, _KNOT)


def loop_outlines(pattern: Pattern, piece: Piece) -> Iterator[tuple[Point, ...]]:
    """The belt loops of a piece, over the band that stands on its waist."""
    loops = {
        each.name: each for each in pieces_of(pattern, PieceKind.LOOP) if each.identity.part is not BodyPart.BODICE
    }
    for part in pattern.derived:
        wide = next((0.5 * _wide(loops[name]) for name in part.pieces if name in loops), 0.0)
        names = {ref.line for ref in part.lines if ref.piece == piece.name}
        for line in (line for line in piece.lines if wide and line.name in names):
            at = lerp(line.start, line.end, 0.5)
            corners = ((-wide, -_LOOP[0]), (wide, -_LOOP[0]), (wide, _LOOP[1]), (-wide, _LOOP[1]), (-wide, -_LOOP[0]))
            yield tuple(at + Vec(x, y) for x, y in corners)


def _sizes(piece: Piece) -> tuple[float, float]:
    xs, ys = zip(*((edge.start.x, edge.start.y) for edge in piece.edges), strict=True)
    wide, long = sorted((max(xs) - min(xs), max(ys) - min(ys)))
    return wide, long


def _wide(piece: Piece) -> float:
    """How wide it is once it is folded, mm."""
    return 0.5 * _sizes(piece)[0]


def _long(piece: Piece) -> float:
    return _sizes(piece)[1]
