"""The lower end of a child's romper or dungarees: crotch, inseam and leg, below a waist that has no seam.

Both halves are drawn from their centre line: x outward, y up from the waist. The fork, by which a half reaches beyond
its centre line between the legs, is a twelfth of the hip in front and 1.5 cm more behind; its curve passes 1.9 cm from
the corner where it is 4.5 cm wide (proportions of children's bloomers of 1918 and common practice). How low the crotch
lies is solved for, so that the way through it is as long as it is to be.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    bend,
    end_tangents,
    fair,
    length,
    run_at,
    run_length,
)
from drafting.pattern import Across, Along, Curved, Edge, Landmark, Level, MarkLine, MarkPoint, Place, Role
from drafting.pattern.measure import Tape

__all__ = [
    "SNAPS_APART",
    "Legs",
    "crotch_tape",
    "fork",
    "leg_edges",
    "legs_for",
    "limb_girth",
    "side_to_hem",
    "snap_marks",
    "thigh_line",
    "thigh_tape",
]

_FORK: Final = 1.0 / 12.0  # of the hip
_BEHIND: Final = 15.0  # mm that the fork of the back is wider (common practice)
_CURVE: Final = (
    0.533  # how far the curve goes into its corner: 1.91 cm from it where the fork is 4.5 (bloomers of 1918)
)
_HIGHER_BEHIND: Final = 1.3  # how much higher than wide the curve is behind, where the seat is (ours)
_SQUARE: Final = 0.35  # of the inseam, over which a tapered leg turns out of the square (ours)
SNAPS_APART: Final = 45.0
"""mm from one snap to the next: 4 to 5 cm, an odd number of them, one at the middle (common practice)."""
_FROM_HEM: Final = 10.0  # mm from the hem to the last snap (ours)
LAP: Final = 16.0
"""mm by which front and back lap over each other at the snaps, half on either side of the inseam (common practice)."""


@dataclass(frozen=True, slots=True)
class Legs:
    """The numbers of the legs, the same in front and behind where not told apart; mm.

    front_fork, back_fork: how far each half reaches beyond its centre line
    crotch: the level of the crotch, below the waist and so less than zero
    inseam: how far the hem lies below it
    taper:  how much the inseam comes outward on its way down
    """

    front_fork: float
    back_fork: float
    crotch: float
    inseam: float
    taper: float = 0.0

    @property
    def hem(self) -> float:
        """The level of the hem at the inseam; less than zero."""
        return self.crotch - self.inseam

    def fork(self, *, front: bool) -> float:
        """How far a half reaches beyond its centre line."""
        return self.front_fork if front else self.back_fork


def fork(hip: float, *, front: bool) -> float:
    """How far a half reaches beyond its centre line between the legs, mm, for a hip of so many mm."""
    return _FORK * hip + (0.0 if front else _BEHIND)


def legs_for(body: Body, through: float, inseam: float) -> Legs:
    """The legs whose seam through the crotch is `through` mm long from waist to waist."""
    hip = body.mm("hip_girth")
    forks = fork(hip, front=True), fork(hip, front=False)
    # upright from the waist to the curve, and along the curve: what the curve is longer than it is high is won
    won = sum(length(_curve(wide, 0.0, front=front)) - _curve_height(wide, front=front) for wide, front in
              zip(forks, (True, False), strict=True))  # fmt: skip
    return Legs(*forks, crotch=-0.5 * (through - won), inseam=inseam)


def side_to_hem(legs: Legs, sides: Sequence[Edge]) -> tuple[Edge, ...]:
    """The side seams of front and back, straight at their lower ends, cut off or drawn on to where the hem meets them.

    Both as long, so that a hem which is square to the side and to the inseam is one even curve.
    """
    downs = [-end_tangents(edge.curves[0])[0] for edge in sides]
    outs = [down.x / -down.y for down in downs]
    out = sum(outs) / len(outs)
    rising = math.tan(0.5 * (math.atan(out) + math.atan2(_down(legs).x, -_down(legs).y)))
    ends = [edge.start for edge in sides]
    inner = 0.5 * (legs.front_fork + legs.back_fork) - legs.taper
    at_hem = sum(end.x + out * (end.y - legs.hem) for end in ends) / len(ends) + inner  # as wide as the leg is there
    down = ends[0].y - legs.hem - rising * at_hem / (1.0 + rising * out)
    found = []
    for edge, along in zip(sides, downs, strict=True):  # both longer by as much
        low = edge.curves[0]
        start = low.start + along * (down / -downs[0].y)
        found.append(replace(edge, curves=(replace(low, start=start), *edge.curves[1:])))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class LegEdges:
    """The outline of a leg from the waist at the centre to the side seam, and the line along which it is closed.

    middle: the seam through the crotch, to the end of the lap, and the free edge along the inseam
    hem:    from there, the lap with it, to the side seam
    closed: the inseam itself, from the crotch to the hem
    """

    middle: tuple[Edge, ...]
    hem: Edge
    closed: tuple[Curve, ...]


def leg_edges(legs: Legs, side: Edge, *, front: bool) -> LegEdges:
    """The leg of the front or the back, below this side seam. Raises NotAPattern where no even hem can be drawn."""
    where, wide = ("front" if front else "back"), legs.fork(front=front)
    high = legs.crotch + _curve_height(wide, front=front)
    waist, begins, point = Point(0.0, 0.0), Point(0.0, high), Point(-wide, legs.crotch)
    crotch = (Line(waist, begins), _curve(wide, legs.crotch, front=front))
    end, down = Point(point.x + legs.taper, legs.hem), _down(legs)
    turned = end - down * ((1.0 - _SQUARE) * legs.inseam / -down.y)
    # a hem leaves the inseam square to it, which is to the left of the way down
    leaving, arriving = Vec(-down.y, down.x), end_tangents(side.curves[0])[0].right()
    try:
        hem = bend(end, leaving, side.start, arriving)
    except NotAPattern:  # nearly straight, and a little wider or narrower than its fellow
        hem = fair(end, leaving, side.start, arriving)
    lap = 0.5 * LAP
    lapped = Point(point.x - lap, point.y), end - leaving * lap

    def along(start: Point, turning: Point, stop: Point) -> tuple[Curve, ...]:
        if not legs.taper:
            return (Line(start, stop),)
        return bend(start, Vec(0.0, -1.0), turning, down), Line(turning, stop)

    inseam = along(point, turned, end)
    free = along(lapped[0], turned - leaving * lap, lapped[1])
    return LegEdges(
        middle=(
            Edge(f"{where} crotch seam", (*crotch, Line(point, lapped[0])), place=Place.CROTCH),
            Edge("inseam", free, Role.OPENING, place=Place.INSEAM),
        ),
        hem=Edge("leg hem", (Line(lapped[1], end), hem), Role.HEM, place=Place.LEG_OPENING),
        closed=inseam,
    )


def _down(legs: Legs) -> Vec:
    """The direction of the inseam at its hem, down."""
    return Vec(legs.taper, -(1.0 - 0.5 * _SQUARE) * legs.inseam).unit()


def thigh_line(leg: LegEdges, on_side: Callable[[float], Point]) -> MarkLine:
    """The crotch line: a millimetre below the crotch, where it reaches the free edge of the lap.

    on_side: where the side seam lies at a level
    """
    start = run_at(leg.closed, 1.0)
    return MarkLine("crotch line", start, on_side(start.y), level=Level.CROTCH)


def thigh_tape(pieces: Sequence[str]) -> tuple[Tape, ...]:
    """The tape round the thigh: across front and back, without the half of the lap that lies beyond the inseam."""
    return tuple(part for piece in pieces for part in (Across(piece, "crotch line"), _without_lap(piece)))


def crotch_tape(pieces: Sequence[tuple[str, str]]) -> tuple[Tape, ...]:
    """The tape through the crotch, from waist to waist, of these pieces and their seams: without the laps."""
    return tuple(part for piece, seam in pieces for part in (Along(piece, seam), _without_lap(piece)))


def _without_lap(piece: str) -> Curved:
    return Curved(piece, "crotch line", -0.5 * LAP)


def limb_girth(body: Body, below: float) -> float:
    """How thick the leg is `below` mm under the crotch, mm: from the thigh evenly to the ankle (ours)."""
    thigh, ankle = body.mm("thigh_girth"), body.mm("ankle_girth")
    return thigh + (ankle - thigh) * min(1.0, below / body.mm("crotch_height"))


def snap_marks(inseam: Sequence[Curve]) -> tuple[MarkPoint, ...]:
    """The snaps along an inseam from the crotch down; the first lies in the middle of both legs."""
    long = run_length(inseam)
    steps, last = _steps(long), long - _FROM_HEM
    return tuple(MarkPoint(f"snap {k + 1}", run_at(inseam, last * k / steps), Landmark.SNAP) for k in range(steps + 1))


def _steps(inseam: float) -> int:
    return max(1, round((inseam - _FROM_HEM) / SNAPS_APART))


def _curve_height(wide: float, *, front: bool) -> float:
    return wide if front else _HIGHER_BEHIND * wide


def _curve(wide: float, level: float, *, front: bool) -> Cubic:
    """The curve of the crotch from the centre line down to the point between the legs, upright there and level here."""
    high = level + _curve_height(wide, front=front)
    return bend(Point(0.0, high), Vec(0.0, -1.0), Point(-wide, level), Vec(-1.0, 0.0), tight=_CURVE)
