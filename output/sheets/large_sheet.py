"""A whole pattern on one large sheet at true scale: the front block and every piece, none over another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

from drafting.dataclass import dataclass
from drafting.geometry import Point, Vec, shift, turn
from drafting.pattern import Nest, Pattern, Piece, PieceKind, Sized, move_piece, pieces_of, with_pieces
from drafting.pattern.seam_ends import sewn
from drafting.reading.units import length_text
from drafting.sewing import cautions
from output.drawings.clip_to_box import item_box
from output.drawings.drawing import SIZE_LINES, Box, Item, LineKind, Stroke, item_moved, on_layer, stroke_moved
from output.drawings.font import lacking
from output.drawings.free_space import obstacles
from output.drawings.nest_drawing import nested_lines, nested_pieces, note_piece
from output.drawings.piece_drawing import DrawnPiece, Heading, piece_lines, shifted, with_notes
from output.drawings.piece_notes import PieceWords, piece_words
from output.sheets.arrange_pieces import Arrangement, Shape, arrange
from output.sheets.cut_list import cut_list
from output.sheets.paper_grid import Cell, Grid, filled_cells, join_strips
from output.sheets.paper_use import can_be_whole
from output.sheets.papers import Paper, cut_to_length
from output.sheets.second_squares import WITHOUT, second_squares
from output.sheets.sheet_order import ordered_cells
from output.sheets.title_block import FRONT_SIZE, front_block

__all__ = ["Sheet", "lay_out", "lay_out_nest"]

_STRIPS = (PieceKind.BAND, PieceKind.BINDING)
_LONG_STRIP = 1000.0  # mm of bias strip, above which it is joined of several and not printed (ours)
_REACH = 50.0  # mm: no farther from a piece is it asked what else stands there when its notes are written


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawing in true millimetres, y up, its lower left corner at (0, 0).

    The sheet is `columns` by `rows` steps of its paper, and half an overlap more on every side.
    front:    the block of title, squares and legend
    map_room: where the map of the sheets of paper is to stand
    names:    of the pieces, in their order
    cells:    the sheets of paper that hold any of it, in the order of their numbers
    on:       those that each piece lies on
    squares:  the second pair of squares to measure, on the last sheet; none where there is one sheet only
    """

    heading: Heading
    paper: Paper
    columns: int
    rows: int
    front: tuple[Item, ...]
    map_room: Box
    pieces: tuple[DrawnPiece, ...]
    names: tuple[str, ...]
    cells: tuple[Cell, ...]
    on: tuple[tuple[Cell, ...], ...]
    squares: tuple[Item, ...]

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
        return (*self.front, *self.squares, *(item for piece in self.pieces for item in piece.items))


def lay_out(
    pattern: Pattern,
    *,
    paper: Paper,
    dated: str = "",
    unit: str = "cm",
    warnings: Sequence[str] = (),
    to_buy: Sequence[str] = (),
    only: Sequence[str] = (),
) -> Sheet:
    """The pattern on a sheet that is to be printed on that paper; pieces stay upright as they were drafted,
    but for one that is too wide for a roll and not too long, and a band that takes fewer sheets so: these are turned.

    dated:    a date to print, as the person gave it; none is made up
    unit:     what lengths are written in: "cm", "in" or "mm"
    warnings: sentences that must be seen before anything is cut
    to_buy:   lines that say what to buy
    only:     the names of the pieces that are wanted; all of them where none is named, but for long bias strips: these
              are cut by their measures, which stand in the list of what to cut
    """
    beware = tuple(each.short for each in cautions(pattern))
    heading = Heading(pattern.title, pattern.wearer.name, dated, unit, beware)
    pattern = _turned_to_fit(pattern, paper, only)

    by_measure = () if only else tuple(filter(_cut_by_measure, pattern.pieces))

    def drawn_on(each: Pattern) -> list[_Drawn]:
        of_seams = sewn(each)
        wanted = (piece for piece in each.pieces if (piece.name in only if only else piece not in by_measure))
        return [(piece_lines(piece, of_seams[piece.name]), piece, piece_words(piece, each, unit)) for piece in wanted]

    turned = _band_turned(pattern, paper)
    ways = [drawn_on(each) for each in ((pattern,) if turned.pieces == pattern.pieces else (pattern, turned))]
    drawn, laid = min(((drawn, _arranged(drawn, paper)) for drawn in ways), key=lambda way: way[1].sheets)
    return _laid_out(heading, drawn, laid, paper, warnings, to_buy, by_measure=by_measure)


def _cut_by_measure(piece: Piece) -> bool:
    """Whether it is a bias strip so long that it is joined of several, which no one prints."""
    return piece.identity.kind is PieceKind.BINDING and _long_and_wide(piece)[0] > _LONG_STRIP


def _long_and_wide(piece: Piece) -> tuple[float, float]:
    """How long and how wide a strip is cut, mm."""
    outline = piece_lines(piece).outline
    xs, ys = [place.x for place in outline], [place.y for place in outline]
    return max(xs) - min(xs), max(ys) - min(ys)


def _strip_words(piece: Piece, unit: str) -> str:
    """What to cut in place of a strip that is not printed."""
    long, wide = (length_text(mm, unit) for mm in _long_and_wide(piece))
    each = f"{long} each, {piece.cut.count} of them" if piece.cut.count > 1 else long
    return f"{piece.name}: not printed; cut strips on the bias {wide} wide and join them to {each}"


def lay_out_nest(
    nest: Nest,
    *,
    paper: Paper,
    dated: str = "",
    unit: str = "cm",
    warnings: Sequence[str] = (),
    to_buy: Sequence[str] = (),
    only: Sequence[str] = (),
) -> Sheet:
    """All sizes of a nest on one sheet, each piece in one size over the other, as `lay_out` does for one.

    only: the names of the pieces that are wanted; all of them where none is named
    Raises InputProblems for more sizes than lines can be told apart.
    """
    names = [each.size for each in nest.sizes]
    heading = Heading(nest.title, f"sizes {', '.join(names)}", dated, unit)
    of_seams = [sewn(each.pattern) for each in nest.sizes]
    first = nest.sizes[0].pattern
    drawn = [
        (
            nested_lines(pieces, names, [each[pieces[0].name] for each in of_seams]),
            note_piece(pieces),
            piece_words(pieces[0], first, unit),
        )
        for pieces in nested_pieces(nest)
        if not only or pieces[0].name in only
    ]
    sizes = [(kind, _measured(each, unit)) for kind, each in zip(SIZE_LINES, nest.sizes, strict=False)]
    return _laid_out(heading, drawn, _arranged(drawn, paper), paper, warnings, to_buy, sizes)


def _turned_to_fit(pattern: Pattern, paper: Paper, only: Sequence[str]) -> Pattern:
    """The pattern with every piece that is too wide for a roll, such as a long waistband, turned to lie along it."""
    if not paper.endless:
        return pattern
    turned, of_seams = [], sewn(pattern)
    for piece in pattern.pieces:
        box = piece_lines(piece, of_seams[piece.name]).box
        wanted = not only or piece.name in only
        if wanted and not can_be_whole(box.width, box.height, paper) and can_be_whole(box.height, box.width, paper):
            turned.append(move_piece(piece, turn(Point(0.0, 0.0), 0.5 * math.pi)))
    return with_pieces(pattern, *turned)


def _band_turned(pattern: Pattern, paper: Paper) -> Pattern:
    """The pattern with its bands turned by a quarter; the very same where it has none, and on a roll."""
    bands = () if paper.endless else (each for kind in _STRIPS for each in pieces_of(pattern, kind))
    return with_pieces(pattern, *(move_piece(each, turn(Point(0.0, 0.0), 0.5 * math.pi)) for each in bands))


_Drawn = tuple[DrawnPiece, Piece, PieceWords]
"""The drawing of a piece, the piece, and the words that it bears."""


def _arranged(drawn: Sequence[_Drawn], paper: Paper) -> Arrangement:
    return arrange(FRONT_SIZE, [Shape(lines.outline, lines.box) for lines, *_ in drawn], paper)


def _laid_out(
    heading: Heading,
    drawn: Sequence[_Drawn],
    laid: Arrangement,
    paper: Paper,
    warnings: Sequence[str],
    to_buy: Sequence[str],
    sizes: Sequence[tuple[LineKind, str]] = (),
    by_measure: Sequence[Piece] = (),
) -> Sheet:
    """Drawings of pieces, each with the piece and the words that it bears, on a sheet."""
    if paper.endless and laid.rows == 1:
        ends = [FRONT_SIZE[1] + laid.front[1]]
        ends += [lines.box.height + y for (lines, *_), (_, y) in zip(drawn, laid.corners, strict=True)]
        paper = cut_to_length(paper, max(ends))
    grid = Grid(paper, laid.rows * paper.step_height + paper.overlap_y)
    left, top = 0.5 * paper.overlap_x, grid.top - 0.5 * paper.overlap_y
    shifts = [
        Vec(left + x - lines.box.left, top - y - lines.box.top)
        for (lines, *_), (x, y) in zip(drawn, laid.corners, strict=True)
    ]
    lying = [shifted(lines, shift(by)) for (lines, *_), by in zip(drawn, shifts, strict=True)]
    corner = Point(left + laid.front[0], top - laid.front[1])
    names = tuple(piece.name for _, piece, _ in drawn)
    front, list_room, map_room = front_block(
        corner,
        heading,
        paper,
        warnings=warnings,
        many=laid.sheets > 1,
        kinds={item.kind for lines, *_ in drawn for item in lines.items if isinstance(item, Stroke)},
        sizes=sizes,
        lacking=bool(lacking("".join((heading.title, heading.wearer, heading.dated, *names)))),
    )
    cells, on, squares = _numbered(grid, laid, front, lying)
    number = {cell: n for n, cell in enumerate(cells, start=1)}
    pages = {name: [number[cell] for cell in held] for name, held in zip(names, on, strict=True)}
    strips_told = [_strip_words(piece, heading.unit) for piece in by_measure]
    printed = [piece for _, piece, _ in drawn]
    listed = cut_list(list_room, printed, pages if len(cells) > 1 else {}, to_buy, strips_told)
    front = (*front, *on_layer(listed, ""))
    strips = join_strips(grid, laid.rows, laid.columns)
    placed = []
    for (lines, piece, words), by in zip(drawn, shifts, strict=True):
        around = lines.box.grown(_REACH)
        joins = [stroke_moved(strip, shift(-by)) for strip in strips]
        joins = [strip for strip in joins if not around.apart(item_box(strip))]
        there = [item_moved(item, shift(-by)) for item in squares]
        there = [item for item in there if not around.apart(item_box(item))]
        complete = with_notes(lines, piece, heading, words, joins=joins, there=there)
        placed.append(shifted(complete, shift(by)))
    return Sheet(heading, paper, laid.columns, laid.rows, front, map_room, tuple(placed), names, cells, on, squares)


def _numbered(
    grid: Grid, laid: Arrangement, front: Sequence[Item], pieces: Sequence[DrawnPiece]
) -> tuple[tuple[Cell, ...], tuple[tuple[Cell, ...], ...], tuple[Item, ...]]:
    """The sheets of paper in the order of their numbers, those that each piece lies on, and the closing squares.

    The squares stand on the last sheet: outside the pieces if one can be the last on which there is room for that, else
    within a piece, clear of its lines. Where there is room for them on none, or one sheet only, those of the front
    block have to do.
    """
    outlines = [piece.outline for piece in pieces]
    lines = obstacles([*front, *(item for piece in pieces for item in piece.items)])
    first = filled_cells(grid, laid.rows, laid.columns, obstacles(front))[0]
    # writing that reaches beyond a piece, as the number of a size does, is nothing to print a sheet for
    strokes = [obstacles(item for item in piece.items if isinstance(item, Stroke)) for piece in pieces]
    on = tuple(
        filled_cells(grid, laid.rows, laid.columns, own, piece.outline)
        for own, piece in zip(strokes, pieces, strict=True)
    )

    @cache
    def squares(cell: Cell) -> tuple[int, tuple[Item, ...]]:
        return second_squares(grid.own(cell), grid.paper, lines, outlines)

    if {first}.union(*on) == {first}:
        return (first,), on, ()
    cells = ordered_cells(first, on, as_last=lambda cell: squares(cell)[0], worst=WITHOUT)
    return cells, on, squares(cells[-1])[1]


def _measured(sized: Sized, unit: str) -> str:
    """What a size is called and the girths of the body it is for: "92: 92.0, 73.3, 97.6 cm"."""
    girths = {length.key: length.mm for length in sized.pattern.wearer.lengths}
    known = [girths[key] for key in ("bust_girth", "waist_girth", "hip_girth") if key in girths]
    numbers = [length_text(mm, unit).removesuffix(f" {unit}") for mm in known]
    return f"{sized.size}: {', '.join(numbers)} {unit}"
