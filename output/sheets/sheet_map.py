"""The small map of all sheets of paper that stands on the first."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from drafting.geometry import Curve, Move, Point, Vec, shift, turn
from output.drawings.drawing import Box, Item, LineKind, Stroke, Text, item_moved, path, rectangle
from output.drawings.free_space import crowding, first_clear, inside, least_crowded, obstacles, rows
from output.drawings.free_space import grid as places_in
from output.drawings.lettering import block, block_size
from output.sheets.paper_grid import Cell, Grid

if TYPE_CHECKING:
    from output.drawings.free_space import Obstacles

__all__ = ["sheet_map"]


_NAME_SIZES: Final = (2.6, 2.2, 1.8, 1.5)
_SPACING = 0.7  # mm between places that are tried for a name
_AIR = 0.3
_BESIDE = 4.0  # mm beside a piece, at the most, where its name may stand
_WORTH_A_TURN: Final = 1.2  # so many times as large


def sheet_map(
    room: Box, grid: Grid, cells: Sequence[Cell], outlines: Sequence[Sequence[Point]], names: Sequence[str]
) -> tuple[Item, ...]:
    """The sheets that are printed as boxes with their numbers, and the pieces that lie across them, each with its name.

    Drawn as large as `room` allows, from its upper left corner; where it is plainly larger so, turned by a quarter, to
    be read with the page on its side. Sheets that are left out stay blank.
    """
    rows, columns = max(row for row, _ in cells), max(column for _, column in cells)
    first, last = grid.own((1, 1)), grid.own((rows, columns))
    across, down = last.right - first.left, first.top - last.bottom
    scale = min(room.height / across, room.width / down)
    if scale > _WORTH_A_TURN * min(room.width / across, room.height / down):
        aside = Box(0.0, -room.width, room.height, 0.0)
        move = turn(Point(0.0, 0.0), -0.5 * math.pi).then(shift(Vec(room.left + down * scale, room.top)))
        return tuple(_turned(item, move) for item in _upright(aside, grid, cells, outlines, names))
    return _upright(room, grid, cells, outlines, names)


def _turned(item: Item, move: Move) -> Item:
    moved = item_moved(item, move)
    return replace(moved, angle=moved.angle - 90.0) if isinstance(moved, Text) else moved


def _upright(
    room: Box, grid: Grid, cells: Sequence[Cell], outlines: Sequence[Sequence[Point]], names: Sequence[str]
) -> tuple[Item, ...]:
    """A small map of the sheets and of the pieces on them, numbered, in this room of the page."""
    rows, columns = max(row for row, _ in cells), max(column for _, column in cells)
    first, last = grid.own((1, 1)), grid.own((rows, columns))
    scale = min(room.width / (last.right - first.left), room.height / (first.top - last.bottom))

    def small(p: Point) -> Point:
        return Point(room.left + (p.x - first.left) * scale, room.top + (p.y - first.top) * scale)

    owns = [grid.own(cell) for cell in cells]
    boxes = [_box(small(Point(own.left, own.bottom)), small(Point(own.right, own.top))) for own in owns]
    frames: list[Curve] = [curve for box in boxes for curve in rectangle(box)]
    drawn = [[small(p) for p in outline] for outline in outlines]
    shapes = [curve for outline in drawn for curve in path(*outline, outline[0])]
    items: list[Item] = [Stroke(LineKind.MAP, (*frames, *shapes))]
    size = min(4.0, 0.35 * first.width * scale, 0.5 * first.height * scale)
    lines = obstacles(items)
    texts = [text for n, box in enumerate(boxes, start=1) for text in _number_in(box, str(n), size, lines)]
    for outline, name in zip(drawn, names, strict=True):
        texts.extend(_name_in(outline, name, obstacles(texts, besides=lines), obstacles(texts)))
    return (*items, *texts)


def _box(low: Point, high: Point) -> Box:
    return Box(low.x, low.y, high.x, high.y)


def _number_in(box: Box, number: str, size: float, taken: Obstacles) -> tuple[Text, ...]:
    """The number of a sheet in its box, near the middle and clear of the pieces if it can be."""
    places = places_in(box, _SPACING, near=box.centre)
    for smaller in (1.0, 0.8, 0.65):
        lines = [(number, smaller * size, True)]
        width, height = block_size(lines)
        at = first_clear(taken, places, (width + _AIR, height * 0.8))
        if at:
            return block(lines, at)
    return block([(number, size, True)], box.centre)


def _name_in(outline: Sequence[Point], name: str, taken: Obstacles, written: Obstacles) -> tuple[Text, ...]:
    """The name of a piece within its outline, over as many lines as it has words, clear of all lines if it can be.

    A piece too small for that has it over lines, but not over the numbers and names that are written already; beside it
    where they leave no room in it.
    """
    xs, ys = [p.x for p in outline], [p.y for p in outline]
    around = Box(min(xs), min(ys), max(xs), max(ys))
    places = places_in(around, _SPACING, near=around.centre)
    within = inside(outline, places)
    places = places[within] if within.any() else rows([around.centre])
    # where not even the smallest name is clear, whatever its words, no other is asked for
    least = block_size([("", _NAME_SIZES[-1], False)])[1] + _AIR
    clear = places[crowding(taken, places, (least, least)) == 0]
    for size in _NAME_SIZES:
        for words in ([name], name.split()):
            lines = [(word, size, False) for word in words]
            width, height = block_size(lines)
            for angle in (0.0, 90.0):
                at = first_clear(taken, clear, (width + _AIR, height + _AIR), angle=angle)
                if at:
                    return block(lines, at, angle=angle)
    wider = Box(around.left - _BESIDE, around.bottom - _BESIDE, around.right + _BESIDE, around.top + _BESIDE)
    for anywhere in (places, places_in(wider, _SPACING, near=around.centre)):
        for words in ([name], name.split()):
            lines = [(word, _NAME_SIZES[-1], False) for word in words]
            width, height = block_size(lines)
            for angle in (0.0, 90.0):
                at = first_clear(written, anywhere, (width + _AIR, height + _AIR), angle=angle)
                if at:
                    return block(lines, at, angle=angle)
    return block(lines, least_crowded(taken, places, (width, height)))
