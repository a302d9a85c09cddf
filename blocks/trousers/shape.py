"""Both halves of trousers as lines, fitted to the tapes: the crotch as deep and as long as asked for, the thigh too.

What is to be spent on the length of the crotch goes a third into the front's fork, a third into the back's and a third
into the height of the centre back, never more than 3 cm in one place (common practice). The depth is kept as measured;
where both cannot be had the length gives way, and after it the width of the thigh.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from blocks.trousers.frame import DOWN, NO_LEG, Centre, Rise, back_centre, fork_drop, front_centre, side_at_hip
from blocks.trousers.leg import BACK_WIDER, Leg, Node, inner_line, leaving_fork, outer_line
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Point, Vec, length, run_hits, run_length
from drafting.geometry.solve import root_between, solve

__all__ = ["MOST_CHANGED", "MOST_FORK_BEHIND", "THIGH_BELOW", "HalfShape", "Shape", "Wanted", "fitted_shape"]

THIGH_BELOW: Final = 25.0
"""mm below the line of the crotch, where the thigh is measured on the cloth: an inch (common practice)."""

MOST_CHANGED: Final = 30.0  # mm in one place: longer or higher at the most (common practice)
_LEAST: Final = -25.0  # mm in one place: shorter or lower at the most (ours)
MOST_FORK_BEHIND: Final = 40.0  # mm that the back's fork is longer: square to a hollow inside leg it gives less (ours)
_LEAST_RAISED: Final = -15.0  # mm: so that the centre back still stands above the waist
_OFF_MIDDLE: Final = 14.0  # mm that the crease may lie off the middle of the leg at the crotch (the book: 13 behind)
_IN_AT_CROTCH: Final = 0.15  # of what the side comes in from hip to knee, at the crotch (ours)
_FRONT_FORK: Final = 0.4  # of what both forks are lengthened for the thigh, in front (the book's forks: 1 to 1.5)
_HOLLOW: Final = (0.0, 12.0)  # mm that both inseams together may be more hollow at the thigh; never fuller (ours)
_FIRST_DROP: Final = 5.0  # mm: by how much the book drops the back's fork


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is fitted, finished, mm.

    rise:   what the upper part is drawn from, its forks by the book
    hip:    round the hip
    crotch: the length of the crotch seam from waist to waist; None to leave it as the book has it
    thigh:  round the thigh, exactly; None for what the book gives, and `thigh_least` at the least
    short:  by how much the back's inseam is shorter than the front's
    """

    rise: Rise
    hip: float
    leg: Leg
    crotch: float | None
    thigh: float | None
    thigh_least: float
    short: float


@dataclass(frozen=True, slots=True)
class HalfShape:
    """One half: its centre and crotch, where its side is at the hip, its crease, and the lines of its leg downward."""

    centre: Centre
    hip: Point
    crease: float
    node: Node
    outer: tuple[Curve, ...]
    inner: tuple[Curve, ...]

    def outer_at(self, y: float) -> float:
        """How far out its side lies at a level below the hip."""
        return _at_level(self.outer, y)

    def inner_at(self, y: float) -> float:
        """How far out its inside leg lies at a level below the crotch."""
        return _at_level(self.inner, y)


@dataclass(frozen=True, slots=True)
class Shape:
    """Both halves, and what the upper part came to be drawn from; drop is by how much the back's fork lies lower."""

    rise: Rise
    drop: float
    front: HalfShape
    back: HalfShape

    @property
    def crotch(self) -> float:
        """The crotch seam from waist to waist, mm."""
        return sum(half.centre.straight + length(half.centre.curve, 1e-7) for half in (self.front, self.back))

    @property
    def thigh_level(self) -> float:
        """The level at which the thigh is measured."""
        return -self.rise.depth - THIGH_BELOW

    @property
    def thigh(self) -> float:
        """Round the thigh, mm."""
        level = self.thigh_level
        return sum(half.outer_at(level) - half.inner_at(level) for half in (self.front, self.back))


def fitted_shape(wanted: Wanted) -> Shape:
    """The shape that has what is wanted, or comes as near to it as its places allow."""
    shape = _drawn(wanted, wanted.rise, 0.0)
    if wanted.crotch is not None:
        third = (wanted.crotch - shape.crotch) / 3.0
        fork = max(_LEAST, min(MOST_CHANGED, third))
        shape = _crotch_fitted(wanted, replace(wanted.rise, front_fork=fork, back_fork=fork), 0.0)
        return _thigh_fitted(wanted, shape)
    shape = _thigh_fitted(wanted, shape)
    return _raised(shape, _shorter(shape))


def _shorter(shape: Shape) -> float:
    """By how much a crotch that comes up to its forks aslant is shorter than the book's, which ends level there, mm."""
    book = front_centre(shape.rise), back_centre(shape.rise, shape.drop)
    return sum(centre.straight + length(centre.curve, 1e-7) for centre in book) - shape.crotch


def _crotch_fitted(wanted: Wanted, rise: Rise, hollow: float) -> Shape:
    """The shape with the centre back as high as the length of the crotch asks for; what is over goes into the forks."""
    for _ in range(6):
        shape = _drawn(wanted, replace(rise, raised=0.0), hollow)
        if wanted.crotch is None:
            return shape
        short = wanted.crotch - shape.crotch
        raised = max(_LEAST_RAISED, min(MOST_CHANGED, short))
        over = short - raised
        rise = replace(rise, raised=raised)
        if abs(over) < 1e-7:
            break
        most = ((MOST_CHANGED, rise.front_fork), (MOST_FORK_BEHIND, rise.back_fork))
        forks = [max(_LEAST, min(end, fork + 0.52 * over)) for end, fork in most]
        if forks == [rise.front_fork, rise.back_fork]:
            break
        rise = replace(rise, front_fork=forks[0], back_fork=forks[1])
    return _raised(shape, rise.raised)


def _thigh_fitted(wanted: Wanted, shape: Shape) -> Shape:
    """The shape with the thigh as wide as asked for: the forks change as far as the crotch allows, and the inseams."""
    goal = wanted.thigh
    if goal is None:
        if shape.thigh >= wanted.thigh_least:
            return shape
        goal = wanted.thigh_least
    rise, wider = shape.rise, goal > shape.thigh
    end, hollow = (MOST_CHANGED, _HOLLOW[0]) if wider else (_LEAST, _HOLLOW[1])
    shares = _FRONT_FORK, 1.0 - _FRONT_FORK
    most = min(
        max(0.0, (end - fork) * (1.0 if wider else -1.0)) / share
        for fork, share in zip((rise.front_fork, rise.back_fork), shares, strict=True)
    )
    if wanted.crotch is not None:  # the height of the centre back has to make up for the forks
        most = min(most, abs((_LEAST_RAISED if wider else MOST_CHANGED) - rise.raised))
    most = most if wider else -most

    def at(part: float) -> Shape:
        forks = (rise.front_fork + shares[0] * most * part, rise.back_fork + shares[1] * most * part)
        return _crotch_fitted(wanted, replace(rise, front_fork=forks[0], back_fork=forks[1]), hollow * part)

    return at(root_between(lambda part: at(part).thigh - goal, 0.0, 1.0, near=1e-10))


def _raised(shape: Shape, raised: float) -> Shape:
    """The same shape with its centre back so much higher at the waist."""
    centre = shape.back.centre
    higher = replace(centre, waist=centre.waist - centre.along * raised)
    return replace(shape, rise=replace(shape.rise, raised=raised), back=replace(shape.back, centre=higher))


def _drawn(wanted: Wanted, rise: Rise, hollow: float) -> Shape:
    """The shape with these forks; hollow: by how much both inseams together lie further out at the thigh."""

    def halves(drop: float, leaving: tuple[Vec, Vec]) -> tuple[HalfShape, HalfShape]:
        centres = front_centre(rise, leaving[0]), back_centre(rise, drop, leaving[1])
        sides = side_at_hip(rise, wanted.hip, *centres)
        taper = _taper(wanted.leg, (centres[0].fork.x, centres[1].fork.x), sides)
        front, back = (
            _half(wanted, centre, Point(side, -rise.hip_depth), taper, wider)
            for centre, side, wider in zip(centres, sides, (-0.5, 0.5), strict=True)
        )
        return front, back

    nearly = halves(_FIRST_DROP, (DOWN, DOWN))
    shares = _FRONT_FORK, 1.0 - _FRONT_FORK
    front_leaves, back_leaves = (
        leaving_fork(half.centre.fork, half.node, hollow * share) for half, share in zip(nearly, shares, strict=True)
    )

    def surplus(drop: float) -> float:
        front, back = halves(drop, (front_leaves, back_leaves))
        return run_length(front.inner, 1e-7) - run_length(back.inner, 1e-7) - wanted.short

    drop = solve(surplus, _straight_drop(wanted, nearly), 0.5)
    return Shape(rise, drop, *halves(drop, (front_leaves, back_leaves)))


def _straight_drop(wanted: Wanted, halves: tuple[HalfShape, HalfShape]) -> float:
    """The drop of the back's fork if the inside legs were straight: near enough to begin with."""
    front = halves[0]
    knee_up = front.centre.fork.y - front.node.inner.y
    inward, behind = (abs(half.node.inner.x - half.centre.fork.x) for half in halves)
    short = math.hypot(inward, knee_up) - wanted.short
    return fork_drop(knee_up, inward, behind, wanted.short) if short > behind else _FIRST_DROP


def _taper(leg: Leg, forks: tuple[float, float], sides: tuple[float, float]) -> float:
    """By how much a short leg comes in from the crotch to its hem on each of its four lines, in the mean."""
    return 0.25 * (sum(sides) - sum(forks) - leg.round_hem)


def _half(wanted: Wanted, centre: Centre, hip: Point, taper: float, wider: float) -> HalfShape:
    """One half of trousers from hip to hem: its centre, its crease and the two seams of the leg.

    taper: how much narrower shorts are at the hem, mm
    wider: of what a back leg is wider than a front one, the share that this half has; below zero in front
    """
    leg = wanted.leg
    level, round_there = leg.ends_in
    side = hip.x + _IN_AT_CROTCH * (0.25 * round_there - hip.x)
    middle = 0.5 * (centre.fork.x + side)
    crease = max(middle - _OFF_MIDDLE, min(middle + _OFF_MIDDLE, 0.0))
    if leg.knee is None:
        outer, inner = Point(hip.x - 0.6 * taper, -leg.hem), Point(centre.fork.x + 1.4 * taper, -leg.hem)
        node = Node(outer, inner, outer, inner)
    else:
        at_knee, at_hem = (0.25 * each + wider * BACK_WIDER for each in (round_there, leg.round_hem))
        node = Node(
            Point(crease + at_knee, -level),
            Point(crease - at_knee, -level),
            Point(crease + at_hem, -leg.hem),
            Point(crease - at_hem, -leg.hem),
        )
    inseam = inner_line(centre.fork, centre.inside_leg, node)
    return HalfShape(centre, hip, crease, node, outer_line(hip, node), inseam)


def _at_level(run: tuple[Curve, ...], y: float) -> float:
    """Where a line that runs down crosses a level."""
    hits = run_hits(run, Point(0.0, y), Vec(1.0, 0.0))
    if not hits:
        raise NotAPattern("leg", reason=NO_LEG)
    return max(hit.point.x for _, hit in hits)
