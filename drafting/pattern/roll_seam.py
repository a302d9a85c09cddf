"""One piece of a seam laid on the other, right sides together, and rolled along it, as a cutter walks a seam on paper.

The second run lies still. Of each place of the walk the paper of the first is moved so that both runs touch in the two
places that are sewn together there, and go the same way. Between two places that are to meet (the ends, the notches)
what is eased or gathered in is spread evenly.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import STAY, Curve, Move, Point, Vec, mirror, run_ends, run_place, shift, turn
from drafting.pattern.gathered import Meeting, meeting_places
from drafting.pattern.locate import ref_curves
from drafting.pattern.pattern import Pattern
from drafting.pattern.seam import EdgeRef, Seam
from drafting.pattern.walk import NOTCH, Walked, walk

__all__ = ["Laid", "LaidPiece", "RolledSeam", "roll_seam"]

_STEP: Final = 5.0
"""mm of seam between two places of the walk, about."""

_NOTHING: Final = 1e-6


@dataclass(frozen=True, slots=True)
class LaidPiece:
    """A piece of a run, and where it lies beside the first piece of that run: its start on the end of the last."""

    name: str
    move: Move


@dataclass(frozen=True, slots=True)
class Laid:
    """One place of the walk.

    along_a, along_b: how far along each run it lies, mm
    move:             where the pieces of the first run lie then, on those of the second
    at:               the place where they touch, beside the pieces of the second run
    mark:             the notches that meet there, of the first and of the second run; "" for none
    """

    along_a: float
    along_b: float
    move: Move
    at: Point
    mark: tuple[str, str] = ("", "")


@dataclass(frozen=True, slots=True)
class RolledSeam:
    """A seam walked from its start to its end: the pieces of either run, and the places of the walk in their order."""

    a: tuple[LaidPiece, ...]
    b: tuple[LaidPiece, ...]
    places: tuple[Laid, ...]


def roll_seam(pattern: Pattern, seam: Seam, *, step: float = _STEP) -> RolledSeam:
    """The seam walked, a place at least every `step` mm of the longer run and at all that is to meet."""
    one, other = _Run.of(pattern, seam.a), _Run.of(pattern, seam.b)
    met = _to_meet(seam, walk(pattern, seam))
    # right sides together the cloth of both lies on the same side of the seam
    flip = one.backward != other.backward
    places = (_laid(one, other, stop, onward=onward, flip=flip) for stop, onward in _stops(met, one, other, step))
    return RolledSeam(one.pieces, other.pieces, tuple(places))


@dataclass(frozen=True, slots=True)
class _Run:
    """The edges of a run: where each begins along it, its length, its curves, where its piece lies."""

    edges: tuple[tuple[float, float, tuple[Curve, ...], Move], ...]
    pieces: tuple[LaidPiece, ...]
    backward: bool

    @classmethod
    def of(cls, pattern: Pattern, refs: Sequence[EdgeRef]) -> _Run:
        """The run of edges with each piece moved so that it carries on where the one before it ended."""
        moves: dict[str, Move] = {}
        edges: list[tuple[float, float, tuple[Curve, ...], Move]] = []
        gone = 0.0
        for ref in refs:
            curves = ref_curves(pattern.pieces, ref)
            length = pattern.piece(ref.piece).edge(ref.edge).length
            if ref.piece not in moves:
                flip = ref.backward != refs[0].backward
                moves[ref.piece] = _joined(edges[-1], curves, flip=flip) if edges else STAY
            move = moves[ref.piece]
            edges.append((gone, length, curves, move))
            gone += length
        pieces = tuple(LaidPiece(name, move) for name, move in moves.items())
        return cls(tuple(edges), pieces, refs[0].backward)

    @property
    def joints(self) -> tuple[float, ...]:
        return tuple(gone for gone, *_ in self.edges[1:])

    def at(self, along: float, *, onward: bool) -> tuple[Point, Vec]:
        """The place and the way so far along; where two edges meet, on the one that follows if `onward`."""
        found = self.edges[0]
        for edge in self.edges:
            if edge[0] < along - _NOTHING or (onward and edge[0] <= along + _NOTHING):
                found = edge
        gone, length, curves, move = found
        point, way = run_place(curves, min(length, max(0.0, along - gone)))
        return move.point(point), move.vec(way)


def _joined(last: tuple[float, float, tuple[Curve, ...], Move], curves: Sequence[Curve], *, flip: bool) -> Move:
    """The move that lays the start of a run on the end of the last edge, going on as that does."""
    *_, before, move = last
    start, heading = run_place(curves, 0.0)
    return _touching(start, heading, move.point(before[-1].end), move.vec(run_ends(before)[1]), flip=flip)


def _to_meet(seam: Seam, walked: Walked) -> list[Meeting]:
    """Where both runs touch in any case. Runs that should be as long as each other are laid on each other as they are,
    so that what does not meet is seen.
    """
    if not seam.plain or walked.up_a.stretches or walked.up_b.stretches:
        return meeting_places(walked)
    end = min(walked.a, walked.b)
    places = [Meeting(0.0, 0.0), Meeting(end, end)]
    for pair in walked.notches:
        if pair.along_a is None or pair.along_b is None:
            continue
        if abs(pair.along_a - pair.along_b) <= NOTCH:
            at = min(pair.along_a, end) if pair.along_a <= end + NOTCH else pair.along_a  # on the end, not past it
            places.append(Meeting(at, at, pair.a.notch, pair.b.notch))
        else:
            places.append(Meeting(pair.along_a, pair.along_a, pair.a.notch))
            places.append(Meeting(pair.along_b, pair.along_b, "", pair.b.notch))
    return sorted((each for each in places if each.a <= end), key=lambda each: each.a)


def _stops(met: Sequence[Meeting], one: _Run, other: _Run, step: float) -> Iterator[tuple[Meeting, bool]]:
    """Every place of the walk, and whether it is on the edges that follow where two edges meet."""
    for here, there in pairwise(met):
        long_a, long_b = there.a - here.a, there.b - here.b
        longer = max(long_a, long_b)
        yield here, False
        if longer <= _NOTHING:
            continue
        count = max(1, math.ceil(longer / step))
        shares = {k / count: False for k in range(1, count)}
        joints = [(at - here.a) / long_a for at in one.joints] if long_a > _NOTHING else []
        joints += [(at - here.b) / long_b for at in other.joints] if long_b > _NOTHING else []
        shares |= {max(0.0, share): True for share in joints if -_NOTHING < share < 1.0 - _NOTHING}
        for share, joint in sorted(shares.items()):
            place = Meeting(here.a + share * long_a, here.b + share * long_b)
            if not joint or share > _NOTHING:
                yield place, False
            if joint:
                yield place, True
    yield met[-1], False


def _laid(one: _Run, other: _Run, stop: Meeting, *, onward: bool, flip: bool) -> Laid:
    start, heading = one.at(stop.a, onward=onward)
    goal, way = other.at(stop.b, onward=onward)
    move = _touching(start, heading, goal, way, flip=flip)
    return Laid(stop.a, stop.b, move, goal, (stop.mark_a, stop.mark_b))


def _touching(start: Point, heading: Vec, goal: Point, way: Vec, *, flip: bool) -> Move:
    """The move that lays one place and its direction on another; as a mirror image if `flip`."""
    turned = turn(start, heading.angle_to(way)).then(shift(goal - start))
    return turned.then(mirror(goal, way)) if flip else turned
