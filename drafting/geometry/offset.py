"""Parallel curves: the line at a constant distance from a run of curves, as an allowance is measured.

The offset of a cubic is no cubic, so it is fitted by cubics that start, end and turn as the true offset does and pass
through its middle; a piece further than three quarters of `OFFSET` from its true distance is halved. Where a hollow
bend is tighter than the distance, the true offset folds back on itself: the fold is cut out and the two sides of it
are joined where they cross.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from drafting.dataclass import dataclass
from drafting.geometry.curve import (
    Cubic,
    Curve,
    Line,
    curvature,
    point_at,
    tangent,
    velocity,
)
from drafting.geometry.meet import run_meetings
from drafting.geometry.outline import run_length, starting_at, stretch
from drafting.geometry.point import Point, Vec, distance
from drafting.geometry.tolerance import OFFSET

__all__ = ["folds", "parallel_run"]

_LOOKS = 24  # places on a cubic where its bend is looked at; between two of them it hardly changes
_LEVEL = 0.05  # mm along the curve from the foot of a place at which its distance is right to a ten thousandth
_CHECKED = (0.15, 0.3, 0.5, 0.7, 0.85)  # where a fit strays most, through its middle or not
_HALVINGS = 12


def parallel_run(run: Sequence[Curve], to_right: float) -> tuple[Curve, ...]:
    """The line `to_right` mm to the right of curves that join smoothly, hollows tighter than that cut out.

    Outside an anticlockwise outline; a negative distance is to the left. Within `OFFSET` (0.02 mm) of the true
    distance; empty where all of it is a hollow tighter than that. Ends square to the ends of the run unless they lie in
    such a hollow. Raises NotAPattern for a curve of no length.
    """
    if to_right == 0.0:
        return tuple(run)
    strands: list[list[Curve]] = [[]]
    folded = False
    for curve in run:
        at = 0.0
        for low, high in folds(curve, to_right):
            if low > at:
                strands[-1].extend(_fitted(curve, at, low, to_right))
            if strands[-1]:
                strands.append([])
            at, folded = high, True
        if at < 1.0:
            strands[-1].extend(_fitted(curve, at, 1.0, to_right))
    if not folded:
        return tuple(strands[0])
    return _unfolded([tuple(strand) for strand in strands if strand], run, to_right)


def folds(curve: Curve, to_right: float) -> list[tuple[float, float]]:
    """The stretches of parameter where the curve is a hollow tighter than the distance, so that the offset folds back.

    There the radius of the bend, on the side of the offset, is less than the distance.
    """
    if isinstance(curve, Line) or _bends_gently(curve, to_right):
        return []

    def width_left(t: float) -> float:
        return 1.0 + to_right * curvature(curve, t)

    looks = [(k / _LOOKS, width_left(k / _LOOKS)) for k in range(_LOOKS + 1)]
    if all(value > 0.5 for _, value in looks):
        return []
    ends: list[float] = [] if looks[0][1] > 0.0 else [0.0]
    for (low, one), (high, other) in pairwise(looks):
        if (one > 0.0) != (other > 0.0):
            ends.append(_sign_change(width_left, low, high))
    if looks[-1][1] <= 0.0:
        ends.append(1.0)
    return list(zip(ends[::2], ends[1::2], strict=True))


@dataclass(frozen=True, slots=True)
class _Beside:
    """A place of the offset: the curve's parameter there, the place, the direction of both."""

    t: float
    place: Point
    along: Vec


def _beside(curve: Curve, t: float, to_right: float) -> _Beside:
    along = tangent(curve, t)
    return _Beside(t, point_at(curve, t) + along.right() * to_right, along)


def _fitted(curve: Curve, start: float, end: float, to_right: float) -> list[Curve]:
    """The offset of a stretch of a curve that has no fold, in pieces that meet exactly."""
    if isinstance(curve, Line):  # all of it: a line has no fold
        by = tangent(curve, 0.0).right() * to_right
        return [Line(curve.start + by, curve.end + by)]
    return _halved_until_near(
        curve, _beside(curve, start, to_right), _beside(curve, end, to_right), to_right, _HALVINGS
    )


def _halved_until_near(curve: Cubic, first: _Beside, last: _Beside, to_right: float, left: int) -> list[Curve]:
    between = _beside(curve, 0.5 * (first.t + last.t), to_right)
    fit = _through_middle(curve, first, between, last, to_right)
    if left == 0 or (fit is not None and _keeps_off(fit, curve, first.t, last.t, to_right)):
        return [fit if fit is not None else Line(first.place, last.place)]
    return [
        *_halved_until_near(curve, first, between, to_right, left - 1),
        *_halved_until_near(curve, between, last, to_right, left - 1),
    ]


def _through_middle(curve: Cubic, one: _Beside, middle: _Beside, other: _Beside, to_right: float) -> Cubic | None:
    """The cubic with the offset's ends and directions there that passes through its middle.

    Nearly straight stretches, where that is ill-posed, take the true speed of the offset at the ends.
    """
    first, last, out, into = one.place, other.place, one.along, other.along
    chord = distance(first, last)
    if chord == 0.0:
        return None
    off = Vec(middle.place.x - 0.5 * (first.x + last.x), middle.place.y - 0.5 * (first.y + last.y)) * (8.0 / 3.0)
    sine = out.cross(into)
    leaving = arriving = 0.0
    if abs(sine) > 1e-3:
        leaving, arriving = off.cross(into) / sine, off.cross(out) / sine
    if not (0.0 < leaving <= 2.0 * chord and 0.0 < arriving <= 2.0 * chord):
        third = (other.t - one.t) / 3.0
        leaving = velocity(curve, one.t).norm() * (1.0 + to_right * curvature(curve, one.t)) * third
        arriving = velocity(curve, other.t).norm() * (1.0 + to_right * curvature(curve, other.t)) * third
        if not (math.isfinite(leaving) and math.isfinite(arriving)):
            leaving = arriving = chord / 3.0
    return Cubic(first, first + out * leaving, last - into * arriving, last)


def _keeps_off(fit: Cubic, curve: Cubic, low: float, high: float, to_right: float) -> bool:
    """Whether the fit is near enough to its true distance in the places where it is likely to be furthest from it.

    The foot of each place on the curve is found by Newton's method, with places as complex numbers: of the conjugate of
    one step times another the real part is their dot product, the imaginary part their cross product.
    """
    f0, f1, f2, f3 = _powers(fit)
    c0, c1, c2, c3 = _powers(curve)
    for share in _CHECKED:
        place = ((f3 * share + f2) * share + f1) * share + f0
        t = low + (high - low) * share
        across = 0.0
        for _ in range(3):
            off = (place - (((c3 * t + c2) * t + c1) * t + c0)).conjugate()
            speed = (3.0 * c3 * t + 2.0 * c2) * t + c1
            pace = abs(speed)
            if pace == 0.0:
                break
            level = off * speed
            across = level.imag / pace
            if abs(level.real) <= _LEVEL * pace:
                break
            slope = pace * pace - (off * (6.0 * c3 * t + 2.0 * c2)).real
            if slope <= 0.0:
                break
            t = min(high, max(low, t + level.real / slope))
        if abs(across - to_right) > 0.75 * OFFSET:
            return False
    return True


def _powers(curve: Cubic) -> tuple[complex, complex, complex, complex]:
    """What a cubic is multiplied from by 1, t, t^2 and t^3, as x + iy."""
    a, b, c, d = (complex(p.x, p.y) for p in (curve.start, curve.c1, curve.c2, curve.end))
    return a, 3.0 * (b - a), 3.0 * (c - 2.0 * b + a), d - a + 3.0 * (b - c)


def _bends_gently(curve: Cubic, to_right: float) -> bool:
    """Whether the radius of every hollow is certainly more than twice the distance: mostly so, and quickly seen.

    Velocity and acceleration are 3 and 6 times what lies between the legs of the control polygon and between their
    differences, so their cross product is at most 18 times that of two legs, and the speed at least 3 times the
    shortest that a leg reaches along the chord.
    """
    a, b, c, d = curve.start, curve.c1, curve.c2, curve.end
    px, py, qx, qy, rx, ry = b.x - a.x, b.y - a.y, c.x - b.x, c.y - b.y, d.x - c.x, d.y - c.y
    crosses = px * qy - py * qx, 0.5 * (px * ry - py * rx), qx * ry - qy * rx
    hollow = -min(to_right * cross for cross in crosses)
    if hollow <= 0.0:
        return True
    ux, uy = d.x - a.x, d.y - a.y
    chord = math.hypot(ux, uy)
    if chord == 0.0:
        return False
    slowest = min(px * ux + py * uy, qx * ux + qy * uy, rx * ux + ry * uy) / chord
    return slowest > 0.0 and 18.0 * hollow < 0.49 * (3.0 * slowest) ** 3


def _sign_change(value: Callable[[float], float], low: float, high: float) -> float:
    falling = value(low) > 0.0
    for _ in range(60):
        mid = 0.5 * (low + high)
        if (value(mid) > 0.0) == falling:
            low = mid
        else:
            high = mid
    return 0.5 * (low + high)


def _unfolded(strands: list[tuple[Curve, ...]], run: Sequence[Curve], to_right: float) -> tuple[Curve, ...]:
    """Strands parted by folds, each joined to the next where they cross; of two that do not, the shorter is lost.

    The lines square to the ends of the run bound its allowance: a strand that comes back over one stops there.
    """
    start, end = run[0].start, run[-1].end
    first: tuple[Curve, ...] = (Line(start, _beside(run[0], 0.0, to_right).place),)
    last: tuple[Curve, ...] = (Line(_beside(run[-1], 1.0, to_right).place, end),)
    joined = first
    for strand in (*strands, last):
        crossed = _crossed(joined, strand)
        if crossed:
            joined = crossed
        elif run_length(strand) > run_length(joined) and strand is not last:
            joined = _crossed(first, strand) or strand
    if joined and joined[0].start == start:
        joined = joined[1:]
    if joined and joined[-1].end == end:
        joined = joined[:-1]
    return joined


def _crossed(before: tuple[Curve, ...], after: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """The first run up to where it first meets the second, then the second; empty when they do not meet."""
    crossings = run_meetings(before, after)
    if not crossings:
        return ()
    i, j, meeting = crossings[0]
    return _linked(stretch(before, 0.0, i + meeting.at_a), stretch(after, j + meeting.at_b, float(len(after))))


def _linked(before: tuple[Curve, ...], after: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """Two runs that meet within CROSSING, made to meet exactly."""
    if not before or not after:
        return before or after
    return (*before, starting_at(after[0], before[-1].end), *after[1:])
