"""A waist seam that runs to a point at the centre front: the bodice goes down to it, skirt or trousers are cut by it.

From the point, p below the waist, to the side seam, w away, the seam is straight and sqrt(w^2 + p^2) long. The angle
at the point is 2 atan(w / p) on the bodice; on the lower piece it is the rest of 360 degrees (plane geometry). What is
cut off the lower piece, whose line is drawn once with its darts closed, is added below the bodice at the same place.

The body is hollow at the waist: there the bodice's waist curves down to the side, the skirt's up, and as far below both
as the point is, the bodice is 7 to 10 % shorter than the skirt. The dart of the bodice closes again for a part of that,
a part is eased in, the rest goes into the skirt's dart. To run over its dart and to the point without a corner the
bodice strays from the line below by up to 4 mm at a depth of 60, 1.5 at 40 (measured on the sizes of the tests).
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
    corner_of,
    cut_off,
    notched_as_before,
    side_edge,
    with_point_below,
)
from drafting.alterations.skirt.skirt_top import LineBelow, Top, borders, top_of
from drafting.alterations.skirt.wider_dart import dart_between, with_wider_dart
from drafting.alterations.techniques.marks.seam_ease import with_ease
from drafting.errors import NotAPattern, Remedy, Setting, StepRefused
from drafting.geometry import Curve, Line, cut_run, run_length, run_reversed
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
# of the seam, which lies aslant to the grain there and gives (ours; 8 in 100 in an armhole); 5 would refuse the usual
# 60 mm over a gored skirt, since what is cut off is carried by place along the seam
_MOST_EASED: Final = 0.055
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
            lowers = [_left_below_line(pattern, pattern.piece(name), top, line) for name in top.pieces]
            made = _joined(pattern, with_pieces(pattern, *lowers), seam, self.depth)
        except _AboveWaist as error:
            raise StepRefused(self.name, reason=str(error), remedies=_least_deeper(self, pattern, top)) from error
        except NotAPattern as error:
            raise StepRefused(self.name, reason=str(error), too_much=("depth",)) from error
        measures = _from_waist(pattern, (line.after or line.before)[0].ref, seam.b[0].piece)
        return _eased(self.name, replace(made, measures=measures), seam.name)

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


def _joined(pattern: Pattern, cut: Pattern, seam: Seam, depth: float) -> Pattern:
    """The cut pattern with the bodice longer at each place of its waist by what was cut off below that place.

    What the lower piece is then too long to be eased in is taken into its dart.
    """
    off = cut_off([(_from_centre(pattern, ref), _from_centre(cut, ref)) for ref in seam.a])
    bodice, lower = pattern.piece(seam.b[0].piece), cut.piece(seam.a[0].piece)
    made = with_pieces(cut, with_point_below(bodice, seam.b, off, depth))
    too_much = run_surplus(made, seam) - _MOST_EASED * finer_length(made, seam.b)
    dart = dart_between(lower, seam.a)
    if dart is None or not 0.0 < too_much <= _MOST_TAKEN:
        return made
    # its edges turn a little for that, at the point too, and the bodice with them
    cut = with_pieces(cut, with_wider_dart(lower, dart, too_much))
    at_point = cut_off([(_from_centre(pattern, seam.a[0]), _from_centre(cut, seam.a[0]))])
    return with_pieces(cut, with_point_below(bodice, seam.b, replace(off, turn=at_point.turn), depth))


def _from_centre(pattern: Pattern, ref: EdgeRef) -> tuple[Curve, ...]:
    """An edge of the waist as the seam runs, which is from the centre."""
    curves = pattern.piece(ref.piece).edge(ref.edge).curves
    return run_reversed(curves) if ref.backward else curves


def _eased(step: str, pattern: Pattern, name: str) -> Pattern:
    """The pattern with what the lower piece is longer eased in."""
    seam = pattern.seam(name)
    more, long = run_surplus(pattern, seam), finer_length(pattern, seam.b)
    if more > _MOST_EASED * long + _SEWN_PLAIN:
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
