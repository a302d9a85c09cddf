"""The bodice above a pointed waist: what is cut off the lower piece is added here, and the dart goes on into that."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, Vec, blend, distance, fair, run_ends, run_reversed
from drafting.geometry.outline import starting_at
from drafting.geometry.solve import root_between
from drafting.pattern import Edge, EdgeRef, Landmark, MarkPoint, Notch, Piece, Place, Role, closed, from_start

__all__ = ["TAPED", "Wedge", "corner_of", "notched_as_before", "side_edge", "with_point_below"]

_SHORTER: Final = 0.975
"""How long the new waist of the bodice is, as a share of that below, the rest of which is eased in: the body is hollow
there (ours)."""

_LEAST_BOWED: Final = 1e-6  # radians, which nobody sees: straight legs and the new waist would be one line
_MOST_BOWED: Final = 2.0 * math.atan(2.0 * 0.03)
"""radians by which the legs of the dart may leave their chords: it strays from them by 3 mm in a decimetre (ours)."""

_AS_IT_WAS: Final = 0.35
"""How far the new waist comes to the side seam as the old one did, as a share of the turn from a straight line (ours):
so it meets the back there in a flat corner, and without a hook.
"""

TAPED: Final = ("waist at centre front", "point of the waist")
"""The points between which the tape lies on the bodice: they are on no paper."""


@dataclass(frozen=True, slots=True)
class Wedge:
    """What is cut off below one edge of the waist, where it lies darts closed: from the centre to the side.

    top, bottom: the ends of its upper and of its lower edge
    """

    top: tuple[Point, Point]
    bottom: tuple[Point, Point]


def with_point_below(piece: Piece, refs: Sequence[EdgeRef], wedges: Sequence[Wedge], depth: float) -> Piece:
    """The bodice front with what is cut off below laid on under each edge of its waist, from the centre to the side."""
    edges = {edge.name: edge for edge in piece.edges}
    uppers = [_ends(edges[ref.edge], ref) for ref in refs]
    centre = _centre_edge(piece, uppers[0][0], {ref.edge for ref in refs})
    _, down = run_ends(centre.curves if centre.end == uppers[0][0] else run_reversed(centre.curves))
    legs = _legs_between(piece, refs)
    apex = legs[0].end if legs[0].start == uppers[0][1] else legs[0].start
    point = uppers[0][0] + down.unit() * depth
    dart = _dart_below(uppers, wedges, point, apex)
    side = uppers[1][1]
    new = (_from_point(point, down, wedges[0], dart, side), _to_side(dart, side, _arriving(edges[refs[1].edge], side)))
    for ref, curve in zip(refs, new, strict=True):
        edges[ref.edge] = replace(edges[ref.edge], curves=run_reversed((curve,)) if ref.backward else (curve,))
    for leg in _legs_below(legs, apex, dart):
        edges[leg.name] = leg
    edges[centre.name] = _extended_to(centre, uppers[0][0], point)
    made = tuple(edges[edge.name] for edge in piece.edges)
    return notched_as_before(
        replace(
            piece,
            edges=closed(piece.name, made),
            points=(
                *piece.points,
                *(
                    MarkPoint(name, at, Landmark.TAPE_CROSSES)
                    for name, at in zip(TAPED, (uppers[0][0], point), strict=True)
                ),
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


def _legs_between(piece: Piece, refs: Sequence[EdgeRef]) -> tuple[Edge, Edge]:
    """The legs of the dart between the two edges of the waist, that of the centre first."""
    first, last = refs
    return piece.beside(first.edge)[0 if first.backward else 1], piece.beside(last.edge)[1 if last.backward else 0]


@dataclass(frozen=True, slots=True)
class _DartBelow:
    """The dart led on below the waist: where its legs end, how far it closes, and how far each leaves its chord there.

    Both angles in radians; below zero where the legs are bowed or turned clockwise.
    """

    ends: tuple[Point, Point]
    closes: float
    bowed: float

    def width_at(self, apex: Point, far: float) -> float:
        """How wide it is so many mm from its point."""
        long = distance(apex, self.ends[0])
        bow = 2.0 * long * math.tan(0.5 * abs(self.bowed)) * (far / long) * (1.0 - far / long)
        return 2.0 * (far * math.sin(0.5 * abs(self.closes)) + bow)


def _dart_below(
    uppers: Sequence[tuple[Point, Point]], wedges: Sequence[Wedge], point: Point, apex: Point
) -> _DartBelow:
    """The dart led on to the new waist, so that the waist is as long as the lower piece's and straight once it is sewn.

    As wide at the old waist as it was if it can be: that asks for bowed legs, and they may be bowed by so much only.
    """
    (_, b), (a, side) = uppers
    before, behind = (_SHORTER * distance(*wedge.bottom) for wedge in wedges)
    dart, high = (b - apex).angle_to(a - apex), distance(apex, b)
    turning = math.copysign(1.0, dart)

    def led(bow: float) -> _DartBelow:
        # closed by the chords of its legs the waist has a corner of twice what each leaves its chord by
        reach = math.sqrt(before**2 + behind**2 + 2.0 * before * behind * math.cos(2.0 * bow))

        def closed_side(turned: float) -> Point:
            return apex + (side - apex).turned(-turning * turned)

        turned = root_between(lambda by: distance(point, closed_side(by)) - reach, 0.0, 1.5 * abs(dart))
        d = _where(point, before, closed_side(turned), behind, apex)
        return _DartBelow((d, apex + (d - apex).turned(turning * turned)), turning * turned, turning * bow)

    wide = distance(a, b)
    return led(root_between(lambda bow: led(bow).width_at(apex, high) - wide, _LEAST_BOWED, _MOST_BOWED))


def _from_point(point: Point, down: Vec, wedge: Wedge, dart: _DartBelow, side: Point) -> Curve:
    """The new waist from the point to the dart: it leaves the point as the piece below does, so that both fill the
    round there, and comes to the dart as it goes on behind that when it is sewn.
    """
    (waist, its_point), end = (wedge.top[0], wedge.bottom[0]), dart.ends[0]
    turn = abs((its_point - waist).angle_to(wedge.bottom[1] - its_point))
    leaving = down.turned(math.copysign(turn, down.angle_to(end - point)))
    onward = (side - dart.ends[1]).turned(2.0 * dart.bowed - dart.closes)
    return fair(point, leaving, end, onward)


def _to_side(dart: _DartBelow, side: Point, was: Vec) -> Curve:
    """The new waist from the dart to the side seam, which it meets nearer to as it did."""
    way = side - dart.ends[1]
    return fair(dart.ends[1], way, side, way.turned(_AS_IT_WAS * way.angle_to(was)))


def _arriving(edge: Edge, at: Point) -> Vec:
    """The direction in which an edge comes to one of its ends."""
    return run_ends(edge.curves if edge.end == at else run_reversed(edge.curves))[1]


def _legs_below(legs: Sequence[Edge], apex: Point, dart: _DartBelow) -> Iterator[Edge]:
    """The legs of the dart, each one even curve from its point to the new waist."""
    for leg, goal, bow in zip(legs, dart.ends, (-dart.bowed, dart.bowed), strict=True):
        chord = goal - apex
        run = (blend(apex, chord.turned(bow), goal, chord.turned(-bow)) if bow else Line(apex, goal),)
        yield replace(leg, curves=run_reversed(run) if leg.end == apex else run)


def _ends(edge: Edge, ref: EdgeRef) -> tuple[Point, Point]:
    return (edge.end, edge.start) if ref.backward else (edge.start, edge.end)


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


def _where(one: Point, far: float, other: Point, long: float, near: Point) -> Point:
    """The place `far` from one place and `long` from another that lies next to a third. Raises NotAPattern for none."""
    apart = distance(one, other)
    along = (far * far - long * long + apart * apart) / (2.0 * apart)
    if abs(along) > far:
        raise NotAPattern("waist", reason="so deep a point cannot be laid on below the bodice")
    aside = math.sqrt(far * far - along * along)
    way: Vec = (other - one).unit()
    foot = one + way * along
    return min((foot + way.left() * aside, foot - way.left() * aside), key=lambda place: distance(place, near))
