"""The second pair of squares to measure, in an empty part of a sheet of paper."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from drafting.geometry import Point, Vec
from output.drawings.drawing import Box, Stroke, Text
from output.drawings.free_space import crowding, grid, inside, obstacles, within_box
from output.drawings.scale_proof import TEST_SQUARES, test_square
from output.sheets.papers import Paper

if TYPE_CHECKING:
    from output.drawings.free_space import Segments

__all__ = ["WITHOUT", "has_room_outside", "second_squares"]

_PLACES: Final = 40
_AIR, _LITTLE_AIR = 3.0, 1.2

WITHOUT: Final = 4
"""How ill a sheet is off that has no room for the squares."""


def second_squares(
    own: Box, paper: Paper, segments: Segments, outlines: Sequence[Sequence[Point]]
) -> tuple[int, tuple[Stroke | Text, ...]]:
    """Both squares on the sheet whose own part that is, clear of all lines, and how ill the room for them is.

    0: outside the outlines and clear of the strips that the neighbours show too; 1: outside, in little room; 2 and 3:
    the same within an outline; WITHOUT, and no squares, where there is no room at all.
    """
    near = within_box(segments, own)
    strip = 0.5 * max(paper.overlap_x, paper.overlap_y)
    for ill, (keep, air, kept_out) in enumerate(
        ((strip + 1.0, _AIR, outlines), (_AIR, _LITTLE_AIR, outlines), (strip + 1.0, _AIR, ()), (_AIR, _LITTLE_AIR, ()))
    ):
        items = _squares(own.grown(-keep), near, kept_out, air)
        if items:
            return ill, items
    return WITHOUT, ()


def has_room_outside(own: Box, outlines: Sequence[Sequence[Point]], segments: Segments) -> bool:
    """Whether both squares find room on a sheet outside the outlines, whose own lines the segments are."""
    return bool(_squares(own.grown(-_AIR), within_box(segments, own), outlines, _LITTLE_AIR))


def _squares(
    room: Box, segments: Segments, outlines: Sequence[Sequence[Point]], air: float
) -> tuple[Stroke | Text, ...]:
    items: list[Stroke | Text] = []
    for square in TEST_SQUARES:
        side = square.side + 2.0 * air
        places = grid(room.grown(-0.5 * square.side), room.height / _PLACES, near=Point(room.left, room.bottom))
        if not len(places):
            return ()
        places = places[crowding(obstacles(items, besides=segments), places, (side, side)) == 0]
        for outline in outlines:
            places = places[~inside(outline, places)]
        if not len(places):
            return ()
        items.extend(test_square(square, Point(*places[0].tolist()) - Vec(0.5, 0.5) * square.side))
    return tuple(items)
