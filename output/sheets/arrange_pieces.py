"""Where the pieces lie on the large sheet: upright as drafted, none over another, on few sheets of paper."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Point
from output.drawings.free_space import taken_up
from output.sheets.paper_grid import Grid
from output.sheets.paper_use import BORDER, EDGE, SLIVER, Cells, Shape, Under, can_be_whole, ground
from output.sheets.papers import Paper
from output.sheets.place_boxes import MOST_WIDE, Corner, Task, arrangements, box_clear, upon
from output.sheets.second_squares import has_room
from output.sheets.sheet_order import ordered_cells, torn

__all__ = ["Arrangement", "Shape", "arrange"]

_MOVES: Final = (-32.0, -16.0, -8.0, 8.0, 16.0, 32.0)
_MOST_MOVES: Final = 4
_MOST_ORDERED: Final = 12

_HALF_EMPTY: Final = 0.6
"""Of a sheet of paper: on one that is covered more no two squares of 10 cm find room beside the pieces."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Where the upper left corner of each shape comes to lie, mm from the left and mm down from the top.

    front:   the corner of the block that lies on one sheet
    corners: in the order of the shapes
    columns, rows and sheets say how much paper that takes
    """

    front: Corner
    corners: tuple[Corner, ...]
    columns: int
    rows: int
    sheets: int


def arrange(first: tuple[float, float], shapes: Sequence[Shape], paper: Paper) -> Arrangement:
    """Lay shapes on sheets of a paper, together with a block of the size `first`, which lies on one sheet.

    Several widths, orders and ways of lying are tried. The one that takes the fewest sheets is kept; of those one no
    wider than a table; then one whose block shares its sheet; then one with the fewest sheets that show a sliver only,
    if need be after moving a piece a little; then one whose pieces share sheets so that those of a piece can be
    numbered one after another. The same shapes always lie the same way. On large paper what fits on one sheet is not
    cut, and elsewhere not where that costs nothing.
    """
    task = Task(first, tuple(ground(shape) for shape in shapes), paper)
    under = Under(task.shapes, paper)
    found = [_laid(task, under, corners) for corners in dict.fromkeys(arrangements(task, under))]
    found.sort(key=lambda laid: laid.rank)
    equal = [laid for laid in found if laid.rank[:_EQUAL] == found[0].rank[:_EQUAL]][:_MOST_ORDERED]
    equal.sort(key=lambda laid: (_torn(laid), laid.rank))
    best = _well_ended(equal, shapes)
    for _ in range(_MOST_MOVES):
        if not best.slivers:
            break
        best = min((best, *_moved(task, under, best)), key=lambda laid: laid.rank)
    front, *corners = best.corners
    return Arrangement(front, tuple(corners), best.columns, best.rows, best.sheets)


@dataclass(frozen=True, slots=True)
class _Laid:
    """An arrangement and what it takes; the corner of the front block comes first.

    front:   the sheet of the front block
    under:   the sheets under each shape
    covered: the share of each sheet that the shapes cover
    slivers: sheets that show less of the pieces than is worth one
    cut:     pieces on more than one sheet that one would show whole
    length:  how far down the lowest of them reaches
    """

    corners: tuple[Corner, ...]
    front: tuple[int, int]
    under: tuple[Cells, ...]
    covered: Cells
    columns: int
    rows: int
    sheets: int
    slivers: int
    cut: int
    length: float
    paper: Paper

    @property
    def rank(self) -> tuple[float, ...]:
        """What is sought least of, the first most of all."""
        return (
            self.cut if self.paper.large else 0,
            self.sheets,
            self.length if self.paper.endless else 0.0,
            self.columns * self.paper.step_width > max(MOST_WIDE, self.paper.step_width),
            self.front not in self.covered,
            self.slivers,
            self.cut,
            self.rows * self.columns,
            abs(self.rows - self.columns),
        )


_EQUAL: Final = 6  # as far as the number of slivers: what comes after may give way to a good order of the sheets


def _laid(task: Task, under: Under, corners: tuple[Corner, ...], known: Sequence[Cells] = ()) -> _Laid:
    """How much paper an arrangement takes. known: the sheets under each shape, where they have been counted."""
    paper = task.paper
    (x, y), *rest = corners
    cells_under = tuple(known) or tuple(under.cells(i, *at) for i, at in enumerate(rest))
    covered: Cells = {}
    for cells in cells_under:
        for cell, share in cells.items():
            covered[cell] = covered.get(cell, 0.0) + share
    front = (int(y // paper.step_height), int(x // paper.step_width))
    every = {front, *covered}
    return _Laid(
        corners,
        front,
        cells_under,
        covered,
        max(column for _, column in every) + 1,
        max(row for row, _ in every) + 1,
        len(every),
        sum(share < SLIVER for share in covered.values()),
        sum(
            len(cells) > 1 and can_be_whole(shape.width, shape.height, paper)
            for shape, cells in zip(task.shapes, cells_under, strict=True)
        ),
        max([y + task.first[1], *(at[1] + shape.height for shape, at in zip(task.shapes, rest, strict=True))]),
        paper,
    )


def _torn(laid: _Laid) -> int:
    return torn(ordered_cells(laid.front, laid.under), laid.under)


def _well_ended(equal: Sequence[_Laid], shapes: Sequence[Shape]) -> _Laid:
    """The first that can be numbered piece by piece up to a sheet with room for the closing squares, or nearly so.

    The first of all where none has room for them beside the pieces.
    """
    best, least = equal[0], math.inf
    for laid in equal:
        room = _with_room(laid, shapes)
        if room:
            cells = ordered_cells(laid.front, laid.under, as_last=lambda cell, room=room: int(cell not in room))  # type: ignore[misc]
            between = torn(cells, laid.under)
            if between < least:
                best, least = laid, between
        if least == 0:
            break
    return best


def _with_room(laid: _Laid, shapes: Sequence[Shape]) -> frozenset[tuple[int, int]]:
    """The sheets that have room for the closing squares beside the pieces."""
    grid = Grid(laid.paper, laid.rows * laid.paper.step_height + laid.paper.overlap_y)
    left, top = 0.5 * laid.paper.overlap_x, grid.top - 0.5 * laid.paper.overlap_y
    outlines = [
        [Point(p.x - shape.box.left + left + x, p.y - shape.box.top + top - y) for p in shape.outline]
        for shape, (x, y) in zip(shapes, laid.corners[1:], strict=True)
    ]
    taken = taken_up(outlines)
    return frozenset(
        (row, column)
        for (row, column), share in laid.covered.items()
        if share <= _HALF_EMPTY and (row, column) != laid.front and has_room(grid.own((row + 1, column + 1)), taken)
    )


def _moved(task: Task, under: Under, laid: _Laid) -> Iterator[_Laid]:
    """What is laid, with one shape a little elsewhere, clear of all others, in every such way."""
    paper, (front, *corners) = task.paper, laid.corners
    right, bottom = laid.columns * paper.step_width - BORDER, laid.rows * paper.step_height - BORDER
    boxes = [(*front, front[0] + task.first[0], front[1] + task.first[1])]
    boxes += [(x, y, x + g.width, y + g.height) for (x, y), g in zip(corners, task.shapes, strict=True)]
    for i, (shape, (x, y)) in enumerate(zip(task.shapes, corners, strict=True)):
        others = [box for n, box in enumerate(boxes) if n != i + 1]
        across = _near(x, shape.width, paper.step_width, right)
        for at in product(across, _near(y, shape.height, paper.step_height, bottom)):
            box = (*at, at[0] + shape.width, at[1] + shape.height)
            if all(box_clear(box, other) for other in others):
                known = (*laid.under[:i], under.cells(i, *at), *laid.under[i + 1 :])
                yield _laid(task, under, (front, *corners[:i], at, *corners[i + 1 :]), known)


def _near(at: float, size: float, step: float, most: float) -> list[float]:
    """The place itself, some near it, and those where a side just keeps clear of a join."""
    begin = round(at / step) * step + EDGE
    end = round((at + size) / step) * step - 2.5 - size
    tried = {at, begin, end, *(at + by for by in _MOVES)}
    return [to for to in sorted(tried) if to >= BORDER and to + size <= most and not upon(to, size, step)]
