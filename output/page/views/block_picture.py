"""What a block or a part looks like: a small drawing by the engine itself, asked for when it comes into sight."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any, Final

from output.api import BLOCKS, Draft
from output.api.kinds_to_begin import garment_kinds
from output.api.samples import sample_block, sample_kind, sample_part
from output.api.screen_lines import garment_lines, piece_lines
from output.api.showing import BODY_KINDS, BodyKind
from output.page.views.data import Data

__all__ = ["NOTHING", "picture", "picture_of_kind"]

NOTHING: Final[Data] = {"box": [0, 0, 0, 0], "paths": []}
"""The drawing of what cannot be drawn for this kind of body."""

_BETWEEN: Final = 0.12
"""Room between two pieces of a part, as a share of the taller."""


@lru_cache(maxsize=128)
def picture(name: str, body: str) -> Data:
    """A block from the front, a part as its pieces, side by side; `NOTHING` for what cannot be drawn for this body.

    box: left, top, width, height; paths: each kind ("strong" or "fine"), d, and x, y, where it is moved to
    """
    kind: BodyKind = next((each for each in BODY_KINDS if each == body), "woman")
    if all(each.name != name for each in BLOCKS):
        part = sample_part(name, kind)
        return NOTHING if part is None else _side_by_side(part.draft, part.pieces, part.along)
    block = sample_block(name, kind)
    if block is None:
        return NOTHING
    if view := next(iter(garment_lines(block.draft)), None):
        return _of_view(view)
    return _side_by_side(block.draft, block.pieces)


@lru_cache(maxsize=64)
def picture_of_kind(name: str, body: BodyKind) -> Data:
    """A kind of garment from the front, as `picture` tells it."""
    kind = next((each for each in garment_kinds(body) if each.name == name), None)
    made = None if kind is None else sample_kind(kind, body)
    view = None if made is None else next(iter(garment_lines(made)), None)
    return (
        NOTHING if view is None else {"box": view.box, "paths": [_path(weight, d) for weight, d in view.lines.items()]}
    )


def _of_view(view: Any) -> Data:
    return {"box": view.box, "paths": [_path(weight, d) for weight, d in view.lines.items()]}


def _side_by_side(made: Draft, pieces: Sequence[str], along: Sequence[tuple[str, str]] = ()) -> Data:
    """The pieces in a row, each beside the one before it, in the middle of the height of the tallest.

    along: the edges that are drawn strongly, all else being fine; nothing for the outlines
    """
    drawn = [piece_lines(made, name) for name in pieces]
    if not drawn:
        return NOTHING
    tall = max(each.box[3] for each in drawn)
    paths, right = [], 0.0
    for each in drawn:
        left, top, width, height = each.box
        x, y = right - left, 0.5 * (tall - height) - top
        sewn, fold = (each.lines.get(kind, "") for kind in ("sewing line", "fold of cloth"))
        edges = " ".join(each.edges[edge] for piece, edge in along if piece == each.name)
        whole = (("strong", each.outline), ("fine", sewn))
        lines = (("fine", f"{sewn} {fold}"), ("strong", edges)) if along else whole
        paths += [_path(kind, d, x, y) for kind, d in lines if d]
        right += width + _BETWEEN * tall
    return {"box": [0.0, 0.0, right - _BETWEEN * tall, tall], "paths": paths}


def _path(kind: str, d: str, x: float = 0.0, y: float = 0.0) -> Data:
    return {"kind": kind, "d": d, "x": round(x, 2), "y": round(y, 2)}
