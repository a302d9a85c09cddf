"""The title of one sheet of paper: its place and number, the pieces on it, whose pattern it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from drafting.geometry import Point
from output.drawings.drawing import Box, Text
from output.drawings.free_space import first_clear, grid, least_crowded
from output.drawings.lettering import block, block_size, fitted, text_width, wrapped

if TYPE_CHECKING:
    from output.drawings.free_space import Obstacles

__all__ = ["sheet_label"]

_Line = tuple[str, float, bool]

_TITLE, _SMALL = 4.0, 2.8
_SPACINGS: Final = (10.0, 4.0)
_SCALES: Final = (1.0, 0.8, 0.65, 0.5)
_EDGE = 5.0
_AIR = 1.5


def sheet_label(own: Box, segments: Obstacles, *, place: str, pieces: Sequence[str], whose: str) -> tuple[Text, ...]:
    """The title of the sheet whose own part that is, near its upper left corner, where it crosses no line.

    place:  "row 2, column 3: sheet 7 of 24"
    pieces: the names of the pieces on it
    whose:  "" where that is said already
    It is made smaller, turned or written without its last line before it would lie over a line of the drawing.
    """
    for lines, spacing in _tries(place, pieces, whose):
        width, height = block_size(lines)
        for angle in (0.0, 90.0):
            across, up = (width, height) if angle == 0.0 else (height, width)
            middles = Box(own.left + 0.5 * across, own.bottom + 0.5 * up, own.right - 0.5 * across, own.top - 0.5 * up)
            places = grid(middles.grown(-_EDGE), spacing, near=Point(own.left, own.top))
            at = first_clear(segments, places, (width + 2.0 * _AIR, height + _AIR), angle=angle)
            if at:
                return block(lines, at, angle=angle)
    places = grid(own.grown(-_EDGE - 0.5 * max(width, height)), _SPACINGS[-1], near=Point(own.left, own.top))
    return block(lines, least_crowded(segments, places if len(places) else [own.centre], (width, height)))


def _tries(place: str, pieces: Sequence[str], whose: str) -> Iterator[tuple[list[_Line], float]]:
    """What is written and how closely room for it is sought, the fullest and largest first."""
    for scale in _SCALES:
        first = (place, _TITLE * scale, True)
        width = text_width(place, _TITLE * scale, bold=True)
        names = [(line, _SMALL * scale, True) for line in wrapped(", ".join(pieces), _SMALL * scale * 1.12, width)]
        words, size = fitted(whose, _SMALL * scale, width, least=_SMALL * scale)
        for spacing in _SPACINGS:
            if whose:
                yield [first, *names, (words, size, False)], spacing
            yield [first, *names], spacing
