"""A lay in a moment: pieces slide in from the right, one after the other, and the best of many orders is kept.

Each piece comes to lie as far left as it can go past what lies there, at whichever height and of whichever of its
allowed turns and flips. The outlines are held in rows of a few millimetres by their furthest left and right: no place
is taken twice, and no hollow closed off on the right is filled. Orders are compared in coarse rows; the best of them
are then laid in fine ones. The same pieces give the same lay, however busy the machine is.
"""

from __future__ import annotations

import math
import random
from bisect import insort
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from drafting.dataclass import dataclass
from drafting.geometry import Point
from output.lay.lay_values import LayPiece, Placement, Spread, Stretch, Strip

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Rows = npt.NDArray[np.float64]

__all__ = ["slide_in"]

_FINE: Final = 4.0  # mm that a row is high
_COARSE: Final = 8.0
_CHANGED: Final = 3  # of the best orders, that are changed further
_HOPELESS: Final = 1.03  # an order that comes out longer than the best by more is not laid to its end
_LAID_FINE: Final = 4  # orders that are laid in fine rows
_ROUNDING: Final = 1e-9

_Order = tuple[tuple[int, int], ...]
"""The pieces by their places in the list, each as often as it is laid, with the choice of its ways; 0 for any way."""


@dataclass(frozen=True, slots=True)
class _Ways:
    """The ways in which a piece may lie on a strip of the cloth, each moved to x = 0 and to the lowest row for it.

    width: how long the piece is along the cloth
    first: the lowest row
    left:  its furthest left in each row by each way, already less the gap, with what lies within the gap beside it
    right: for each way its furthest right in each row
    below: how far each row is filled that it covers, by each place across the cloth; a view that follows the filling.
           Rows come first here and in `left`, ways second, places third: so numpy compares all places in one go
    there: for each place and way whether its middle lies on a middle of the pattern; None where nothing has to
    """

    piece: LayPiece
    strip: Strip
    placements: tuple[Placement, ...]
    width: float
    first: int
    left: Rows
    right: Rows
    below: Rows
    there: Rows | None = None

    def only(self, way: int) -> _Ways:
        """One of the ways alone."""
        one = slice(way, way + 1)
        there = None if self.there is None else self.there[:, one]
        left = self.left[:, one].copy()
        return replace(self, placements=self.placements[one], left=left, right=self.right[one], there=there)


@dataclass(frozen=True, slots=True)
class _Table:
    """The cloth in rows: how far each is filled in each of its strips, and for each piece of the list its choices.

    ways: by piece and choice, for each strip: first with all ways it may lie in, then with one of them at a time
    """

    cloth: Spread
    high: float
    filled: Rows
    ways: tuple[tuple[tuple[_Ways, ...], ...], ...]


@dataclass(frozen=True, slots=True)
class _Begun:
    """The first pieces of an order laid: how far the rows are filled, where in the repeat notches lie, the length."""

    filled: Rows
    phases: Mapping[str, float]
    length: float


def slide_in(pieces: Sequence[LayPiece], cloth: Spread, *, tries: int = 160, seed: int = 1) -> Stretch:
    """The shortest stretch found in so many tries, each with another order; every piece must fit across the cloth.

    seed: other numbers try other orders
    """
    if not pieces:
        return Stretch(cloth, ())
    orders = _best_orders(pieces, _table(pieces, cloth, _COARSE), tries, random.Random(seed))
    fine = _table(pieces, cloth, _FINE)
    stretches = (Stretch(cloth, tuple(_laid(order, fine))) for order in orders)
    return min(stretches, key=lambda stretch: stretch.length)


def _best_orders(pieces: Sequence[LayPiece], table: _Table, tries: int, chance: random.Random) -> list[_Order]:
    """The orders that come out shortest in coarse rows, each found by changing one of the best before it."""
    each = [place for place, piece in enumerate(pieces) for _ in range(piece.times)]
    begun = [
        tuple((n, 0) for n in sorted(each, key=lambda n: by(pieces[n]), reverse=True))
        for by in (_area, _length, _across)
    ]
    tried: set[_Order] = set()
    shortest: list[tuple[float, int, _Order]] = []
    known: dict[_Order, _Begun] = {(): _Begun(table.filled.copy(), MappingProxyType({}), 0.0)}
    for number in range(tries):
        best = [order for *_, order in shortest[:_CHANGED]]
        order = begun[number] if number < len(begun) else _changed(chance.choice(best), table, chance)
        if order not in tried:
            tried.add(order)
            most = _HOPELESS * shortest[0][0] if shortest else math.inf
            insort(shortest, (_length_of(order, table, known, most=most), number, order))
    return [order for *_, order in shortest[:_LAID_FINE]]


def _area(piece: LayPiece) -> float:
    return piece.area


def _length(piece: LayPiece) -> float:
    return max(p.x for p in piece.outline) - min(p.x for p in piece.outline)


def _across(piece: LayPiece) -> float:
    return piece.across


def _changed(order: _Order, table: _Table, chance: random.Random) -> _Order:
    """The order with one piece moved to another place in it, or two."""
    changed = list(order)
    for _ in range(chance.choice((1, 1, 2))):
        piece, _ = changed.pop(chance.randrange(len(changed)))
        choice = chance.choice((0, chance.randrange(len(table.ways[piece]))))
        changed.insert(chance.randrange(len(changed) + 1), (piece, choice))
    return tuple(changed)


def _table(pieces: Sequence[LayPiece], cloth: Spread, high: float) -> _Table:
    import numpy as np

    if cloth.repeat_across:  # a repeat is a whole number of rows
        high = cloth.repeat_across / math.ceil(cloth.repeat_across / high)
    count = math.ceil((cloth.top - cloth.bottom(on_fold=True) + 2.0 * cloth.gap) / high) + 2
    filled = np.full((len(cloth.strips), count), -np.inf)
    ways = tuple(
        _choices([_ways(piece, cloth, strip, high, rows) for strip, rows in zip(cloth.strips, filled, strict=True)])
        for piece in pieces
    )
    return _Table(cloth, high, filled, ways)


def _choices(strips: Sequence[_Ways]) -> tuple[tuple[_Ways, ...], ...]:
    """Of a piece on each strip all ways, then each way alone, of those for which there is a place."""
    alone = (tuple(each.only(way) for each in strips) for way in range(len(strips[0].placements)))
    return (tuple(strips), *(ways for ways in alone if any(each.there is None or each.there.any() for each in ways)))


def _ways(piece: LayPiece, cloth: Spread, strip: Strip, high: float, filled: Rows) -> _Ways:
    """The ways on one strip. Half a piece that is turned at the fold lies face down, so that it stays above."""
    import numpy as np

    ways = tuple(
        (turned, flipped)
        for turned in cloth.turns
        for flipped in ((turned != strip.mirrored,) if piece.on_fold else piece.flips)
    )
    ups = [_up_to_row(piece, cloth, strip, high, *way) for way in ways]
    what = ("ways", ways, strip.mirrored, cloth.gap, high, tuple(ups))
    profiles = piece.remembered(
        what, lambda: [_profile(piece, *way, strip, cloth.gap, high, up) for way, up in zip(ways, ups, strict=True)]
    )
    placements, lefts, rights = zip(*profiles, strict=True)
    rows = len(lefts[0])
    width, height = piece.remembered("size", lambda: (_length(piece), piece.across))
    lowest = (
        cloth.bottom(on_fold=piece.on_fold) - cloth.bottom(on_fold=True) - max((up or 0.0 for up in ups), default=0.0)
    )
    first = math.ceil(max(0.0, lowest) / high - _ROUNDING)
    room = cloth.top - cloth.bottom(on_fold=True) - height
    last = first if piece.on_fold else math.floor(room / high + _ROUNDING)
    places = np.lib.stride_tricks.sliding_window_view(filled, rows, writeable=True)[first : max(first, last) + 1]
    left, below = np.array(lefts).T[:, :, None].copy(), places.T[:, None]
    there = None
    if cloth.repeat_across and piece.middle is not None:
        lies = cloth.bottom(on_fold=True) + high * np.arange(first, first + len(places))
        there = np.array([[_on_middle(each, strip, cloth, y, height) for each in placements] for y in lies])
    return _Ways(piece, strip, placements, width, first, left, np.array(rights), below, there)


def _up_to_row(piece: LayPiece, cloth: Spread, strip: Strip, high: float, turned: bool, flipped: bool) -> float | None:
    """How far up from the beginning of a row a piece lies where rows follow a repeat, mm: for its middle to come to the
    beginning of one, else to lie as low as it may. None where they do not.
    """
    if not cloth.repeat_across or piece.on_fold:
        return None
    if piece.middle is None:
        return (cloth.bottom() - cloth.bottom(on_fold=True)) % high
    placed = Placement(piece, 0.0, 0.0, turned, flipped)
    sign = -1.0 if strip.mirrored else 1.0
    lowest = min(sign * p.y for p in placed.outline)
    middle = sign * placed.move.point(Point(0.0, piece.middle)).y - lowest
    return -(cloth.bottom(on_fold=True) + middle) % high


def _on_middle(placed: Placement, strip: Strip, cloth: Spread, row: float, height: float) -> bool:
    """Whether a piece whose row begins so far up lies on the cloth, and its middle on a middle of the pattern."""
    middle = placed.move.point(Point(0.0, placed.piece.middle or 0.0)).y
    lowest = min(-p.y if strip.mirrored else p.y for p in placed.outline)
    bottom = row + lowest
    on_it = cloth.bottom(on_fold=placed.piece.on_fold) - _ROUNDING <= bottom <= cloth.top - height + _ROUNDING
    return on_it and cloth.on_middle(row + (-middle if strip.mirrored else middle))


def _profile(
    piece: LayPiece, turned: bool, flipped: bool, strip: Strip, gap: float, high: float, up: float | None
) -> tuple[Placement, Rows, Rows]:
    """A piece in one of its ways, moved to x = 0 and the lowest row, and its furthest left and right in each row.

    up: mm above the beginning of the row; None for 0
    """
    import numpy as np

    outline = Placement(piece, 0.0, 0.0, turned, flipped).outline
    points: Rows = np.array([(p.x, -p.y if strip.mirrored else p.y) for p in outline])
    left, bottom = (float(least) for least in points.min(axis=0))
    points = points - np.array((left, bottom - (up or 0.0)))
    # rows begin a gap below the piece, and end a gap above it
    bottoms: Rows = (
        np.arange(math.ceil((piece.across + 2.0 * gap) / high) + (up is not None), dtype=np.float64) * high - gap
    )
    lefts, _ = _reach(points, bottoms - gap, bottoms + high + gap)
    _, rights = _reach(points, bottoms, bottoms + high)
    y = (up or 0.0) - bottom
    return Placement(piece, -left, y, turned, flipped), lefts - gap, rights


def _reach(points: Rows, low: Rows, high: Rows) -> tuple[Rows, Rows]:
    """The least and the greatest x of a polygon between each two heights; infinite where there is none of it."""
    import numpy as np

    ends = np.roll(points, -1, axis=0)
    (x0, y0), (x1, y1) = points.T[:, :, None], ends.T[:, :, None]
    bottom, top = np.minimum(y0, y1), np.maximum(y0, y1)
    there = (top >= low) & (bottom <= high)
    rise = np.where(y1 == y0, 1.0, y1 - y0)
    level = y1 == y0
    at_low = np.where(level, 0.0, np.clip((low - y0) / rise, 0.0, 1.0))
    at_high = np.where(level, 1.0, np.clip((high - y0) / rise, 0.0, 1.0))
    one, other = x0 + at_low * (x1 - x0), x0 + at_high * (x1 - x0)
    least = np.where(there, np.minimum(one, other), np.inf).min(axis=0)
    most = np.where(there, np.maximum(one, other), -np.inf).max(axis=0)
    return least, most


def _length_of(order: _Order, table: _Table, known: dict[_Order, _Begun], *, most: float) -> float:
    """How long the pieces come out in this order, mm; infinite as soon as that is more than `most`.

    known: how orders begin, of which none is laid twice; what is found is added
    """
    done = next(count for count in range(len(order), -1, -1) if order[:count] in known)
    begun = known[order[:done]]
    table.filled[:], phases, length = begun.filled, dict(begun.phases), begun.length
    for ways, _, _, start in _slid(order[done:], table, phases):
        length = max(length, start + ways.width)
        done += 1
        known[order[:done]] = _Begun(table.filled.copy(), dict(phases), length)
        if length > most:
            break
    return length if length <= most else math.inf


def _laid(order: _Order, table: _Table) -> Iterator[Placement]:
    """Where the pieces come to lie in this order."""
    import numpy as np

    table.filled.fill(-np.inf)
    for ways, way, row, start in _slid(order, table, {}):
        lies = ways.placements[way]
        y = lies.y + table.cloth.bottom(on_fold=True) + row * table.high
        yield replace(lies, x=lies.x + start, y=ways.strip.y(y))


def _slid(order: _Order, table: _Table, phases: dict[str, float]) -> Iterator[tuple[_Ways, int, int, float]]:
    """Each piece in turn: its strip, which of its ways, in which row, and how far along the cloth it begins.

    phases: where in the repeat the notches laid before lie; those of these pieces are added
    """
    import numpy as np

    cloth = table.cloth
    for piece, choice in order:
        best: tuple[float, _Ways, int] | None = None
        for ways in table.ways[piece][choice]:
            starts = np.maximum((ways.below - ways.left).max(axis=0).T, cloth.start)  # by place and way
            if cloth.repeat:
                starts = _in_phase(starts, ways, phases, cloth.repeat)
            if ways.there is not None:
                starts = np.where(ways.there, starts, np.inf)
            place = int(starts.argmin())
            start = float(starts.flat[place])
            if best is None or start < best[0]:
                best = (start, ways, place)
        assert best is not None
        start, ways, place = best
        row, way = divmod(place, len(ways.placements))
        under = ways.below[:, 0, row]
        np.maximum(under, ways.right[way] + start, out=under)
        for key, x in ways.piece.notches if cloth.repeat else ():
            move = ways.placements[way].move
            phases.setdefault(key, move.point(Point(x, 0.0)).x + start)
        yield ways, way, ways.first + row, start


def _in_phase(starts: Rows, ways: _Ways, phases: dict[str, float], repeat: float) -> Rows:
    """The places moved on until the first notch that meets one laid before lies at the same part of the repeat."""
    import numpy as np

    for key, x in ways.piece.notches:
        if key in phases:
            lies = starts + np.array([each.move.point(Point(x, 0.0)).x for each in ways.placements])
            moved: Rows = starts + np.mod(phases[key] - lies, repeat)
            return moved
    return starts
