"""What a block or a part looks like: a small drawing by the engine itself, asked for when it comes into sight."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Any, Final

from output.api import BLOCKS, Cloth, Draft, Garment, TrueseamError, block, draft, part
from output.api.drawn import garment_lines, piece_lines
from output.page.views.data import Data

__all__ = ["NOTHING", "picture"]

NOTHING: Final[Data] = {"box": [0, 0, 0, 0], "paths": []}
"""The drawing of what cannot be drafted by itself for this wearer."""

_BETWEEN: Final = 0.12
"""Room between two pieces of a part, as a share of the taller."""


def picture(drafted: Draft, name: str) -> Data:
    """A block alone for this wearer, from the front; a part as its pieces, side by side; `NOTHING` for neither.

    box: left, top, width, height; paths: each kind ("strong" or "fine"), d, and x, y, where it is moved to
    """
    garment = drafted.garment
    if any(each.name == name for each in BLOCKS):
        return _of_block(garment.wearer, garment.cloth, garment.fit, name)
    return _of_part(drafted, name)


@lru_cache(maxsize=64)
def _of_block(wearer: Any, cloth: Any, fit: Any, name: str) -> Data:
    row = next(each for each in BLOCKS if each.name == name)
    names = (row.after, name) if row.after else (name,)
    for each in (cloth, Cloth(kind=row.cloth)):  # what cannot be made of the garment's cloth is drawn of its own
        try:
            made = draft(Garment(name, wearer, tuple(block(one) for one in names), cloth=each, fit=fit))
        except TrueseamError:
            continue
        if view := next(iter(garment_lines(made)), None):
            return {"box": view.box, "paths": [_path(kind, d) for kind, d in view.lines.items()]}
        return _side_by_side(made, [piece.name for piece in made.pieces])
    return NOTHING


def _of_part(drafted: Draft, name: str) -> Data:
    """As it is in the garment; where it is not there, as it would be on it before anything is changed."""
    there = next((each for each in drafted.pattern.derived if each.part == name), None)
    if there is not None:
        return _side_by_side(drafted, there.pieces)
    try:
        bare = draft(replace(drafted.garment, parts=(part(name),), steps=(), sources=()))
    except TrueseamError:
        return NOTHING
    return _side_by_side(bare, [name for each in bare.pattern.derived for name in each.pieces])


def _side_by_side(made: Draft, pieces: Any) -> Data:
    drawn = [piece_lines(made, name) for name in pieces]
    if not drawn:
        return NOTHING
    tall = max(each.box[3] for each in drawn)
    paths, right = [], 0.0
    for each in drawn:
        left, top, width, height = each.box
        x, y = right - left, 0.5 * (tall - height) - top
        lines = (("strong", each.outline), ("fine", each.lines.get("sewing line", "")))
        paths += [_path(kind, d, x, y) for kind, d in lines if d]
        right += width + _BETWEEN * tall
    return {"box": [0.0, 0.0, right - _BETWEEN * tall, tall], "paths": paths}


def _path(kind: str, d: str, x: float = 0.0, y: float = 0.0) -> Data:
    return {"kind": kind, "d": d, "x": round(x, 2), "y": round(y, 2)}
