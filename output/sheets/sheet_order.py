"""In which order sheets of paper are numbered: those of a piece one after another, as far as they can be."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import combinations, permutations
from typing import Final

__all__ = ["ordered_cells", "torn"]

Cell = tuple[int, int]

_ALL_TRIED: Final = 4
"""As many pieces are tried in every order; of more, two at a time change places as long as that helps."""


def ordered_cells(
    first: Cell, pieces: Sequence[Iterable[Cell]], *, as_last: Callable[[Cell], int] = lambda _cell: 0, worst: int = 1
) -> tuple[Cell, ...]:
    """All sheets in the order of their numbers: the first, then those of one piece after another.

    pieces:  the sheets that each piece lies on; a sheet may hold parts of several
    as_last: how ill a sheet would do as the last: 0 well, `worst` not at all
    Where sheets shared between pieces do not let all of them follow each other, the order is taken in which the fewest
    strange sheets lie between those of a piece; of those, one that ends well, and then the order of the pieces. For
    a last sheet that does at all, more may lie between.
    """
    on = [frozenset(cells) for cells in pieces]
    holds = {cell: frozenset(n for n, cells in enumerate(on) if cell in cells) for cell in {first}.union(*on)}

    kinds = {pieces: sorted(cell for cell in holds if holds[cell] == pieces) for pieces in set(holds.values())}

    def order(turns: Sequence[int]) -> list[Cell]:
        turn = {piece: n for n, piece in enumerate(turns)}

        def key(pieces: frozenset[int]) -> tuple[int, int]:
            found = [turn[n] for n in pieces]
            return min(found, default=-1), max(found, default=-1)

        inner = [cell for pieces in sorted(kinds, key=key) for cell in kinds[pieces] if cell != first]
        return [first, *inner]

    def cost(turns: Sequence[int]) -> int:
        return torn(order(turns), on)

    best: tuple[Cell, ...] = ()
    least: tuple[bool, int, int] = (True, len(holds) * len(on) + 1, worst)
    for count, turns in sorted((cost(turns), turns) for turns in _turns(len(on), cost)):
        if not least[0] and (count > least[1] or least[2] == 0):
            break
        for cells in _ends(order(turns), holds):
            ill = as_last(cells[-1])
            if (ill >= worst, count, ill) < least:
                best, least = cells, (ill >= worst, count, ill)
            if ill == 0:
                break
    best = _mended(best, on)
    if least[0]:
        # none that ends the sheets of a piece will do: then another, wherever fewest come to lie between
        others = [cell for cell in best[1:] if as_last(cell) < worst]
        moved = [(*(each for each in best if each != cell), cell) for cell in others]
        best = min(moved, key=lambda cells: (torn(cells, on), as_last(cells[-1])), default=best)
    return best


def _mended(cells: tuple[Cell, ...], pieces: Sequence[Iterable[Cell]]) -> tuple[Cell, ...]:
    """The same with single sheets elsewhere, but for the first and the last, as long as less lies between."""
    left = torn(cells, pieces)
    while left:
        tried = (
            (*rest[:to], cells[at], *rest[to:])
            for at in range(1, len(cells) - 1)
            for rest in [(*cells[:at], *cells[at + 1 :])]
            for to in range(1, len(cells) - 1)
        )
        better = min(tried, key=lambda order: torn(order, pieces), default=cells)
        if torn(better, pieces) >= left:
            break
        cells, left = better, torn(better, pieces)
    return cells


def torn(cells: Sequence[Cell], pieces: Iterable[Iterable[Cell]]) -> int:
    """How many sheets without a part of a piece lie between those of that piece, over all pieces."""
    number = {cell: n for n, cell in enumerate(cells)}
    total = 0
    for on in pieces:
        numbers = [number[cell] for cell in on]
        total += max(numbers) - min(numbers) + 1 - len(numbers) if numbers else 0
    return total


def _ends(cells: Sequence[Cell], holds: dict[Cell, frozenset[int]]) -> Iterator[tuple[Cell, ...]]:
    """The same order, and with another sheet of the same pieces at its end."""
    begin = len(cells) - 1
    while begin > 1 and holds[cells[begin - 1]] == holds[cells[-1]]:
        begin -= 1
    for n in range(len(cells) - 1, begin - 1, -1):
        yield (*cells[:n], *cells[n + 1 :], cells[n])


def _turns(count: int, cost: Callable[[Sequence[int]], int]) -> Iterable[tuple[int, ...]]:
    """Orders of the pieces that are worth a look."""
    natural = tuple(range(count))
    if count <= _ALL_TRIED:
        return permutations(natural)
    best, least = natural, cost(natural)
    while least:
        better = min((_swapped(best, *pair) for pair in combinations(natural, 2)), key=cost)
        if cost(better) >= least:
            break
        best, least = better, cost(better)
    last = [(*(other for other in best if other != piece), piece) for piece in best]
    return dict.fromkeys((best, best[::-1], *last))


def _swapped(turns: Sequence[int], i: int, j: int) -> tuple[int, ...]:
    found = list(turns)
    found[i], found[j] = found[j], found[i]
    return tuple(found)
