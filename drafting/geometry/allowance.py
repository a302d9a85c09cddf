"""The cutting outline: each edge of a sewing line moved out by its own allowance, and the corners between them.

Corners, `limit` being the furthest a point may stand off, in allowances (common practice: sharper points are cut off):

mitre   both cutting lines run on straight until they meet; past the limit the point is cut off square
hollow  at an inward corner both cutting lines stop where they cross
step    where one line would run on and the other be cut back, as with two allowances on edges nearly in line, the
        wider allowance ends square to its edge, so that no line runs away
fold    the other cutting line stops on the fold line run on: beyond it lies the piece's other half
hem     beyond the fold line the side is the mirror image of what lies inside it, so the hem turned up lies on the cloth
dart    the cutting line over the mouth is what remains of the neighbour's when the sewn dart is pressed over it
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry.crossing import run_hits
from drafting.geometry.curve import Curve, Line, end_tangents
from drafting.geometry.meet import outline_crossings, run_meetings
from drafting.geometry.mouth import Mouth, mouth_roof
from drafting.geometry.offset import parallel_run
from drafting.geometry.outline import area, run_length, run_reversed, starting_at, straight_run, stretch
from drafting.geometry.point import Point, Vec, distance
from drafting.geometry.tolerance import FLAT, SAME_PLACE
from drafting.geometry.transform import mirror, moved_all

__all__ = ["MITRE_LIMIT", "Margin", "cutting_outline"]

MITRE_LIMIT: Final = 3.0
"""How far a corner of the cutting line may stand off the corner of the sewing line, in allowances: points sharper than
39 degrees are cut off (common practice: a longer point frays and is in the way)."""

_LIKE_A_LINE: Final = 1e-6  # the sine below which two directions count as one
_LOOPS: Final = 64  # more overlaps than any garment piece has; a guard against looping for ever


@dataclass(frozen=True, slots=True)
class Margin:
    """An edge of the sewing line and how far outside it to cut, mm.

    hem:  turned up along this edge
    fold: laid on a fold of the cloth along this edge, which is straight and has no allowance
    """

    curves: tuple[Curve, ...]
    allowance: float
    hem: bool = False
    fold: bool = False


@dataclass(frozen=True, slots=True)
class _Side:
    """A smooth stretch of the cutting line, and the sewing corners it lies between."""

    run: tuple[Curve, ...]
    allowance: float
    start: Point
    end: Point
    hem: bool
    fold: bool


@dataclass(frozen=True, slots=True)
class _Corner:
    """Where one side stops (a position on its run), what joins it to the next, and where that starts."""

    stop: float
    bridge: tuple[Curve, ...]
    go: float


def cutting_outline(margins: Sequence[Margin | Mouth], *, limit: float = MITRE_LIMIT) -> tuple[Curve, ...]:
    """The closed cutting line round margins that run anticlockwise and join; anticlockwise itself.

    Exact at straight edges, elsewhere within `OFFSET` (0.02 mm) of the true allowance. Allowances that overlap are
    cut as one. Raises NotAPattern where two darts meet with no edge between them, or nothing encloses anything.
    """
    sides, mouths = _sides(margins)
    corners: list[_Corner | None] = []
    while True:
        corners = [_corner(sides, mouths, k, limit) for k in range(len(sides))]
        lost = _lost(sides, corners)
        if lost is None:
            break
        mouths = _mouths_without(mouths, lost, len(sides))
        sides = [side for k, side in enumerate(sides) if k != lost]
    outline: list[Curve] = []
    for k, side in enumerate(sides):
        before, after = corners[k - 1], corners[k]
        go = before.go if before else 0.0
        stop = after.stop if after else float(len(side.run))
        outline.extend(stretch(side.run, go, stop))
        if after:
            outline.extend(after.bridge)
    return _without_loops(_chained(outline))


def _sides(margins: Sequence[Margin | Mouth]) -> tuple[list[_Side], dict[int, Mouth]]:
    """Smooth sides in order, and the dart after each side that has one."""
    sides: list[_Side] = []
    mouths: dict[int, Mouth] = {}
    for k, margin in enumerate(margins):
        if isinstance(margin, Mouth):
            if isinstance(margins[k - 1], Mouth):
                raise NotAPattern("cutting line", "two darts meet with no edge between them")
            mouths[len(sides) - 1] = margin
            continue
        for run in _smooth(margin.curves, margin.allowance):
            offset = parallel_run(run, margin.allowance)
            if offset:
                sides.append(_Side(offset, margin.allowance, run[0].start, run[-1].end, margin.hem, margin.fold))
    if not sides:
        raise NotAPattern("cutting line", "the allowances leave nothing of the outline")
    if -1 in mouths:
        mouths[len(sides) - 1] = mouths.pop(-1)
    return sides, mouths


def _smooth(curves: Sequence[Curve], allowance: float) -> list[tuple[Curve, ...]]:
    """The runs of an edge between its corners; a bend that parts its offset by less than a hairline is none."""
    runs: list[list[Curve]] = []
    for curve in curves:
        if runs:
            arriving, leaving = end_tangents(runs[-1][-1])[1], end_tangents(curve)[0]
            if allowance * (leaving - arriving).norm() <= FLAT and arriving.dot(leaving) > 0.0:
                runs[-1].append(curve)
                continue
        runs.append([curve])
    return [tuple(run) for run in runs]


def _corner(sides: Sequence[_Side], mouths: dict[int, Mouth], k: int, limit: float) -> _Corner | None:
    """The join after side k; None where neither run reaches the other."""
    before, after = sides[k], sides[(k + 1) % len(sides)]
    if k in mouths:
        return _over_mouth(before, mouths[k], after)
    if before.hem != after.hem:
        turned = _turned_up(before, after, limit)
        if turned is not None:
            return turned
    return _plain(before, after, limit)


def _plain(before: _Side, after: _Side, limit: float) -> _Corner | None:
    whole = float(len(before.run))
    end, start = before.run[-1].end, after.run[0].start
    u, v = end_tangents(before.run[-1])[1], end_tangents(after.run[0])[0]
    gap, sine = start - end, u.cross(v)
    in_line = u.dot(v) > 0.0
    if gap.norm() <= FLAT and in_line:
        return _Corner(whole, (), 0.0)
    if abs(sine) <= _LIKE_A_LINE:
        return _stepped(before, after) if in_line else _cut_off(before, after, limit)
    on, back = gap.cross(v) / sine, -gap.cross(u) / sine
    if on >= -SAME_PLACE and back >= -SAME_PLACE:
        tip = end + u * on
        if distance(tip, before.end) > limit * max(before.allowance, after.allowance):
            return _cut_off(before, after, limit)
        return _Corner(whole, straight_run(end, tip, start), 0.0)
    if on < 0.0 and back < 0.0:
        return _crossed(before, after)
    if before.fold or after.fold:
        return _at_fold(before, after) or _stepped(before, after)
    return _stepped(before, after)


def _at_fold(before: _Side, after: _Side) -> _Corner | None:
    """The cutting line stops where the fold line, run on, meets it; None where it does not."""
    if after.fold:
        flipped = _at_fold(_flipped(after), _flipped(before))
        if flipped is None:
            return None
        return _Corner(len(before.run) - flipped.go, run_reversed(flipped.bridge), len(after.run) - flipped.stop)
    end, ahead = before.run[-1].end, end_tangents(before.run[-1])[1]
    meets = [(i, hit) for i, hit in run_hits(after.run, end, ahead) if hit.along >= 0.0]
    if not meets:
        return None
    i, hit = min(meets, key=lambda found: found[1].along)
    return _Corner(float(len(before.run)), straight_run(end, hit.point), i + hit.t)


def _crossed(before: _Side, after: _Side) -> _Corner | None:
    """Both stop where they cross: of several crossings the one nearest to the corner along the first."""
    crossings = run_meetings(before.run, after.run)
    if not crossings:
        return None
    i, j, meeting = crossings[-1]
    return _Corner(i + meeting.at_a, (), j + meeting.at_b)


def _stepped(before: _Side, after: _Side) -> _Corner:
    """The wider allowance ends square to its edge, and the narrower line begins there."""
    if before.allowance < after.allowance:
        flipped = _stepped(_flipped(after), _flipped(before))
        return _Corner(len(before.run) - flipped.go, run_reversed(flipped.bridge), len(after.run) - flipped.stop)
    end, start = before.run[-1].end, after.run[0].start
    inward = before.end - end
    ahead = end_tangents(after.run[0])[0]
    whole = float(len(before.run))
    reach = Line(start - ahead * (4.0 * before.allowance + 1.0), start)
    for i, hit in run_hits((reach, *after.run), end, inward):
        if -SAME_PLACE <= hit.along <= before.allowance + SAME_PLACE:
            if i == 0:
                return _Corner(whole, straight_run(end, hit.point, start), 0.0)
            return _Corner(whole, straight_run(end, hit.point), i - 1 + hit.t)
    return _Corner(whole, straight_run(end, start), 0.0)


def _cut_off(before: _Side, after: _Side, limit: float) -> _Corner:
    """A point too sharp: both lines run on to the limit, and a straight cut joins them."""
    end, start = before.run[-1].end, after.run[0].start
    furthest = limit * max(before.allowance, after.allowance)

    def reach(allowance: float) -> float:
        return math.sqrt(max(0.0, furthest * furthest - allowance * allowance))

    on = end + end_tangents(before.run[-1])[1] * reach(before.allowance)
    back = start - end_tangents(after.run[0])[0] * reach(after.allowance)
    return _Corner(float(len(before.run)), straight_run(end, on, back, start), 0.0)


def _turned_up(before: _Side, after: _Side, limit: float) -> _Corner | None:
    """The corner of a hem and a side: below the fold line the side's cutting line goes on as its own mirror image.

    None where the side meets the hem too flatly for that; the corner is then an ordinary one.
    """
    if before.hem:
        hem, side, along = before, after, -_sewing_tangent(before, at_end=True)
        hem_run, side_run = run_reversed(before.run), after.run
        corner = before.end
    else:
        hem, side, along = after, before, _sewing_tangent(after, at_end=False)
        hem_run, side_run = after.run, run_reversed(before.run)
        corner = after.start
    # both runs now lead away from the corner
    furthest = limit * max(hem.allowance, side.allowance)
    lead = Line(side_run[0].start - end_tangents(side_run[0])[0] * (furthest + 1.0), side_run[0].start)
    meets = [(i, hit) for i, hit in run_hits((lead, *side_run), corner, along) if abs(hit.along) <= furthest]
    if not meets:
        return None
    i, hit = min(meets, key=lambda found: abs(found[1].along))
    above = stretch((lead, *side_run), i + hit.t, len(side_run) + 1.0)
    ahead = end_tangents(above[-1])[1]
    image = moved_all((*above, Line(above[-1].end, above[-1].end + ahead * hem.allowance)), mirror(corner, along))
    hem_lead = Line(hem_run[0].start - end_tangents(hem_run[0])[0] * (furthest + 1.0), hem_run[0].start)
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
    if before.hem:
        return _Corner(len(before.run) - hem_at, bridge, side_at)
    return _Corner(len(before.run) - side_at, run_reversed(bridge), hem_at)


def _sewing_tangent(side: _Side, *, at_end: bool) -> Vec:
    """The direction of a side at its corner; its parallel has the same."""
    return end_tangents(side.run[-1])[1] if at_end else end_tangents(side.run[0])[0]


def _over_mouth(before: _Side, mouth: Mouth, after: _Side) -> _Corner:
    """Both neighbours stop at the lines of the dart's legs, and the roof of the mouth joins them."""
    stop, arriving, source = _at_leg(before.run, mouth.apex, before.end)
    back, leaving, other = _at_leg(run_reversed(after.run), mouth.apex, after.start)
    roof = mouth_roof(source, mouth, run_reversed(other))
    return _Corner(stop, (*arriving, *roof, *run_reversed(leaving)), len(after.run) - back)


def _at_leg(run: tuple[Curve, ...], apex: Point, foot: Point) -> tuple[float, tuple[Curve, ...], tuple[Curve, ...]]:
    """Where a run that arrives at a dart meets the line of the leg: its stop, a straight lead on, and both together."""
    end, ahead = run[-1].end, end_tangents(run[-1])[1]
    lead = Line(end, end + ahead * (2.0 * distance(end, foot) + 1.0))
    meets = [(i, hit) for i, hit in run_hits((*run, lead), apex, foot - apex) if hit.along > 0.0]
    if not meets:
        return float(len(run)), (), run
    i, hit = min(meets, key=lambda found: distance(found[1].point, foot))
    if i == len(run):
        extra = straight_run(end, hit.point)
        return float(len(run)), extra, (*run, *extra)
    return i + hit.t, (), stretch(run, 0.0, i + hit.t)


def _lost(sides: Sequence[_Side], corners: Sequence[_Corner | None]) -> int | None:
    """A side of which its corners leave nothing, or the shorter of two that do not reach each other; else None."""
    if len(sides) < 3:
        return None
    for k, side in enumerate(sides):
        before, after = corners[k - 1], corners[k]
        if before is not None and after is not None and before.go > after.stop:
            return k
        if after is None:
            following = (k + 1) % len(sides)
            return k if run_length(side.run) <= run_length(sides[following].run) else following
    return None


def _mouths_without(mouths: dict[int, Mouth], lost: int, count: int) -> dict[int, Mouth]:
    """The darts after each side once one side is gone: its own dart follows the side before it."""
    kept = {k - (k > lost): mouth for k, mouth in mouths.items() if k != lost}
    if lost in mouths:
        kept.setdefault(lost - 1 if lost else count - 2, mouths[lost])
    return kept


def _flipped(side: _Side) -> _Side:
    return _Side(run_reversed(side.run), side.allowance, side.end, side.start, side.hem, side.fold)


def _chained(curves: Sequence[Curve]) -> tuple[Curve, ...]:
    """The curves made to join exactly: hairline gaps closed, wider ones bridged, straight runs made one line."""
    kept = [curve for curve in curves if not (isinstance(curve, Line) and curve.start.near(curve.end))]
    chained: list[Curve] = []
    at = kept[-1].end
    for curve in kept:
        if curve.start == at:
            following = [curve]
        elif distance(curve.start, at) <= FLAT:
            following = [starting_at(curve, at)]
        else:
            following = [Line(at, curve.start), curve]
        if chained and _one_line(chained[-1], following[0]):
            following[0] = Line(chained.pop().start, following[0].end)
        chained += following
        at = curve.end
    if len(chained) > 1 and _one_line(chained[-1], chained[0]):
        chained = [Line(chained[-1].start, chained[0].end), *chained[1:-1]]
    return tuple(chained)


def _one_line(one: Curve, following: Curve) -> bool:
    """Whether two curves are straight and go on in one direction, to less than a thousandth of a hairline."""
    if not (isinstance(one, Line) and isinstance(following, Line)):
        return False
    u, v = one.end - one.start, following.end - following.start
    return u.dot(v) > 0.0 and abs(u.cross(v)) <= 1e-5 * max(u.norm(), v.norm())


def _without_loops(outline: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """The outline with every part it cuts off by crossing itself left out: of each two loops the larger stays."""
    for _ in range(_LOOPS):
        crossings = outline_crossings(outline)
        if not crossings:
            break
        i, j, meeting = crossings[0]
        one, other = i + meeting.at_a, j + meeting.at_b
        low, high = min(one, other), max(one, other)
        inner = stretch(outline, low, high)
        outer = (*stretch(outline, high, float(len(outline))), *stretch(outline, 0.0, low))
        loops = [_chained(loop) for loop in (inner, outer) if loop]
        outline = max(loops, key=area)
    if area(outline) <= 0.0:
        raise NotAPattern("cutting line", "the allowances leave nothing of the outline")
    return outline
