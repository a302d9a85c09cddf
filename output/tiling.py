"""The large sheet cut into sheets of paper, each with the marks that lay it to its neighbours and prove its scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from drafting.geometry import Curve, Point, Vec, shift
from output.cutout import curve_within, hull_box
from output.drawing import Box, Item, LineKind, Stroke, Text, item_moved
from output.grid import Cell, Grid, Join, filled_cells, joins
from output.join_marks import check_lengths, corner_marks, joining_line, joining_words, rounds
from output.lettering import block, block_size, corners, fitted
from output.papers import Paper
from output.proof import TEST_SQUARES, test_square
from output.room import first_clear, inside, least_crowded, obstacles, within_box
from output.room import grid as places_in
from output.sheet import Sheet
from output.sheet_map import sheet_map

if TYPE_CHECKING:
    from output.room import Segments

__all__ = ["BLEED", "Tile", "tiles"]

BLEED = 0.4
"""Lines are cut this far inside the printable area, mm, so that half the widest stroke stays inside too."""

_LABEL, _LABEL_SMALL = 4.0, 2.8
_LABEL_SPACING = 10.0
_LABEL_EDGE = 5.0
_SQUARE_PLACES = 40
_SQUARE_AIR = 3.0


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet of paper in true millimetres, y up, (0, 0) its lower left corner.

    row and column are counted from 1 at the upper left; number and count run over the sheets that are printed
    area:  what may be drawn on
    shown: the part of the large sheet that stands in `area`
    """

    paper: Paper
    row: int
    column: int
    number: int
    count: int
    area: Box
    shown: Box
    items: tuple[Item, ...]

    @property
    def name(self) -> str:
        """A name for its file, without an ending, that sorts in the order of printing: "sheet-07-row-2-column-3"."""
        return f"sheet-{self.number:0{len(str(self.count))}}-row-{self.row}-column-{self.column}"


def tiles(sheet: Sheet) -> tuple[Tile, ...]:
    """The sheets of paper that hold any of the drawing, row by row; empty ones are left out.

    The first holds the front block with the map of all. The last holds both test squares as well; when they find no
    room on it, one more sheet is added for them.
    """
    grid = Grid(sheet.paper, sheet.height)
    outlines = [piece.outline for piece in sheet.pieces]
    drawing = list(sheet.items)
    cells = filled_cells(grid, sheet.rows, sheet.columns, obstacles(drawing), outlines)
    found = joins(grid, cells)
    if len(cells) > 1:
        cells, squares = _closing_squares(grid, cells, sheet.columns, obstacles(drawing), outlines)
        drawing += (*squares, *sheet_map(sheet.map_room, grid, cells, outlines))
        for length in check_lengths(found, obstacles(drawing), outlines, unit=sheet.heading.unit):
            drawing += length
        lines = obstacles(drawing)
        for join in found:
            drawing += (joining_line(join), *rounds(join, lines))
    plan = _Plan(sheet, grid, cells, found, _Cutter(drawing), obstacles(drawing))
    return tuple(_tile(plan, cell) for cell in cells)


@dataclass(frozen=True, slots=True)
class _Plan:
    """Everything that is the same for all sheets of paper."""

    sheet: Sheet
    grid: Grid
    cells: tuple[Cell, ...]
    joins: tuple[Join, ...]
    drawing: _Cutter
    segments: Segments

    def number(self, cell: Cell) -> int:
        """Which sheet that is, from 1."""
        return self.cells.index(cell) + 1


def _tile(plan: _Plan, cell: Cell) -> Tile:
    paper, shown, own = plan.sheet.paper, plan.grid.area(cell), plan.grid.own(cell)
    low = paper.height - paper.margin - paper.area_height
    area = Box(paper.margin, low, paper.margin + paper.area_width, low + paper.area_height)
    near = within_box(plan.segments, shown)
    items: list[Item] = plan.drawing.within(shown.grown(-BLEED))
    if len(plan.cells) > 1:
        items.append(corner_marks(own))
    for join in plan.joins:
        if cell == join.first:
            items.extend(joining_words(join, near, lay=plan.number(join.second)))
        elif cell == join.second:
            items.extend(joining_words(join, near, lay=None))
    items.extend(_label(plan, cell, own, near))
    move = shift(Vec(area.left - shown.left, area.bottom - shown.bottom))
    placed = tuple(item_moved(item, move) for item in items)
    return Tile(paper, *cell, plan.number(cell), len(plan.cells), area, shown, placed)


class _Cutter:
    """A drawing made ready to be cut to many rectangles: the box of every curve is looked up once."""

    def __init__(self, drawing: Iterable[Item]) -> None:
        self._strokes: list[tuple[LineKind, Box, list[tuple[Box, Curve]]]] = []
        self._texts: list[tuple[Box, Text]] = []
        for item in drawing:
            if isinstance(item, Text):
                self._texts.append((_box_of(corners(item)), item))
                continue
            curves = [(hull_box(curve), curve) for curve in item.curves]
            ends = [p for box, _ in curves for p in (Point(box.left, box.bottom), Point(box.right, box.top))]
            self._strokes.append((item.kind, _box_of(ends), curves))

    def within(self, box: Box) -> list[Item]:
        """What of the drawing lies in the box. Writing that reaches into it is kept whole: the writer clips it."""
        items: list[Item] = []
        for kind, around, curves in self._strokes:
            if box.apart(around):
                continue
            kept = [part for hull, curve in curves if not box.apart(hull) for part in curve_within(curve, box)]
            if kept:
                items.append(Stroke(kind, tuple(kept)))
        items.extend(text for around, text in self._texts if not box.apart(around))
        return items


def _box_of(points: Sequence[Point]) -> Box:
    xs, ys = [p.x for p in points], [p.y for p in points]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _label(plan: _Plan, cell: Cell, own: Box, segments: Segments) -> tuple[Text, ...]:
    """The row and column of a sheet, near its upper left corner if that is free."""
    row, column = cell
    number = plan.number(cell)
    first = (f"row {row}, column {column}: sheet {number} of {len(plan.cells)}", _LABEL, True)
    heading = plan.sheet.heading
    whose = " for ".join(part for part in (heading.title, heading.wearer) if part)
    words, size = fitted(whose, _LABEL_SMALL, block_size([first])[0], least=_LABEL_SMALL)
    # the first sheet bears the title already
    for lines in ([first, (words, size, False)], [first])[number == 1 :]:
        width, height = block_size(lines)
        middles = Box(
            own.left + 0.5 * width, own.bottom + 0.5 * height, own.right - 0.5 * width, own.top - 0.5 * height
        )
        places = places_in(middles.grown(-_LABEL_EDGE), _LABEL_SPACING, near=Point(own.left, own.top))
        at = first_clear(segments, places, (width + 3.0, height + 1.0))
        if at:
            return block(lines, at)
    return block(lines, least_crowded(segments, places, (width, height)))


def _closing_squares(
    grid: Grid, cells: tuple[Cell, ...], columns: int, segments: Segments, outlines: Sequence[Sequence[Point]]
) -> tuple[tuple[Cell, ...], list[Item]]:
    """Both test squares on the last sheet, outside the pieces; the sheets, with one more where there is no room."""
    items = _squares_on(grid, cells[-1], segments, outlines)
    if items:
        return cells, items
    row, column = cells[-1]
    more = (row, column + 1) if column < columns else (row + 1, 1)
    return (*cells, more), _squares_on(grid, more, segments, ()) or []


def _squares_on(grid: Grid, cell: Cell, segments: Segments, outlines: Sequence[Sequence[Point]]) -> list[Item] | None:
    # clear of the strips that the neighbours show too
    strip = 0.5 * max(grid.paper.overlap_x, grid.paper.overlap_y)
    own = grid.own(cell).grown(-strip - 1.0)
    items: list[Item] = []
    for square in TEST_SQUARES:
        room = square.side + 2.0 * _SQUARE_AIR
        spacing = own.height / _SQUARE_PLACES
        places = places_in(own.grown(-0.5 * square.side), spacing, near=Point(own.left, own.bottom))
        for outline in outlines:
            places = [p for p, within in zip(places, inside(outline, places), strict=True) if not within]
        at = first_clear(obstacles(items, besides=segments), places, (room, room))
        if at is None:
            return None
        items.extend(test_square(square, at - Vec(0.5, 0.5) * square.side))
    return items
