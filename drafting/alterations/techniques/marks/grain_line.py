"""The grain line of a piece whose outline was redrawn: kept on the piece, in its direction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.geometry import Curve, Point, Vec, run_bounds, run_hits
from drafting.pattern import Grain, Piece

__all__ = ["grain_in_middle", "stretched_grain", "with_grain_inside"]

_CLEAR: Final = 10.0
"""mm that a grain line is drawn clear of the edges of its piece (our figure)."""

_LEAST: Final = 40.0
"""mm of grain line that must find room on a piece (our figure)."""

_SHORTEST: Final = 20.0
"""mm. A grain line shorter than this cannot be laid along a thread."""


def stretched_grain(was: Grain, new: Grain) -> Grain:
    """The new grain line, unless taking cloth out left none of it to draw."""
    return new if (new.end - new.start).dot(was.end - was.start) > _SHORTEST**2 else was


def with_grain_inside(piece: Piece) -> Piece:
    """The piece with the part of its grain line that lies on it; where that is too short, with one in its middle.

    As it was where that finds no room either: the check will say so.
    """
    if piece.grain is None:
        return piece
    along = piece.grain.end - piece.grain.start
    reach, way = along.norm(), along.unit()
    low, high = max(
        (
            (max(0.0, a + _CLEAR), min(reach, b - _CLEAR))
            for a, b in _stretches_inside(piece.outline, piece.grain.start, way)
        ),
        key=lambda stretch: stretch[1] - stretch[0],
        default=(0.0, 0.0),
    )
    if high - low >= reach:
        return piece
    if high - low < _LEAST:
        return replace(piece, grain=grain_in_middle(piece.outline, way) or piece.grain)
    return replace(piece, grain=Grain(piece.grain.start + way * low, piece.grain.start + way * high))


def grain_in_middle(outline: Sequence[Curve], along: Vec, *, least: float = 2.0 * _LEAST) -> Grain | None:
    """A grain line of that unit direction through the middle of an outline; None where it has less than `least` mm."""
    left, low, right, high = run_bounds(outline)
    middle = Point(0.5 * (left + right), 0.5 * (low + high))
    start, end = max(
        _stretches_inside(outline, middle, along), key=lambda stretch: stretch[1] - stretch[0], default=(0.0, 0.0)
    )
    if end - start < least:
        return None
    return Grain(middle + along * (start + 0.2 * (end - start)), middle + along * (end - 0.2 * (end - start)))


def _stretches_inside(outline: Sequence[Curve], place: Point, along: Vec) -> list[tuple[float, float]]:
    """Between which places an endless line lies inside an outline, mm from the place it goes through."""
    hits = sorted(hit.along for _, hit in run_hits(outline, place, along))
    return list(zip(hits[::2], hits[1::2], strict=False))
