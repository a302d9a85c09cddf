"""Where curves meet each other, a curve meets itself, and a closed outline meets itself.

Two curves are halved until their hulls lie apart, or until their directions differ everywhere, so that they cross at
most once and Newton's method finds where, or until both are straight to within `CROSSING`. A touch, a common end and
a stretch that two curves share are found as well as a crossing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from drafting.geometry.curve import Cubic, Curve, Line, point_at, velocity
from drafting.geometry.point import Point, distance
from drafting.geometry.tolerance import CROSSING, SAME_PLACE, TOUCH

__all__ = ["Meeting", "meetings", "outline_crossings", "run_meetings", "self_crossings"]

_Hull = tuple[float, float, float, float, float, float, float, float]  # x, y of four control points
_Part = tuple[_Hull, float, float]  # a stretch of a curve and the parameters of its ends
_Box = tuple[float, float, float, float]

_LEAST_SINE = 1e-6  # directions nearer than this count as parallel: over a metre they part by a thousandth of a mm
_MANY = 24  # two different cubics cross nine times at most (Bezout); more contacts than this hint at a shared stretch
_MOST = 4096  # contacts after which a search is given up as a shared stretch
_NARROW = 1e-9  # a stretch of parameter too short to halve


@dataclass(frozen=True, slots=True)
class Meeting:
    """A place where two curves are no further apart than 1e-7 mm: the parameter on each, and the point on the first."""

    at_a: float
    at_b: float
    point: Point


def meetings(a: Curve, b: Curve) -> list[Meeting]:
    """Where two curves cross, touch or share an end, in order along the first.

    Where they run together, the two ends of the shared stretch; one place where it is shorter than `TOUCH`.
    """
    hull_a, hull_b = _hull(a), _hull(b)
    if _apart(hull_a, hull_b):
        return []
    found = [
        Meeting(s, t, p)
        for s, p in ((0.0, a.start), (1.0, a.end))
        for t, q in ((0.0, b.start), (1.0, b.end))
        if distance(p, q) <= CROSSING
    ]
    asked = False
    todo: list[tuple[_Part, _Part]] = [((hull_a, 0.0, 1.0), (hull_b, 0.0, 1.0))]
    while todo:
        part, other = todo.pop()
        if _transversal(part[0], other[0]):
            crossing = _newton(part[0], other[0])
            if crossing is not None:
                found.append(_meeting(a, _global(part, crossing[0]), _global(other, crossing[1])))
                continue
        done, other_done = _straight(part), _straight(other)
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
        if other_done or (not done and _extent(part[0]) >= _extent(other[0])):
            pairs = [(half, other) for half in _halves(part)]
        else:
            pairs = [(part, half) for half in _halves(other)]
        todo.extend(pair for pair in pairs if not _apart(pair[0][0], pair[1][0]))
    return _merged(a, b, found)


def run_meetings(first: Sequence[Curve], second: Sequence[Curve]) -> list[tuple[int, int, Meeting]]:
    """Where two runs meet: (which curve of the first, which of the second, the meeting), in order along the first.

    A meeting at a join of curves is found once for each curve that ends there.
    """
    return [(i, j, meeting) for i, a in enumerate(first) for j, b in enumerate(second) for meeting in meetings(a, b)]


def self_crossings(curve: Curve) -> list[Meeting]:
    """Where a curve crosses itself: for a cubic once at most, else nowhere; a loop closed at its ends counts.

    Where B(s) = B(t), the sum and the product of s and t follow from (B(t) - B(s)) / (t - s) = 0, which is linear in
    the product and, crossed with the leading coefficient, linear in the sum. A cubic that runs back on itself along
    a straight line meets itself at its turning points.
    """
    if isinstance(curve, Line) or _one_way(curve):
        return []
    p0, p1, p2, p3 = curve.start, curve.c1, curve.c2, curve.end
    a, b, c = (p3 - p0) - 3.0 * (p2 - p1), 3.0 * ((p2 - p1) - (p1 - p0)), 3.0 * (p1 - p0)
    size = max(a.norm(), b.norm(), c.norm())
    if max(abs(a.cross(b)), abs(a.cross(c)), abs(b.cross(c))) <= 1e-12 * size * size:
        return [Meeting(t, t, point_at(curve, t)) for t in _turning_points(curve)]
    if abs(a.cross(b)) <= 1e-12 * size * size:
        return []
    total = -a.cross(c) / a.cross(b)
    product = total * total + (a.dot(b) * total + a.dot(c)) / a.dot(a)
    disc = total * total - 4.0 * product
    if disc <= 0.0:
        return []
    root = math.sqrt(disc)
    low, high = 0.5 * (total - root), 0.5 * (total + root)
    if low < -_NARROW or high > 1.0 + _NARROW:
        return []
    low, high = max(low, 0.0), min(high, 1.0)
    return [Meeting(low, high, point_at(curve, low))]


def outline_crossings(outline: Sequence[Curve]) -> list[tuple[int, int, Meeting]]:
    """Where a closed outline crosses or touches itself: (which curve, which other, the meeting). Empty when simple.

    Neighbours may share their common end; anything else they share is reported, as where one doubles back on the
    other. Boxes and hulls settle all but a few pairs, so a sound outline costs little more than looking.
    """
    n = len(outline)
    hulls = [_hull(curve) for curve in outline]
    boxes = [_box(hull) for hull in hulls]
    found: list[tuple[int, int, Meeting]] = []
    for i, curve in enumerate(outline):
        closed_alone = n == 1
        for meeting in self_crossings(curve):
            if not (closed_alone and meeting.point.near(curve.start)):
                found.append((i, i, meeting))
        left, bottom, right, top = boxes[i]
        for j in range(i + 1, n):
            box = boxes[j]
            if (
                box[0] > right + CROSSING
                or box[2] < left - CROSSING
                or box[1] > top + CROSSING
                or box[3] < bottom - CROSSING
            ):
                continue
            ends = _common_ends(curve, outline[j], following=j == i + 1, closing=i == 0 and j == n - 1)
            if len(ends) == 1 and _fan_apart(hulls[i], hulls[j], ends[0]):
                continue
            if not ends and _apart(hulls[i], hulls[j]):
                continue
            found.extend(
                (i, j, meeting)
                for meeting in meetings(curve, outline[j])
                if not any(meeting.point.near(end) for end in ends)
            )
    return found


def _common_ends(curve: Curve, other: Curve, *, following: bool, closing: bool) -> list[Point]:
    ends = []
    if following and curve.end.near(other.start):
        ends.append(curve.end)
    if closing and other.end.near(curve.start):
        ends.append(curve.start)
    return ends


def _hull(curve: Curve) -> _Hull:
    p, q = curve.start, curve.end
    if isinstance(curve, Cubic):
        return p.x, p.y, curve.c1.x, curve.c1.y, curve.c2.x, curve.c2.y, q.x, q.y
    dx, dy = (q.x - p.x) / 3.0, (q.y - p.y) / 3.0
    return p.x, p.y, p.x + dx, p.y + dy, q.x - dx, q.y - dy, q.x, q.y


def _box(h: _Hull) -> _Box:
    return (
        min(h[0], h[2], h[4], h[6]),
        min(h[1], h[3], h[5], h[7]),
        max(h[0], h[2], h[4], h[6]),
        max(h[1], h[3], h[5], h[7]),
    )


def _extent(h: _Hull) -> float:
    left, bottom, right, top = _box(h)
    return max(right - left, top - bottom)


def _apart(p: _Hull, q: _Hull) -> bool:
    """Whether two hulls are certainly further apart than CROSSING: by their boxes, or by a strip along either chord."""
    left, bottom, right, top = _box(p)
    other = _box(q)
    if (
        other[0] > right + CROSSING
        or other[2] < left - CROSSING
        or other[1] > top + CROSSING
        or other[3] < bottom - CROSSING
    ):
        return True
    return _beside(p, q) or _beside(q, p)


def _beside(p: _Hull, q: _Hull) -> bool:
    """Whether q lies clear of the strip along p's chord that holds p."""
    x, y = p[0], p[1]
    nx, ny = y - p[7], p[6] - x
    size = math.hypot(nx, ny)
    if size == 0.0:
        return False
    one, two = nx * (p[2] - x) + ny * (p[3] - y), nx * (p[4] - x) + ny * (p[5] - y)
    low, high = min(0.0, one, two) - CROSSING * size, max(0.0, one, two) + CROSSING * size
    a, b = nx * (q[0] - x) + ny * (q[1] - y), nx * (q[2] - x) + ny * (q[3] - y)
    c, d = nx * (q[4] - x) + ny * (q[5] - y), nx * (q[6] - x) + ny * (q[7] - y)
    return (a > high and b > high and c > high and d > high) or (a < low and b < low and c < low and d < low)


def _fan_apart(p: _Hull, q: _Hull, end: Point) -> bool:
    """Whether a straight line through the common end certainly parts the rest of two curves."""
    one, other = _rays(p, end), _rays(q, end)
    if not one or not other:
        return False
    mx, my = sum(r[0] for r in one) / len(one), sum(r[1] for r in one) / len(one)
    ox, oy = sum(r[0] for r in other) / len(other), sum(r[1] for r in other) / len(other)
    ux, uy = mx - ox, my - oy
    return all(ux * x + uy * y > _LEAST_SINE for x, y in one) and all(ux * x + uy * y < -_LEAST_SINE for x, y in other)


def _rays(h: _Hull, end: Point) -> list[tuple[float, float]]:
    """The unit directions from the end to the other control points; those on the end itself tell nothing."""
    rays = []
    for k in (0, 2, 4, 6):
        x, y = h[k] - end.x, h[k + 1] - end.y
        size = math.hypot(x, y)
        if size > SAME_PLACE:
            rays.append((x / size, y / size))
    return rays


def _legs(h: _Hull) -> tuple[tuple[float, float], ...]:
    return (h[2] - h[0], h[3] - h[1]), (h[4] - h[2], h[5] - h[3]), (h[6] - h[4], h[7] - h[5])


def _transversal(p: _Hull, q: _Hull) -> bool:
    """Whether every direction of p lies to the same side of every direction of q: then they cross once at most."""
    legs, others = _legs(p), _legs(q)
    crosses = [ax * by - ay * bx for ax, ay in legs for bx, by in others]
    low, high = min(crosses), max(crosses)
    if low < 0.0 < high:
        return False
    longest = max(ax * ax + ay * ay for ax, ay in legs) * max(bx * bx + by * by for bx, by in others)
    return min(abs(low), abs(high)) > _LEAST_SINE * math.sqrt(longest)


def _straight(part: _Part) -> bool:
    """Whether a stretch keeps within a quarter of CROSSING of its chord and runs along it, or is too short to halve."""
    h, low, high = part
    if high - low <= _NARROW:
        return True
    cx, cy = h[6] - h[0], h[7] - h[1]
    size = math.hypot(cx, cy)
    if size <= 0.25 * CROSSING:
        return _extent(h) <= 0.25 * CROSSING
    limit = 0.25 * CROSSING * size
    return (
        abs(cx * (h[3] - h[1]) - cy * (h[2] - h[0])) <= limit
        and abs(cx * (h[5] - h[1]) - cy * (h[4] - h[0])) <= limit
        and all(cx * x + cy * y >= 0.0 for x, y in _legs(h))
    )


def _halves(part: _Part) -> tuple[_Part, _Part]:
    (x0, y0, x1, y1, x2, y2, x3, y3), low, high = part
    ax, ay, bx, by = 0.5 * (x0 + x1), 0.5 * (y0 + y1), 0.5 * (x1 + x2), 0.5 * (y1 + y2)
    cx, cy = 0.5 * (x2 + x3), 0.5 * (y2 + y3)
    dx, dy, ex, ey = 0.5 * (ax + bx), 0.5 * (ay + by), 0.5 * (bx + cx), 0.5 * (by + cy)
    mx, my, mid = 0.5 * (dx + ex), 0.5 * (dy + ey), 0.5 * (low + high)
    return ((x0, y0, ax, ay, dx, dy, mx, my), low, mid), ((mx, my, ex, ey, cx, cy, x3, y3), mid, high)


def _global(part: _Part, t: float) -> float:
    return min(1.0, max(0.0, part[1] + (part[2] - part[1]) * t))


def _at(h: _Hull, t: float) -> tuple[float, float, float, float]:
    """Place and velocity at t."""
    u = 1.0 - t
    a, b, c, d = u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t
    k, m, n = 3.0 * u * u, 6.0 * u * t, 3.0 * t * t
    return (
        a * h[0] + b * h[2] + c * h[4] + d * h[6],
        a * h[1] + b * h[3] + c * h[5] + d * h[7],
        k * (h[2] - h[0]) + m * (h[4] - h[2]) + n * (h[6] - h[4]),
        k * (h[3] - h[1]) + m * (h[5] - h[3]) + n * (h[7] - h[5]),
    )


def _newton(p: _Hull, q: _Hull) -> tuple[float, float] | None:
    """The crossing inside both stretches by Newton's method from their middles; None when it leads nowhere inside."""
    s = t = 0.5
    for _ in range(12):
        px, py, pu, pv = _at(p, s)
        qx, qy, qu, qv = _at(q, t)
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
    px, py, _, _ = _at(p, s)
    qx, qy, _, _ = _at(q, t)
    return (s, t) if math.hypot(px - qx, py - qy) <= 0.5 * CROSSING else None


def _contacts(a: Curve, part: _Part, other: _Part) -> list[Meeting]:
    """Where two straight stretches come within CROSSING: at an end of either, or where parallel ones begin and end."""
    p, q = part[0], other[0]
    near: list[tuple[float, float]] = []
    for k, s in ((0, 0.0), (6, 1.0)):
        t = _foot(q, p[k], p[k + 1])
        near.append((s, t))
        s_of = _foot(p, q[k], q[k + 1])
        near.append((s_of, s))
    found = []
    for s, t in near:
        px, py, _, _ = _at(p, s)
        qx, qy, _, _ = _at(q, t)
        if math.hypot(px - qx, py - qy) <= CROSSING:
            found.append(_meeting(a, _global(part, s), _global(other, t)))
    if len(found) > 2:
        found.sort(key=_order)
        found = [found[0], found[-1]]
    if not found:
        crossing = _newton(p, q)
        if crossing is not None:
            found.append(_meeting(a, _global(part, crossing[0]), _global(other, crossing[1])))
    return found


def _foot(h: _Hull, x: float, y: float, start: float | None = None) -> float:
    """The parameter of the point of a nearly straight stretch nearest to a place."""
    cx, cy = h[6] - h[0], h[7] - h[1]
    size = cx * cx + cy * cy
    t = start if start is not None else (((x - h[0]) * cx + (y - h[1]) * cy) / size if size > 0.0 else 0.0)
    t = min(1.0, max(0.0, t))
    for _ in range(8):
        px, py, u, v = _at(h, t)
        speed = u * u + v * v
        if speed == 0.0:
            break
        step = ((x - px) * u + (y - py) * v) / speed
        following = min(1.0, max(0.0, t + step))
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
    return _foot(_hull(curve), place.x, place.y, start)


def _meeting(a: Curve, s: float, t: float) -> Meeting:
    return Meeting(s, t, point_at(a, s))


def _order(meeting: Meeting) -> tuple[float, float]:
    return meeting.at_a, meeting.at_b


def _merged(a: Curve, b: Curve, found: list[Meeting]) -> list[Meeting]:
    """The meetings with each touch told once, and each shared stretch by its ends."""
    groups: list[list[Meeting]] = []
    for meeting in sorted(found, key=_order):
        for group in groups:
            if _together(a, b, group[-1], meeting):
                group.append(meeting)
                break
        else:
            groups.append([meeting])
    merged = [meeting for group in groups for meeting in _told(b, group)]
    return sorted(merged, key=_order)


def _together(a: Curve, b: Curve, one: Meeting, other: Meeting) -> bool:
    """Whether the curves stay within CROSSING from one meeting to the other."""
    if not one.point.near(other.point, SAME_PLACE) and distance(one.point, other.point) > 4.0 * TOUCH:
        return False
    middle = point_at(a, 0.5 * (one.at_a + other.at_a))
    along = _foot(_hull(b), middle.x, middle.y, 0.5 * (one.at_b + other.at_b))
    if not min(one.at_b, other.at_b) - _NARROW <= along <= max(one.at_b, other.at_b) + _NARROW:
        return False
    return distance(middle, point_at(b, along)) <= 2.0 * CROSSING


def _told(b: Curve, group: list[Meeting]) -> Iterable[Meeting]:
    first, last = group[0], group[-1]
    if distance(first.point, last.point) > TOUCH:
        return first, last
    for meeting in group:
        if meeting.at_a in (0.0, 1.0) and meeting.at_b in (0.0, 1.0):
            return (meeting,)
    return (min(group, key=lambda m: distance(m.point, point_at(b, m.at_b))),)


def _one_way(curve: Cubic) -> bool:
    """Whether a cubic certainly always gets on along its chord, so that it cannot meet itself."""
    h = _hull(curve)
    cx, cy = h[6] - h[0], h[7] - h[1]
    return all(cx * x + cy * y >= 0.0 for x, y in _legs(h)) and (cx, cy) != (0.0, 0.0)


def _turning_points(curve: Cubic) -> list[float]:
    """Where a straight cubic turns round, between 0 and 1."""
    steps = [k / 64 for k in range(65)]
    chord = max((curve.c1 - curve.start, curve.c2 - curve.start, curve.end - curve.start), key=lambda v: v.norm())
    turns = []
    for low, high in pairwise(steps):
        one, other = velocity(curve, low).dot(chord), velocity(curve, high).dot(chord)
        if one * other < 0.0:
            turns.append(low + (high - low) * one / (one - other))
    return turns
