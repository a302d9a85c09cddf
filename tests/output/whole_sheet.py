"""The large sheet as one drawing, without the marks that joining needs; and which lines on it are of the pattern."""

from __future__ import annotations

from functools import cache
from typing import Final

from output.drawings.drawing import SIZE_LINES, Box, LineKind
from output.drawings.svg import drawing_svg
from output.sheets.large_sheet import Sheet, lay_out
from output.sheets.papers import PAPERS
from output.sheets.tiling import Tile, tiles
from tests.examples import example_pattern

__all__ = ["PATTERN_KINDS", "laid_out_example", "sheet_svg"]

PATTERN_KINDS: Final = frozenset(
    {
        *SIZE_LINES,
        LineKind.CUTTING,
        LineKind.SEWING,
        LineKind.FOLD,
        LineKind.DART,
        LineKind.NOTCH,
        LineKind.GRAIN,
        LineKind.BALANCE,
        LineKind.GATHER,
        LineKind.POINT,
    }
)
"""The kinds that belong to the pattern itself, not to the paper it is printed on."""


def sheet_svg(sheet: Sheet) -> str:
    """The whole sheet as one drawing."""
    return drawing_svg(sheet.items, Box(0.0, 0.0, sheet.width, sheet.height), sheet.heading.title)


@cache
def laid_out_example(name: str, paper: str) -> tuple[Sheet, tuple[Tile, ...]]:
    """An example garment on its large sheet and on sheets of paper, laid out once in a process."""
    sheet = lay_out(example_pattern(name), paper=PAPERS[paper], dated="3 October")
    return sheet, tuple(tiles(sheet))
