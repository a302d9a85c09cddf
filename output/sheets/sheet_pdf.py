"""Sheets of paper as one PDF: a page for each in their order, a bookmark for each piece."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.geometry import Point
from output.drawings.document import Bookmark, Document, Page
from output.drawings.pdf import document_pdf
from output.sheets.large_sheet import Sheet
from output.sheets.tiling import BLEED, Tile, tiles

__all__ = ["sheet_pdf", "tiles_pdf"]


def sheet_pdf(sheet: Sheet) -> bytes:
    """The large sheet as a PDF of its sheets of paper."""
    return tiles_pdf(sheet, tiles(sheet))


def tiles_pdf(sheet: Sheet, printed: Sequence[Tile]) -> bytes:
    """The large sheet as a PDF, where its sheets of paper have been cut already."""
    pages = tuple(Page(tile.paper.width, tile.paper.height, tile.items, tile.area.grown(-BLEED)) for tile in printed)
    return document_pdf(Document(sheet.heading.title, pages, _bookmarks(sheet, printed)))


def _bookmarks(sheet: Sheet, printed: Sequence[Tile]) -> tuple[Bookmark, ...]:
    """How to print, then the upper left corner of each piece on the first sheet that shows it."""
    first = printed[0]
    found = [Bookmark("how to print", 0, Point(0.0, first.paper.height))]
    for name, piece in zip(sheet.names, sheet.pieces, strict=True):
        tile = next(tile for tile in printed if name in tile.pieces)
        left, top = piece.box.left - tile.shown.left, piece.box.top - tile.shown.bottom
        corner = Point(tile.area.left + max(0.0, left), tile.area.bottom + min(tile.area.height, top))
        found.append(Bookmark(name, tile.number - 1, corner))
    return tuple(found)
