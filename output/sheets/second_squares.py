"""The second pair of squares to measure, in an empty part of a sheet of paper."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from drafting.geometry import Point, Vec
from output.drawings.drawing import Box, Stroke, Text
from output.drawings.free_space import first_clear, grid, obstacles, taken_up, together
from output.drawings.scale_proof import TEST_SQUARES, test_square
from output.sheets.papers import Paper

if TYPE_CHECKING:
    from output.drawings.free_space import Obstacles

__all__ = ["WITHOUT", "has_room", "second_squares"]

_PLACES: Final = 40
_AIR, _LITTLE_AIR = 3.0, 1.2

WITHOUT: Final = 4
"""How ill a sheet is off that has no room for the squares."""


def second_squares(
    own: Box, paper: Paper, segments: Obstacles, outlines: Sequence[Sequence[Point]]
) -> tuple[int, tuple[Stroke | Text, ...]]:
    """Both squares on the sheet whose own part that is, clear of all lines, and how ill the room for them is.

    0: outside the outlines and clear of the strips that the neighbours show too; 1: outside, in little room; 2 and 3:
    the same within an outline; WITHOUT, and no squares, where there is no room at all.
    """
    strip = 0.5 * max(paper.overlap_x, paper.overlap_y)
    outside = together(taken_up(outlines), segments)  # most places lie on a piece
    for ill, (keep, air, taken) in enumerate(
        (
            (strip + 1.0, _AIR, outside),
            (_AIR, _LITTLE_AIR, outside),
            (strip + 1.0, _AIR, segments),
            (_AIR, _LITTLE_AIR, segments),
        )
    ):
        items = _squares(own.grown(-keep), taken, air)
        if items:
            return ill, items
    return WITHOUT, ()


def has_room(own: Box, taken: Obstacles) -> bool:
    """Whether both squares find room on a sheet."""
    return bool(_squares(own.grown(-_AIR), taken, _LITTLE_AIR))


def _squares(room: Box, taken: Obstacles, air: float) -> tuple[Stroke | Text, ...]:
    items: list[Stroke | Text] = []
    for square in TEST_SQUARES:
        side = square.side + 2.0 * air
        places = grid(room.grown(-0.5 * square.side), room.height / _PLACES, near=Point(room.left, room.bottom))
        at = first_clear(obstacles(items, besides=taken), places, (side, side))
        if at is None:
            return ()
        items.extend(test_square(square, at - Vec(0.5, 0.5) * square.side))
    return tuple(items)
