"""How two sides of a cutting line are joined at a corner of the sewing line.

Corners, `limit` being the furthest a point may stand off, in allowances (common practice: sharper points are cut off):

mitre   both cutting lines run on straight until they meet; past the limit the point is cut off square
hollow  at an inward corner both cutting lines stop where they cross
step    where one line would run on and the other be cut back, as with two allowances on edges nearly in line, the
        wider allowance ends square to its edge, so that no line runs away
squared a seam's allowance ends square to its sewing line, so far past the corner as that of the piece it is sewn to,
        so that both cut edges can be laid together
fold    the other cutting line, turned in or not, stops on the fold line run on: beyond it lies the other half
turned  beyond the fold line the side is the mirror image of what lies inside it, so what is turned in lies on the cloth
dart    the cutting line over the mouth is what remains of the neighbour's when the sewn dart is pressed over it
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry.crossing import run_hits
from drafting.geometry.curve import Curve, Line, tangent
from drafting.geometry.dart_mouth import Mouth, mouth_roof
from drafting.geometry.meet import run_meetings
from drafting.geometry.outline import run_reversed, straight_run, stretch
from drafting.geometry.point import Point, Vec, distance
from drafting.geometry.tolerance import FLAT, SAME_PLACE
from drafting.geometry.transform import mirror, moved_all

__all__ = ["Corner", "Side", "corner_between"]

_NEARLY_THERE: Final = 1.1
"""How far a square end may reach to meet the line beside it, in allowances: it would else turn back over it (ours)."""

_FILED_OFF: Final = 3.0
"""mm: a step that low is cut as a slant, since no shears follow it (ours)."""

_LIKE_A_LINE: Final = 1e-6  # the sine below which two directions count as one


@dataclass(frozen=True, slots=True)
class Side:
    """A smooth stretch of the cutting line, and the sewing corners it lies between.

    turned:  whether what lies beyond the sewing line is turned in along it
    squares: how far past its first and its last corner its allowance is to end square, mm; None where that is free
    """

    run: tuple[Curve, ...]
    allowance: float
    start: Point
    end: Point
    turned: bool = False
    fold: bool = False
    squares: tuple[float | None, float | None] = (None, None)


@dataclass(frozen=True, slots=True)
class Corner:
    """Where one side stops (a position on its run), what joins it to the next, and where that starts."""

    stop: float
    bridge: tuple[Curve, ...]
    go: float


def corner_between(sides: Sequence[Side], mouths: dict[int, Mouth], k: int, limit: float) -> Corner | None:
    """The join after side k; None where neither run reaches the other."""
    before, after = sides[k], sides[(k + 1) % len(sides)]
    if k in mouths:
        return _over_mouth(before, mouths[k], after)
    found = None
    if before.squares[1] is not None:
        found = _squared(before, before.squares[1], after)
    elif after.squares[0] is not None:
        found = _backward(_squared(_flipped(after), after.squares[0], _flipped(before)), before, after)
    elif (before.turned or after.turned) and not (before.fold or after.fold):
        found = _turned_up(before, after, limit)
    return found or _plain(before, after, limit)


def _backward(flipped: Corner | None, before: Side, after: Side) -> Corner | None:
    """A join that was found with both sides walked the other way, as one between them as they are."""
    if flipped is None:
        return None
    return Corner(len(before.run) - flipped.go, run_reversed(flipped.bridge), len(after.run) - flipped.stop)


def _squared(before: Side, by: float, after: Side) -> Corner | None:
    """The first side runs on so far past its corner, mm, and ends square to it: on the second, or on its own line.

    None where a hollow has eaten the end of its allowance.
    """
    end, ahead = before.run[-1].end, tangent(before.run[-1], 1.0)
    inward = before.end - end
    if abs(inward.norm() - before.allowance) > FLAT or abs(inward.dot(ahead)) > FLAT:
        return None
    tip, foot, start = end + ahead * by, before.end + ahead * by, after.run[0].start
    whole = float(len(before.run))
    lead = Line(start - tangent(after.run[0], 0.0) * (4.0 * before.allowance + by + 1.0), start)
    for i, hit in run_hits((lead, *after.run), tip, inward) if before.allowance > 0.0 else ():
        if -SAME_PLACE <= hit.along <= before.allowance * _NEARLY_THERE:
            landing = (hit.point, start) if i == 0 else (hit.point,)
            return Corner(whole, straight_run(end, tip, *landing), i - 1 + hit.t if i else 0.0)
    filed_off = () if distance(foot, start) < _FILED_OFF else (foot,)
    return Corner(whole, straight_run(end, tip, *filed_off, start), 0.0)


def _plain(before: Side, after: Side, limit: float) -> Corner | None:
    """The corner where the cutting lines of two allowances, drawn on straight, meet; else a cut or a step.

    limit: how far from the corner of the outline they may meet, as a multiple of the wider allowance
    """
    whole = float(len(before.run))
    end, start = before.run[-1].end, after.run[0].start
    u, v = tangent(before.run[-1], 1.0), tangent(after.run[0], 0.0)
    gap, sine = start - end, u.cross(v)
    in_line = u.dot(v) > 0.0
    if gap.norm() <= FLAT and in_line:
        return Corner(whole, (), 0.0)
    if abs(sine) <= _LIKE_A_LINE:
        return _stepped(before, after) if in_line else _cut_off(before, after, limit)
    on, back = gap.cross(v) / sine, -gap.cross(u) / sine
    if on >= -SAME_PLACE and back >= -SAME_PLACE:
        tip = end + u * on
        if distance(tip, before.end) > limit * max(before.allowance, after.allowance):
            return _cut_off(before, after, limit)
        return Corner(whole, straight_run(end, tip, start), 0.0)
    if on < 0.0 and back < 0.0:
        return _crossed(before, after)
    if before.fold or after.fold:
        return _at_fold(before, after) or _stepped(before, after)
    across = None if before.end.near(after.start) else _over_lost(before, after)
    return across or _stepped(before, after)


def _over_lost(before: Side, after: Side) -> Corner | None:
    """A hollow that swallowed the edge between: one line, run on straight, stops where it crosses the other."""
    start, back = after.run[0].start, -tangent(after.run[0], 0.0)
    meets = [(i, hit) for i, hit in run_hits(before.run, start, back) if hit.along >= 0.0]
    if meets:
        i, hit = min(meets, key=lambda found: found[1].along)
        return Corner(i + hit.t, straight_run(hit.point, start), 0.0)
    end, ahead = before.run[-1].end, tangent(before.run[-1], 1.0)
    meets = [(i, hit) for i, hit in run_hits(after.run, end, ahead) if hit.along >= 0.0]
    if meets:
        i, hit = min(meets, key=lambda found: found[1].along)
        return Corner(float(len(before.run)), straight_run(end, hit.point), i + hit.t)
    return None


def _at_fold(before: Side, after: Side) -> Corner | None:
    """The cutting line stops where the fold line, run on, meets it; None where it does not."""
    if after.fold:
        return _backward(_at_fold(_flipped(after), _flipped(before)), before, after)
    end, ahead = before.run[-1].end, tangent(before.run[-1], 1.0)
    meets = [(i, hit) for i, hit in run_hits(after.run, end, ahead) if hit.along >= 0.0]
    if not meets:
        return None
    i, hit = min(meets, key=lambda found: found[1].along)
    return Corner(float(len(before.run)), straight_run(end, hit.point), i + hit.t)


def _crossed(before: Side, after: Side) -> Corner | None:
    """Both stop where they cross: of several crossings the one nearest to the corner along the first."""
    crossings = run_meetings(before.run, after.run)
    if not crossings:
        return None
    i, j, meeting = crossings[-1]
    return Corner(i + meeting.at_a, (), j + meeting.at_b)


def _stepped(before: Side, after: Side) -> Corner:
    """The wider allowance ends square to its edge, and the narrower line begins there."""
    if before.allowance < after.allowance:
        flipped = _stepped(_flipped(after), _flipped(before))
        return Corner(len(before.run) - flipped.go, run_reversed(flipped.bridge), len(after.run) - flipped.stop)
    end, start = before.run[-1].end, after.run[0].start
    inward = before.end - end
    ahead = tangent(after.run[0], 0.0)
    whole = float(len(before.run))
    reach = Line(start - ahead * (4.0 * before.allowance + 1.0), start)
    for i, hit in run_hits((reach, *after.run), end, inward) if before.allowance > 0.0 else ():
        if -SAME_PLACE <= hit.along <= before.allowance * _NEARLY_THERE:
            if i == 0:
                return Corner(whole, straight_run(end, hit.point, start), 0.0)
            return Corner(whole, straight_run(end, hit.point), i - 1 + hit.t)
    return Corner(whole, straight_run(end, start), 0.0)


def _cut_off(before: Side, after: Side, limit: float) -> Corner:
    """A point too sharp: both lines run on to the limit, and a straight cut joins them."""
    end, start = before.run[-1].end, after.run[0].start
    furthest = limit * max(before.allowance, after.allowance)

    def reach(allowance: float) -> float:
        return math.sqrt(max(0.0, furthest * furthest - allowance * allowance))

    on = end + tangent(before.run[-1], 1.0) * reach(before.allowance)
    back = start - tangent(after.run[0], 0.0) * reach(after.allowance)
    return Corner(float(len(before.run)), straight_run(end, on, back, start), 0.0)


def _turned_up(before: Side, after: Side, limit: float) -> Corner | None:
    """The corner of an edge that is turned in and a side: beyond the fold the side goes on as its own mirror image.

    Where both are turned in, the deeper one is folded. None where the side meets the fold too flatly for that; the
    corner is then an ordinary one.
    """
    first = before.turned and (not after.turned or before.allowance >= after.allowance)
    if first:
        hem, side, along = before, after, -_sewing_tangent(before, at_end=True)
        hem_run, side_run = run_reversed(before.run), after.run
        corner = before.end
    else:
        hem, side, along = after, before, _sewing_tangent(after, at_end=False)
        hem_run, side_run = after.run, run_reversed(before.run)
        corner = after.start
    # both runs now lead away from the corner
    furthest = limit * max(hem.allowance, side.allowance)
    lead = Line(side_run[0].start - tangent(side_run[0], 0.0) * (furthest + 1.0), side_run[0].start)
    meets = [(i, hit) for i, hit in run_hits((lead, *side_run), corner, along) if abs(hit.along) <= furthest]
    if not meets:
        return None
    i, hit = min(meets, key=lambda found: abs(found[1].along))
    above = stretch((lead, *side_run), i + hit.t, len(side_run) + 1.0)
    ahead = tangent(above[-1], 1.0)
    image = moved_all((*above, Line(above[-1].end, above[-1].end + ahead * hem.allowance)), mirror(corner, along))
    hem_lead = Line(hem_run[0].start - tangent(hem_run[0], 0.0) * (furthest + 1.0), hem_run[0].start)
    crossings = run_meetings(image, (hem_lead, *hem_run))
    if not crossings:
        return None
    m, h, meeting = crossings[0]
    if distance(meeting.point, corner) > math.hypot(furthest, hem.allowance):
        return None
    below = stretch(image, 0.0, m + meeting.at_a)
    hem_part = straight_run(meeting.point, hem_lead.end) if h == 0 else ()
    side_part = straight_run(hit.point, lead.end) if i == 0 else ()
    bridge = (*run_reversed(hem_part), *run_reversed(below), *side_part)
    hem_at = h - 1 + meeting.at_b if h else 0.0
    side_at = i - 1 + hit.t if i else 0.0
    if first:
        return Corner(len(before.run) - hem_at, bridge, side_at)
    return Corner(len(before.run) - side_at, run_reversed(bridge), hem_at)


def _sewing_tangent(side: Side, *, at_end: bool) -> Vec:
    """The direction of a side at its corner; its parallel has the same."""
    return tangent(side.run[-1], 1.0) if at_end else tangent(side.run[0], 0.0)


def _over_mouth(before: Side, mouth: Mouth, after: Side) -> Corner:
    """Both neighbours stop at the lines of the dart's legs, and the roof of the mouth joins them."""
    stop, arriving, source = _at_leg(before.run, mouth.apex, before.end)
    back, leaving, other = _at_leg(run_reversed(after.run), mouth.apex, after.start)
    roof = mouth_roof(source, mouth, run_reversed(other))
    return Corner(stop, (*arriving, *roof, *run_reversed(leaving)), len(after.run) - back)


def _at_leg(run: tuple[Curve, ...], apex: Point, foot: Point) -> tuple[float, tuple[Curve, ...], tuple[Curve, ...]]:
    """Where a run that arrives at a dart meets the line of the leg: its stop, a straight lead on, and both together."""
    end, ahead = run[-1].end, tangent(run[-1], 1.0)
    lead = Line(end, end + ahead * (2.0 * distance(end, foot) + 1.0))
    meets = [(i, hit) for i, hit in run_hits((*run, lead), apex, foot - apex) if hit.along > 0.0]
    if not meets:
        return float(len(run)), (), run
    i, hit = min(meets, key=lambda found: distance(found[1].point, foot))
    if i == len(run):
        extra = straight_run(end, hit.point)
        return float(len(run)), extra, (*run, *extra)
    return i + hit.t, (), stretch(run, 0.0, i + hit.t)


def _flipped(side: Side) -> Side:
    """The same side walked in the other direction; the cloth outside it stays on its place."""
    squares = side.squares[1], side.squares[0]
    return Side(run_reversed(side.run), side.allowance, side.end, side.start, side.turned, side.fold, squares)
