"""Where curves meet each other, a curve meets itself, and a closed outline meets itself.

Two curves are halved until their hulls lie apart, or until their directions differ everywhere, so that they cross at
most once and Newton's method finds where, or until both are straight to within `CROSSING`. A touch, a common end and
a stretch that two curves share are found as well as a crossing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from drafting.dataclass import dataclass
from drafting.geometry.curve import Cubic, Curve, Line, point_at, stationary
from drafting.geometry.hull import (
    LEAST_SINE,
    NARROW,
    Box,
    Hull,
    Stretch,
    apart,
    box_of,
    extent,
    fan_apart,
    halves,
    hull_of,
    legs_of,
    place_and_velocity,
    straight,
    transversal,
)
from drafting.geometry.outline import stretch
from drafting.geometry.point import Point, Vec, distance
from drafting.geometry.tolerance import CROSSING, TOUCH

__all__ = ["Meeting", "meetings", "outline_crossings", "run_meetings", "self_crossings"]

_MANY = 24  # two different cubics cross nine times at most (Bezout); more contacts than this hint at a shared stretch
_MOST = 4096  # contacts after which a search is given up as a shared stretch


@dataclass(frozen=True, slots=True)
class Meeting:
    """A place where two curves are no further apart than 1e-7 mm: the parameter on each, and the point on the first."""

    at_a: float
    at_b: float
    point: Point


def meetings(a: Curve, b: Curve) -> list[Meeting]:
    """Where two curves cross, touch or share an end, in order along the first.

    Where they run together, the two ends of the shared stretch; one place where it is shorter than `TOUCH`. Of two
    straight cubics that turn back on themselves, and so share a stretch more than once, some of its ends.
    """
    hull_a, hull_b = hull_of(a), hull_of(b)
    if apart(hull_a, hull_b):
        return []
    found = [
        Meeting(s, t, p)
        for s, p in ((0.0, a.start), (1.0, a.end))
        for t, q in ((0.0, b.start), (1.0, b.end))
        if distance(p, q) <= CROSSING
    ]
    asked = False
    todo = [(part, other) for part in _stretches(a) for other in _stretches(b)]
    while todo:
        part, other = todo.pop()
        if transversal(part[0], other[0]):
            crossing = _newton(part[0], other[0])
            if crossing is not None:
                found.append(_meeting(a, _global(part, crossing[0]), _global(other, crossing[1])))
                continue
        done, other_done = straight(part), straight(other)
        if done and other_done:
            found.extend(_contacts(a, part, other))
            if len(found) > _MANY and not asked:
                asked = True
                shared = _shared_stretch(a, b)
                if shared:
                    return shared
            if len(found) > _MOST:
                break
            continue
        if other_done or (not done and extent(part[0]) >= extent(other[0])):
            pairs = [(half, other) for half in halves(part)]
        else:
            pairs = [(part, half) for half in halves(other)]
        todo.extend(pair for pair in pairs if not apart(pair[0][0], pair[1][0]))
    return _merged(a, b, found)


def run_meetings(first: Sequence[Curve], second: Sequence[Curve]) -> list[tuple[int, int, Meeting]]:
    """Where two runs meet: (which curve of the first, which of the second, the meeting), in order along the first.

    A meeting at a join of curves is found once for each curve that ends there.
    """
    found = [(i, j, meeting) for i, a in enumerate(first) for j, b in enumerate(second) for meeting in meetings(a, b)]
    return sorted(found, key=lambda place: (place[0], place[2].at_a, place[1], place[2].at_b))


def self_crossings(curve: Curve) -> list[Meeting]:
    """Where a curve crosses itself: for a cubic once at most, else nowhere; a loop closed at its ends counts.

    Where B(s) = B(t), the sum and the product of s and t follow from (B(t) - B(s)) / (t - s) = 0, which is linear in
    the product and, crossed with the leading coefficient, linear in the sum. A cubic that runs back on itself along
    a straight line meets itself at its turning points.
    """
    if isinstance(curve, Line) or _one_way(hull_of(curve)):
        return []
    p0, p1, p2, p3 = curve.start, curve.c1, curve.c2, curve.end
    a, b, c = (p3 - p0) - 3.0 * (p2 - p1), 3.0 * ((p2 - p1) - (p1 - p0)), 3.0 * (p1 - p0)
    size = max(a.norm(), b.norm(), c.norm())
    turns = _turning_points(curve)
    if turns:
        return [Meeting(t, t, point_at(curve, t)) for t in turns]
    if abs(a.cross(b)) <= 1e-12 * size * size:
        return []
    total = -a.cross(c) / a.cross(b)
    product = total * total + (a.dot(b) * total + a.dot(c)) / a.dot(a)
    disc = total * total - 4.0 * product
    if disc <= 0.0:
        return []
    root = math.sqrt(disc)
    low, high = 0.5 * (total - root), 0.5 * (total + root)
    if low < -NARROW or high > 1.0 + NARROW:
        return []
    low, high = max(low, 0.0), min(high, 1.0)
    return [Meeting(low, high, point_at(curve, low))]


def outline_crossings(outline: Sequence[Curve], *, most: int | None = None) -> list[tuple[int, int, Meeting]]:
    """Where a closed outline crosses or touches itself: (which curve, which other, the meeting). Empty when simple.

    Neighbours may share their common end; anything else they share is reported, as where one doubles back on the
    other. Boxes and hulls settle all but a few pairs, so a sound outline costs little more than looking.
    most: looking ends once so many are found
    """
    n = len(outline)
    hulls = [hull_of(curve) for curve in outline]
    found: list[tuple[int, int, Meeting]] = []
    for i, j in _boxes_that_meet([box_of(hull) for hull in hulls]):
        if most is not None and len(found) >= most:
            break
        curve, other = outline[i], outline[j]
        if i == j and _one_way(hulls[i]):
            continue
        if i == j:
            found.extend((i, i, each) for each in self_crossings(curve) if n > 1 or not each.point.near(curve.start))
            continue
        ends = _common_ends(curve, other, following=j == i + 1, closing=i == 0 and j == n - 1)
        parted = len(ends) == 1 and fan_apart(curve, other, ends[0])
        if parted or (not ends and apart(hulls[i], hulls[j])):
            continue
        found.extend(
            (i, j, meeting) for meeting in meetings(curve, other) if not any(meeting.point.near(end) for end in ends)
        )
    return sorted(found, key=lambda each: each[:2])


def _boxes_that_meet(boxes: Sequence[Box]) -> Iterator[tuple[int, int]]:
    """The pairs of boxes no further apart than CROSSING, each box with itself as well; swept from left to right."""
    beside: list[int] = []
    for i in sorted(range(len(boxes)), key=boxes.__getitem__):
        left, bottom, _, top = boxes[i]
        low, high, start = bottom - CROSSING, top + CROSSING, left - CROSSING
        beside = [j for j in beside if boxes[j][2] >= start]
        yield from [(i, j) if i < j else (j, i) for j in beside if boxes[j][1] <= high and boxes[j][3] >= low]
        yield i, i
        beside.append(i)


def _common_ends(curve: Curve, other: Curve, *, following: bool, closing: bool) -> list[Point]:
    ends = []
    if following and curve.end.near(other.start):
        ends.append(curve.end)
    if closing and other.end.near(curve.start):
        ends.append(curve.start)
    return ends


def _global(part: Stretch, t: float) -> float:
    return min(1.0, max(0.0, part[1] + (part[2] - part[1]) * t))


def _newton(p: Hull, q: Hull) -> tuple[float, float] | None:
    """The crossing inside both stretches by Newton's method from their middles; None when it leads nowhere inside."""
    s = t = 0.5
    for _ in range(12):
        px, py, pu, pv = place_and_velocity(p, s)
        qx, qy, qu, qv = place_and_velocity(q, t)
        dx, dy = qx - px, qy - py
        det = qu * pv - pu * qv
        if det == 0.0:
            return None
        ds, dt = (dy * qu - dx * qv) / det, (dy * pu - dx * pv) / det
        s, t = s + ds, t + dt
        if not (-1.0 <= s <= 2.0 and -1.0 <= t <= 2.0):
            return None
        if abs(ds) + abs(dt) <= 1e-13:
            break
    s, t = min(1.0, max(0.0, s)), min(1.0, max(0.0, t))
    px, py, _, _ = place_and_velocity(p, s)
    qx, qy, _, _ = place_and_velocity(q, t)
    return (s, t) if math.hypot(px - qx, py - qy) <= 0.5 * CROSSING else None


def _contacts(a: Curve, part: Stretch, other: Stretch) -> list[Meeting]:
    """Where two straight stretches come within CROSSING: where their chords cross, else at an end of either.

    Of parallel ones that run together, where that begins and where it ends.
    """
    p, q = part[0], other[0]
    crossing = _chords_cross(p, q)
    places = [crossing] if crossing else [(p[0], p[1]), (p[6], p[7]), (q[0], q[1]), (q[6], q[7])]
    found = []
    for x, y in places:
        s, t = _level(p, x, y), _level(q, x, y)
        px, py, _, _ = place_and_velocity(p, s)
        qx, qy, _, _ = place_and_velocity(q, t)
        if math.hypot(px - qx, py - qy) <= CROSSING:
            found.append(_meeting(a, _global(part, s), _global(other, t)))
    if len(found) > 2:
        found.sort(key=_places_on_both)
        found = [found[0], found[-1]]
    return found


def _chords_cross(p: Hull, q: Hull) -> tuple[float, float] | None:
    """Where the chords of two stretches cross; None when they do not, or are parallel."""
    ax, ay, bx, by = p[6] - p[0], p[7] - p[1], q[6] - q[0], q[7] - q[1]
    det = ax * by - ay * bx
    if abs(det) <= LEAST_SINE * math.hypot(ax, ay) * math.hypot(bx, by):
        return None
    x, y = q[0] - p[0], q[1] - p[1]
    on, off = (x * by - y * bx) / det, (x * ay - y * ax) / det
    if not (0.0 <= on <= 1.0 and 0.0 <= off <= 1.0):
        return None
    return p[0] + on * ax, p[1] + on * ay


def _level(h: Hull, x: float, y: float) -> float:
    """The parameter at which a straight stretch, which never turns back, is level with a place; the nearer end beyond.

    By halving: where such a stretch slows to a stop at its end, Newton's method does not settle.
    """
    cx, cy = h[6] - h[0], h[7] - h[1]
    low, high = 0.0, 1.0
    if (x - h[0]) * cx + (y - h[1]) * cy <= 0.0:
        return 0.0
    if (x - h[6]) * cx + (y - h[7]) * cy >= 0.0:
        return 1.0
    for _ in range(52):
        t = 0.5 * (low + high)
        px, py, _, _ = place_and_velocity(h, t)
        if (x - px) * cx + (y - py) * cy > 0.0:
            low = t
        else:
            high = t
    return 0.5 * (low + high)


def _foot(h: Hull, x: float, y: float, start: float) -> float:
    """The parameter of the point of a curve nearest to a place, sought from `start` by Newton's method."""
    t = start
    for _ in range(8):
        px, py, u, v = place_and_velocity(h, t)
        speed = u * u + v * v
        if speed == 0.0:
            break
        following = min(1.0, max(0.0, t + ((x - px) * u + (y - py) * v) / speed))
        if abs(following - t) <= 1e-14:
            break
        t = following
    return t


def _shared_stretch(a: Curve, b: Curve) -> list[Meeting]:
    """The two ends of the stretch two curves have in common; empty when they have none.

    Polynomial curves that share a stretch share all of it up to an end of one of them.
    """
    ends = [(s, _nearest(b, point_at(a, s))) for s in (0.0, 1.0)]
    ends += [(_nearest(a, point_at(b, t)), t) for t in (0.0, 1.0)]
    common = sorted((s, t) for s, t in ends if distance(point_at(a, s), point_at(b, t)) <= CROSSING)
    if len(common) < 2 or distance(point_at(a, common[0][0]), point_at(a, common[-1][0])) <= TOUCH:
        return []
    low, high = common[0], common[-1]
    for k in range(1, 8):
        place = point_at(a, low[0] + (high[0] - low[0]) * k / 8)
        if distance(place, point_at(b, _nearest(b, place))) > CROSSING:
            return []
    return [_meeting(a, *low), _meeting(a, *high)]


def _nearest(curve: Curve, place: Point) -> float:
    start = min(range(33), key=lambda k: distance(point_at(curve, k / 32), place)) / 32
    return _foot(hull_of(curve), place.x, place.y, start)


def _meeting(a: Curve, s: float, t: float) -> Meeting:
    return Meeting(s, t, point_at(a, s))


def _places_on_both(meeting: Meeting) -> tuple[float, float]:
    return meeting.at_a, meeting.at_b


def _merged(a: Curve, b: Curve, found: list[Meeting]) -> list[Meeting]:
    """The meetings with each touch listed once, and each shared stretch by its ends."""
    groups: list[list[Meeting]] = []
    for meeting in sorted(found, key=_places_on_both):
        for group in groups:
            if _together(a, b, group[-1], meeting):
                group.append(meeting)
                break
        else:
            groups.append([meeting])
    merged = [meeting for group in groups for meeting in _meetings_kept(b, group)]
    return sorted(merged, key=_places_on_both)


def _together(a: Curve, b: Curve, one: Meeting, other: Meeting) -> bool:
    """Whether two curves stay within CROSSING of each other between two meetings: looked at half way along each."""
    if distance(one.point, other.point) > 4.0 * TOUCH:
        return False
    on_a, on_b = (one.at_a, other.at_a), (one.at_b, other.at_b)
    return _runs_along(a, on_a, b, on_b) and _runs_along(b, on_b, a, on_a)


def _runs_along(curve: Curve, ends: tuple[float, float], beside: Curve, its: tuple[float, float]) -> bool:
    middle = point_at(curve, 0.5 * (ends[0] + ends[1]))
    t = _foot(hull_of(beside), middle.x, middle.y, 0.5 * (its[0] + its[1]))
    return min(its) - NARROW <= t <= max(its) + NARROW and distance(middle, point_at(beside, t)) <= 2.0 * CROSSING


def _meetings_kept(b: Curve, group: list[Meeting]) -> Iterable[Meeting]:
    first, last = group[0], group[-1]
    if distance(first.point, last.point) > TOUCH:
        return first, last
    for meeting in group:
        if meeting.at_a in (0.0, 1.0) and meeting.at_b in (0.0, 1.0):
            return (meeting,)
    return (min(group, key=lambda m: distance(m.point, point_at(b, m.at_b))),)


def _one_way(h: Hull) -> bool:
    """Whether a curve certainly always gets on along its chord, so that it cannot meet itself."""
    cx, cy = h[6] - h[0], h[7] - h[1]
    return all(cx * x + cy * y >= 0.0 for x, y in legs_of(h)) and (cx, cy) != (0.0, 0.0)


def _turning_points(curve: Cubic) -> list[float]:
    """Where a straight cubic turns round, between 0 and 1; empty for one that does not, or is not straight."""
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    axis = max((b - a, c - a, d - a, c - b, d - b), key=Vec.norm)
    size = axis.norm()
    if size == 0.0 or max(abs(axis.cross(b - a)), abs(axis.cross(c - a)), abs(axis.cross(d - a))) > CROSSING * size:
        return []
    return sorted(stationary(0.0, axis.dot(b - a), axis.dot(c - a), axis.dot(d - a)))


def _stretches(curve: Curve) -> list[Stretch]:
    """The curve as stretches to compare: whole, but a straight one that turns back parted where it turns."""
    whole = hull_of(curve)
    if isinstance(curve, Line) or _one_way(whole):
        return [(whole, 0.0, 1.0)]
    stops = [0.0, *(t for t in _turning_points(curve) if NARROW < t < 1.0 - NARROW)]
    return [
        (hull_of(stretch((curve,), low, high)[0]), low, high)
        for low, high in pairwise([*stops, 1.0])
        if high - low > NARROW
    ]
