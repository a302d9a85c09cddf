"""The line of a seam that takes the place of a dart: both of its sides, and where they are notched.

Over the bust the two darts that the seam joins seldom lie in one line. There it runs straight on from point to point,
and the legs are rounded into that. A leg that would run along the edge rather than into it (a dart turned from the
bust into the armhole) would leave both pieces with a spike: it enters nearly square, and sweeps round to the point
(common practice: a princess seam meets the armhole at 60 to 90 degrees, and is notched above and below the bust).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from drafting.alterations.redrawing.dart_plan import DartPlan
from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Point,
    Vec,
    bend,
    blend,
    corner_turn,
    distance,
    end_tangents,
    length,
    run_length,
    run_reversed,
    tangent,
)
from drafting.geometry.solve import solve
from drafting.pattern import Edge, Notch, Role, Station

__all__ = ["StyleLine", "notch_names", "style_lines", "style_notches"]

_ROUNDED: Final = 30.0
"""mm: how far from the point of the dart a leg begins to be rounded into the seam; further up it takes up what it did
(our figure)."""

_STRAIGHTENED: Final = math.radians(20.0)
"""How far the seam may leave the line of a dart at its point to run on to the other dart (our figure)."""

_TURNED_BY: Final = 0.25
"""The share of its way down to a hem by which a seam has turned towards its place there (our figure)."""

_ASLANT: Final = math.radians(60.0)
"""The least angle between a seam and the edge it runs into (common practice for a seam into an armhole, 60 to 90)."""

_ENTERS: Final = math.radians(66.0)
"""The angle at which one that would come in more aslant is led into it (our figure)."""

_LEAST_SWEEP: Final = 0.12
"""How far such a line turns beyond its straight way to the point, at least, as a share of what it left it by, so that
its bend is spread along it (our figure)."""

_SWEPT_ROUND: Final = 70.0
"""mm over which it is then rounded into the seam, and a third of it at most (our figure)."""

_LOOSEST, _TIGHTEST = 0.2, 0.9
"""How far the handles of a curve may be drawn in or out so that it is as long as its partner, as shares."""

_FAR_APART: Final = 120.0
"""mm of seam beyond the dart from which it is notched once more, half way (our figure)."""


@dataclass(frozen=True, slots=True)
class StyleLine:
    """One side of the new seam, from the mouth of the dart to its end.

    leg: to the point of the dart; middle: on from there; tail: along the other dart, if it runs into one
    """

    leg: tuple[Curve, ...]
    middle: Curve
    tail: tuple[Curve, ...] = ()

    @property
    def curves(self) -> tuple[Curve, ...]:
        """The whole of it."""
        return (*self.leg, self.middle, *self.tail)


def style_lines(plan: DartPlan) -> tuple[StyleLine, StyleLine]:
    """The new seam from the mouth of the dart to its end, as the second piece has it and as the first has it."""
    last, head = plan.second[-1].edge, plan.first[0].edge
    point, inward = plan.dart.apex, _axis(last.end, head.start)
    end, beyond = plan.first[-1].edge, plan.second[0].edge
    if plan.into is None:
        middle = _falling(point, inward, end.end) if end.role is Role.HEM else _into(point, inward, end)
        legs = _smooth_legs(last, head, point, inward, inward)
        return StyleLine(legs[0], middle), StyleLine(legs[1], middle)
    other = _axis(end.end, beyond.start)
    on = (plan.into.apex - point).unit()
    through, back = _turned_towards(inward, on), _turned_towards(other, -on)
    middle = blend(point, through, plan.into.apex, -back)
    legs = _smooth_legs(last, head, point, inward, through)
    tails = _smooth_legs(end, beyond, plan.into.apex, other, back)
    return (
        StyleLine(legs[0], middle, run_reversed(tails[1])),
        StyleLine(legs[1], middle, run_reversed(tails[0])),
    )


def notch_names(seam: str) -> tuple[str, str]:
    """What the notches of a seam that took the place of a dart are called: where the dart ended, and further on."""
    return f"{seam} notch", f"{seam} second notch"


def style_notches(plan: DartPlan, seam: str, *, on_second: bool) -> tuple[Notch, ...]:
    """The notches of the new seam on one piece: where each dart ended, or half way on from the only one.

    Each lies as far from the end of the seam that it is counted from on both pieces, so that what is eased in lies
    between the two: over the bust.
    """
    lines = style_lines(plan)
    first = min(run_length(line.leg) for line in lines)
    tail = min(run_length(line.tail) if line.tail else 0.5 * length(line.middle) for line in lines)
    one, other = notch_names(seam)
    found = [Notch(one, Station(seam, first, "start" if on_second else "end"))]
    if plan.into is not None or 2.0 * tail > _FAR_APART:
        found.append(Notch(other, Station(seam, tail, "end" if on_second else "start")))
    return tuple(found)


def _into(point: Point, inward: Vec, edge: Edge) -> Cubic:
    """From the point of a dart in one sweep to the end of an edge, as straight as may be without slanting."""
    along = tangent(edge.curves[-1], 1.0)
    enters = min(math.pi - _ASLANT, max(_ASLANT, -along.angle_to(edge.end - point)))
    return blend(point, inward, edge.end, along.turned(-enters))


def _falling(point: Point, inward: Vec, end: Point) -> Cubic:
    """From the point of a dart to a place on a hem, turned towards it above and straight on down: without a wave."""
    turns_at = point + inward * (_TURNED_BY * distance(point, end))
    return bend(point, inward, end, end - turns_at)


def _turned_towards(axis: Vec, on: Vec) -> Vec:
    """The direction in which a seam leaves the point of a dart to run on to another: towards it, within bounds."""
    off = axis.angle_to(on)
    return axis.turned(max(-_STRAIGHTENED, min(_STRAIGHTENED, off)))


def _axis(one: Point, other: Point) -> Vec:
    """The direction of a dart from its mouth to its point; the outline runs anticlockwise."""
    return (other - one).unit().left()


def _smooth_legs(
    before: Edge, after: Edge, point: Point, inward: Vec, through: Vec
) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """The legs from the mouth to the point, the one beside `before` first.

    They leave as the folded seam asks, and are rounded near the point into the line that goes through it. Where they
    would leave aslant they sweep.
    """
    arriving, leaving = end_tangents(before.curves[-1])[1], end_tangents(after.curves[0])[0]
    folds = corner_turn(before.curves, after.curves)
    enters = arriving.angle_to(inward.turned(-0.5 * folds))
    if not _ASLANT <= enters <= math.pi - _ASLANT:
        enters = _ENTERS if enters < 0.5 * math.pi else math.pi - _ENTERS
        mouths = ((before.end, arriving.turned(enters)), (after.start, leaving.turned(enters)))
        beyond = min(_beyond((point - mouth).unit(), out, through) for mouth, out in mouths)
        beyond = max(beyond, _LEAST_SWEEP * abs((point - before.end).angle_to(mouths[0][1])))
        one, other = (_swept(mouth, out, point, through, beyond) for mouth, out in mouths)
        return one, _as_long(other, run_length(one))
    third = distance(before.end, point) / 3.0
    rounded = through * min(_ROUNDED, third)
    first, second = (
        Cubic(place, place + inward.turned(turned) * third, point - rounded, point)
        for place, turned in ((before.end, -0.5 * folds), (after.start, 0.5 * folds))
    )
    return (first,), (second,)


def _beyond(leg: Vec, leaving: Vec, through: Vec) -> float:
    """How far a leg that leaves its straight way to the point has to turn beyond it to run into the seam, radians."""
    return -math.copysign(leg.angle_to(through), leg.angle_to(leaving) * leg.angle_to(through))


def _swept(mouth: Point, leaving: Vec, point: Point, through: Vec, beyond: float) -> tuple[Cubic, Cubic]:
    """From the mouth of a dart in one bend to near its point, and rounded there into the line that goes through it.

    beyond: how far it has turned, where the rounding begins, beyond its straight way, radians; the same for both legs,
            so that they are alike but for the rounding
    """
    leg = (point - mouth).unit()
    arriving = leg.turned(-math.copysign(beyond, leg.angle_to(leaving)))
    near = point - arriving * min(_SWEPT_ROUND, distance(mouth, point) / 3.0)
    third = distance(near, point) / 3.0
    rounded = Cubic(near, near + arriving * third, point - through * third, point)
    try:
        return bend(mouth, leaving, near, arriving), rounded
    except NotAPattern:  # it comes in nearly square as it is
        return blend(mouth, leaving, near, arriving), rounded


def _as_long(run: tuple[Cubic, Cubic], wanted: float) -> tuple[Cubic, Cubic]:
    """A swept run so long, by its handles, where that can be had; else it is left, and eased in."""
    first, rounded = run
    leaving, arriving = end_tangents(first)

    def drawn(tight: float) -> Cubic:
        return bend(first.start, leaving, first.end, arriving, tight=tight)

    try:
        tight = solve(lambda tight: length(drawn(tight)) + length(rounded) - wanted, 0.55, 0.02)
    except NotAPattern:
        return run
    return (drawn(tight), rounded) if _LOOSEST <= tight <= _TIGHTEST else run
