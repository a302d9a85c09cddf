"""The waist of trousers: how far the side comes in, how many darts there are, and how wide, so that it fits exactly.

Of what a half is taken in the book's shares go to the side, more in front than behind; the rest to the darts, one in
front on the crease, two behind. One more where they would be too wide to be sewn well.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from blocks.handover import WaistHalf
from blocks.shared.dart_edge import DartPlan, Opened, angle_for, closed_end, darted_edge, sewn_length
from blocks.shared.side_curve import hip_side
from blocks.shared.waist_darts import DARTS, darts_needed, spaced
from drafting.dataclass import dataclass
from drafting.geometry import Cubic, Point, Vec, end_tangents, length
from drafting.geometry.solve import solve

__all__ = ["Half", "fitted", "level_raise", "taken_in"]

_SIDE_SHARE: Final = {True: 3.75 / 5.75, False: 1.84 / 5.75}
"""Of what a quarter is taken in, at the side: front and back (the book, hip 94 and waist 68)."""

_STEEPEST: Final = 0.26  # the most that the side comes in, as a share of the hip's depth
_DART_LONG: Final = {True: (100.0, 90.0), False: (130.0, 120.0, 105.0)}
_STANDARD: Final = {True: 1, False: 2}
_LONGEST: Final = 0.66  # a dart is no longer than this share of the hip's depth
_LEAST_DART: Final = 8.0
_SPARE: Final = 2.0  # mm by which a dart is planned narrower than the widest
_BALANCE: Final = 0.42


@dataclass(frozen=True, slots=True)
class Half:
    """What the waist of a half is drawn from, mm.

    centre, square: where the centre is at the waist, and the unit direction square to it, outward
    hip:            the side at the hip
    free:           whether the waist line comes to the side as it runs, and not square to it
    inset, raised:  how far the side comes in at the waist, and how far it stands above the level of it
    """

    front: bool
    centre: Point
    square: Vec
    hip: Point
    waist: WaistHalf
    wanted: str = DARTS[0]
    inset: float = 0.0
    raised: float = 0.0
    darts: tuple[DartPlan, ...] = ()
    free: bool = False

    @property
    def depth(self) -> float:
        """From the waist down to the hip."""
        return -self.hip.y

    @property
    def over(self) -> float:
        """How much wider it is at the hip than at the waist, darts closed."""
        return self.hip.x - self.centre.x - self.waist.length

    def side(self) -> Cubic:
        """From the hip up to the waist."""
        return hip_side(self.hip, Point(self.hip.x - self.inset, self.raised))

    def ends(self) -> tuple[Point, Vec, Point, Vec]:
        """Where the waist line begins and ends on the flat piece, and which way it runs there."""
        side = self.side()
        arriving = end_tangents(side)[1].right()
        if self.free:  # the line bends evenly all the way
            chord = (side.end - self.centre).unit()
            arriving = chord.turned(self.square.angle_to(chord))
        return self.centre, self.square, side.end, arriving

    @property
    def off_square(self) -> float:
        """By how much the waist line comes to the side otherwise than square to it, radians."""
        *_, arriving = self.ends()
        return end_tangents(self.side())[1].right().angle_to(arriving)

    def opened(self) -> Opened:
        """The waist line with its darts open."""
        return darted_edge(*self.ends(), self.darts)


def taken_in(half: Half) -> Half:
    """The half with its side led in and its darts planned, not yet fitted."""
    inset = half.over
    if inset > 0.0:
        inset = min(_SIDE_SHARE[half.front] * half.over, _STEEPEST * half.depth)
    intake = half.over - inset
    if intake < _LEAST_DART:
        inset, intake = half.over, 0.0
    half = replace(half, inset=inset)
    return replace(half, darts=_planned(half, intake) if intake else ())


def fitted(half: Half) -> Half:
    """The half with its darts opened so that the folded waist has its length, each at its place along it.

    Without darts the side comes in by as much as that takes.
    """
    if not half.darts:

        def surplus(inset: float) -> float:
            return sewn_length(*replace(half, inset=inset).ends(), ()) - half.waist.length

        return replace(half, inset=solve(surplus, half.inset, 1.0))
    ends = half.ends()

    def opened(factor: float, darts: tuple[DartPlan, ...]) -> tuple[DartPlan, ...]:
        return tuple(dart.opened(factor) for dart in darts)

    def solved(step: float, darts: tuple[DartPlan, ...]) -> tuple[DartPlan, ...]:
        factor = solve(lambda share: sewn_length(*ends, opened(share, darts)) - half.waist.length, 1.0, step)
        return opened(factor, darts)

    darts = _placed(half, half.darts)
    darts = _placed(half, solved(0.05, darts))
    return replace(half, darts=solved(0.001, darts))


def level_raise(half: Half, balance: float = _BALANCE) -> float:
    """How far the side of the waist is to be raised so that the folded waist line bends evenly, mm.

    balance: which share of its turning the line has done on its chord; nearer to 0 or 1 it bends at one end only
    """
    level = half.raised
    for _ in range(3):
        placed = replace(half, raised=level)
        _, leaving, end, arriving = placed.ends()
        far, direction = closed_end(end, arriving, placed.darts)
        start = math.atan2(leaving.y, leaving.x)
        rise = start + balance * (math.atan2(direction.y, direction.x) - start)
        level += math.tan(rise) * (far.x - half.centre.x) - (far.y - half.centre.y)
    return level


def _planned(half: Half, intake: float) -> tuple[DartPlan, ...]:
    """The darts that take in `intake` mm between them."""
    lengths = _lengths(half, intake)
    each = intake / len(lengths)
    along = (Point(half.hip.x - half.inset, half.raised) - half.centre).unit()
    plans = []
    for i, (at, long) in enumerate(zip(_places(half, len(lengths)), lengths, strict=True)):
        on_waist = half.centre + along * (at + each * (i + 0.5))
        plans.append(
            DartPlan(_name(half, i, len(lengths)), on_waist - _axis(half) * long, _axis(half), -angle_for(each, long))
        )
    return tuple(plans)


def _axis(half: Half) -> Vec:
    """The direction of a dart from its point up: upright in front, behind halfway to square to the centre's."""
    return Vec(0.0, 1.0) if half.front else (Vec(0.0, 1.0) + half.square.left()).unit()


def _name(half: Half, i: int, count: int) -> str:
    if half.front:
        return ("waist dart", "outer waist dart")[i]
    return f"waist dart {i + 1}" if count > 1 else "waist dart"


def _lengths(half: Half, intake: float) -> tuple[float, ...]:
    longest = _LONGEST * half.depth
    each = tuple(min(long, longest) for long in _DART_LONG[half.front])
    if half.wanted in DARTS[1:]:
        count = min(DARTS.index(half.wanted), len(each))
    else:
        count = darts_needed(intake, each, least=_STANDARD[half.front], spare=_SPARE)
    return each[: max(1, min(count, int(intake / _LEAST_DART)))]


def _places(half: Half, count: int) -> tuple[float, ...]:
    """Where darts lie along the sewn waist: at the bodice's; else in front on the crease, behind evenly spaced."""
    given = half.waist.darts
    if not given and half.front:
        given = (min(-half.centre.x, 0.6 * half.waist.length),)
    return spaced(given, count, half.waist.length)


def _placed(half: Half, darts: tuple[DartPlan, ...]) -> tuple[DartPlan, ...]:
    """The darts shifted along the waist so that each meets the sewn waist where it is to lie."""
    gone, shifted = 0.0, []
    opened = darted_edge(*half.ends(), darts)
    for dart, part, at in zip(darts, opened.parts, _places(half, len(darts)), strict=False):
        gone += length(part)
        shifted.append(replace(dart, apex=dart.apex + half.square * (at - gone)))
    return tuple(shifted)
