"""The large sheet cut into sheets of paper, each with the marks that lay it to its neighbours and prove its scale."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import chain
from typing import TYPE_CHECKING

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Vec, shift
from output.drawings.clip_to_box import curve_within, hull_box, item_box
from output.drawings.drawing import Box, Item, Stroke, Text, item_moved
from output.drawings.free_space import obstacles
from output.sheets.join_marks import check_lengths, corner_marks, joining_line, joining_words, rounds
from output.sheets.large_sheet import Sheet
from output.sheets.paper_grid import Cell, Grid, Join, joins
from output.sheets.papers import Paper, number_words
from output.sheets.sheet_label import sheet_label
from output.sheets.sheet_map import sheet_map

if TYPE_CHECKING:
    from output.drawings.free_space import Obstacles

__all__ = ["BLEED", "Tile", "piece_list_words", "sheets_of_pieces", "tiles"]

BLEED = 0.4
"""Lines are cut this far inside the printable area, mm, so that half the widest stroke stays inside too."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet of paper in true millimetres, y up, (0, 0) its lower left corner.

    row and column are counted from 1 at the upper left; number and count run over the sheets that are printed
    area:   what may be drawn on
    shown:  the part of the large sheet that stands in `area`
    pieces: the names of the pieces that lie on it
    """

    paper: Paper
    row: int
    column: int
    number: int
    count: int
    area: Box
    shown: Box
    items: tuple[Item, ...]
    pieces: tuple[str, ...]

    @property
    def name(self) -> str:
        """A name for its file, without an ending, that sorts in the order of printing: "sheet-07-row-2-column-3"."""
        return f"sheet-{self.number:0{len(str(self.count))}}-row-{self.row}-column-{self.column}"


def tiles(sheet: Sheet) -> tuple[Tile, ...]:
    """The sheets of paper that hold any of the drawing, those of a piece one after another; empty ones are left out.

    The first holds the front block with the map of all, the last both test squares as well.
    """
    grid, cells = Grid(sheet.paper, sheet.height), sheet.cells
    outlines = [piece.outline for piece in sheet.pieces]
    # a neighbour is not to show a part of the squares on the last sheet
    drawing = [*sheet.front, *(item for piece in sheet.pieces for item in piece.items)]
    found = joins(grid, cells)
    lines = obstacles((*sheet.squares, *drawing))
    if len(cells) > 1:
        small = sheet_map(sheet.map_room, grid, cells, outlines, sheet.names)
        lines = obstacles(small, besides=lines)
        measured = tuple(chain(*check_lengths(found, lines, outlines, unit=sheet.heading.unit)))
        lines = obstacles(measured, besides=lines)
        marks = [mark for join in found for mark in (joining_line(join), *rounds(join, lines))]
        lines = obstacles(marks, besides=lines)
        drawing += (*small, *measured, *marks)
    on = {cell: tuple(name for name, held in zip(sheet.names, sheet.on, strict=True) if cell in held) for cell in cells}
    plan = _Plan(sheet, grid, cells, on, found, _Cutter(drawing), lines)
    return tuple(_tile(plan, cell) for cell in cells)


def sheets_of_pieces(printed: Sequence[Tile]) -> dict[str, list[int]]:
    """The numbers of the sheets that each piece lies on, the pieces in the order of their first sheets."""
    found: dict[str, list[int]] = {}
    for tile in printed:
        for name in tile.pieces:
            found.setdefault(name, []).append(tile.number)
    return found


def piece_list_words(printed: Sequence[Tile]) -> str:
    """Which sheets to print for each piece, in words: "bodice front: sheets 2 to 5; sleeve: sheet 6"."""
    return "; ".join(
        f"{name}: {'sheets' if len(numbers) > 1 else 'sheet'} {number_words(numbers)}"
        for name, numbers in sheets_of_pieces(printed).items()
    )


@dataclass(frozen=True, slots=True)
class _Plan:
    """Everything that is the same for all sheets of paper."""

    sheet: Sheet
    grid: Grid
    cells: tuple[Cell, ...]
    on: Mapping[Cell, tuple[str, ...]]
    joins: tuple[Join, ...]
    drawing: _Cutter
    segments: Obstacles

    def number(self, cell: Cell) -> int:
        """Which sheet that is, from 1."""
        return self.cells.index(cell) + 1


def _tile(plan: _Plan, cell: Cell) -> Tile:
    """One sheet: its part of the drawing, moved to where it is printed, with its marks and its number."""
    paper, shown, own = plan.sheet.paper, plan.grid.area(cell), plan.grid.own(cell)
    low = paper.height - paper.margin - paper.area_height
    area = Box(paper.margin, low, paper.margin + paper.area_width, low + paper.area_height)
    marks: list[Item] = [corner_marks(own)] if len(plan.cells) > 1 else []
    for join in plan.joins:
        if cell == join.first:
            marks.extend(joining_words(join, plan.segments, lay=plan.number(join.second)))
        elif cell == join.second:
            marks.extend(joining_words(join, plan.segments, lay=None))
    marks.extend(_label(plan, cell, own, obstacles(marks, besides=plan.segments)))
    squares = plan.sheet.squares if cell == plan.cells[-1] else ()
    items = (*plan.drawing.within(shown.grown(-BLEED)), *squares, *marks)
    move = shift(Vec(area.left - shown.left, area.bottom - shown.bottom))
    placed = tuple(item_moved(item, move) for item in items)
    return Tile(paper, *cell, plan.number(cell), len(plan.cells), area, shown, placed, plan.on[cell])


class _Cutter:
    """A drawing made ready to be cut to many rectangles: the box of every curve is looked up once."""

    def __init__(self, drawing: Iterable[Item]) -> None:
        self._strokes: list[tuple[Stroke, Box, list[tuple[Box, Curve]]]] = []
        self._texts: list[tuple[Box, Text]] = []
        for item in drawing:
            if isinstance(item, Text):
                self._texts.append((item_box(item), item))
            else:
                self._strokes.append((item, item_box(item), [(hull_box(curve), curve) for curve in item.curves]))

    def within(self, box: Box) -> list[Item]:
        """What of the drawing lies in the box. Writing that reaches into it is kept whole: the writer clips it."""
        items: list[Item] = []
        for stroke, around, curves in self._strokes:
            if box.apart(around):
                continue
            kept = [part for hull, curve in curves for part in curve_within(curve, box, hull)]
            if kept:
                items.append(Stroke(stroke.kind, tuple(kept), stroke.layer))
        items.extend(text for around, text in self._texts if not box.apart(around))
        return items


def _label(plan: _Plan, cell: Cell, own: Box, segments: Obstacles) -> tuple[Text, ...]:
    row, column = cell
    number = plan.number(cell)
    heading = plan.sheet.heading
    return sheet_label(
        own,
        segments,
        place=f"row {row}, column {column}: sheet {number} of {len(plan.cells)}",
        pieces=plan.on[cell],
        # the first sheet bears the title already
        whose=" for ".join(part for part in (heading.title, heading.wearer) if part) if number > 1 else "",
    )
