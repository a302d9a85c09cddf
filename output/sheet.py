"""A whole pattern on one large sheet at true scale: the front block and every piece, none over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drafting.geometry import Point, Vec, shift
from drafting.pattern import Pattern
from output.arrange import EDGE, Shape, arrange
from output.drawing import Box, Item, stroke_moved
from output.drawn_piece import DrawnPiece, Heading, piece_lines, shifted, with_notes
from output.front import FRONT_SIZE, front_block
from output.grid import Grid, join_strips
from output.papers import Paper

__all__ = ["Sheet", "lay_out"]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawing in true millimetres, y up, its lower left corner at (0, 0).

    The sheet is `columns` by `rows` steps of its paper, and half an overlap more on every side.
    front:    the block of title, squares and legend
    map_room: where the map of the sheets of paper is to stand
    """

    heading: Heading
    paper: Paper
    columns: int
    rows: int
    front: tuple[Item, ...]
    map_room: Box
    pieces: tuple[DrawnPiece, ...]

    @property
    def width(self) -> float:
        """From left to right, mm."""
        return self.columns * self.paper.step_width + self.paper.overlap_x

    @property
    def height(self) -> float:
        """From bottom to top, mm."""
        return self.rows * self.paper.step_height + self.paper.overlap_y

    @property
    def items(self) -> tuple[Item, ...]:
        """Everything drawn on the sheet."""
        return (*self.front, *(item for piece in self.pieces for item in piece.items))


def lay_out(
    pattern: Pattern, *, paper: Paper, dated: str = "", unit: str = "cm", warnings: Sequence[str] = ()
) -> Sheet:
    """The pattern on a sheet that is to be printed on that paper; pieces stay upright as they were drafted.

    dated:    a date to print, as the person gave it; none is made up
    unit:     what lengths are written in: "cm", "in" or "mm"
    warnings: sentences that must be seen before anything is cut
    """
    heading = Heading(pattern.title, pattern.wearer.name, dated, unit)
    drawn = [piece_lines(piece) for piece in pattern.pieces]
    laid = arrange(FRONT_SIZE, [Shape(piece.outline, piece.box) for piece in drawn], paper)
    grid = Grid(paper, laid.rows * paper.step_height + paper.overlap_y)
    left, top = 0.5 * paper.overlap_x, grid.top - 0.5 * paper.overlap_y
    strips = join_strips(grid, laid.rows, laid.columns)
    placed = []
    for piece, lines, (x, y) in zip(pattern.pieces, drawn, laid.corners, strict=True):
        by = Vec(left + x - lines.box.left, top - y - lines.box.top)
        joins = [stroke_moved(strip, shift(-by)) for strip in strips]
        placed.append(shifted(with_notes(lines, piece, heading, joins=joins), shift(by)))
    corner = Point(left + EDGE, top - EDGE)
    front, map_room = front_block(corner, heading, paper, warnings=warnings, many=laid.sheets > 1)
    return Sheet(heading, paper, laid.columns, laid.rows, front, map_room, tuple(placed))
