"""The bodice above a pointed waist: what is cut off the lower piece laid on below, and its dart led on into that."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from drafting.alterations.techniques.redrawing.redraw_run import exact_length, with_length_kept
from drafting.errors import NotAPattern
from drafting.geometry import Line, Point, Vec, cut_run, distance, fair, lerp, run_ends, run_reversed
from drafting.geometry.outline import starting_at
from drafting.geometry.solve import root_between
from drafting.pattern import Edge, EdgeRef, Landmark, MarkPoint, Notch, Piece, Place, Role, closed, from_start

__all__ = ["TAPED", "Wedge", "corner_of", "notched_as_before", "side_edge", "with_point_below"]

_FLATTEST: Final = 0.2  # mm that the new line is shorter than over the mouth of the dart, which then lies 5 mm above it
_SHIFTED: Final = 8.0  # mm along the seam that the dart may lie beside that below, so that its legs turn alike (ours)
_ROUNDED: Final = 80.0  # mm above the waist from which the legs of the dart are led round (ours)

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
    new = _laid_below(uppers, wedges, uppers[0][0] + down.unit() * depth, apex)
    for ref, (c, d) in zip(refs, new, strict=True):
        edges[ref.edge] = replace(edges[ref.edge], curves=(Line(d, c) if ref.backward else Line(c, d),))
    ways = ((uppers[0][1], new[0][1]), (uppers[1][0], new[1][0]))
    for leg in _led_round(legs, apex, ways):
        edges[leg.name] = leg
    edges[centre.name] = _extended_to(centre, uppers[0][0], new[0][0])
    made = tuple(edges[edge.name] for edge in piece.edges)
    return notched_as_before(
        replace(
            piece,
            edges=closed(piece.name, made),
            points=(
                *piece.points,
                *(
                    MarkPoint(name, at, Landmark.TAPE_CROSSES)
                    for name, at in zip(TAPED, (uppers[0][0], new[0][0]), strict=True)
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


def _led_round(legs: Sequence[Edge], apex: Point, ways: Sequence[tuple[Point, Point]]) -> Iterator[Edge]:
    """The legs of the dart led on over the waist in one even curve each, straight above, and equally long.

    ways: for each from where it ended on the waist to where it ends below
    """
    runs = []
    for leg, (waist, goal) in zip(legs, ways, strict=True):
        run = run_reversed(leg.curves) if leg.end == apex else leg.curves
        straight, _ = cut_run(run, max(0.4 * leg.length, leg.length - _ROUNDED))
        begin, along = straight[-1].end, run_ends(straight)[1]
        runs.append((*straight, fair(begin, along, goal, goal - waist)))
    long = max(map(exact_length, runs))
    for leg, run in zip(legs, runs, strict=True):
        kept = (*run[:-1], *with_length_kept(run[-1:], long - exact_length(run[:-1])))
        yield replace(leg, curves=run_reversed(kept) if leg.end == apex else kept)


def _laid_below(
    uppers: Sequence[tuple[Point, Point]], wedges: Sequence[Wedge], point: Point, apex: Point
) -> list[tuple[Point, Point]]:
    """The ends of the new waist before and behind its dart, from the centre to the side.

    Each part is as long as below, or as much shorter as the body's hollow at the waist asks for, which is eased in; and
    with the dart closed the line is straight: so the triangle of the point, the
    mouth of the dart and the side end has three known sides, and the legs of the dart are led on to its base.
    """
    (_, b), (a, side) = uppers
    before, behind = (distance(*wedge.bottom) for wedge in wedges)
    most = distance(point, b) + distance(a, side) - _FLATTEST
    if before + behind > most:
        before, behind = (long * most / (before + behind) for long in (before, behind))
    # on the side of the dart nearer to the centre: where the side end comes to lie, and the line below the dart
    far = _where(b, distance(a, side), point, before + behind, b + (side - a))
    # the same seen from the other side of the dart
    to_a = (far - b).angle_to(side - a)

    def ends(shift: float) -> tuple[Point, Point]:
        d = lerp(point, far, (before + shift) / (before + behind))
        return d, a + (d - b).turned(to_a)

    def uneven(shift: float) -> float:
        d, other = ends(shift)
        return (b - apex).angle_to(d - b) + (a - apex).angle_to(other - a)

    # the dart lies within a few mm of that below, where both of its legs turn most alike
    d, other = ends(root_between(uneven, -_SHIFTED, _SHIFTED))
    return [(point, d), (other, side)]


def _ends(edge: Edge, ref: EdgeRef) -> tuple[Point, Point]:
    return (edge.end, edge.start) if ref.backward else (edge.start, edge.end)


def _centre_edge(piece: Piece, at: Point, waist: set[str]) -> Edge:
    """The edge that ends at the waist at the centre."""
    for edge in piece.edges:
        if edge.name not in waist and edge.role is not Role.DART_LEG and at in (edge.start, edge.end):
            return edge
    raise NotAPattern(piece.name, "its waist comes to no centre line")


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
    raise NotAPattern(piece.name, "its waist comes to no side seam")


def _where(one: Point, far: float, other: Point, long: float, near: Point) -> Point:
    """The place `far` from one place and `long` from another that lies next to a third. Raises NotAPattern for none."""
    apart = distance(one, other)
    along = (far * far - long * long + apart * apart) / (2.0 * apart)
    if abs(along) > far:
        raise NotAPattern("waist", "so deep a point cannot be laid on below the bodice")
    aside = math.sqrt(far * far - along * along)
    way: Vec = (other - one).unit()
    foot = one + way * along
    return min((foot + way.left() * aside, foot - way.left() * aside), key=lambda place: distance(place, near))
