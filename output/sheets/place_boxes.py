"""Laying boxes on the large sheet one after another, each at the highest, then leftmost place that is free.

Places are mm from the left and mm down from the top.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import product
from typing import Final

from drafting.dataclass import dataclass
from output.sheets.paper_use import BORDER, EDGE, Ground, Under, can_be_whole
from output.sheets.papers import Paper

__all__ = ["GAP", "MOST_WIDE", "Corner", "Task", "arrangements", "box_clear", "upon"]

GAP: Final = 6.0
"""Between two pieces, mm."""

MOST_WIDE: Final = 1200.0
"""How wide sheets may lie side by side, mm, where that costs no more of them: what a table holds (ours)."""

_MOST_COLUMNS: Final = 12
_UPON: Final = 2.0
_ASIDE: Final = (0.0, 2.0 * _UPON, 4.0 * _UPON)
_ALL_TURNS: Final = 5
"""Of so many shapes every order is tried; of more, the largest in every order and the rest behind them."""

Corner = tuple[float, float]
_Taken = tuple[tuple[float, float, float, float], ...]  # left, top, right, bottom


@dataclass(frozen=True, slots=True)
class Task:
    """What is to be laid on which paper: a block of the size `first`, whole on one sheet, and shapes."""

    first: tuple[float, float]
    shapes: tuple[Ground, ...]
    paper: Paper


@dataclass(frozen=True, slots=True)
class _Way:
    """How places are chosen.

    columns:    how many sheets side by side
    snap:       whether places across and down are moved on to the next join, so that a piece crosses fewer of them
    whole:      whether what fits on one sheet of paper is kept on one
    front_last: whether the first block takes room that the shapes leave
    """

    columns: int
    snap: tuple[bool, bool]
    whole: bool
    front_last: bool


def arrangements(task: Task, under: Under) -> Iterator[tuple[Corner, ...]]:
    """Ways of laying that are worth a look: the corner of the first block, then those of the shapes.

    Each takes no more sheets of paper than any that was given before it, by how many lie under the shapes.
    """
    most = math.inf
    for way, orders in _ways(task):
        for corners, sheets in _laid(task, under, way, orders, most):
            most = min(most, sheets)
            yield corners


def _ways(task: Task) -> Iterator[tuple[_Way, Sequence[tuple[int, ...]] | None]]:
    """Ways of choosing places, each with the orders to lay in; None for every order."""
    paper = task.paper
    narrowest = max((_columns(shape, paper) for shape in task.shapes), default=1)
    table = max(narrowest, int(MOST_WIDE // paper.step_width))
    shapes = range(len(task.shapes))
    by_size = [
        tuple(sorted(shapes, key=lambda i, size=size: (-size[i], i)))  # type: ignore[misc]
        for size in (
            [shape.height for shape in task.shapes],
            [shape.width for shape in task.shapes],
            [shape.height * shape.width for shape in task.shapes],
        )
    ]
    some_whole = any(can_be_whole(shape.width, shape.height, paper) for shape in task.shapes)
    keep = (True,) if paper.large else (True, False) if some_whole else (False,)
    # where the block fills a sheet of its own there is nothing to be gained by laying it last
    last = (False, True) if task.first[0] + 2.0 * EDGE + GAP < paper.step_width else (False,)
    for columns, x, y, whole, front_last in product(
        range(narrowest, max(narrowest, _MOST_COLUMNS) + 1), (True, False), (True, False), keep, last
    ):
        yield _Way(columns, (x, y), whole, front_last), by_size
    for columns, y in product(range(narrowest, table + 1), (True, False)):
        yield _Way(columns, (False, y), keep[0], last[-1]), None


def _columns(shape: Ground, paper: Paper) -> int:
    if paper.large and can_be_whole(shape.width, shape.height, paper):
        return 1
    return max(1, math.ceil((shape.width + 2.0 * BORDER) / paper.step_width))


def _laid(
    task: Task, under: Under, way: _Way, orders: Sequence[tuple[int, ...]] | None, most: float
) -> Iterator[tuple[tuple[Corner, ...], int]]:
    """The shapes laid in these orders, or in every order, with how many sheets lie under them and the block."""
    count = len(task.shapes)
    width, height = task.first
    begun: _Taken = () if way.front_last else ((0.0, 0.0, EDGE + width, EDGE + height),)
    large_first = sorted(range(count), key=lambda i: (-task.shapes[i].width * task.shapes[i].height, i))
    free, behind = large_first[:_ALL_TURNS], large_first[_ALL_TURNS:]

    def further(
        taken: _Taken, used: frozenset[tuple[int, int]], corners: dict[int, Corner], turns: Sequence[Sequence[int]]
    ) -> Iterator[tuple[tuple[Corner, ...], int]]:
        """Every way to place the boxes left that needs no more sheets than the best so far: the corners, the sheets."""
        nonlocal most
        if len(used) > most:
            return
        if len(corners) == count:
            front = _place(task.first, taken, way, task.paper, True, EDGE) if way.front_last else (EDGE, EDGE)
            if front is not None:
                cell = int(front[1] // task.paper.step_height), int(front[0] // task.paper.step_width)
                sheets = len(used | {cell})
                if sheets <= most:
                    most = sheets
                    yield (front, *(corners[i] for i in range(count))), sheets
            return
        for i in dict.fromkeys(turn[0] for turn in turns):
            shape = task.shapes[i]
            whole = way.whole and can_be_whole(shape.width, shape.height, task.paper)
            at = _place((shape.width, shape.height), taken, way, task.paper, whole, BORDER)
            if at is None:
                continue
            box = (*at, at[0] + shape.width, at[1] + shape.height)
            rest = [turn[1:] for turn in turns if turn[0] == i]
            yield from further((*taken, box), used | under.cells(i, *at).keys(), {**corners, i: at}, rest)

    yield from further(
        begun, frozenset() if way.front_last else frozenset({(0, 0)}), {}, orders or _every(free, behind)
    )


def _every(free: Sequence[int], behind: Sequence[int]) -> list[tuple[int, ...]]:
    from itertools import permutations

    return [(*turn, *behind) for turn in permutations(free)]


def _place(
    size: tuple[float, float], taken: _Taken, way: _Way, paper: Paper, whole: bool, start: float
) -> Corner | None:
    """The highest, then leftmost place for a box; None where there is none.

    whole: whether it must lie on one sheet; start: how far it keeps from the outer border
    """
    width, height = size
    xs = _begins(
        [t[2] for t in taken], width, paper.step_width, paper.overlap_x, way.snap[0], whole, start, way.columns
    )
    ys = _begins([t[3] for t in taken], height, paper.step_height, paper.overlap_y, way.snap[1], whole, start)
    over = 0.5 * paper.overlap_x if whole else 0.0
    wide = way.columns * paper.step_width + over - BORDER - width
    spans = [(x, x + width + GAP) for x in xs if x <= wide]
    for y in ys:
        low = y + height + GAP
        level = [(left, right + GAP) for left, top, right, bottom in taken if top < low and y < bottom + GAP]
        for x, end in spans:
            for left, right in level:
                if x < right and end > left:
                    break
            else:
                return x, y
    return None


def _begins(
    ends: Sequence[float],
    size: float,
    step: float,
    overlap: float,
    snap: bool,
    whole: bool,
    start: float,
    sheets: float = math.inf,
) -> list[float]:
    """Where a side of that size may begin, in order: at the border, or behind the end of what lies already."""
    if not whole:
        return sorted({_behind(end, size, step, snap, sheets) for end in (start - GAP, *ends)})
    begins = {start, *(_on(end + GAP, step, snap) for end in ends)}
    large = size > step - 2.0 * EDGE
    first = BORDER - 0.5 * overlap if large else start
    beyond = 0.5 * overlap - BORDER if large else -EDGE
    return sorted({_on_one(at, size, step, beyond, first) for at in (*begins, first)})


@lru_cache(maxsize=10_000)
def _behind(end: float, size: float, step: float, snap: bool, sheets: float) -> float:
    """Where a side of that size may begin behind the end of another, with neither of its own ends on a join."""
    at = _on(end + GAP, step, snap and end > 0.0)
    # of three places so far apart, neither end can be on a join in more than one: one is always left
    return next(at + by for by in _ASIDE if not upon(at + by, size, step, sheets))


@lru_cache(maxsize=10_000)
def _on_one(at: float, size: float, step: float, beyond: float, first: float) -> float:
    """The first place from `at` on where a side of that size ends on the sheet where it begins.

    beyond: how far outside a sheet's own part it may reach; below zero, how far it keeps inside
    """
    sheet = max(0, math.floor(at / step))
    while True:
        begin = max(at, first if sheet == 0 else sheet * step - beyond)
        if begin + size <= (sheet + 1) * step + beyond:
            return begin
        sheet += 1


def _on(at: float, step: float, snap: bool) -> float:
    """The place itself, or just behind the first join at or after it."""
    return math.ceil((at - EDGE) / step - 1e-9) * step + EDGE if snap else at


def upon(at: float, size: float, step: float, sheets: float = math.inf) -> bool:
    """Whether a side of a box lies so near a join that the two lines might be taken for one."""
    for side in (at, at + size):
        join = round(side / step)
        if 0 < join < sheets and abs(side - join * step) < _UPON:
            return True
    return False


def box_clear(box: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    """Whether there is a gap between two boxes (left, top, right, bottom)."""
    return box[0] >= other[2] + GAP or box[2] + GAP <= other[0] or box[1] >= other[3] + GAP or box[3] + GAP <= other[1]
