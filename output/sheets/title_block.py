"""The block at the upper left of the sheet: what it is, how to print it, squares to measure, legend, the map's room."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Final

from drafting.geometry import Point
from drafting.reading.units import fine_text, length_text
from output.drawings.drawing import Box, Item, LineKind, Stroke, Text, on_layer, path
from output.drawings.lettering import LEADING, fitted, wrapped
from output.drawings.piece_drawing import Heading
from output.drawings.scale_proof import TEST_SQUARES, square_with_room
from output.sheets.papers import Paper

__all__ = ["FRONT_SIZE", "front_block"]

FRONT_SIZE: Final = (171.0, 240.0)
"""Width and height of the block, mm: what two steps of `EDGE` leave of the smallest paper's sheet."""

_TITLE, _HEAD, _NOTE = 7.0, 4.2, 3.3
_SQUARES_BELOW = 28.0
_BETWEEN_SQUARES = 8.0
_COLUMN = 105.5  # from the left of the block to the column beside the squares
_WARNINGS_MOST = 72.0  # leaves room for all that stands below them
_SAMPLE = 16.0

_TO_PRINT = (
    'In the print window choose 100 %, also called "actual size", and one side of the paper.',
    "Print this sheet first. Measure this square and the one below, across and down, along the line.",
    "{square}? Then the sheet was fitted to the paper; still less: to a smaller paper. Choose 100 % and print it "
    "again. What is printed too small cannot be mended by cutting.",
    "You want a single piece? Print this sheet and the pages that the list below names for it.",
)
_TO_HAVE_PRINTED = (
    "At the copy shop ask for 100 %, one to one, not fitted to the paper.",
    "Before you cut, measure this square and the one below, across and down, along the line. Is one of them off? Then "
    "the print was scaled: have it printed again.",
)
_LACKING = "A letter that the font of the PDF does not have is printed as an empty box. Nothing else is missing."
_HOW = 'Print at 100 %, never "fit to page". Measure both squares before you cut.'
_WARNED = "A check failed. Do not cut before this is mended."

_RULES = "The rules in force where you live decide: see the report."

_LEGEND = (
    (LineKind.CUTTING, "cutting line: cut here"),
    (LineKind.SEWING, "sewing line"),
    (LineKind.FOLD, "fold of the cloth: do not cut"),
    (LineKind.DART, "dart leg"),
    (LineKind.GRAIN, "grain line"),
    (LineKind.BALANCE, "bust, waist and hip lines"),
    (LineKind.GATHER, "two rows: gather here"),
    (LineKind.NOTCH, "notch"),
    (LineKind.FRAME, "join of two sheets"),
)

_SIZES = "Sizes: bust, waist, hip"
_SIZE_SAMPLE = 24.0
_OWN_SIZE = "Count the dots between the dashes, and cut along the line of your size. The sewing lines are not drawn."
_OF_ONE_SIZE = (LineKind.CUTTING, LineKind.SEWING, LineKind.DART, LineKind.BALANCE)


def front_block(
    corner: Point,
    heading: Heading,
    paper: Paper,
    *,
    warnings: Sequence[str] = (),
    many: bool = True,
    kinds: Collection[LineKind] = frozenset(LineKind),
    sizes: Sequence[tuple[LineKind, str]] = (),
    lacking: bool = False,
) -> tuple[tuple[Item, ...], Box, Box]:
    """The items of the block, the room it leaves for the list of pieces, and that for the map of the sheets.

    corner:   its upper left corner
    warnings: sentences that must be seen before anything is cut, such as checks that failed
    many:     whether there is more than one sheet, which then have to be joined
    kinds:    the kinds of line that the pieces have; of others the legend says nothing
    sizes:    the lines of the sizes of a nest, and what each size measures
    lacking:  whether a name has letters that the font does not have
    """
    width, height = FRONT_SIZE
    items: list[Item] = list(_title(corner, heading, width, bool(warnings)))
    top = corner.y - _SQUARES_BELOW
    rooms = []
    for square in TEST_SQUARES:
        drawn, room = square_with_room(square, Point(corner.x, top - square.side))
        items.extend(drawn)
        rooms.append(room)
        top -= square.side + _BETWEEN_SQUARES
    how = _Column(rooms[0].left, rooms[0].top, rooms[0].width)
    how.heading("How to print")
    for words in _TO_HAVE_PRINTED if paper.large else _TO_PRINT if many else _TO_PRINT[:-1]:
        how.paragraph(words.format(square=_fitted_square(paper, heading.unit)))
    if lacking:
        how.paragraph(_LACKING)
    items.extend(how.items)
    column = _Column(corner.x + _COLUMN, corner.y - _SQUARES_BELOW, width - _COLUMN)
    if warnings:
        column.warnings(warnings, column.y - _WARNINGS_MOST)
    if many:
        column.heading("Joining the sheets")
        column.paragraph(
            'Cut each sheet along its line marked "cut" and lay it to the same line of its neighbour, '
            "so that the rounds with one number become whole. "
            f"From one corner mark to the next is {fine_text(paper.step_width, heading.unit)} across and "
            f"{fine_text(paper.step_height, heading.unit)} down."
        )
    if heading.cautions:
        column.heading("For a child")
        for sentence in heading.cautions:
            column.paragraph(sentence)
        column.paragraph(_RULES)
    if sizes:
        column.heading(_SIZES)
        for kind, words in sizes:
            column.sample(kind, words, long=_SIZE_SAMPLE)
        column.y -= 1.5
        column.paragraph(_OWN_SIZE)
    column.heading("The lines")
    for kind, words in _LEGEND:
        occurs = many if kind is LineKind.FRAME else kind in kinds
        if occurs and not (sizes and kind in _OF_ONE_SIZE):
            column.sample(kind, words)
    bottom = corner.y - height
    column.y -= 3.0
    if many:
        column.heading("The sheets")
    map_room = Box(column.left, bottom, corner.x + width, column.y)
    return on_layer((*items, *column.items), ""), rooms[1], map_room


def _fitted_square(paper: Paper, unit: str) -> str:
    """How large a square is on a sheet that was shrunk into the border of its paper: "Is this one 94 mm, not 100"."""
    share = min(1.0 - 2.0 * paper.margin / paper.width, 1.0 - 2.0 * paper.margin / paper.height)
    if unit == "in":
        return f"Is the one below {length_text(share * TEST_SQUARES[1].side, unit)}, not 4"
    return f"Is this one {share * TEST_SQUARES[0].side:.0f} mm, not 100"


class _Column:
    """A column that is filled from the top."""

    def __init__(self, left: float, top: float, width: float) -> None:
        self.left, self.y, self.width = left, top, width
        self.items: list[Item] = []

    def heading(self, words: str) -> None:
        self._line(words, _HEAD, bold=True)
        self.y -= 1.0

    def paragraph(self, words: str) -> None:
        for line in wrapped(words, _NOTE, self.width):
            self._line(line, _NOTE)
        self.y -= 3.0

    def sample(self, kind: LineKind, words: str, *, long: float = _SAMPLE) -> None:
        """A line of the kind and what it means."""
        middle = self.y - 2.8
        length = 3.0 if kind is LineKind.NOTCH else long
        sample = [path(Point(self.left, middle), Point(self.left + length, middle))]
        if kind is LineKind.GRAIN:
            ends = (self.left, 1.0), (self.left + length, -1.0)
            sample += [
                path(Point(x + d * 5, middle + 1.8), Point(x, middle), Point(x + d * 5, middle - 1.8)) for x, d in ends
            ]
        self.items.append(Stroke(kind, tuple(curve for curves in sample for curve in curves)))
        text, size = fitted(words, _NOTE, self.width - long - 2.5, least=2.2)
        self.items.append(Text(text, Point(self.left + long + 2.5, middle - 0.35 * size), size))
        self.y -= 5.6

    def warnings(self, sentences: Sequence[str], bottom: float) -> None:
        """As many of the sentences as the room holds, and how many more there are."""
        self.heading("What failed")
        for n, sentence in enumerate(sentences):
            lines = wrapped(sentence, _NOTE, self.width)
            last = 0.0 if n + 1 == len(sentences) else _NOTE * LEADING
            if self.y - len(lines) * _NOTE * LEADING - 1.0 - last < bottom:
                self._line(f"and {len(sentences) - n} more: see the report", _NOTE, bold=True)
                break
            for line in lines:
                self._line(line, _NOTE)
            self.y -= 1.0
        self.y -= 2.0

    def _line(self, words: str, size: float, *, bold: bool = False) -> None:
        self.items.append(Text(words, Point(self.left, self.y - 0.78 * size), size, bold=bold))
        self.y -= size * LEADING


def _title(corner: Point, heading: Heading, width: float, warned: bool) -> tuple[Text, ...]:
    title, size = fitted(heading.title, _TITLE, width, least=4.0, bold=True)
    whose = ", ".join(part for part in (f"for {heading.wearer}" if heading.wearer else "", heading.dated) if part)
    second, second_size = fitted(whose, 4.5, width, least=3.0)
    how, how_size = fitted(_HOW, 4.0, width, least=2.8)
    lines = [
        Text(title, Point(corner.x, corner.y - 6.0), size, bold=True),
        Text(second, Point(corner.x, corner.y - 12.5), second_size),
        Text(how, Point(corner.x, corner.y - 18.5), how_size),
    ]
    if warned:
        lines.append(Text(_WARNED, Point(corner.x, corner.y - 24.5), 4.0, bold=True))
    return tuple(lines)
