"""Where buttons lie on a centre line.

The first button lies its diameter and a quarter of an inch below the neck, one lies at the bust level, and the last at
least one and a half spaces above the hem (R. Carr, Couture: The Art of Fine Sewing); on a band one lies in the middle.
The spaces are near 8 cm and equal, above and below the waist seam too; one button lies close to that seam, or the seam
gapes (common practice, the figures ours). No button lies on a seam or an edge, because a buttonhole is not sewn
through allowances (common practice; how far off: `CLEAR`).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate, pairwise
from typing import Final

from drafting.alterations.techniques.cutting.centre_line import CentreLine
from drafting.errors import NotAPattern
from drafting.geometry import distance, end_tangents
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Level, Role, lines_at
from drafting.pattern.buttons import CLEAR

__all__ = ["button_places"]

_BELOW_NECK: Final = 6.35  # mm: a quarter of an inch, Carr
_LAST: Final = 1.5  # spaces between the last button and the hem, Carr
_LAST_AT_SEAM: Final = 0.5  # spaces between the last button and a seam that ends the row (our figure)
_SPACE: Final = 80.0  # mm, nearly (our figure)
_LEAST_SPACE, _MOST_SPACE = 60.0, 90.0  # mm (common practice, the figures ours)
_BAND: Final = 80.0  # mm: what is no higher is a band, with one button in its middle (common practice, the figure ours)
_NEAR_SEAM: Final = 15.0  # mm beyond what is clear of the waist seam lies the button that holds it together (ours)
_AT_BUST: Final = 3.0  # mm from the bust level at most lies a button that is said to lie at it (ours)
_CLOSEST: Final = 0.8  # of the widest space for a number of buttons, the least that keeps clear of a seam (ours)
_TRIES: Final = 100
_FINER: Final = (_MOST_SPACE - _LEAST_SPACE) / _TRIES  # mm
_LEAST_SLOPE: Final = 0.3  # a neck that comes to the centre more steeply takes no stand


def button_places(row: Sequence[CentreLine], button: float, count: int | None = None) -> list[float]:
    """How far each button lies down the centre lines, mm from the upper end of the first line.

    count: how many, evenly from the first to where the last may lie; None for as many as usual
    Raises NotAPattern where so many find no room clear of the seams between.
    """
    clear = 0.5 * button + CLEAR
    first = max(button + _BELOW_NECK, clear / _slope(row[0]))
    banded = len(row) > 1 and 2.0 * clear < row[0].length < _BAND
    if banded:
        first = 0.5 * row[0].length
    rest = _LAST if row[-1].lower.role is Role.HEM else _LAST_AT_SEAM
    whole = sum(line.length for line in row)
    seams = list(accumulate(line.length for line in row))[:-1]
    if count is not None:
        return _evenly_spaced(first, (whole - first) / (count - 1 + rest), count, button, [(at, clear) for at in seams])
    usual = _SPACE if banded else _space(row[0], first, clear, joined=len(row) > 1)
    # the space is found for the first seam; where tiers make more of them, the one nearest to it that is clear of all
    tried = [usual, *sorted((_LEAST_SPACE + k * _FINER for k in range(_TRIES)), key=lambda each: abs(each - usual))]
    for space in tried if banded or len(seams) > 1 else tried[:1]:
        places = list(_places(first, space, whole - rest * space + SAME_PLACE))
        if all(abs(at - seam) >= clear for at in places for seam in seams):
            return places
    return list(_places(first, usual, whole - rest * usual + SAME_PLACE))


def _evenly_spaced(
    first: float, widest: float, count: int, button: float, seams: Sequence[tuple[float, float]]
) -> list[float]:
    """So many places, evenly spaced and clear of the seams, as far apart as possible.

    Where no even space is clear, one place lies close above or below each seam in the way, and the others lie evenly
    between (common practice).

    seams: where each lies, and how far from it a button has to, mm
    """
    if widest < button + CLEAR:
        raise NotAPattern("the buttons", reason=f"{count} of them would lie only {widest:.0f} mm apart")
    for step in range(_TRIES):
        space = widest * (1.0 - (1.0 - _CLOSEST) * step / _TRIES)
        places = [first + space * k for k in range(count)]
        if _too_near(places, seams) is None:
            return places
    shared = list(_shared_out({0: first, count - 1: first + widest * (count - 1)}, button, seams))
    if not shared:
        raise NotAPattern("the buttons", reason=f"with {count} of them one would lie on the seam at the waist")
    return min(shared, key=_unevenness)


def _too_near(places: Sequence[float], seams: Sequence[tuple[float, float]]) -> tuple[int, float, float] | None:
    """The first button too near to a seam, where that lies, and how far off a button has to; None for none."""
    tried = ((k, *seam) for k in range(len(places)) for seam in seams)
    return next((each for each in tried if abs(places[each[0]] - each[1]) < each[2] - SAME_PLACE), None)


def _shared_out(
    held: Mapping[int, float], button: float, seams: Sequence[tuple[float, float]]
) -> Iterator[list[float]]:
    """The ways to lay the buttons with one close above or below each seam that is in the way, evenly between these.

    held: where some of them lie, the first and the last among them, by their number
    """
    ends = sorted(held.items())
    places = [ends[0][1]]
    for (k, low), (n, high) in pairwise(ends):
        places += [low + (high - low) * (at - k) / (n - k) for at in range(k + 1, n + 1)]
    if min(b - a for a, b in pairwise(places)) < button + CLEAR:
        return
    near = _too_near(places, seams)
    if near is None:
        yield places
        return
    k, seam, clear = near
    for goal in (seam - clear, seam + clear):
        inward = (k > 0 or goal > held[0]) and (k < len(places) - 1 or goal < held[k])
        if inward and (k not in held or k in (0, len(places) - 1)):
            yield from _shared_out({**held, k: goal}, button, seams)


def _unevenness(places: Sequence[float]) -> float:
    """How much wider the widest space is than the closest, as a share of that."""
    spaces = [b - a for a, b in pairwise(places)]
    return max(spaces) / min(spaces)


def _slope(line: CentreLine) -> float:
    """How much nearer a place on the centre line is to the edge above it than to its upper end, as a share: 1 where
    that edge lies square, less at a V neck.
    """
    begins = line.upper.start == line.top
    ahead = end_tangents(line.upper.curves[0])[0] if begins else end_tangents(line.upper.curves[-1])[1]
    return max(_LEAST_SLOPE, abs(ahead.cross((line.bottom - line.top).unit())))


def _space(line: CentreLine, first: float, clear: float, *, joined: bool) -> float:
    """How far apart the buttons lie: so that one lies nearest the bust level, and then as near to 8 cm as that leaves.

    clear:  how far from a seam each has to lie, mm
    joined: whether the row goes on below the seam at the lower end of the line; one then lies close to that seam, else
            the last lies half a space to a whole one above it
    """
    left = line.length - first
    bust = next((distance(line.top, mark.start) - first for mark in lines_at(line.piece, Level.BUST)), None)
    if line.lower.role is Role.HEM:
        spaces = () if bust is None else (bust / k for k in range(1, round(bust / _LEAST_SPACE) + 1))
        at_bust = [each for each in spaces if _LEAST_SPACE <= each <= _MOST_SPACE]
        return min(at_bust, key=lambda each: abs(each - _SPACE), default=_SPACE)
    found: list[tuple[float, float, float]] = []
    for count in range(1, math.ceil((left + clear + _NEAR_SEAM) / _LEAST_SPACE) + 1):
        near = clear + _NEAR_SEAM
        if joined:
            reach = ((left - near, left - clear), (left + clear, left + near))  # above the seam, or below it
            ways = [(low / count, high / count) for low, high in reach]
        else:
            ways = [(left / (count + 1.0), left / (count + _LAST_AT_SEAM))]
        for low, high in ((max(low, _LEAST_SPACE), min(high, _MOST_SPACE)) for low, high in ways):
            if low <= high:
                tried = (_SPACE, *(() if bust is None else (bust / k for k in range(1, count + 1))))
                for space in (min(max(each, low), high) for each in tried):
                    off = 0.0 if bust is None else abs(bust - space * max(0, round(bust / space)))
                    found.append((round(max(0.0, off - _AT_BUST), 1), abs(space - _SPACE), space))
    if found or not joined:
        return min(found)[2] if found else _SPACE
    # where the edge is too short for a space, the second lies close to the seam
    return left - clear if left > 3.0 * clear else left + clear


def _places(first: float, space: float, last: float) -> Iterator[float]:
    at = first
    while at <= last:
        yield at
        at += space
