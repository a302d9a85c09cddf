"""Pictures of several pieces side by side, for a screen: shown as wide as the page is, and so to no scale."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Final

from drafting.geometry import Point, Vec, shift
from drafting.pattern import Pattern, Piece
from drafting.pattern.seam_ends import sewn_piece
from output.drawings.drawing import Box, Item, Stroke, Text, item_moved
from output.drawings.piece_drawing import piece_lines
from output.drawings.svg import drawing_svg, overlay_strokes

__all__ = ["changes_picture", "pieces_picture"]

_APART: Final = 40.0
"""mm between two pieces."""

_AS_ON_PAPER: Final = 320.0
"""mm. A picture so wide has lines and writing as they are on paper; in a wider one they grow with it (ours)."""

_NAME: Final = 5.0
_SIZE: Final = re.compile(r' width="([0-9.]+)mm"| height="[0-9.]+mm"')

_Drawn = tuple[str, Sequence[Item], Box]
"""The name of a piece, its lines, and the box around them."""


def pieces_picture(pattern: Pattern, names: Iterable[str] = ()) -> str:
    """The pieces of a pattern side by side with their names, as SVG; `names` for some of them, or all."""
    drawn = []
    for name in tuple(names) or [piece.name for piece in pattern.pieces]:
        lines = piece_lines(pattern.piece(name), sewn_piece(pattern, name))
        drawn.append((name, [item for item in lines.items if isinstance(item, Stroke)], lines.box))
    return _picture(pattern.title, drawn)


def changes_picture(title: str, pairs: Iterable[tuple[Piece | None, Piece | None]]) -> str:
    """Each piece as it was, in a light line, under the piece as it is; None for what is not there."""
    drawn = []
    for before, after in pairs:
        shown = after or before
        if shown is not None:
            drawn.append((shown.name, *overlay_strokes(before, after)))
    return _picture(title, drawn)


def _picture(title: str, drawn: Sequence[_Drawn]) -> str:
    """Drawings side by side with their names below, as one SVG that fills the width it is given."""
    wide = sum(box.width for _, _, box in drawn) + _APART * (len(drawn) + 1)
    enlarged = max(1.0, wide / _AS_ON_PAPER)
    items: list[Item] = []
    left, top = _APART, max((box.height for _, _, box in drawn), default=0.0)
    below = -2.0 * _NAME * enlarged
    for name, lines, box in drawn:
        move = shift(Vec(left - box.left, -box.bottom))
        items += [item_moved(item, move) for item in lines]
        items.append(Text(name, Point(left + 0.5 * box.width, below), _NAME * enlarged, anchor="middle"))
        left += box.width + _APART
    page = Box(0.0, below - _NAME * enlarged, max(left, 1.0), top + _APART)
    svg = drawing_svg(items, page, title, enlarged=enlarged)
    # no length in mm: nobody is to measure on a screen
    return _SIZE.sub(lambda found: ' width="100%"' if found[1] else "", svg, count=2)
