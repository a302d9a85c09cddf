"""The bodice above a pointed waist: what is cut off the lower piece is added here, and the dart goes on into that."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Line,
    Point,
    Vec,
    blend,
    distance,
    fair,
    length,
    run_ends,
    run_hits,
    run_length,
    run_place,
    run_reversed,
)
from drafting.geometry.outline import starting_at
from drafting.geometry.solve import root_between
from drafting.pattern import Edge, EdgeRef, Landmark, MarkPoint, Notch, Piece, Place, Role, closed, from_start

__all__ = ["TAPED", "corner_of", "cut_off", "drop_between", "notched_as_before", "side_edge", "with_point_below"]

Drop = Callable[[float], float]
"""How far below the old waist the new one lies at a share of an edge of it from the centre, mm, square to the old."""

_SHORTER: Final = 0.96
"""How long the new waist of the bodice is, as a share of that below, the rest of which is eased in: the body is hollow
there (ours). It can hardly be nearer to 1: lowered at each place by what is cut off below, the edge of a point of 60 mm
comes out 7 to 10 in 100 shorter, as the bodice's waist curves down to the side and the other's up.
"""

_MOST_RAISED: Final = 1.5
"""mm by which the new waist of the bodice may lie higher at its dart than that below it (ours), and so lower beside the
dart: so it can come to legs that close again below the waist, where the body is hollow, and be straight once sewn.
"""

_TURNED: Final = 11.0
"""How far that turns each edge at the dart, times its length, as a share of what it is raised by (ours: a cubic raised
by 1 mm at its end lies 1 mm lower on its way if it is turned by 11.5 mm / its length there).
"""

_MOST_BOWED: Final = 2.0 * math.atan(2.0 * 0.03)
"""radians by which the legs of the dart may leave their chords: it strays from them by 3 mm in a decimetre (ours)."""

_STEP: Final = 1e-3  # of an edge, over which its direction is taken (ours)
_BEYOND: Final = 100.0  # mm by which a new waist that is shorter than the old one is led on straight (ours)

TAPED: Final = ("waist at centre front", "point of the waist")
"""The points between which the tape lies on the bodice: they are on no paper."""


@dataclass(frozen=True, slots=True)
class CutOff:
    """What is cut off a piece below the waist: how far down below each of its edges, and how long it is there, mm.

    turn: from the centre line downward to the new edge at the point, radians; both pieces fill the round there
    """

    drops: tuple[Drop, ...]
    long: float
    turn: float


def cut_off(edges: Sequence[tuple[Sequence[Curve], Sequence[Curve]]]) -> CutOff:
    """What is cut off between the old and the new edges of a waist, walked from the centre to the side."""
    old, new = edges[0]
    return CutOff(
        tuple(drop_between(*each) for each in edges),
        sum(run_length(each) for _, each in edges),
        abs((new[0].start - old[0].start).angle_to(run_ends(new)[0])),
    )


def drop_between(old: Sequence[Curve], new: Sequence[Curve]) -> Drop:
    """How far a new waist lies below an old one, both walked from the centre to the side."""
    leaving, arriving = run_ends(new)
    line = (
        Line(new[0].start - leaving * _BEYOND, new[0].start),
        *new,
        Line(new[-1].end, new[-1].end + arriving * _BEYOND),
    )
    long = run_length(old)
    below = math.copysign(0.5 * math.pi, run_ends(old)[0].cross(new[0].start - old[0].start))

    def drop(share: float) -> float:
        at, along = run_place(old, share * long)
        hits = [hit.along for _, hit in run_hits(line, at, along.turned(below))]
        if not hits:
            raise NotAPattern("waist", reason="so deep a point does not lie square below the waist everywhere")
        return min(hits, key=abs)

    return drop


def with_point_below(piece: Piece, refs: Sequence[EdgeRef], cut: CutOff, depth: float) -> Piece:
    """The bodice front longer by what is cut off below each edge of its waist, from the centre to the side."""
    edges = {edge.name: edge for edge in piece.edges}
    olds = [run_reversed(edges[ref.edge].curves) if ref.backward else edges[ref.edge].curves for ref in refs]
    waist, side = olds[0][0].start, olds[-1][-1].end
    centre = _centre_edge(piece, waist, {ref.edge for ref in refs})
    _, down = run_ends(centre.curves if centre.end == waist else run_reversed(centre.curves))
    point = waist + down.unit() * depth
    legs = _legs_between(piece, refs)
    apex = legs[0].end if legs[0].start == olds[0][-1].end else legs[0].start
    below = math.copysign(0.5 * math.pi, run_ends(olds[0])[0].cross(down))
    to_dart, to_side = (_carried(old, drop, below) for old, drop in zip(olds, cut.drops, strict=True))
    leaving = down.turned(math.copysign(cut.turn, down.angle_to(to_dart.end - point)))
    to_dart = replace(to_dart, start=point, leaving=leaving)
    dart = _dart_below(apex, distance(apex, olds[0][-1].end), to_dart, replace(to_side, end=side), _SHORTER * cut.long)
    for ref, curve in zip(refs, dart.waist, strict=True):
        edges[ref.edge] = replace(edges[ref.edge], curves=run_reversed((curve,)) if ref.backward else (curve,))
    for leg in _legs_below(legs, apex, dart):
        edges[leg.name] = leg
    edges[centre.name] = _extended_to(centre, waist, point)
    made = tuple(edges[edge.name] for edge in piece.edges)
    return notched_as_before(
        replace(
            piece,
            edges=closed(piece.name, made),
            points=(
                *piece.points,
                *(MarkPoint(name, at, Landmark.TAPE_CROSSES) for name, at in zip(TAPED, (waist, point), strict=True)),
            ),
            points_meant=(
                *piece.points_meant,
                corner_of(piece, centre.name, refs[0].edge),
                corner_of(piece, side_edge(piece), refs[-1].edge),
            ),
        ),
        piece,
        [ref.edge for ref in refs],
    )


@dataclass(frozen=True, slots=True)
class _Carried:
    """Where an edge of the waist comes to lie if it is lowered by a drop: its ends, and its directions there.

    long: how far apart its ends are, mm
    """

    start: Point
    leaving: Vec
    end: Point
    arriving: Vec

    @property
    def long(self) -> float:
        return distance(self.start, self.end)


def _carried(old: Sequence[Curve], drop: Drop, below: float) -> _Carried:
    """An edge of the waist lowered by a drop, square to it at every place."""
    long = run_length(old)

    def place(share: float) -> Point:
        at, along = run_place(old, share * long)
        return at + along.turned(below) * drop(share)

    start, end = place(0.0), place(1.0)
    return _Carried(start, place(_STEP) - start, end, end - place(1.0 - _STEP))


def _legs_between(piece: Piece, refs: Sequence[EdgeRef]) -> tuple[Edge, Edge]:
    """The legs of the dart between the two edges of the waist, that of the centre first."""
    first, last = refs
    return piece.beside(first.edge)[0 if first.backward else 1], piece.beside(last.edge)[1 if last.backward else 0]


@dataclass(frozen=True, slots=True)
class _DartBelow:
    """The dart led on below the waist: where its legs end, how far each leaves its chord, and the waist beside it.

    bowed: radians, below zero where the legs are bowed clockwise
    """

    ends: tuple[Point, Point]
    bowed: float
    waist: tuple[Curve, Curve]


def _dart_below(apex: Point, high: float, before: _Carried, behind: _Carried, goal: float) -> _DartBelow:
    """The dart led on to the new waist, as wide at the old waist as it was, which lies `high` from its point.

    Its legs are bowed, to close again below that, by as much as makes the waist so many mm long, if they may be.
    """
    to_ends = before.end - apex, behind.start - apex
    radius = 0.5 * (to_ends[0].norm() + to_ends[1].norm())
    turning = math.copysign(1.0, to_ends[0].angle_to(to_ends[1]))
    share = high / radius
    a_turn = _TURNED / before.long, _TURNED / behind.long  # of the edges, for each mm that their ends are raised

    def led(raised: float) -> _DartBelow:
        """The dart whose ends are raised by so many mm."""
        one, other = (turning * raised * each for each in a_turn)
        # a leg t of its length from its point is bowed by t (1 - t) of its angle, and its chord is turned in for that
        bowed = 0.5 * (one + other) / (2.0 - share)
        inward, far = (1.0 - share) * bowed, radius - raised
        ends = (
            apex + to_ends[0].unit().turned(inward) * far,
            apex + to_ends[1].unit().turned(-inward) * far,
        )
        waist = (
            fair(before.start, before.leaving, ends[0], before.arriving.turned(one), steady=True),
            fair(ends[1], behind.leaving.turned(-other), behind.end, behind.arriving, steady=True),
        )
        return _DartBelow(ends, bowed, waist)

    most = min(_MOST_RAISED, 2.0 * _MOST_BOWED * (2.0 - share) / sum(a_turn))
    return led(root_between(lambda raised: sum(map(length, led(raised).waist)) - goal, 0.0, most, near=1e-9))


def _legs_below(legs: Sequence[Edge], apex: Point, dart: _DartBelow) -> Iterator[Edge]:
    """The legs of the dart, each one even curve from its point to the new waist."""
    for leg, goal, bow in zip(legs, dart.ends, (-dart.bowed, dart.bowed), strict=True):
        chord = goal - apex
        run = (blend(apex, chord.turned(bow), goal, chord.turned(-bow)) if bow else Line(apex, goal),)
        yield replace(leg, curves=run_reversed(run) if leg.end == apex else run)


def _centre_edge(piece: Piece, at: Point, waist: set[str]) -> Edge:
    """The edge that ends at the waist at the centre."""
    for edge in piece.edges:
        if edge.name not in waist and edge.role is not Role.DART_LEG and at in (edge.start, edge.end):
            return edge
    raise NotAPattern(piece.name, reason="its waist comes to no centre line")


def _extended_to(edge: Edge, at: Point, goal: Point) -> Edge:
    """An edge led on straight from its end at one place to another."""
    if edge.end == at:
        last = edge.curves[-1]
        if isinstance(last, Line) and abs((goal - at).cross(last.end - last.start)) < 1e-6 * distance(goal, at):
            return replace(edge, curves=(*edge.curves[:-1], Line(last.start, goal)))
        return replace(edge, curves=(*edge.curves, Line(at, goal)))
    first = edge.curves[0]
    if isinstance(first, Line) and abs((goal - at).cross(first.end - first.start)) < 1e-6 * distance(goal, at):
        return replace(edge, curves=(starting_at(first, goal), *edge.curves[1:]))
    return replace(edge, curves=(Line(goal, at), *edge.curves))


def notched_as_before(made: Piece, was: Piece, names: Sequence[str]) -> Piece:
    """The piece with the notches of these edges at the share of each at which they were."""

    def placed(notch: Notch) -> Notch:
        if notch.station.edge not in names:
            return notch
        old, new = was.edge(notch.station.edge), made.edge(notch.station.edge)
        share = from_start(old, notch.station) / old.length
        return notch.moved_to(new.length * (share if notch.station.end == "start" else 1.0 - share))

    return replace(made, notches=tuple(map(placed, made.notches)))


def corner_of(piece: Piece, one: str, other: str) -> tuple[str, str]:
    """Two neighbours in the order of the outline."""
    first, second = sorted((one, other), key=piece.index)
    return (first, second) if piece.beside(first)[1].name == second else (second, first)


def side_edge(piece: Piece) -> str:
    """The edge of the side that comes to the waist."""
    found = (edge for edge in piece.edges if edge.place in (Place.SIDE, Place.OUTSEAM))
    for edge in found:
        if any(each.place is Place.WAIST for each in piece.beside(edge.name)):
            return edge.name
    raise NotAPattern(piece.name, reason="its waist comes to no side seam")
