"""The grid of sheets of paper laid over the large sheet: row 1, column 1 is the upper left one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drafting.dataclass import dataclass
from drafting.geometry import Line, Point, Vec, lerp
from output.drawings.drawing import Box, LineKind, Stroke
from output.drawings.free_space import crowding, inside
from output.sheets.papers import Paper

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from output.drawings.free_space import Obstacles

__all__ = ["Cell", "Grid", "Join", "filled_cells", "join_strips", "joins"]

_STROKE = 0.5  # mm: what a line is thick, and more

Cell = tuple[int, int]
"""Row from the top and column from the left, both from 1."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Where each sheet of paper lies; `top` is the upper border of the large sheet, mm."""

    paper: Paper
    top: float

    def own(self, cell: Cell) -> Box:
        """The part of the large sheet between the joins around one sheet of paper."""
        row, column = cell
        left = 0.5 * self.paper.overlap_x + (column - 1) * self.paper.step_width
        top = self.top - 0.5 * self.paper.overlap_y - (row - 1) * self.paper.step_height
        return Box(left, top - self.paper.step_height, left + self.paper.step_width, top)

    def area(self, cell: Cell) -> Box:
        """What one sheet of paper shows: its own part and half an overlap on every side."""
        own = self.own(cell)
        x, y = 0.5 * self.paper.overlap_x, 0.5 * self.paper.overlap_y
        return Box(own.left - x, own.bottom - y, own.right + x, own.top + y)


@dataclass(frozen=True, slots=True)
class Join:
    """Where two sheets of paper meet: the line between them, the first above or to the left of the second."""

    number: int
    first: Cell
    second: Cell
    start: Point
    end: Point

    @property
    def upright(self) -> bool:
        """Whether the sheets lie side by side."""
        return self.first[0] == self.second[0]

    @property
    def across(self) -> Vec:
        """The unit direction from the first sheet to the second."""
        return Vec(1.0, 0.0) if self.upright else Vec(0.0, -1.0)

    def along(self, spacing: float, keep: float) -> list[Point]:
        """Places on the line no more than `spacing` mm apart, `keep` mm clear of its ends."""
        whole = (self.end - self.start).norm()
        n = max(1, int((whole - 2.0 * keep) / spacing))
        return [lerp(self.start, self.end, (keep + (whole - 2.0 * keep) * i / n) / whole) for i in range(n + 1)]


def filled_cells(
    grid: Grid, rows: int, columns: int, segments: Obstacles, outline: Sequence[Point] = ()
) -> tuple[Cell, ...]:
    """The sheets of paper that hold a line or the inside of an outline, row by row.

    What one sheet of large paper shows whole, the strips that it shares included, needs no other.
    """
    cells = [(row, column) for row in range(1, rows + 1) for column in range(1, columns + 1)]
    if grid.paper.large and len(segments):
        around = segments.box.grown(_STROKE)
        for cell in cells:
            if grid.own(cell).holds(around.centre) and _holds(grid.area(cell), around):
                return (cell,)
    centres = [grid.own(cell).centre for cell in cells]
    filled = crowding(segments, centres, (grid.paper.step_width, grid.paper.step_height)) > 0
    if outline:
        filled |= inside(outline, centres)
    return tuple(cell for cell, kept in zip(cells, filled, strict=True) if kept)


def _holds(outer: Box, inner: Box) -> bool:
    return outer.holds(Point(inner.left, inner.bottom)) and outer.holds(Point(inner.right, inner.top))


def join_strips(grid: Grid, rows: int, columns: int) -> tuple[Stroke, ...]:
    """The joins between rows and columns of sheets, each with the borders of the strip that two sheets share."""
    whole = Box(grid.own((1, 1)).left, grid.own((rows, 1)).bottom, grid.own((1, columns)).right, grid.top)
    x_shares, y_shares = (
        [-0.5 * overlap, 0.0, 0.5 * overlap] for overlap in (grid.paper.overlap_x, grid.paper.overlap_y)
    )
    upright = [grid.own((1, column)).right + off for column in range(1, columns) for off in x_shares]
    level = [grid.own((row, 1)).bottom + off for row in range(1, rows) for off in y_shares]
    lines = [Line(Point(x, whole.bottom), Point(x, whole.top)) for x in upright]
    lines += [Line(Point(whole.left, y), Point(whole.right, y)) for y in level]
    return tuple(Stroke(LineKind.FRAME, (line,)) for line in lines)


def joins(grid: Grid, cells: Iterable[Cell]) -> tuple[Join, ...]:
    """Every place where two of these sheets meet, numbered in reading order."""
    kept = set(cells)
    found: list[Join] = []
    for row, column in sorted(kept):
        own = grid.own((row, column))
        ends = (
            ((row, column + 1), Point(own.right, own.top), Point(own.right, own.bottom)),
            ((row + 1, column), Point(own.left, own.bottom), Point(own.right, own.bottom)),
        )
        for other, start, end in ends:
            if other in kept:
                found.append(Join(len(found) + 1, (row, column), other, start, end))
    return tuple(found)
