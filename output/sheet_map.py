"""The small map of all sheets of paper that stands on the first."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.geometry import Curve, Point
from output.drawing import Box, Item, LineKind, Stroke, path, rectangle
from output.grid import Cell, Grid
from output.lettering import block

__all__ = ["sheet_map"]


def sheet_map(room: Box, grid: Grid, cells: Sequence[Cell], outlines: Sequence[Sequence[Point]]) -> tuple[Item, ...]:
    """The sheets that are printed as boxes with their numbers, and the pieces that lie across them.

    Drawn as large as `room` allows, from its upper left corner. Sheets that are left out stay blank.
    """
    rows, columns = max(row for row, _ in cells), max(column for _, column in cells)
    first, last = grid.own((1, 1)), grid.own((rows, columns))
    scale = min(room.width / (last.right - first.left), room.height / (first.top - last.bottom))

    def small(p: Point) -> Point:
        return Point(room.left + (p.x - first.left) * scale, room.top + (p.y - first.top) * scale)

    frames: list[Curve] = []
    numbers: list[Item] = []
    size = min(4.0, 0.35 * first.width * scale, 0.5 * first.height * scale)
    for number, cell in enumerate(cells, start=1):
        own = grid.own(cell)
        low, high = small(Point(own.left, own.bottom)), small(Point(own.right, own.top))
        frames.extend(rectangle(Box(low.x, low.y, high.x, high.y)))
        numbers.extend(block([(str(number), size, True)], small(own.centre)))
    shapes = [curve for outline in outlines for curve in path(*map(small, (*outline, outline[0])))]
    return (Stroke(LineKind.MAP, (*frames, *shapes)), *numbers)
