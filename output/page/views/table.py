"""How the pieces lie on the table: in rows, or in columns as they are worn, all of them true to each other."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Final, Literal

from output.page.views.data import Data
from output.page.views.pieces import lines_of
from output.page.views.shown import Shown

__all__ = ["Groups", "arrangements", "table"]

Size = tuple[float, float]

_ROOMS: Final = (0.35, 0.5, 0.7, 0.85, 1.0, 1.2, 1.45, 1.8, 2.4, 3.2, 5.0)
"""How wide rooms are for their height: from a narrow strip beside the sheet to one across a phone."""

_APART: Final = 40.0
"""mm between two pieces."""

_WRITING: Final = 90.0
"""mm under a piece for its name, about."""

_SMALL: Final = 0.4
"""A piece less high than this share of the highest lies with the other small ones."""

_NOTHING: Final = 1e-6

_WORN: Final = ("front", "back", "sleeve")
"""The columns of what is worn, from the left."""


@dataclass(frozen=True, slots=True)
class Groups:
    """The pieces in rows, from left to right, or in columns, from top to bottom: their names, group by group."""

    by: Literal["rows", "columns"]
    names: tuple[tuple[str, ...], ...]


def table(shown: Shown) -> Data:
    """How the pieces may lie.

    pieces:       their names in the order of the pattern
    arrangements: each the best for rooms of some shape: by ("rows" or "columns"), names (group by group)
    """
    pieces = shown.draft.pattern.pieces
    sizes = {piece.name: lines_of(shown, piece.name).box[2:] for piece in pieces}
    kinds = {piece.name: str(piece.identity.kind) for piece in pieces}
    found = arrangements(sizes, kinds)
    return {
        "pieces": list(sizes),
        "arrangements": [{"by": each.by, "names": [list(group) for group in each.names]} for each in found],
    }


def arrangements(sizes: Mapping[str, Size], kinds: Mapping[str, str]) -> list[Groups]:
    """The arrangements in which the pieces can be drawn largest, one or more for rooms of every shape.

    sizes: width and height of each piece, mm, in the order of the pattern
    kinds: what each is: "front", "back", "sleeve" or something else
    """
    if not sizes:
        return []
    tried = [(each, *_room_for(each, sizes)) for each in _tried(sizes, kinds)]
    best = [max(tried, key=lambda each: min(room / each[1], 1.0 / each[2]))[0] for room in _ROOMS]
    return list(dict.fromkeys(best))


def _tried(sizes: Mapping[str, Size], kinds: Mapping[str, str]) -> Iterator[Groups]:
    highest = max((size[1] for size in sizes.values()), default=0.0)
    rows = sorted(sizes, key=lambda name: sizes[name][1] < _SMALL * highest)
    worn = sorted(sizes, key=lambda name: _WORN.index(kinds[name]) if kinds[name] in _WORN else len(_WORN))
    for count in range(1, len(sizes) + 1):
        yield Groups("rows", _divided(rows, count, lambda name: sizes[name][0] + _APART))
        yield Groups("columns", _divided(worn, count, lambda name: sizes[name][1] + _APART + _WRITING))


def _divided(order: Sequence[str], count: int, long: Callable[[str], float]) -> tuple[tuple[str, ...], ...]:
    """The names in their order in at most so many groups, the longest group as short as can be."""
    longs = [long(name) for name in order]
    ends = list(accumulate(longs, initial=0.0))
    sums = sorted({end - start for at, end in enumerate(ends) for start in ends[:at]})
    least = bisect_left(sums, True, key=lambda most: len(_cut(longs, most)) <= count)
    cuts = _cut(longs, sums[least])
    return tuple(tuple(order[start:end]) for start, end in pairwise([*cuts, len(order)]))


def _cut(longs: Sequence[float], most: float) -> list[int]:
    """Where groups begin that are as long as they may be, one after the other."""
    cuts, left = [0], most
    for at, long in enumerate(longs):
        if long > left + _NOTHING and at > cuts[-1]:
            cuts.append(at)
            left = most
        left -= long
    return cuts


def _room_for(groups: Groups, sizes: Mapping[str, Size]) -> Size:
    """The width and height that an arrangement takes, mm."""
    if groups.by == "rows":
        width = max(sum(sizes[name][0] + _APART for name in group) for group in groups.names)
        height = sum(max(sizes[name][1] for name in group) + _APART + _WRITING for group in groups.names)
    else:
        width = sum(max(sizes[name][0] for name in group) + _APART for group in groups.names)
        height = max(sum(sizes[name][1] + _APART + _WRITING for name in group) for group in groups.names)
    return width, height
