"""How the bodice is taken in from bust to waist: side seams, darts, and the waist line drawn with the darts folded."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from blocks.bodice.frame import SHORT_OF_BUST, Frame
from blocks.parts.darted import DartPlan, Opened, angle_for, closed_end, darted_edge, sewn_length
from blocks.parts.side import bodice_side, side_share
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import Cubic, Point, Vec, end_tangents
from drafting.geometry.solve import solve

__all__ = ["WaistLine", "waist_lines"]

_SIDE_SHARE = 0.3  # of what a quarter is taken in, at the side seam; the rest goes into the dart (common practice)
_LEAST_DART = 9.0  # mm: a narrower dart is not worth sewing
_STEEPEST_DART = 0.85  # the widest a dart may be, as a share of the length of its legs
_BOW = 0.5  # how much of the side seam's slant lies toward the waist
_BALANCE = 0.42  # how far round the waist has turned half way along it
_BACK_DART_SHORT = 20.0  # mm: the back waist dart ends at the bust line, or this far below the scye line if lower


@dataclass(frozen=True, slots=True)
class WaistLine:
    """One half of the waist and the side seam that stands on it; x from the centre line outward."""

    waist: Opened
    darts: tuple[DartPlan, ...]
    side: Cubic
    length: float


def waist_lines(frame: Frame) -> tuple[WaistLine, WaistLine]:
    """Front and back halves, with equal side seams, that are together half the waist round.

    Raises CannotDraft when the body is taken in or let out more steeply than cloth allows.
    """
    front = _Half(frame, frame.front_width, Point(frame.bust_point.x, frame.bust_level - SHORT_OF_BUST))
    back_apex = min(frame.bust_level, frame.under_level - _BACK_DART_SHORT)
    back = _Half(frame, frame.back_width, Point(0.5 * frame.back_pass.x, back_apex))
    try:
        return _taken_in(frame, front, back)
    except NotAPattern as none:
        over = 2.0 * (frame.front_width + frame.back_width - frame.waist_half) / 10.0
        raise CannotDraft(
            ("bust_girth", "waist_girth"),
            f"From the bust to the waist is {frame.bust_level / 10:.1f} cm: too short for the bodice to be "
            f"{'taken in' if over > 0.0 else 'let out'} by {abs(over):.1f} cm there. "
            "Measure both girths and the lengths again.",
        ) from none


@dataclass(frozen=True, slots=True)
class _Half:
    """What one half of the waist is drawn from."""

    frame: Frame
    width: float
    apex: Point

    def plan(self, intake: float) -> tuple[DartPlan, ...]:
        """A dart that takes in about `intake` mm, or none."""
        if intake < _LEAST_DART:
            return ()
        return (DartPlan("waist dart", self.apex, Vec(0.0, -1.0), angle_for(intake, self.apex.y)),)

    def side(self, inset: float, low: float) -> Cubic:
        """The side seam for a waist that is `inset` mm narrower than the bust line, its lower end at height `low`."""
        top = self.frame.under_level
        slant = inset / (1.0 - side_share((self.frame.bust_level - low) / (top - low), _BOW))
        waist = Point(self.width - inset, low)
        return bodice_side(waist, Point(waist.x + slant, top), _BOW)

    def ends(self, inset: float, low: float) -> tuple[Point, Vec, Point, Vec]:
        """The ends of the waist line and its directions there, square to the centre and to the side seam."""
        side = self.side(inset, low)
        return Point(0.0, 0.0), Vec(1.0, 0.0), side.start, end_tangents(side)[0].right()

    def level_end(self, inset: float, darts: tuple[DartPlan, ...]) -> float:
        """How high the side end of the waist lies so that the folded waist line bends evenly."""
        low = 0.0
        for _ in range(2):
            _, _, end, arriving = self.ends(inset, low)
            far, direction = closed_end(end, arriving, darts)
            wanted = math.tan(_BALANCE * math.atan2(direction.y, direction.x)) * far.x
            low += wanted - far.y
        return low

    def length(self, inset: float, low: float, darts: tuple[DartPlan, ...]) -> float:
        return sewn_length(*self.ends(inset, low), darts)

    def line(self, inset: float, low: float, darts: tuple[DartPlan, ...]) -> WaistLine:
        opened = darted_edge(*self.ends(inset, low), darts)
        return WaistLine(opened, darts, self.side(inset, low), self.length(inset, low, darts))


def _taken_in(frame: Frame, front: _Half, back: _Half) -> tuple[WaistLine, WaistLine]:
    quarter = 0.5 * frame.waist_half
    # a wider front takes part of its surplus over the back along the waist, up to a centimetre
    lead = min(10.0, max(-10.0, 0.25 * (front.width - back.width)))
    over_front, over_back = front.width - quarter - lead, back.width - quarter + lead
    inset = _SIDE_SHARE * 0.5 * (over_front + over_back)
    inset = max(inset, over_front - _STEEPEST_DART * front.apex.y, over_back - _STEEPEST_DART * back.apex.y)
    darts_front, darts_back = front.plan(over_front - inset), back.plan(over_back - inset)
    if min(over_front, over_back) < 0.0:
        # a waist larger than the bust in front or behind: the side seams alone, for front and back together
        darts_front = darts_back = ()
    elif not darts_front:
        inset = over_front
        darts_back = back.plan(over_back - inset)
    if not darts_back:
        inset = over_back if darts_front else 0.5 * (over_front + over_back)

    def low(inset: float) -> float:
        """How high the side end of the waist lies: a half without a dart cannot bend but towards its side seam."""
        ends = [
            half.level_end(inset, darts)
            for half, darts in ((front, darts_front), (back, darts_back))
            if not darts or (darts_front and darts_back)
        ]
        return min(8.0, max(-18.0, sum(ends) / len(ends)))

    if not darts_front and not darts_back:
        inset = solve(lambda x: front.length(x, low(x), ()) + back.length(x, low(x), ()) - frame.waist_half, inset, 2.0)
    elif not darts_front:
        inset = solve(lambda x: front.length(x, low(x), ()) - quarter - lead, inset, 2.0)
    elif not darts_back:
        inset = solve(lambda x: back.length(x, low(x), ()) - quarter + lead, inset, 2.0)
    level = low(inset)
    if darts_front:
        darts_front = _fitted(darts_front, lambda darts: front.length(inset, level, darts) - quarter - lead)
    if darts_back:
        darts_back = _fitted(darts_back, lambda darts: back.length(inset, level, darts) - quarter + lead)
    return front.line(inset, level, darts_front), back.line(inset, level, darts_back)


def _fitted(darts: tuple[DartPlan, ...], surplus: Callable[[tuple[DartPlan, ...]], float]) -> tuple[DartPlan, ...]:
    """The darts opened by one factor so that the edge is as long as it is to be."""

    def opened(factor: float) -> tuple[DartPlan, ...]:
        return tuple(dart.opened(factor) for dart in darts)

    return opened(solve(lambda factor: surplus(opened(factor)), 1.0, 0.05))
