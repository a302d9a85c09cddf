"""Lines drawn one by one, put together to the closed outline they are of."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import islice, pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Line, Point, area, distance, flatten, length, lerp
from drafting.pattern import Edge

__all__ = [
    "JOINED",
    "Spots",
    "Strand",
    "closed_loops",
    "nearest",
    "outer_loop",
    "ring_of",
    "sharp_corners",
    "split_at",
    "without_copies",
]

JOINED: Final = 0.05
"""Ends nearer than this are one corner, mm: files are written with as few as two decimals."""


_FINE: Final = 0.02
"""How far the chords may stray from an edge along which a place is found, mm."""


class Spots:
    """Places on the paper, to be asked whether one of them lies where something else does."""

    def __init__(self, places: Iterable[Point]) -> None:
        self._cells: dict[tuple[int, int], list[Point]] = {}
        for place in places:
            self._cells.setdefault(_cell(place), []).append(place)

    def __contains__(self, at: Point) -> bool:
        across, up = _cell(at)
        return any(
            at.near(place, JOINED)
            for x in (across - 1, across, across + 1)
            for y in (up - 1, up, up + 1)
            for place in self._cells.get((x, y), ())
        )


@dataclass(frozen=True, slots=True)
class Strand:
    """A drawn line: its places in mm, and what is kept on it."""

    points: tuple[Point, ...]
    data: tuple[object, ...] = ()

    def turned(self) -> Strand:
        """The same line from its other end."""
        return replace(self, points=self.points[::-1])

    def lines(self) -> tuple[Line, ...]:
        """Its straight stretches."""
        return tuple(Line(a, b) for a, b in pairwise(self.points))


def outer_loop(strands: Sequence[Strand]) -> tuple[Strand, ...] | Point | None:
    """The closed loop of lines that encloses the most, anticlockwise, each line ending exactly where the next begins.

    The place where the outline stops, when the longest of the lines that close nowhere is longer than that loop;
    None when there are no lines. Lines that close inside the outline, such as a pocket's, are left out.
    """
    closed, open_ended = _chains(strands)
    loop = max(closed, key=lambda chain: abs(_enclosed(chain)), default=())
    stray = max(open_ended, key=_extent, default=())
    if stray and _extent(stray) > _extent(loop):
        return stray[-1].points[-1]
    if not loop:
        return None
    return loop if _enclosed(loop) > 0.0 else tuple(strand.turned() for strand in reversed(loop))


def without_copies(strands: Iterable[Strand]) -> list[Strand]:
    """The lines without those drawn twice, in either direction; a line that carries data of ours is kept."""
    found: dict[object, Strand] = {}
    for number, strand in enumerate(strands):
        same = min(strand.points, strand.points[::-1], key=lambda points: [(at.x, at.y) for at in points])
        found.setdefault(number if strand.data else same, strand)
    return list(found.values())


def split_at(strand: Strand, corners: Spots) -> tuple[Strand, ...]:
    """A closed line cut at the corners that lie on its places; whole where there are fewer than two."""
    ring = strand.points[:-1]
    cuts = [i for i, point in enumerate(ring) if point in corners]
    if len(cuts) < 2:
        return (strand,)
    turned = (*ring[cuts[0] :], *ring[: cuts[0]], ring[cuts[0]])
    stops = [cut - cuts[0] for cut in cuts] + [len(ring)]
    return tuple(Strand(turned[a : b + 1]) for a, b in pairwise(stops))


def closed_loops(strands: Sequence[Strand]) -> list[tuple[Point, ...]]:
    """The places of every loop that these lines close to, the first again at the end."""
    return [ring_of(chain).points for chain in _chains(strands)[0]]


def ring_of(loop: Sequence[Strand]) -> Strand:
    """The lines of a closed loop as one."""
    return Strand((loop[0].points[0], *(point for strand in loop for point in strand.points[1:])))


def sharp_corners(ring: Strand, angle: float) -> Spots:
    """The places of a closed line where it turns by more than an angle, radians."""
    points = ring.points[:-1]
    turns = zip(points[-1:] + points[:-1], points, points[1:] + points[:1], strict=True)
    return Spots(at for before, at, after in turns if abs((at - before).angle_to(after - at)) > angle)


def nearest(at: Point, edges: Sequence[Edge]) -> tuple[float, str, float]:
    """How far a place is from the nearest of these edges, which that is, and how far along it the place lies; mm."""
    best = (math.inf, "", 0.0)
    for edge in edges:
        gone = 0.0
        for curve in edge.curves:
            chords = list(pairwise(flatten(curve, _FINE)))
            straight = [distance(a, b) for a, b in chords]
            longer = length(curve) / sum(straight) if sum(straight) > 0.0 else 1.0
            for (a, b), whole in zip(chords, straight, strict=True):
                share = min(1.0, max(0.0, (at - a).dot(b - a) / whole**2)) if whole > 0.0 else 0.0
                off = distance(at, lerp(a, b, share))
                if off < best[0]:
                    best = (off, edge.name, gone + share * whole * longer)
                gone += whole * longer
    return best


def _chains(strands: Sequence[Strand]) -> tuple[list[tuple[Strand, ...]], list[tuple[Strand, ...]]]:
    """Each line joined to the one that goes on from it: the chains that close, and those that do not."""
    left = _Ends(strands)
    closed, open_ended = [], []
    while (first := left.take_first()) is not None:
        chain = [first]
        start = first.points[0]
        while not chain[-1].points[-1].near(start, JOINED):
            follower = left.take_from(chain[-1].points[-1])
            if follower is None:
                open_ended.append(tuple(chain))
                break
            chain.append(follower)
        else:
            closed.append(_joined(chain))
    return closed, open_ended


class _Ends:
    """Lines that are left to be joined, found by where they end."""

    def __init__(self, strands: Sequence[Strand]) -> None:
        self._left = dict(enumerate(strands))
        self._unseen = iter(range(len(strands)))
        self._at: dict[tuple[int, int], deque[int]] = {}
        for number, strand in self._left.items():
            for end in (strand.points[0], strand.points[-1]):
                self._at.setdefault(_cell(end), deque()).append(number)

    def take_first(self) -> Strand | None:
        """The first that is left, and it is no longer; None where none is."""
        number = next((n for n in self._unseen if n in self._left), None)
        return None if number is None else self._left.pop(number)

    def take_from(self, end: Point) -> Strand | None:
        """The first line that goes on from a place, turned round where it was drawn so; None where none does."""
        across, up = _cell(end)
        cells = ((x, y) for x in (across - 1, across, across + 1) for y in (up - 1, up, up + 1))
        number = min((n for cell in cells for n in islice(self._going_on(cell, end), 1)), default=None)
        if number is None:
            return None
        strand = self._left.pop(number)
        return strand if strand.points[0].near(end, JOINED) else strand.turned()

    def _going_on(self, cell: tuple[int, int], end: Point) -> Iterator[int]:
        """Which lines that are left end in a cell and go on from a place, in order, found one by one."""
        numbers = self._at.get(cell, deque())
        while numbers and numbers[0] not in self._left:
            numbers.popleft()  # never looked at again, however many lines come from one place
        for number in numbers:
            strand = self._left.get(number)
            if strand and (strand.points[0].near(end, JOINED) or strand.points[-1].near(end, JOINED)):
                yield number


def _joined(chain: Sequence[Strand]) -> tuple[Strand, ...]:
    following = (*chain[1:], chain[0])
    return tuple(
        replace(strand, points=(*strand.points[:-1], after.points[0]))
        for strand, after in zip(chain, following, strict=True)
    )


def _enclosed(chain: Sequence[Strand]) -> float:
    return area([line for strand in chain for line in strand.lines()])


def _extent(chain: Sequence[Strand]) -> float:
    return sum(distance(line.start, line.end) for strand in chain for line in strand.lines())


def _cell(at: Point) -> tuple[int, int]:
    return round(at.x / JOINED), round(at.y / JOINED)
