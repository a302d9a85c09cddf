"""A lay in a moment: pieces slide in from the right, one after the other, and the best of many orders is kept.

Each piece comes to lie as far left as it can go past what lies there, at whichever height and of whichever of its
allowed turns and flips lets it end furthest left. The outlines are held in rows of a few millimetres by their furthest
left and right: no place is taken twice, and no hollow closed off on the right is filled. The same pieces give the same
lay, however busy the machine is.
"""

from __future__ import annotations

import math
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from drafting.geometry import Point
from output.lay.lay_values import LayPiece, Placement, Spread, Stretch

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Row = npt.NDArray[np.float64]

__all__ = ["slide_in"]

_ROW: Final = 5.0  # mm, at the most


@dataclass(frozen=True, slots=True)
class _Profile:
    """A piece in one position: the shift that brings it to x = 0, y = 0, and its furthest left and right in each row.

    left: already less the gap, and with what lies within the gap above and below
    """

    placement: Placement
    height: float
    width: float
    left: Row
    right: Row


def slide_in(
    pieces: Sequence[LayPiece],
    cloth: Spread,
    *,
    tries: int = 120,
    seed: int = 1,
) -> Stretch:
    """The shortest stretch found in so many tries, each with another order; every piece must fit across the cloth.

    seed: other numbers try other orders
    """
    each = [piece for piece in pieces for _ in range(piece.times)]
    positions = {id(piece): _positions(piece, cloth) for piece in pieces}
    chance = random.Random(seed)
    orders = [sorted(each, key=by, reverse=True) for by in (_area, _length, _across)]
    best: Stretch | None = None
    kept: list[LayPiece] = orders[0]
    least = math.inf
    for number in range(max(tries, len(orders))):
        order = orders[number] if number < len(orders) else _changed(kept, chance)
        stretch = _one_by_one(order, positions, cloth, ends_first=number % 2 == 0)
        if stretch.length <= least:
            best, kept, least = stretch, order, stretch.length
        if len(each) == 1:
            break
    return best or Stretch(cloth, ())


def _area(piece: LayPiece) -> float:
    return piece.area


def _length(piece: LayPiece) -> float:
    return max(p.x for p in piece.outline) - min(p.x for p in piece.outline)


def _across(piece: LayPiece) -> float:
    return piece.across


def _changed(order: Sequence[LayPiece], chance: random.Random) -> list[LayPiece]:
    """The order with one piece moved to another place in it, or two."""
    changed = list(order)
    for _ in range(chance.choice((1, 1, 2))):
        piece = changed.pop(chance.randrange(len(changed)))
        changed.insert(chance.randrange(len(changed) + 1), piece)
    return changed


def _positions(piece: LayPiece, cloth: Spread) -> tuple[_Profile, ...]:
    """Every way the piece may lie. Half a piece that is turned at the fold lies face down, so that it stays above."""
    ways = [
        (turned, turned if piece.on_fold else flipped)
        for turned in cloth.turns
        for flipped in ((False,) if piece.on_fold else piece.flips)
    ]
    return tuple(_profile(piece, turned, flipped, cloth.gap) for turned, flipped in ways)


def _profile(piece: LayPiece, turned: bool, flipped: bool, gap: float) -> _Profile:
    import numpy as np

    outline = Placement(piece, 0.0, 0.0, turned, flipped).outline
    left, bottom = min(p.x for p in outline), min(p.y for p in outline)
    placement = Placement(piece, -left, -bottom, turned, flipped)
    points = np.array([(p.x - left, p.y - bottom) for p in outline])
    width, height = (float(most) for most in points.max(axis=0))
    # rows begin a gap below the piece, and end a gap above it
    high = _row_height(gap)
    count = math.ceil((height + 2.0 * gap) / high)
    bottoms: Row = np.arange(count, dtype=np.float64) * high - gap
    lefts, _ = _reach(points, bottoms - gap, bottoms + high + gap)
    _, rights = _reach(points, bottoms, bottoms + high)
    return _Profile(placement, height, width, lefts - gap, rights)


def _row_height(gap: float) -> float:
    """How high a row is, mm: the gap is a whole number of rows."""
    return gap / math.ceil(gap / _ROW) if gap else _ROW


def _reach(points: Row, low: Row, high: Row) -> tuple[Row, Row]:
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


def _one_by_one(
    order: Sequence[LayPiece], positions: Mapping[int, Sequence[_Profile]], cloth: Spread, *, ends_first: bool
) -> Stretch:
    import numpy as np

    lowest, high = cloth.bottom(on_fold=True), _row_height(cloth.gap)
    # a row of the cloth begins where a row of a piece does that lies at the very bottom
    filled = np.full(math.ceil((cloth.top - lowest + 2.0 * cloth.gap) / high) + 1, -np.inf)
    phases: dict[str, float] = {}
    laid = []
    for piece in order:
        best: tuple[tuple[float, float, float], float, int, _Profile] | None = None
        for profile in positions[id(piece)]:
            rows = len(profile.left)
            first = round((cloth.bottom(on_fold=piece.on_fold) - lowest) / high)
            last = first if piece.on_fold else math.floor((cloth.top - lowest - profile.height) / high + 1e-9)
            windows = np.lib.stride_tricks.sliding_window_view(filled[first : last + rows], rows)
            starts = np.maximum((windows - profile.left).max(axis=1), cloth.start)
            if cloth.repeat:
                starts = _in_phase(starts, profile, phases, cloth.repeat)
            place = int(starts.argmin())
            row, start = first + place, float(starts[place])
            end = start + profile.width
            score = (end, start, float(row)) if ends_first else (start, end, float(row))
            if best is None or score < best[0]:
                best = (score, start, row, profile)
        if best is None:
            raise ValueError(piece.name)
        _, start, row, profile = best
        under = filled[row : row + len(profile.right)]
        np.maximum(under, profile.right + start, out=under)
        stands = profile.placement
        placed = Placement(piece, stands.x + start, stands.y + lowest + row * high, stands.turned, stands.flipped)
        for key, x in piece.notches:
            phases.setdefault(key, placed.move.point(Point(x, 0.0)).x)
        laid.append(placed)
    return Stretch(cloth, tuple(laid))


def _in_phase(starts: Row, profile: _Profile, phases: Mapping[str, float], repeat: float) -> Row:
    """The places moved on until the first notch that meets one laid before lies at the same part of the repeat."""
    import numpy as np

    move = profile.placement.move
    for key, x in profile.placement.piece.notches:
        if key in phases:
            lies = starts + move.point(Point(x, 0.0)).x
            return starts + np.mod(phases[key] - lies, repeat)
    return starts
