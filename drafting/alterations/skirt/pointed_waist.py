"""A waist seam that runs to a point at the centre front: the bodice goes down to it, skirt or trousers are cut by it.

From the point, p below the waist, to the side seam, w away, the seam is straight: sqrt(w^2 + p^2) long, and the bodice
comes to a point of 2 atan(w / p) there, the lower piece to what is left of 360 degrees (plane geometry). What is cut
off the lower piece with its darts closed is laid on below the bodice, so that the darts of both run on into each other.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finer_length, run_surplus, seams_kept, whole_pieces_kept
from drafting.alterations.skirt.cut_top import lower_left
from drafting.alterations.skirt.skirt_top import LineBelow, Top, borders, top_of
from drafting.alterations.techniques.marks.seam_ease import with_ease
from drafting.alterations.techniques.redrawing.redraw_run import exact_length, with_length_kept
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Line, Point, Vec, cut_run, distance, fair, lerp, run_ends, run_length, run_reversed
from drafting.geometry.meet import run_meetings
from drafting.geometry.outline import starting_at, stretch
from drafting.geometry.solve import root_between
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    PLAIN,
    BodyPart,
    Edge,
    EdgeRef,
    Half,
    Notch,
    NotchRef,
    Pattern,
    Piece,
    Place,
    Role,
    Seam,
    SeamEase,
    closed,
    from_start,
    with_pieces,
)
from drafting.pattern.walk import notch_distance

__all__ = ["PointedWaist"]

_PARTS: Final = 2  # a dart parts the waist of a front in two
_FLATTEST: Final = 0.2  # mm that the new line is shorter than over the mouth of the dart, which then lies 5 mm above it
_MOST_EASED: Final = 0.05  # of the seam, which lies aslant to the grain there and gives (ours; 8 in 100 in an armhole)
_SEWN_PLAIN: Final = 0.5  # mm
_SHIFTED: Final = 8.0  # mm along the seam that the dart may lie beside that below, so that its legs turn alike (ours)
_ROUNDED: Final = 80.0  # mm above the waist from which the legs of the dart are led round (ours)
_APART: Final = 4.0  # mm by which the darts of bodice and skirt may miss each other (ours)


@alteration_class
class PointedWaist(Alteration):
    """Lead the waist seam down to a point at the centre front."""

    name = "pointed waist"
    layer = Layer.STYLE
    needs = (
        (BodyPart.BODICE,),
        (BodyPart.SKIRT, BodyPart.TROUSERS),
    )
    about = "Lead the seam between a bodice and a skirt or trousers down to a point at the centre front."
    leaves = "the back; the side seams; how well every seam meets; every other piece"
    carries = "the bodice, which becomes longer in front by what is cut off below; the darts of both"

    depth: float = option("length", "how far below the waist the point lies", 15.0, 120.0, default=60.0, or_less=True)

    def apply(self, pattern: Pattern) -> Pattern:
        seam, top = _found(self.name, pattern)
        try:
            line = _line(pattern, top, self.depth)
            bodice = _longer(pattern, top, line, seam, self.depth)
            lowers = [_shorter(pattern, pattern.piece(name), top, line) for name in top.pieces]
        except NotAPattern as error:
            raise StepRefused(self.name, str(error), too_much=("depth",)) from error
        return _eased(self.name, with_pieces(pattern, bodice, *lowers), seam.name)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        seam, top = _found(self.name, pattern)
        others = replace(pattern, seams=tuple(each for each in pattern.seams if each.name != seam.name))
        yield from seams_kept(others)
        yield from whole_pieces_kept(pattern, [*top.pieces, seam.b[0].piece])


def _eased(step: str, pattern: Pattern, name: str) -> Pattern:
    """The pattern with what the lower piece is longer eased in."""
    seam = pattern.seam(name)
    more, long = run_surplus(pattern, seam), finer_length(pattern, seam.b)
    if more > _MOST_EASED * long:
        reason = f"the skirt would be {more:.1f} mm longer than the bodice, more than can be eased in"
        raise StepRefused(step, reason, too_much=("depth",))
    for one, other in seam.notches:  # so far as to the notches it is sewn flat, and eased in from there to the side
        pattern = _met(pattern, seam, one, other)
    return with_ease(pattern, name, PLAIN if abs(more) < _SEWN_PLAIN else SeamEase(more, 0.0, more + _SEWN_PLAIN))


def _met(pattern: Pattern, seam: Seam, mark: NotchRef, other: NotchRef) -> Pattern:
    """The pattern with a notch of the first run as far along as that of the second, from the centre."""
    here, there = notch_distance(pattern, seam.a, mark), notch_distance(pattern, seam.b, other)
    piece = pattern.piece(mark.piece)
    notch = piece.notch(mark.notch)
    ref = next(ref for ref in seam.a if (ref.piece, ref.edge) == (mark.piece, notch.station.edge))
    assert here is not None
    assert there is not None
    onward = (notch.station.end == "start") != ref.backward
    moved = notch.moved_to(notch.station.at + (there - here if onward else here - there))
    notches = tuple(moved if each == notch else each for each in piece.notches)
    return with_pieces(pattern, replace(piece, notches=notches))


def _found(step: str, pattern: Pattern) -> tuple[Seam, Top]:
    """The seam between the front of a bodice and what hangs from it, and the waist of that, darts closed."""
    tops = [top_of(pattern, Half.FRONT, part) for part in (BodyPart.SKIRT, BodyPart.TROUSERS)]
    for top in filter(None, tops):
        own = {(each.ref.piece, each.ref.edge) for each in top.run}
        for seam in pattern.seams:
            if {(ref.piece, ref.edge) for ref in seam.a} == own:
                return _accepted(step, pattern, seam), top
    raise StepRefused(step, "there is no bodice whose front is sewn to a skirt or to trousers at the waist")


def _accepted(step: str, pattern: Pattern, seam: Seam) -> Seam:
    if len({ref.piece for ref in seam.b}) > 1:
        raise StepRefused(step, 'the bodice front is cut in two; put this step before "dart into seam"')
    lengths = [[finer_length(pattern, [ref]) for ref in run] for run in (seam.a, seam.b)]
    places = [[sum(each[: k + 1]) for k in range(len(each))] for each in lengths]
    if len(seam.a) == 1:
        told = "what hangs from the bodice has no dart in front to meet that of the bodice"
        raise StepRefused(step, f"{told}: a point is cut on a skirt or trousers that have one")
    if not len(seam.a) == len(seam.b) == _PARTS or any(abs(a - b) > _APART for a, b in zip(*places, strict=True)):
        raise StepRefused(
            step,
            "the bodice and what hangs from it are each to have one dart in front, and the two are to meet: "
            'front_darts = "one" below both blocks',
        )
    if not seam.plain:
        raise StepRefused(step, "the skirt is gathered into the waist, and a point is cut on a plain seam")
    return seam


@dataclass(frozen=True, slots=True)
class _Wedge:
    """What is cut off below one edge of the waist, where it lies darts closed: from the centre to the side.

    top, bottom: the ends of its upper and of its lower edge
    """

    top: tuple[Point, Point]
    bottom: tuple[Point, Point]


def _line(pattern: Pattern, top: Top, depth: float) -> LineBelow:
    """The straight line from the point to the side end of the waist."""
    centre_last = _centre_last(top)
    centre = (top.after if centre_last else top.before)[0]
    if centre.edge.length <= depth:
        raise NotAPattern(centre.ref.piece, f"its centre line is too short for a point {depth:.0f} mm below the waist")
    kept = replace(centre, edge=replace(centre.edge, curves=cut_run(centre.edge.curves, depth)[0]))
    point = kept.edge.curves[-1].end
    side = top.run[0].edge.curves[0].start if centre_last else top.run[-1].edge.curves[-1].end
    line = (Line(side, point),) if centre_last else (Line(point, side),)
    downs, places = [], [0.0]
    for border in borders(pattern, top):
        met = run_meetings(border.line, line)
        if not met:
            raise NotAPattern(border.piece.name, "a dart is too short for so deep a point")
        i, j, meeting = met[0]
        downs.append(run_length(stretch(border.line, 0.0, i + meeting.at_a)))
        places.append(j + meeting.at_b)
    places.append(1.0)
    along = line[0].end - line[0].start
    for each in top.run:
        if any((curve.start - line[0].start).cross(along) < -SAME_PLACE for curve in each.edge.curves):
            raise NotAPattern(each.ref.piece, "the line to the point would run above the waist: make it deeper")
    parts = tuple(stretch(line, a, b) for a, b in pairwise(places))
    after, before = ((kept,), ()) if centre_last else ((), (kept,))
    return LineBelow(parts, tuple(downs), after, before)


def _centre_last(top: Top) -> bool:
    """Whether the waist, walked anticlockwise, ends at the centre."""
    return top.after[0].edge.place is not Place.SIDE and top.after[0].edge.place is not Place.OUTSEAM


def _wedges(top: Top, line: LineBelow) -> list[_Wedge]:
    """What is cut off, from the centre to the side."""
    found = [
        _Wedge((each.edge.curves[0].start, each.edge.curves[-1].end), (run[0].start, run[-1].end))
        for each, run in zip(top.run, line.parts, strict=True)
    ]
    if _centre_last(top):
        return [_Wedge(each.top[::-1], each.bottom[::-1]) for each in reversed(found)]
    return found


def _longer(pattern: Pattern, top: Top, line: LineBelow, seam: Seam, depth: float) -> Piece:
    """The bodice front with what is cut off below laid on under each edge of its waist."""
    piece = pattern.piece(seam.b[0].piece)
    refs = seam.b  # from the centre to the side
    wedges = _wedges(top, line)
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
    return _notched(
        replace(
            piece,
            edges=closed(piece.name, made),
            points_meant=(
                *piece.points_meant,
                _corner(piece, centre.name, refs[0].edge),
                _corner(piece, _side_edge(piece), refs[-1].edge),
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
    uppers: Sequence[tuple[Point, Point]], wedges: Sequence[_Wedge], point: Point, apex: Point
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


def _shorter(pattern: Pattern, piece: Piece, top: Top, line: LineBelow) -> Piece:
    """What is left of a piece below the line."""
    made, _ = lower_left(pattern, piece, top, line, Place.WAIST)
    at_centre = top.run[-1] if _centre_last(top) else top.run[0]
    names = [each.ref.edge for each in top.run if each.ref.piece == piece.name]
    if at_centre.ref.piece == piece.name:
        centre = (line.after or line.before)[0].ref.edge
        made = replace(made, points_meant=(*made.points_meant, _corner(piece, centre, at_centre.ref.edge)))
    at_side = top.run[0] if _centre_last(top) else top.run[-1]
    if at_side.ref.piece == piece.name:
        made = replace(made, points_meant=(*made.points_meant, _corner(piece, _side_edge(piece), at_side.ref.edge)))
    own = tuple(notch for notch in piece.notches if notch.station.edge in names)
    return _notched(replace(made, notches=(*made.notches, *own)), piece, names)


def _notched(made: Piece, was: Piece, names: Sequence[str]) -> Piece:
    """The piece with the notches of these edges at the share of each at which they were."""

    def placed(notch: Notch) -> Notch:
        if notch.station.edge not in names:
            return notch
        old, new = was.edge(notch.station.edge), made.edge(notch.station.edge)
        share = from_start(old, notch.station) / old.length
        return notch.moved_to(new.length * (share if notch.station.end == "start" else 1.0 - share))

    return replace(made, notches=tuple(map(placed, made.notches)))


def _corner(piece: Piece, one: str, other: str) -> tuple[str, str]:
    """Two neighbours in the order of the outline."""
    first, second = sorted((one, other), key=piece.index)
    return (first, second) if piece.beside(first)[1].name == second else (second, first)


def _side_edge(piece: Piece) -> str:
    """The edge of the side that comes to the waist."""
    found = (edge for edge in piece.edges if edge.place in (Place.SIDE, Place.OUTSEAM))
    for edge in found:
        if any(each.place is Place.WAIST for each in piece.beside(edge.name)):
            return edge.name
    raise NotAPattern(piece.name, "its waist comes to no side seam")


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
