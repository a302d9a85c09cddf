"""Redrawing a run of curves whose ends are moved: smooth, of the old shape, and exactly as long as asked."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Move,
    Point,
    Vec,
    cut_run,
    handles,
    length,
    moved_all,
    run_hits,
    run_length,
    shift,
    split,
    turn,
)
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SAME_PLACE, SOLVED
from drafting.pattern import Level, Piece, lines_at

__all__ = [
    "along_run",
    "bent_at_ends",
    "bent_at_start",
    "cut_near_joint",
    "ends_moved",
    "exact_length",
    "fitted_between",
    "level_along",
    "move_between",
    "shortened_at_start",
    "with_gaps_closed",
    "with_handles_scaled",
    "with_length_kept",
]

_JOINT: Final = 1e-3
"""mm. A place nearer than this to where two curves join is that joint: no sliver of a curve is cut off."""

_MOST_SMALLER: Final = 0.6
"""How much of a part of a run may go before more of the run is drawn smaller instead (our figure)."""

_LEVEL: Final = 1e-7
"""radians. Directions nearer than this are one: over a decimetre they part by a hundredth of a micrometre."""

_SLACK: Final = (0.4, 2.5)
"""How far the handles of a run may be shortened and lengthened before it is no longer the same kind of curve."""


def move_between(place: Point, to: Point, angle: float) -> Move:
    """The rigid move that takes a place to another and turns directions by `angle` radians, anticlockwise."""
    return turn(place, angle).then(shift(to - place))


def ends_moved(
    run: Sequence[Curve], at_start: Move, at_end: Move, *, lengths: Sequence[float] | None = None
) -> tuple[Curve, ...]:
    """The run with its start led by one rigid move and its end by another, and all between by a share of each.

    The share of the second move at the share s of the way along is 3 s^2 - 2 s^3. It changes evenly and begins and
    ends level, so that the run leaves and arrives in the directions that the two moves give, and has no corner where
    it had none. One move for both ends moves the run as a whole, exactly.

    lengths: of its curves, mm, where they have been measured already
    """
    if at_start == at_end:
        return moved_all(run, at_start)
    lengths = [length(curve) for curve in run] if lengths is None else lengths
    whole, gone = sum(lengths), 0.0
    out: list[Curve] = []
    for curve, own in zip(run, lengths, strict=True):
        here, there = gone / whole, min(1.0, (gone + own) / whole)
        leaving, arriving = handles(curve)
        start, first = _moved_place(curve.start, leaving, here, at_start, at_end, whole)
        end, last = _moved_place(curve.end, arriving, there, at_start, at_end, whole)
        if out:
            start = out[-1].end
        out.append(Cubic(start, start + first, end - last, end))
        gone += own
    return tuple(out)


def fitted_between(run: Sequence[Curve], start: Point, end: Point) -> tuple[Curve, ...]:
    """The run between two other places, in the shape it has: turned, and made larger or smaller as a whole.

    So it comes to its ends at the angles to its chord that it had, and a straight one stays straight.
    """
    was, now = run[-1].end - run[0].start, end - start
    grown, turned = now.norm() / was.norm(), was.angle_to(now)
    cos, sin = grown * math.cos(turned), grown * math.sin(turned)
    place = Vec(run[0].start.x, run[0].start.y)
    to = start - Vec(cos * place.x - sin * place.y, sin * place.x + cos * place.y)
    moved = moved_all(run, Move(cos, -sin, sin, cos, to.x, to.y))
    made = with_gaps_closed((replace(moved[0], start=start), *moved[1:]))
    return (*made[:-1], replace(made[-1], end=end))


def with_gaps_closed(run: Sequence[Curve]) -> tuple[Curve, ...]:
    """The run with each curve begun exactly where the one before it ends: the gaps of rounding closed."""
    starts = (run[0].start, *(curve.end for curve in run[:-1]))
    return tuple(replace(curve, start=start) for curve, start in zip(run, starts, strict=True))


def along_run(run: Sequence[Curve], place: Point) -> float | None:
    """How far along a run a place on it lies, mm; None for a place that is not on it."""
    for k, hit in run_hits(run, place, Vec(1.0, 0.0)):
        if hit.point.near(place, _JOINT):
            return run_length((*run[:k], split(run[k], hit.t)[0]))
    return None


def level_along(run: Sequence[Curve], piece: Piece, level: Level) -> float | None:
    """How far along a run, mm, a marked line of the piece ends on it; None where it does not, or only at its start."""
    ends = (end for mark in lines_at(piece, level) if not mark.onward for end in (mark.start, mark.end))
    found = (along_run(run, end) for end in ends)
    return next((at for at in found if at is not None and at > _JOINT), None)


def shortened_at_start(run: Sequence[Curve], by: float, kept: float | None) -> tuple[Curve, ...]:
    """The run `by` mm shorter at its start, along the direction in which it began; longer, below zero.

    kept: how far along it, mm, a place lies from which on it is to stay as it is; None for its end
    What lies before that place is made smaller or larger as a whole, so that it leaves and arrives as it did; where too
    little of it would be left, all of the run is.
    """
    whole = exact_length(run)
    if kept is None or by > _MOST_SMALLER * kept:
        kept = whole
    top, rest = (tuple(run), ()) if kept >= whole - _JOINT else cut_near_joint(run, kept)
    fixed, size = top[-1].end, 1.0 - by / exact_length(top)
    if size <= 0.0:
        raise NotAPattern("side seam", reason=f"it is {whole:.0f} mm long and cannot be {by:.0f} mm shorter")
    grow = Move(size, 0.0, 0.0, size, fixed.x * (1.0 - size), fixed.y * (1.0 - size))
    made = moved_all(top, grow)
    return (*made[:-1], replace(made[-1], end=fixed), *rest)


def bent_at_ends(run: Sequence[Curve], at_start: float, at_end: float) -> tuple[Curve, ...]:
    """The run between the ends it has, turned by so many radians, anticlockwise, where it leaves and where it arrives.

    A place the share s of the way along goes aside from the chord, as that of a thin beam does whose ends are turned,
    by its length times at_start s (1 - s)^2 - at_end s^2 (1 - s): the line of least bending (plane statics).
    """
    whole, gone = run_length(run), 0.0
    side = (run[-1].end - run[0].start).unit().left()

    def aside(share: float) -> Vec:
        left = 1.0 - share
        return side * (whole * share * left * (at_start * left - at_end * share))

    def turned_step(share: float, step: Vec) -> Vec:
        left = 1.0 - share
        return step.turned(at_start * left * (left - 2.0 * share) - at_end * share * (2.0 * left - share))

    out: list[Curve] = []
    for curve in run:
        here = gone / whole
        gone += length(curve)
        there = min(1.0, gone / whole)
        leaving, arriving = handles(curve)
        start = out[-1].end if out else curve.start
        end = curve.end + aside(there) if there < 1.0 else curve.end
        out.append(Cubic(start, start + turned_step(here, leaving), end - turned_step(there, arriving), end))
    return tuple(out)


def bent_at_start(run: Sequence[Curve], turned: float) -> tuple[Curve, ...]:
    """The run leaving its start in a direction turned by so many radians, anticlockwise; both ends stay where they are.

    Nearer than `_LEVEL` to zero it is left alone, and a bent run that becomes a straight line is one.
    """
    if abs(turned) < _LEVEL:
        return tuple(run)
    first = run[0]
    leaving, arriving = handles(first)
    bent: Curve = Cubic(first.start, first.start + leaving.turned(turned), first.end - arriving, first.end)
    chord = (first.end - first.start).unit()
    if max(abs(chord.cross(leaving.turned(turned))), abs(chord.cross(arriving))) <= SAME_PLACE:
        bent = Line(first.start, first.end)
    return (bent, *run[1:])


def cut_near_joint(run: Sequence[Curve], at: float) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """The run before and after a place `at` mm along it; a joint of two curves there is taken as the place."""
    return cut_run(run, at, near=_JOINT)


def with_handles_scaled(run: Sequence[Curve], factor: float) -> tuple[Curve, ...]:
    """The run with every handle `factor` times as long: it goes deeper into its bends, and has no new corner."""

    def scaled(curve: Curve) -> Curve:
        if isinstance(curve, Line):
            return curve
        leaving, arriving = handles(curve)
        return Cubic(curve.start, curve.start + leaving * factor, curve.end - arriving * factor, curve.end)

    return tuple(scaled(curve) for curve in run)


def with_length_kept(run: Sequence[Curve], wanted: float) -> tuple[Curve, ...]:
    """The run made exactly `wanted` mm long, within 1e-8, by making all its handles longer or shorter by one factor.

    Raises NotAPattern where that would make it another kind of curve.
    """
    if abs(exact_length(run) - wanted) <= SOLVED / 100:
        return tuple(run)
    factor = solve(lambda factor: exact_length(with_handles_scaled(run, factor)) - wanted, 1.0, 0.02)
    if not _SLACK[0] <= factor <= _SLACK[1]:
        raise NotAPattern(f"the line of {wanted:.1f} mm", reason="it cannot keep its length and its shape as well")
    return with_handles_scaled(run, factor)


def exact_length(run: Sequence[Curve]) -> float:
    """The length of a run, mm within 1e-8: fine enough to solve for and to hold a promise to."""
    return run_length(run, SOLVED / 100)


def _moved_place(place: Point, handle: Vec, share: float, first: Move, second: Move, whole: float) -> tuple[Point, Vec]:
    """Where a place that lies so far along goes, and what becomes of a small step along the run from there."""
    # plain floats: solving for a length leads a run a dozen times, and this is where the time goes
    weight, rate = share * share * (3.0 - 2.0 * share), 6.0 * share * (1.0 - share) / whole
    x, y, u, v = place.x, place.y, handle.x, handle.y
    one_x, one_y = first.a * x + first.b * y + first.e, first.c * x + first.d * y + first.f
    apart_x = second.a * x + second.b * y + second.e - one_x
    apart_y = second.c * x + second.d * y + second.f - one_y
    left, reach = 1.0 - weight, rate * math.hypot(u, v)
    step_x = (first.a * u + first.b * v) * left + (second.a * u + second.b * v) * weight + apart_x * reach
    step_y = (first.c * u + first.d * v) * left + (second.c * u + second.d * v) * weight + apart_y * reach
    return Point(one_x + apart_x * weight, one_y + apart_y * weight), Vec(step_x, step_y)
