"""A waist seam that runs to a point at the centre front: the bodice goes down to it, skirt or trousers are cut by it.

From the point, p below the waist, to the side seam, w away, the seam is straight and sqrt(w^2 + p^2) long. The angle
at the point is 2 atan(w / p) on the bodice; on the lower piece it is the rest of 360 degrees (plane geometry). The part
cut off the lower piece, with its darts closed, is added below the bodice, so that the darts of both are one line.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.earlier_steps import put_before
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finer_length, run_surplus, seams_kept, whole_pieces_kept
from drafting.alterations.refusing import instead
from drafting.alterations.skirt.cut_top import left_below
from drafting.alterations.skirt.pointed_bodice import (
    TAPED,
    Wedge,
    corner_of,
    notched_as_before,
    side_edge,
    with_point_below,
)
from drafting.alterations.skirt.skirt_top import LineBelow, Top, borders, top_of
from drafting.alterations.skirt.wider_dart import dart_between, with_wider_dart
from drafting.alterations.techniques.marks.seam_ease import with_ease
from drafting.errors import NotAPattern, Remedy, Setting, StepRefused
from drafting.geometry import Line, cut_run, run_length
from drafting.geometry.meet import run_meetings
from drafting.geometry.outline import stretch
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    PLAIN,
    Along,
    Between,
    BodyPart,
    EdgeRef,
    Half,
    Measure,
    NotchRef,
    Pattern,
    Piece,
    Place,
    Seam,
    SeamEase,
    Tape,
    relaid,
    with_pieces,
)
from drafting.pattern.walk import notch_distance

__all__ = ["PointedWaist"]

_PARTS: Final = 2  # a dart parts the waist of a front in two
_MOST_EASED: Final = 0.05  # of the seam, which lies aslant to the grain there and gives (ours; 8 in 100 in an armhole)
_EASED: Final = 0.03  # of the seam, which is left to be eased in where the dart takes the rest (ours)
_MOST_TAKEN: Final = 15.0  # mm by which the dart below becomes wider for that at the most (ours)
_SEWN_PLAIN: Final = 0.5  # mm
_DEEPEST: Final = 120.0  # mm
_ROUNDED: Final = 2.0  # mm deeper than needed, so that it is enough rounded to a sixteenth of an inch too
_APART: Final = 4.0  # mm by which the darts of bodice and skirt may miss each other (ours)


@alteration_class
class PointedWaist(Alteration):
    """Lead the waist seam down to a point at the centre front."""

    name = "pointed waist"
    layer = Layer.STYLE
    needs = ((BodyPart.BODICE,), (BodyPart.SKIRT, BodyPart.TROUSERS))
    asks = (("front_darts", "one"),)
    about = "Lead the seam between a bodice and a skirt or trousers down to a point at the centre front."
    leaves = "the back; the side seams; how well every seam meets; every other piece"
    carries = "the bodice, which becomes longer in front by what is cut off below; the darts of both"

    depth: float = option(
        "length", "how far below the waist the point lies", 15.0, _DEEPEST, default=60.0, or_less=True
    )

    def apply(self, pattern: Pattern) -> Pattern:
        seam, top = _waist_seam_and_top(self.name, pattern)
        try:
            line = _line(pattern, top, self.depth)
            bodice = with_point_below(pattern.piece(seam.b[0].piece), seam.b, _wedges(top, line), self.depth)
            lowers = [_left_below_line(pattern, pattern.piece(name), top, line) for name in top.pieces]
        except _AboveWaist as error:
            raise StepRefused(self.name, reason=str(error), remedies=_least_deeper(self, pattern, top)) from error
        except NotAPattern as error:
            raise StepRefused(self.name, reason=str(error), too_much=("depth",)) from error
        measures = _from_waist(pattern, (line.after or line.before)[0].ref, bodice.name)
        return _eased(self.name, replace(with_pieces(pattern, bodice, *lowers), measures=measures), seam.name)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        seam, top = _waist_seam_and_top(self.name, pattern)
        others = replace(pattern, seams=tuple(each for each in pattern.seams if each.name != seam.name))
        yield from seams_kept(others)
        yield from whole_pieces_kept(pattern, [*top.pieces, seam.b[0].piece])


class _AboveWaist(NotAPattern):
    """The waist curves down between centre and side, and so shallow a point lies above it."""


def _least_deeper(step: PointedWaist, pattern: Pattern, top: Top) -> tuple[Remedy, ...]:
    """The least deeper point that lies below the waist; none where none does."""
    for mm in range(math.ceil(step.depth), math.floor(_DEEPEST)):
        try:
            _line(pattern, top, float(mm))
        except NotAPattern:
            continue
        return instead(step.name, "depth", mm + _ROUNDED, "mm")
    return ()


def _from_waist(pattern: Pattern, centre: EdgeRef, bodice: str) -> tuple[Measure, ...]:
    """The measurements with what ran down the centre from the waist still running from there, over the bodice first."""

    def begun(_: Measure, part: Tape) -> tuple[Tape, ...]:
        if isinstance(part, Along) and part.edge == centre.edge:
            return Between(bodice, *TAPED, part.times), part
        return (part,)

    return relaid(pattern.measures, centre.piece, begun)


def _eased(step: str, pattern: Pattern, name: str) -> Pattern:
    """The pattern with what the lower piece is longer eased in, and what is too much for that taken into its dart."""
    seam = pattern.seam(name)
    more, long = run_surplus(pattern, seam), finer_length(pattern, seam.b)
    if 0.0 < (too_much := more - _EASED * long) <= _MOST_TAKEN and more > _MOST_EASED * long:
        piece = pattern.piece(seam.a[0].piece)
        if dart := dart_between(piece, seam.a):
            pattern = with_pieces(pattern, with_wider_dart(piece, dart, too_much))
            more = run_surplus(pattern, seam)
    if more > _MOST_EASED * long:
        reason = f"the skirt would be {more:.1f} mm longer than the bodice, more than can be eased in"
        raise StepRefused(step, reason=reason, too_much=("depth",))
    for one, other in seam.notches:  # so far as to the notches it is sewn flat, and eased in from there to the side
        pattern = _notch_met(pattern, seam, one, other)
    return with_ease(pattern, name, PLAIN if abs(more) < _SEWN_PLAIN else SeamEase(more, 0.0, more + _SEWN_PLAIN))


def _notch_met(pattern: Pattern, seam: Seam, mark: NotchRef, other: NotchRef) -> Pattern:
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


def _waist_seam_and_top(step: str, pattern: Pattern) -> tuple[Seam, Top]:
    """The seam between the front of a bodice and what hangs from it, and the waist of that, darts closed."""
    tops = [top_of(pattern, Half.FRONT, part) for part in (BodyPart.SKIRT, BodyPart.TROUSERS)]
    for top in filter(None, tops):
        own = {(each.ref.piece, each.ref.edge) for each in top.run}
        for seam in pattern.seams:
            if {(ref.piece, ref.edge) for ref in seam.a} == own:
                return _with_darts_that_meet(step, pattern, seam), top
    raise StepRefused(step, reason="there is no bodice whose front is sewn to a skirt or to trousers at the waist")


def _with_darts_that_meet(step: str, pattern: Pattern, seam: Seam) -> Seam:
    """The seam, plain and with one dart on each side, the two meeting. Raises StepRefused for any other."""
    if len({ref.piece for ref in seam.b}) > 1:
        raise StepRefused(step, reason="the bodice front is cut in two", remedies=(put_before("dart into seam"),))
    lengths = [[finer_length(pattern, [ref]) for ref in run] for run in (seam.a, seam.b)]
    places = [[sum(each[: k + 1]) for k in range(len(each))] for each in lengths]
    if len(seam.a) == 1:
        reason = "what hangs from the bodice has no dart in front to meet that of the bodice"
        raise StepRefused(step, reason=f"{reason}: a point is cut on a skirt or trousers that have one")
    if not len(seam.a) == len(seam.b) == _PARTS or any(abs(a - b) > _APART for a, b in zip(*places, strict=True)):
        raise StepRefused(
            step,
            reason="the bodice and what hangs from it are each to have one dart in front, and the two are to meet",
            remedies=(
                Remedy("set in block", "", (Setting("front_darts", "one"),), lead="Draft them with one dart in front"),
            ),
        )
    if not seam.plain:
        raise StepRefused(step, reason="the skirt is gathered into the waist, and a point is cut on a plain seam")
    return seam


def _line(pattern: Pattern, top: Top, depth: float) -> LineBelow:
    """The straight line from the point to the side end of the waist."""
    centre_last = _centre_last(top)
    centre = (top.after if centre_last else top.before)[0]
    if centre.edge.length <= depth:
        raise NotAPattern(
            centre.ref.piece, reason=f"its centre line is too short for a point {depth:.0f} mm below the waist"
        )
    kept = replace(centre, edge=replace(centre.edge, curves=cut_run(centre.edge.curves, depth)[0]))
    point = kept.edge.curves[-1].end
    side = top.run[0].edge.curves[0].start if centre_last else top.run[-1].edge.curves[-1].end
    line = (Line(side, point),) if centre_last else (Line(point, side),)
    along = line[0].end - line[0].start
    for each in top.run:
        if any((curve.start - line[0].start).cross(along) < -SAME_PLACE for curve in each.edge.curves):
            raise _AboveWaist(each.ref.piece, reason="the line to the point would run above the waist: make it deeper")
    downs, places = [], [0.0]
    for border in borders(pattern, top):
        met = run_meetings(border.line, line)
        if not met:
            raise NotAPattern(border.piece.name, reason="a dart is too short for so deep a point")
        i, j, meeting = met[0]
        downs.append(run_length(stretch(border.line, 0.0, i + meeting.at_a)))
        places.append(j + meeting.at_b)
    places.append(1.0)
    parts = tuple(stretch(line, a, b) for a, b in pairwise(places))
    after, before = ((kept,), ()) if centre_last else ((), (kept,))
    return LineBelow(parts, tuple(downs), after, before)


def _centre_last(top: Top) -> bool:
    """Whether the waist, walked anticlockwise, ends at the centre."""
    return top.after[0].edge.place is not Place.SIDE and top.after[0].edge.place is not Place.OUTSEAM


def _wedges(top: Top, line: LineBelow) -> list[Wedge]:
    """What is cut off, from the centre to the side."""
    found = [
        Wedge((each.edge.curves[0].start, each.edge.curves[-1].end), (run[0].start, run[-1].end))
        for each, run in zip(top.run, line.parts, strict=True)
    ]
    if _centre_last(top):
        return [Wedge(each.top[::-1], each.bottom[::-1]) for each in reversed(found)]
    return found


def _left_below_line(pattern: Pattern, piece: Piece, top: Top, line: LineBelow) -> Piece:
    """What is left of a piece below the line."""
    made, _ = left_below(pattern, piece, top, line, Place.WAIST)
    at_centre = top.run[-1] if _centre_last(top) else top.run[0]
    names = [each.ref.edge for each in top.run if each.ref.piece == piece.name]
    if at_centre.ref.piece == piece.name:
        centre = (line.after or line.before)[0].ref.edge
        made = replace(made, points_meant=(*made.points_meant, corner_of(piece, centre, at_centre.ref.edge)))
    at_side = top.run[0] if _centre_last(top) else top.run[-1]
    if at_side.ref.piece == piece.name:
        made = replace(made, points_meant=(*made.points_meant, corner_of(piece, side_edge(piece), at_side.ref.edge)))
    own = tuple(notch for notch in piece.notches if notch.station.edge in names)
    return notched_as_before(replace(made, notches=(*made.notches, *own)), piece, names)
