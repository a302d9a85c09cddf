"""A sheet of paper as SVG 1.1 in true millimetres."""

from __future__ import annotations

from output.drawings.drawing import Box
from output.drawings.svg import drawing_svg
from output.sheets.tiling import BLEED, Tile

__all__ = ["tile_svg"]


def tile_svg(tile: Tile) -> str:
    """One sheet of paper. All of the drawing lies inside its printable area; writing is clipped to it."""
    box = Box(0.0, 0.0, tile.paper.width, tile.paper.height)
    title = f"row {tile.row}, column {tile.column}, sheet {tile.number} of {tile.count}"
    return drawing_svg(tile.items, box, title, clip=tile.area.grown(-BLEED))
