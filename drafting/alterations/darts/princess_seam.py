"""The line of a seam that takes the place of a dart: both of its sides, and where they are notched.

The seam passes over the point that the dart is drawn towards: the bust point. (A dart that is drawn towards no point,
or towards one that another dart keeps, has the seam pass over its own point.) Both sides pass there in the same
direction, the one in which both together are bent least. Each side is two cubics, one up to the point and one on from
there. Where the dart would run along the edge it lies in, as one that was moved from the bust into the armhole, the
seam enters that edge nearly square and sweeps round to the point (common practice: a princess seam meets the armhole
at 60 to 90 degrees, and is notched above and below the bust).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from drafting.alterations.techniques.pivoting.dart_target import DartPlan
from drafting.alterations.techniques.pivoting.pivot import inward_of
from drafting.dataclass import dataclass
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
    run_reversed,
    tangent,
)
from drafting.geometry.solve import solve
from drafting.pattern import Edge, Notch, NotchMark, Role, Station, free_name

__all__ = ["StyleLine", "seam_point", "style_lines", "style_notches"]

_TURNED_BY: Final = 0.25
"""The share of its way down to a hem by which a seam has turned towards its place there (our figure)."""

_ASLANT: Final = math.radians(60.0)
"""The least angle between a seam and the edge it runs into (common practice for a seam into an armhole, 60 to 90)."""

_ENTERS: Final = math.radians(62.0)
"""The angle at which one that would come in more aslant is led into it (our figure)."""

_ROUNDED: Final = 45.0
"""mm: how far from the point of a dart that stays one its leg is rounded into the seam (our figure)."""

_BESIDE_BUST: Final = 40.0
"""mm above and below the bust point that the seam is notched, a third of the way to its end at most: what is eased in
lies between (common practice; the figure is ours)."""

_EASED: Final = 5.0
"""mm that one side may be longer than the other, eased in over the bust: less than the quarter of an inch that is
common practice."""

_FULLEST: Final = 1.7
"""How much fuller than a circle's the handles of one side are drawn at the most, and those of the other less full."""

_FAR_APART: Final = 120.0
"""mm of seam beyond a dart that is drawn towards no point from which it is notched once more, half way (our figure)."""


@dataclass(frozen=True, slots=True)
class StyleLine:
    """One side of the new seam, from the mouth of the dart to its end, in two curves that meet over the point."""

    above: Curve
    below: Curve

    @property
    def curves(self) -> tuple[Curve, ...]:
        """The whole of it."""
        return self.above, self.below


@dataclass(frozen=True, slots=True)
class _Leaving:
    """From a place on an edge, in the direction the seam leaves it, to the point it goes over."""

    start: Point
    leaving: Vec

    def to(self, point: Point, through: Vec, fullness: float = 1.0) -> Cubic:
        return blend(self.start, self.leaving, point, through, fullness=fullness)

    def rounded(self, point: Point, through: Vec) -> Cubic:
        """Along the leg of the dart, and rounded near its point only: further up it takes up what it did."""
        third = distance(self.start, point) / 3.0
        near = point - through.unit() * min(_ROUNDED, third)
        return Cubic(self.start, self.start + self.leaving.unit() * third, near, point)


def seam_point(plan: DartPlan) -> Point:
    """Where the seam goes over: what the dart is drawn towards; its own point where another dart towards that stays."""
    aim = plan.dart.aims_at
    stays = plan.into is None and any(each.aims_at == aim for each in plan.piece.darts if each != plan.dart)
    return plan.dart.apex if stays or not aim else plan.piece.point(aim)


def style_lines(plan: DartPlan) -> tuple[StyleLine, StyleLine]:
    """The new seam from the mouth of the dart to its end, as the second piece has it and as the first has it."""
    last, head = plan.second[-1].edge, plan.first[0].edge
    point, inward = seam_point(plan), inward_of(last.end, head.start)
    end, beyond = plan.first[-1].edge, plan.second[0].edge
    legs, swept = _ways_from_mouth(last, head, inward)
    if plan.into is None:
        through = _least_bent(point, legs, ()) if swept else inward
        rest = _down_to_hem(point, through, end.end) if end.role is Role.HEM else _into_edge(point, through, end)
        if not swept:
            return StyleLine(legs[0].rounded(point, through), rest), StyleLine(legs[1].rounded(point, through), rest)
        one, other = _of_like_length(point, through, legs, (rest, rest))
        return one, other
    tails, _ = _ways_from_mouth(end, beyond, inward_of(end.end, beyond.start))
    through = _least_bent(point, legs, tails)
    below = [run_reversed((tail.to(point, -through),))[0] for tail in reversed(tails)]
    one, other = _of_like_length(point, through, legs, below)
    return one, other


def _of_like_length(point: Point, through: Vec, legs: Sequence[_Leaving], below: Sequence[Curve]) -> list[StyleLine]:
    """Both sides, the second piece's first: one no longer than can be eased in, or as little as the line allows.

    Where one would be longer it is drawn nearer to its chord, and the other further from it, by one factor.
    """

    def drawn(factor: float) -> list[StyleLine]:
        return [
            StyleLine(leg.to(point, through, full), rest)
            for leg, full, rest in zip(legs, (factor, 1.0 / factor), below, strict=True)
        ]

    def longer(factor: float) -> float:
        one, other = (sum(map(length, line.curves)) for line in drawn(factor))
        return one - other

    more = longer(1.0)
    if abs(more) <= _EASED:
        return drawn(1.0)
    wanted = math.copysign(_EASED, more)
    bound = _FULLEST ** -math.copysign(1.0, more)
    if abs(longer(bound)) > _EASED and longer(bound) * more > 0.0:
        return drawn(bound)
    return drawn(solve(lambda factor: longer(factor) - wanted, 1.0, 0.1 * (bound - 1.0)))


def style_notches(plan: DartPlan, seam: str, *, on_second: bool) -> tuple[Notch, ...]:
    """The notches of the new seam on one piece: above and below the bust point; where a dart ended that has none.

    Each lies as far from the end of the seam that it is counted from on both pieces, so that what is eased in lies
    between the two: over the bust.
    """
    lines = style_lines(plan)
    first, tail = (min(map(length, sides)) for sides in zip(*(line.curves for line in lines), strict=True))
    taken = {notch.name for notch in plan.piece.notches}
    one = free_name(f"{seam} notch", taken)
    other = free_name(f"{seam} second notch", {one, *taken})
    if plan.dart.aims_at:
        first, tail = (long - min(_BESIDE_BUST, long / 3.0) for long in (first, tail))
        twice = True
    else:
        twice, tail = tail > _FAR_APART, 0.5 * tail
    found = [Notch(one, Station(seam, first, "start" if on_second else "end"), marks=NotchMark.BALANCE)]
    if twice:
        found.append(Notch(other, Station(seam, tail, "end" if on_second else "start"), marks=NotchMark.BALANCE))
    return tuple(found)


def _into_edge(point: Point, inward: Vec, edge: Edge) -> Cubic:
    """From the point in one sweep to the end of an edge, as straight as may be without slanting."""
    along = tangent(edge.curves[-1], 1.0)
    enters = min(math.pi - _ASLANT, max(_ASLANT, -along.angle_to(edge.end - point)))
    return blend(point, inward, edge.end, along.turned(-enters))


def _down_to_hem(point: Point, inward: Vec, end: Point) -> Cubic:
    """From the point to a place on a hem, turned towards it above and straight on down: without a wave."""
    turns_at = point + inward * (_TURNED_BY * distance(point, end))
    return bend(point, inward, end, end - turns_at)


def _ways_from_mouth(before: Edge, after: Edge, inward: Vec) -> tuple[tuple[_Leaving, _Leaving], bool]:
    """How the two sides leave the mouth, the one beside `before` first, and whether they have to sweep.

    They leave as the folded seam asks, along the dart; where that is aslant, nearly square.
    """
    arriving, leaving = end_tangents(before.curves[-1])[1], end_tangents(after.curves[0])[0]
    enters = arriving.angle_to(inward.turned(-0.5 * corner_turn(before.curves, after.curves)))
    swept = not _ASLANT <= enters <= math.pi - _ASLANT
    if swept:
        enters = _ENTERS if enters < 0.5 * math.pi else math.pi - _ENTERS
    return (_Leaving(before.end, arriving.turned(enters)), _Leaving(after.start, leaving.turned(enters))), swept


def _least_bent(point: Point, legs: Sequence[_Leaving], tails: Sequence[_Leaving]) -> Vec:
    """The direction over the point in which all the ways to it and on from it together are bent least.

    For a cubic over a chord c that leaves it by an angle a and comes in by b the integral of bending squared is
    4 (a^2 + a b + b^2) / c (exact for a graph of small slope), so least where the sum of (a + 2 b) / c is zero.
    """
    weights = turned = 0.0
    along = (point - legs[0].start).unit()
    for way, back in (*((leg, False) for leg in legs), *((tail, True) for tail in tails)):
        chord = point - way.start
        ahead = -chord if back else chord
        leaves = chord.angle_to(way.leaving)
        weight = 1.0 / distance(way.start, point)
        # b = turned - (the chord's own direction); a = leaves
        turned += weight * (2.0 * along.angle_to(ahead) - leaves)
        weights += 2.0 * weight
    return along.turned(turned / weights)
