"""How the bodice is taken in from bust to waist: side seams, darts, and the waist line drawn with the darts folded."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace

from blocks.bodice.frame import SHORT_OF_BUST, Frame
from blocks.shared.dart_edge import DartPlan, Opened, angle_for, closed_end, darted_edge, sewn_length
from blocks.shared.side_curve import bodice_side, side_share
from blocks.shared.waist_darts import DARTS, excess_dart_width
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import Cubic, Point, Vec, distance, end_tangents, lerp
from drafting.geometry.solve import solve
from drafting.pattern import widest_waist_dart

__all__ = ["WaistLine", "WaistPlan", "plan_waist", "waist_lines"]

_SIDE_SHARE = 0.3  # of what a quarter is taken in, at the side seam; the rest goes into darts (common practice)
_MOST_SIDE_SHARE = 0.45  # what the side seam takes at most so that a dart need not be divided (our figure)
_LEAST_DART = 9.0  # mm: a narrower dart is not worth sewing
_KEPT_DART = 16.0  # mm of the other half's dart that the side seam leaves it for that
_STEEPEST_ONE = 0.85  # the widest a dart may be that is to stay one, as a share of the length of its legs
_SPARE = 2.0  # mm by which a dart is planned narrower than the widest, for what is altered later
_TRIES = 4  # how often darts are planned narrower, where the waist line dips and they come out wider than planned
_BALANCE = 0.42  # how far round the waist has turned half way along it
_BACK_DART_SHORT = 20.0  # mm: the back waist dart ends at the bust line, or this far below the scye line if lower
_OUTER_SHORTER = 0.85  # an outer dart, as a share of the inner one
_BESIDE_IN_FRONT = 25.0  # mm of sewn waist between two darts in front (an inch, common practice)
_OFF_BUST = 25.0  # mm beside the bust point at which the outer one is drawn: no more than an inch (the trade's rule for
# two darts side by side, a teaching site's)
_BESIDE_BEHIND = 0.5  # how far from the inner dart to the side seam the outer one lies behind


@dataclass(frozen=True, slots=True)
class WaistLine:
    """One half of the waist and the side seam that stands on it; x from the centre line outward."""

    waist: Opened
    darts: tuple[DartPlan, ...]
    side: Cubic
    length: float


def plan_waist(frame: Frame, *, front_darts: str = DARTS[0], back_darts: str = DARTS[0]) -> WaistPlan:
    """Front and back halves, with equal side seams, that are together half the waist round; not yet drawn.

    front_darts, back_darts: how many darts each half of them has, one of DARTS. As needed: one; where that would be
    wider than one dart should be (`widest_waist_dart`), the side seams take up to `_MOST_SIDE_SHARE`, and if that is
    not enough there are two.
    Raises CannotDraft when the body is taken in or let out more steeply than cloth allows.
    """
    bust = frame.bust_point
    front = _Half(frame, frame.front_width, Point(bust.x, frame.bust_level - SHORT_OF_BUST), bust, front_darts)
    back_apex = min(frame.bust_level, frame.under_level - _BACK_DART_SHORT)
    back = _Half(frame, frame.back_width, Point(0.5 * frame.back_pass.x, back_apex), None, back_darts)
    with _not_too_short(frame):
        return _taken_in(frame, front, back)


def waist_lines(plan: WaistPlan) -> tuple[WaistLine, WaistLine]:
    """The two halves as planned; planned narrower, so with more darts maybe, where one came out wider than it should.

    Raises CannotDraft as planning does.
    """
    with _not_too_short(plan.front.frame):
        lines = plan.drawn()
        for _ in range(_TRIES):
            pairs = zip((plan.front, plan.back), lines, strict=True)
            over = max(0.0 if half.darts == "one" else excess_dart_width(line.waist) for half, line in pairs)
            if over <= 0.0:
                break
            plan = plan.narrower(over + 0.1)
            lines = plan.drawn()
        return lines


@contextmanager
def _not_too_short(frame: Frame) -> Iterator[None]:
    """Within it, a shape that is none is told as the body that cannot be taken in so steeply."""
    try:
        yield
    except NotAPattern as none:
        over = 2.0 * (frame.front_width + frame.back_width - frame.waist_half)
        raise CannotDraft(
            ("bust_girth", "waist_girth"),
            f"From the bust to the waist is {frame.bust_level:.0f} mm: too short for the bodice to be "
            f"{'taken in' if over > 0.0 else 'let out'} by {abs(over):.0f} mm there.",
        ) from none


@dataclass(frozen=True, slots=True)
class _Half:
    """What one half of the waist is drawn from.

    apex:  the point of its dart, or of the inner of two
    aim:   the bust point, by which an outer dart is drawn; None behind, where it runs beside the inner one
    darts: how many there are to be, one of DARTS
    spare: mm by which a dart is planned narrower than the widest
    """

    frame: Frame
    width: float
    apex: Point
    aim: Point | None
    darts: str
    spare: float = _SPARE

    def outer_apex(self, mouth: Point) -> Point:
        """The point of an outer dart whose mouth is about there."""
        level = _OUTER_SHORTER * self.apex.y
        if self.aim is None:
            return Point(mouth.x, level)
        towards = Point(min(mouth.x, self.aim.x + _OFF_BUST), self.aim.y)
        return lerp(mouth, towards, level / towards.y)

    def widest(self) -> tuple[float, float]:
        """How wide the inner and the outer dart may be, mm."""
        mouth = Point(self.apex.x + 2.0 * _OFF_BUST, 0.0)  # about there
        legs = (self.apex.y, distance(mouth, self.outer_apex(mouth)))
        return widest_waist_dart(legs[0]) - self.spare, widest_waist_dart(legs[1]) - self.spare

    def most(self) -> float:
        """How much its darts can take in between them, mm."""
        return _STEEPEST_ONE * self.apex.y if self.darts == "one" else sum(self.widest())

    def widths(self, intake: float) -> tuple[float, ...]:
        """How wide its darts are that take in about `intake` mm; none where it is not worth sewing."""
        if intake < _LEAST_DART:
            return ()
        inner, outer = self.widest()
        share = outer / (inner + outer)
        many = self.darts == "two" or (self.darts != "one" and intake > inner)
        return (intake * (1.0 - share), intake * share) if many and intake * share >= _LEAST_DART else (intake,)

    def plan(self, intake: float, sewn: float) -> tuple[DartPlan, ...]:
        """Darts that take in about `intake` mm between them and leave about `sewn` mm of waist, or none."""
        widths = self.widths(intake)
        if not widths:
            return ()
        inner = DartPlan("waist dart", self.apex, Vec(0.0, -1.0), angle_for(widths[0], self.apex.y))
        if len(widths) == 1:
            return (inner,)
        beside = sewn - self.apex.x + 0.5 * widths[0]
        gone = 0.5 * sum(widths) + (_BESIDE_BEHIND * beside if self.aim is None else _BESIDE_IN_FRONT)
        mouth = Point(self.apex.x + gone, 0.0)
        apex = self.outer_apex(mouth)
        angle = angle_for(widths[1], distance(apex, mouth))
        return inner, DartPlan("outer waist dart", apex, (mouth - apex).unit(), angle)

    def side(self, inset: float, low: float) -> Cubic:
        """The side seam for a waist that is `inset` mm narrower than the bust line, its lower end at height `low`."""
        top = self.frame.under_level
        slant = inset / (1.0 - side_share((self.frame.bust_level - low) / (top - low)))
        waist = Point(self.width - inset, low)
        return bodice_side(waist, Point(waist.x + slant, top))

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


@dataclass(frozen=True, slots=True)
class WaistPlan:
    """Both halves of the waist, known but for the lines themselves.

    quarter, lead: a quarter of the waist, mm, and by how much the front is longer along it than that, the back shorter
    inset:         mm by which each half is narrower at the side seam than at the bust line
    low:           how high the side ends of the waist lie, mm
    darts_front, darts_back: about as wide as they will be
    """

    front: _Half
    back: _Half
    quarter: float
    lead: float
    inset: float
    low: float
    darts_front: tuple[DartPlan, ...]
    darts_back: tuple[DartPlan, ...]

    @property
    def unders(self) -> tuple[Point, Point]:
        """The underarm points, of the front and of the back."""
        return self.front.side(self.inset, self.low).end, self.back.side(self.inset, self.low).end

    def narrower(self, more: float) -> WaistPlan:
        """Planned anew with darts that are narrower than the widest by so much more, mm."""
        spare = self.front.spare + more
        return _taken_in(self.front.frame, replace(self.front, spare=spare), replace(self.back, spare=spare))

    def drawn(self) -> tuple[WaistLine, WaistLine]:
        """The lines, their darts opened so that each half is as long as it is to be."""
        front, back, quarter, lead = self.front, self.back, self.quarter, self.lead
        darts_front, darts_back = self.darts_front, self.darts_back
        if darts_front:
            darts_front = _fitted(darts_front, lambda darts: front.length(self.inset, self.low, darts) - quarter - lead)
        if darts_back:
            darts_back = _fitted(darts_back, lambda darts: back.length(self.inset, self.low, darts) - quarter + lead)
        return front.line(self.inset, self.low, darts_front), back.line(self.inset, self.low, darts_back)


def _taken_in(frame: Frame, front: _Half, back: _Half) -> WaistPlan:
    """How the waist is made smaller: how much at the side seams, mm, and how much in the darts of front and back."""
    quarter = 0.5 * frame.waist_half
    # a wider front takes part of its surplus over the back along the waist, up to a centimetre
    lead = min(10.0, max(-10.0, 0.25 * (front.width - back.width)))
    over_front, over_back = front.width - quarter - lead, back.width - quarter + lead
    share = 0.5 * (over_front + over_back)
    inset = _SIDE_SHARE * share
    # it takes more where a dart need not be divided for it, and none is taken away by it
    most = min(_MOST_SIDE_SHARE * share, over_front - _KEPT_DART, over_back - _KEPT_DART)
    for half, over in ((front, over_front), (back, over_back)):
        need = over - half.widest()[0]
        if half.darts == DARTS[0] and need <= most:
            inset = max(inset, need)
    inset = max(inset, over_front - front.most(), over_back - back.most())
    darts_front = front.plan(over_front - inset, quarter + lead)
    darts_back = back.plan(over_back - inset, quarter - lead)
    if min(over_front, over_back) < 0.0:
        # a waist larger than the bust in front or behind: the side seams alone, for front and back together
        darts_front = darts_back = ()
    elif not darts_front:
        inset = over_front
        darts_back = back.plan(over_back - inset, quarter - lead)
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
    return WaistPlan(front, back, quarter, lead, inset, low(inset), darts_front, darts_back)


def _fitted(darts: tuple[DartPlan, ...], surplus: Callable[[tuple[DartPlan, ...]], float]) -> tuple[DartPlan, ...]:
    """The darts opened by one factor so that the edge is as long as it is to be."""

    def opened(factor: float) -> tuple[DartPlan, ...]:
        return tuple(dart.opened(factor) for dart in darts)

    return opened(solve(lambda factor: surplus(opened(factor)), 1.0, 0.05))
