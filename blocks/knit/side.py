"""The side seam of a knit top: in to the waist, out to the hip and straight down from there, or straight to the hip."""

from __future__ import annotations

import math
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line, Point, Vec, end_tangents, fair, fair_through, line_hits, run_reversed, split

__all__ = ["TopSide"]

_DOWN = Vec(0.0, -1.0)
_TRIES: Final = 4


@dataclass(frozen=True, slots=True)
class TopSide:
    """The side seam, the same in front and behind, told from the underarm, where it is upright; mm.

    waist_in: how far further in than the underarm it lies at the waist; None where it goes straight to the hip
    hip_out:  how far further out than the underarm it lies at the hip, and below
    hip:      the level of the hip, below zero
    hem:      the level of the hem at the centre
    wide:     from the centre to the underarm, nearly
    """

    waist_in: float | None
    hip_out: float
    hip: float
    hem: float
    wide: float

    def run(self, under: Point) -> tuple[Curve, ...]:
        """The seam from its lower end up to the underarm."""
        hip = Point(under.x + self.hip_out, self.hip)
        if self.waist_in is None:
            upper: tuple[Curve, ...] = (Line(under, hip) if not self.hip_out else fair(under, _DOWN, hip, _DOWN),)
        else:
            upper = fair_through(under, _DOWN, Point(under.x - self.waist_in, 0.0), hip, _DOWN)
        if self.hem < self.hip:
            return Line(Point(hip.x, self.hem), hip), *run_reversed(upper)
        return run_reversed(_above(upper, self._hem_at_side(upper)))

    def _hem_at_side(self, upper: tuple[Curve, ...]) -> float:
        """The level at which a hem above the hip meets the side: an even curve that is square to both ends rises
        where the side slants out.
        """
        level = self.hem
        for _ in range(_TRIES):
            lowest = _above(upper, level)[-1]
            down = end_tangents(lowest)[1]
            out = self.wide + lowest.end.x - upper[0].start.x
            level = self.hem + math.tan(0.5 * math.atan2(down.x, -down.y)) * out
        return level


def _above(run: tuple[Curve, ...], level: float) -> tuple[Curve, ...]:
    """What of a run from above lies above a level."""
    kept: list[Curve] = []
    for curve in run:
        hits = line_hits(curve, Point(0.0, level), Vec(1.0, 0.0))
        if hits:
            return *kept, split(curve, hits[0].t)[0]
        kept.append(curve)
    return tuple(kept)
