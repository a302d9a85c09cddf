"""Where the pieces lie on the large sheet: upright as drafted, none over another, on few sheets of paper."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from drafting.geometry import Point
from output.drawing import Box
from output.papers import Paper

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["EDGE", "Arrangement", "Shape", "arrange"]

_GAP = 6.0
EDGE = 7.0
"""How far what begins at a join of sheets keeps from it, mm: clear of the strip that two home sheets share."""

_BORDER = 1.0  # the same at the outer borders, where nothing is joined


_MOST_COLUMNS = 12
_UPON = 2.0
_ASIDE = (0.0, 2.0 * _UPON, 4.0 * _UPON)
_RIM = 10.0


@dataclass(frozen=True, slots=True)
class Shape:
    """Something to be laid: the polygon of its outline and the box around all of its drawing, y up."""

    outline: tuple[Point, ...]
    box: Box


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Where the upper left corner of each shape comes to lie, mm from the left and mm down from the top.

    corners are in the order of the shapes; columns, rows and sheets say how much paper that takes
    """

    corners: tuple[tuple[float, float], ...]
    columns: int
    rows: int
    sheets: int


def arrange(first: tuple[float, float], shapes: Sequence[Shape], paper: Paper) -> Arrangement:
    """Lay shapes on sheets of a paper, beside and under a block of the size `first` in the upper left corner.

    Several widths, orders and ways of lying are tried; the one that takes the fewest sheets is kept, of those the one
    that spans the fewest, and of those the squarest. The same shapes always lie the same way.
    """
    boxes = [shape.box for shape in shapes]
    rims = [_rim(shape) for shape in shapes]
    least = max((box.width for box in boxes), default=0.0)
    narrowest = max(1, math.ceil((least + 2.0 * _BORDER) / paper.step_width))
    sizes: tuple[Callable[[Box], float], ...] = (
        lambda box: box.height,
        lambda box: box.width,
        lambda box: box.height * box.width,
    )
    orders = [[i for _, i in sorted((-size(box), i) for i, box in enumerate(boxes))] for size in sizes]
    found: dict[tuple[tuple[float, float], ...], Arrangement] = {}
    for columns in range(narrowest, max(narrowest, _MOST_COLUMNS) + 1):
        for order, snap_x, snap_y in product(orders, (True, False), (True, False)):
            corners = _lay(first, boxes, order, columns, paper, (snap_x, snap_y))
            if corners not in found:
                found[corners] = _judge(first, boxes, rims, corners, paper)
    return min(found.values(), key=lambda a: (a.sheets, a.rows * a.columns, abs(a.rows - a.columns)))


def _lay(
    first: tuple[float, float],
    boxes: Sequence[Box],
    order: Sequence[int],
    columns: int,
    paper: Paper,
    snap: tuple[bool, bool],
) -> tuple[tuple[float, float], ...]:
    """Each box in turn to the highest, then leftmost place beside or under those that lie already.

    snap: whether places across and down are moved on to the next join, so that a piece crosses fewer of them
    """
    wide = columns * paper.step_width - _BORDER
    taken = [(0.0, 0.0, EDGE + first[0], EDGE + first[1])]  # left, top, right, bottom; downwards
    corners = [(0.0, 0.0)] * len(boxes)
    for i in order:
        width, height = boxes[i].width, boxes[i].height
        xs = {_BORDER, *(_on(t[2] + _GAP, paper.step_width, snap[0]) for t in taken)}
        ys = {_BORDER, *(_on(t[3] + _GAP, paper.step_height, snap[1]) for t in taken)}
        # of three places so far apart, neither side can be upon a join in more than one: one is always left
        xs = {x + aside for x in xs for aside in _ASIDE if not _upon(x + aside, width, paper.step_width, columns)}
        ys = {y + aside for y in ys for aside in _ASIDE if not _upon(y + aside, height, paper.step_height)}
        fits = (
            (y, x)
            for y in sorted(ys)
            for x in sorted(xs)
            if x + width <= wide and all(_clear(x, y, width, height, other) for other in taken)
        )
        y, x = next(fits)  # under everything that lies already there is always room
        corners[i] = (x, y)
        taken.append((x, y, x + width, y + height))
    return tuple(corners)


def _on(at: float, step: float, snap: bool) -> float:
    """The place itself, or just behind the first join at or after it."""
    return math.ceil((at - EDGE) / step - 1e-9) * step + EDGE if snap else at


def _upon(at: float, size: float, step: float, sheets: float = math.inf) -> bool:
    """Whether a side of a box lies so near a join that the two lines might be taken for one."""
    for side in (at, at + size):
        join = round(side / step)
        if 0 < join < sheets and abs(side - join * step) < _UPON:
            return True
    return False


def _clear(x: float, y: float, width: float, height: float, other: tuple[float, float, float, float]) -> bool:
    left, top, right, bottom = other
    return x >= right + _GAP or x + width + _GAP <= left or y >= bottom + _GAP or y + height + _GAP <= top


def _rim(shape: Shape) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Places along the outline no more than 10 mm apart: mm from the left and from the top of the shape's box."""
    import numpy as np

    xs: list[float] = []
    ys: list[float] = []
    for a, b in zip(shape.outline, (*shape.outline[1:], shape.outline[0]), strict=True):
        n = max(1, math.ceil(math.hypot(b.x - a.x, b.y - a.y) / _RIM))
        xs.extend(a.x + (b.x - a.x) * i / n for i in range(n))
        ys.extend(a.y + (b.y - a.y) * i / n for i in range(n))
    return np.array(xs) - shape.box.left, shape.box.top - np.array(ys)


def _judge(
    first: tuple[float, float],
    boxes: Sequence[Box],
    rims: Sequence[tuple[NDArray[np.float64], NDArray[np.float64]]],
    corners: tuple[tuple[float, float], ...],
    paper: Paper,
) -> Arrangement:
    """How much paper that takes. Only an estimate of the sheets: a corner may reach a sliver into one more."""
    cells = {(0, 0)}
    right, bottom = EDGE + first[0], EDGE + first[1]
    for box, (across, down), (x, y) in zip(boxes, rims, corners, strict=True):
        reached = set(zip((down + y) // paper.step_height, (across + x) // paper.step_width, strict=True))
        rows: dict[float, list[float]] = {}
        for row, column in reached:
            rows.setdefault(row, []).append(column)
        # pieces have no holes and no deep bays: what lies between the first and the last sheet of a row is covered
        cells |= {(int(row), column) for row, c in rows.items() for column in range(int(min(c)), int(max(c)) + 1)}
        right, bottom = max(right, x + box.width), max(bottom, y + box.height)
    return Arrangement(
        corners,
        columns=math.ceil(right / paper.step_width - 1e-9),
        rows=math.ceil(bottom / paper.step_height - 1e-9),
        sheets=len(cells),
    )
