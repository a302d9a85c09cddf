"""Closing a dart so that the seam it leaves is smooth, and finding that seam again when the dart comes back.

A dart of a block is sewn to a point short of the place it is turned about, and its seam was drawn straight with the
dart sewn. Closed about that place, the seam comes to a peak where the dart was. A cutter draws such a peak smooth;
here each side keeps its length while it is bent, and for that the place of the dart moves inward a very little.
The place is marked, so that exactly the old seam is drawn again when a dart of the same angle is let in there.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.alterations.techniques.cutting.split_edges import EdgePart
from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Curve, Line, Point, Vec, corner_turn, distance, length, lerp, tangent
from drafting.geometry.outline import starting_at
from drafting.geometry.tolerance import MEASURED, SAME_PLACE
from drafting.pattern import Landmark, MarkPoint, free_name

__all__ = ["closed_smoothly", "opened_again", "smooth_where_met"]

_SAME_PEAK: Final = 1e-9
"""radians"""

_PEAK: Final = math.radians(0.1)
"""A peak of less is left: over a shoulder it stands out by less than a pencil line is wide."""

_FAR: Final = 5.0
"""mm from a place within which the mark of it is looked for; the place moves in by a tenth of that."""

_EXACT: Final = 1e-9
"""mm to which the lengths are kept."""


def closed_smoothly(
    one: EdgePart, other: EdgePart, dart: str, pivot: Point, angle: float, short: float, points: Iterable[MarkPoint]
) -> tuple[EdgePart, EdgePart, tuple[MarkPoint, ...]]:
    """Two edges that meet in a peak where a dart was closed, made smooth there; each keeps its length.

    angle, short: of the dart that is gone, at the pivot, and how far short of it it ended
    points:       what is marked on the piece already
    The marks are of the place where they met, and after it of a place that tells the peak, if it is not that of a dart
    with straight legs; none, and the edges as they are, where there is no peak to speak of.
    Raises NotAPattern where they cannot be made smooth.
    """
    last, first = one.edge.curves[-1], other.edge.curves[0]
    peak = corner_turn(one.edge.curves, other.edge.curves)
    if peak <= _PEAK:
        return one, other, ()
    place = last.end
    before, after = _bent(_cubic(last), _cubic(first), 0.5 * peak)
    step = _step(before, after, (length(last, MEASURED), length(first, MEASURED)))
    before, after = _stepped(before, after, step)
    taken = {mark.name for mark in points}
    marks = [MarkPoint(free_name(f"{dart} was closed here", taken), place, Landmark.CLOSED_DART)]
    if abs(peak - _straight_peak(distance(place, pivot), angle, short)) > _SAME_PEAK:
        name, towards = free_name(f"{dart} was closed towards here", taken), (pivot - place).turned(0.5 * peak) * 0.5
        marks.append(MarkPoint(name, place + towards, Landmark.CLOSED_TOWARDS))
    return _with(one, before, at_end=True), _with(other, after, at_end=False), tuple(marks)


def opened_again(
    one: EdgePart, other: EdgePart, marks: Sequence[MarkPoint], pivot: Point, angle: float, short: float
) -> tuple[EdgePart, EdgePart, tuple[MarkPoint, ...]]:
    """Two edges that meet smoothly as they were before the dart between them was closed, and the marks that tell it.

    angle, short: of the dart that is let in, at the pivot, and how far short of it it ends
    None, and the edges as they are, where no mark is near or it is not for a dart of this angle: the lengths tell.
    """
    last, first = one.edge.curves[-1], other.edge.curves[0]
    for mark, following in pairwise((*marks, None)):
        if mark is not None and mark.landmark is Landmark.CLOSED_DART and mark.at.near(last.end, _FAR):
            # what tells the peak of a place was marked right after it
            towards = following if following and following.landmark is Landmark.CLOSED_TOWARDS else None
            peak = _straight_peak(distance(mark.at, pivot), angle, short)
            if towards is not None:
                fold, leg = pivot - mark.at, towards.at - mark.at
                peak = 2.0 * fold.angle_to(leg)
            before, after = _bent(*_stepped(_cubic(last), _cubic(first), mark.at - last.end), -0.5 * peak)
            pairs = ((before, last), (after, first))
            if all(abs(length(new, MEASURED) - length(old, MEASURED)) <= SAME_PLACE for new, old in pairs):
                told = (mark,) if towards is None else (mark, towards)
                return _with(one, _plain(before), at_end=True), _with(other, _plain(after), at_end=False), told
    return one, other, ()


def smooth_where_met(one: Sequence[Curve], other: Sequence[Curve]) -> tuple[Curve, ...]:
    """Two runs that meet in a corner as one smooth run; each part keeps its length.

    Raises NotAPattern where it cannot be made smooth.
    """
    last, first = one[-1], starting_at(other[0], one[-1].end)
    corner = tangent(last, 1.0).angle_to(tangent(first, 0.0))
    if abs(corner) <= _SAME_PEAK:
        return (*one, first, *other[1:])
    before, after = _bent(_cubic(last), _cubic(first), 0.5 * corner)
    step = _step(before, after, (length(last, MEASURED), length(first, MEASURED)))
    return (*one[:-1], *_stepped(before, after, step), *other[1:])


def _straight_peak(reach: float, angle: float, short: float) -> float:
    """The peak that is left where a dart with straight legs is closed about a pivot, radians.

    reach: from the pivot to the mouth, mm; by so much is the angle at the point more than the angle at the pivot
    """
    half, deep = reach * math.sin(0.5 * angle), reach * math.cos(0.5 * angle) - short
    return 2.0 * math.atan2(half, deep) - angle


def _bent(before: Cubic, after: Cubic, turned: float) -> tuple[Cubic, Cubic]:
    """Two curves turned where they meet, by the same angle: one anticlockwise, the other clockwise."""
    return (
        replace(before, c2=before.end - (before.end - before.c2).turned(turned)),
        replace(after, c1=after.start + (after.c1 - after.start).turned(-turned)),
    )


def _stepped(before: Cubic, after: Cubic, step: Vec) -> tuple[Cubic, Cubic]:
    """Both curves with the place where they meet moved, and their handles there with it."""
    place = before.end + step
    return replace(before, c2=before.c2 + step, end=place), replace(after, start=place, c1=after.c1 + step)


def _step(before: Cubic, after: Cubic, wanted: tuple[float, float]) -> Vec:
    """How far the place where they meet moves so that both are as long as wanted: Newton's method in the plane."""

    def length_errors(x: float, y: float) -> tuple[float, float]:
        one, other = _stepped(before, after, Vec(x, y))
        return length(one, MEASURED) - wanted[0], length(other, MEASURED) - wanted[1]

    x = y = 0.0
    for _ in range(12):
        a, b = length_errors(x, y)
        if max(abs(a), abs(b)) <= _EXACT:
            return Vec(x, y)
        ax, bx = length_errors(x + 1e-4, y)
        ay, by = length_errors(x, y + 1e-4)
        ax, bx, ay, by = (ax - a) * 1e4, (bx - b) * 1e4, (ay - a) * 1e4, (by - b) * 1e4
        det = ax * by - ay * bx
        if det == 0.0:
            break
        x, y = x - (a * by - b * ay) / det, y - (b * ax - a * bx) / det
        if math.hypot(x, y) > _FAR:
            break
    raise NotAPattern("seam", reason="it cannot be drawn smooth where the dart was closed")


def _cubic(curve: Curve) -> Cubic:
    if isinstance(curve, Cubic):
        return curve
    return Cubic(curve.start, lerp(curve.start, curve.end, 1 / 3), lerp(curve.start, curve.end, 2 / 3), curve.end)


def _plain(curve: Cubic) -> Curve:
    """A line, where the curve is one with its handles at the thirds."""
    line = _cubic(Line(curve.start, curve.end))
    straight = curve.c1.near(line.c1, 1e-7) and curve.c2.near(line.c2, 1e-7)
    return Line(curve.start, curve.end) if straight else curve


def _with(part: EdgePart, curve: Curve, *, at_end: bool) -> EdgePart:
    old = part.edge.curves
    return part.redrawn((*old[:-1], curve) if at_end else (curve, *old[1:]))
