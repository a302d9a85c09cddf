"""How far each place of a side seam is moved, where it is moved at a level and at the corner beyond it.

Think of a thin wooden spline laid along the seam: clamped at the far end, held at the kept level, pushed at the waist.
The seam is redrawn as this spline would move (the cubic spline of engineers' handbooks). So the far end keeps its place
and direction, the kept level keeps its place, and the change is spread over as much of the seam as possible, with as
little waver as possible. Beyond the level such a spline moves the other way; this is allowed only as far as the far end
stays unbent. Where the seam runs straight beyond the level, as a skirt's does below the hip, it stays straight there.
Then a place at the share s of the way from the level to the waist moves by s^2 of what the waist moves: a side that
bent evenly still does.
"""

from __future__ import annotations

from typing import Final

from drafting.alterations.techniques.sides.side_view import Side
from drafting.dataclass import dataclass
from drafting.geometry import Cubic, Curve, Line, Point, Vec, handles, moved, shift

__all__ = ["SideShift", "shifted_side"]

_YIELDS: Final = 1.1
"""Times what leaves the far end unbent, that a seam may yield beyond its level: it then turns out by 0.02 degrees,
which nothing shows, and comes to its corner a little more upright (our figure)."""


@dataclass(frozen=True, slots=True)
class SideShift:
    """How far each place of a side is moved: `beyond` at the level and beyond it, `beyond + more` at the waist.

    slope: of the change at the level
    """

    side: Side
    beyond: Vec
    more: Vec
    slope: float

    def curve(self, curve: Curve) -> Curve:
        """The curve with its ends moved and the steps to its handles with them, so that it runs on as it did."""
        one, other = self.side.along(curve.start), self.side.along(curve.end)
        reach = self.side.reach
        if max(one, other) <= 0.0 and reach == 0.0:
            return moved(curve, shift(self.beyond))
        start, end = self._point(curve.start, one), self._point(curve.end, other)
        c1, c2 = handles(curve)
        return Cubic(start, start + self.vec(one, c1), end - self.vec(other, c2), end)

    def vec(self, along: float, step: Vec) -> Vec:
        """What becomes of a small step from a place that lies so far on the way to the waist."""
        rate = _share(along, self.side.reach, self.slope)[1] / self.side.height * step.dot(self.side.toward)
        return step + self.more * rate

    def _point(self, place: Point, along: float) -> Point:
        return place + self.beyond + self.more * _share(along, self.side.reach, self.slope)[0]


def shifted_side(side: Side, beyond: float, corner: Vec) -> SideShift:
    """A side moved out by so many mm at its level and beyond it, and its corner by that vector."""
    more = corner - side.out * beyond
    return SideShift(side, side.out * beyond, more, _slope(side, more))


def _share(along: float, reach: float, slope: float) -> tuple[float, float]:
    """The share of what the corner is moved by which a place is moved, and how fast that grows on the way to it.

    along: the place's share of the way from the level to the corner, below zero beyond the level
    reach: how far beyond the level the line is clamped, in the same measure; zero for one that is clamped there
           and bends evenly
    slope: how fast the share grows at the level, if the line is not clamped there
    Nothing holds the line's direction at the corner: there the bending has fallen to zero.
    """
    if reach == 0.0:
        s = max(0.0, along)
        return s * s, 2.0 * s
    if along >= 0.0:
        rest = 1.0 - slope
        return along * (slope + rest * along * (1.5 - 0.5 * along)), slope + rest * along * (3.0 - 1.5 * along)
    w = max(0.0, 1.0 + along / reach)
    return slope * reach * w * w * (w - 1.0), slope * w * (3.0 * w - 2.0)


def _slope(side: Side, more: Vec) -> float:
    """How fast the share of change grows at the level, as `_share` has it, where the corner is moved by more.

    A thin spline clamped beyond the level, held at it and pushed at the corner has there the slope m * reach / 4, where
    m = 1 / (reach / 4 + 1 / 3) is its bending: the equation of three moments. Beyond the level it yields the other way,
    and less of that is taken where the seam would leave its far end bending against itself.
    """
    reach = side.reach
    free = 0.25 * reach / (0.25 * reach + 1.0 / 3.0)
    first = side.seam[0]
    if reach == 0.0 or isinstance(first, Line) or first.end != side.level:
        return free
    leaving = first.c1 - first.start
    bend, bent = (leaving.cross(place - first.start) for place in (first.end, first.c2))
    straightened = leaving.cross(more) * (first.end - first.c2).dot(side.toward) / side.height
    return min(free, max(0.0, _YIELDS * bent / straightened)) if bend * straightened > 0.0 else free
