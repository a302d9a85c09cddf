"""The pictures of the README, drawn by the engine: `python -m tests.pictures` draws them again.

`tests/house/test_pictures.py` holds them to be current.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Final

from drafting.geometry import Vec, shift
from output.api import draft, read_garment
from output.drawings.drawing import Box, Item, item_moved
from output.drawings.garment_picture import garment_views
from output.drawings.pictures import changes_picture, pieces_picture
from output.drawings.svg import drawing_svg
from output.report.before_after import redrawn
from output.sheets.large_sheet import lay_out
from output.sheets.papers import PAPERS
from output.sheets.sheet_svg import tile_svg
from output.sheets.tiling import tiles

__all__ = ["FOLDER", "pictures"]

_ROOT: Final = Path(__file__).parents[1]
FOLDER: Final = _ROOT / "examples" / "pictures"
_SHEET: Final = 2
_WIDE: Final = {"pieces": 900, "sheet": 320, "step": 260, "garment": 480}
"""Pixels across, as the README shows them."""


def pictures() -> dict[str, str]:
    """Every picture by the name of its file."""
    whole = draft(read_garment(_ROOT / "examples" / "garments" / "lantern-dress.toml"))
    pattern = whole.pattern
    before, after = whole.stages[1:3]
    page = tiles(lay_out(pattern, paper=PAPERS["A4"], dated=whole.dated, unit=whole.unit))[_SHEET - 1]
    drawn = {
        "pieces": pieces_picture(pattern),
        "sheet": tile_svg(page),
        "step": changes_picture("A sleeve before and after", redrawn(before, after)),
        "garment": _side_by_side(whole),
    }
    return {f"{name}.svg": _shown(svg, _WIDE[name]) for name, svg in drawn.items()}


def _side_by_side(whole: object) -> str:
    views = garment_views(whole.pattern)  # type: ignore[attr-defined]
    items: list[Item] = []
    wide = 0.0
    for view in views:
        move = shift(Vec(wide - view.page.left, -view.page.top))
        items += [item_moved(item, move) for item in view.items]
        wide += view.page.width
    low = -max(view.page.height for view in views)
    return drawing_svg(items, Box(0.0, low, wide, 0.0), "Lantern dress, front and back", enlarged=4.0)


def _shown(svg: str, wide: int) -> str:
    """The drawing on white paper, as wide as it is shown; black lines are not seen on a dark page."""
    root, rest = re.match(r"(<svg [^>]*>)(.*)", svg, re.DOTALL).groups()  # type: ignore[union-attr]
    root = re.sub(r' (width|height)="[^"]*"', "", root)
    return root.replace("<svg ", f'<svg width="{wide}" style="background:#fff" ', 1) + rest


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for name, svg in pictures().items():
        (FOLDER / name).write_text(svg, encoding="utf-8")
        print(FOLDER / name)
