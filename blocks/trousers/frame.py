"""The points that trousers are drawn from, front and back, before anything is fitted to a tape.

The construction is the basic trousers block of a textbook of fashion (Practical Textbook of Fashion English, 3rd ed.,
part 3): the front's centre lies hip / 12 + 1.5 cm from the crease, its fork is hip / 16 + 0.5 long, the back's half as
long again; the back is 1 cm wider than the front at the hip and leans in to the waist behind. x goes outward from the
crease of the leg to the side, y up from the level of the waist; the centre lies at the left.
"""

from __future__ import annotations

import math
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Point, Vec, distance, length, run_hits, split
from drafting.geometry.solve import root_between

__all__ = [
    "CENTRE_IN",
    "DOWN",
    "NO_LEG",
    "RAISED",
    "Centre",
    "Rise",
    "back_centre",
    "crotch_curve",
    "fork_drop",
    "front_centre",
    "side_at_hip",
]

NO_LEG: Final = "no leg can be drawn with a hem so wide or so narrow below this thigh: give hem_width nearer to it"
CENTRE_IN: Final = 10.0
"""mm by which the front's centre comes in at the waist."""

DOWN: Final = Vec(0.0, -1.0)

_PAST: Final = ((1010.0, 30.0, 42.5), (1210.0, 32.5, 45.0), (math.inf, 35.0, 47.5))
"""Up to this hip, mm: how far from its corner the curve passes in front and behind (sizes 8-14, 16-22, 24-30)."""

_LEAST_CURVE: Final = 65.0  # mm of height that the front's curve has, where the hip is fullest near the crotch (ours)
_BACK_WIDER: Final = 5.0  # mm that each quarter of the back is wider than the mean, and of the front narrower
_LEAN, RAISED = 20.0, 20.0  # mm: how far the back's centre leans in at the waist, and how far it stands above it


_FULLEST: Final = 0.95
"""How far the handles of a crotch reach toward the place where its tangents meet at the most; beyond all of the way
the curve turns back (ours). Where that is not enough it passes its corner further off."""

_SHARE: Final = 1e-12  # of the chord: how closely the handles are found


@dataclass(frozen=True, slots=True)
class Rise:
    """What the upper part is drawn from, mm: the girth of the hip without ease, and levels below the waist.

    front_fork, back_fork: by how much the forks are longer than the book has them
    raised: by how much the centre back stands higher at the waist than the book has it
    centre_in, lean: how far the centre in front and the centre behind come in at the waist
    """

    hip: float
    depth: float
    hip_depth: float
    front_fork: float = 0.0
    back_fork: float = 0.0
    raised: float = 0.0
    centre_in: float = CENTRE_IN
    lean: float = _LEAN

    @property
    def from_crease(self) -> float:
        """How far the front's centre lies from the crease at the hip."""
        return self.hip / 12.0 + 15.0

    @property
    def fork(self) -> float:
        """How long the front's fork is by the book."""
        return self.hip / 16.0 + 5.0


@dataclass(frozen=True, slots=True)
class Centre:
    """The centre of a half and its crotch: straight from the waist, then one curve to the end of the fork.

    line:  from the waist, `waist`, down to where the curve begins; the curve leaves it along `along`
    curve: on to the end of the fork, square to the inside leg there
    asked: which way the inside leg was to leave the end of the fork, a unit direction downward
    """

    waist: Point
    curve: Cubic
    along: Vec
    asked: Vec

    @property
    def turn(self) -> Point:
        """Where the curve begins."""
        return self.curve.start

    @property
    def fork(self) -> Point:
        """The end of the fork."""
        return self.curve.end

    @property
    def straight(self) -> float:
        """How long the straight part is, mm."""
        return distance(self.waist, self.turn)

    @property
    def inside_leg(self) -> Vec:
        """Which way the inside leg leaves the end of the fork, a unit direction downward, square to the curve."""
        arriving = self.curve.end - self.curve.c2
        return arriving.unit().left() if arriving.norm() > 0.0 else self.asked  # no room to turn there: as asked

    def nearly_straight(self, off: float) -> float:
        """How far along the curve it lies no more than so many mm off the line of the straight part, mm."""
        ((_, hit),) = run_hits((self.curve,), self.turn + self.along.right() * off, self.along)
        return length(split(self.curve, hit.t)[0])

    def at_level(self, y: float) -> float:
        """How far out from the crease (to the left, so below zero) the centre or the crotch lies at this level."""
        if y >= self.turn.y:
            down = self.turn - self.waist
            return self.waist.x + down.x * (y - self.waist.y) / down.y
        hits = run_hits((self.curve,), Point(0.0, y), Vec(-1.0, 0.0))
        if not hits:
            raise NotAPattern("leg", reason=NO_LEG)
        return min(hit.point.x for _, hit in hits)


def front_centre(rise: Rise, inside_leg: Vec = DOWN) -> Centre:
    """The centre front and the front's crotch, which is square to the inside leg."""
    out = -rise.from_crease
    hip = Point(out, -min(rise.hip_depth, rise.depth - _LEAST_CURVE))
    fork = Point(out - rise.fork - rise.front_fork, -rise.depth)
    corner = Point(out, -rise.depth)
    curve = crotch_curve(hip, DOWN, fork, corner, _past(rise.hip)[0], inside_leg)
    return Centre(Point(out + rise.centre_in, 0.0), curve, DOWN, inside_leg)


def back_centre(rise: Rise, drop: float, inside_leg: Vec = DOWN) -> Centre:
    """The centre back and the back's crotch, whose fork ends `drop` mm lower than the front's."""
    x = -0.75 * rise.from_crease
    turn = Point(x, -0.5 * rise.depth)
    up = (Point(x + rise.lean, RAISED) - turn).unit()
    waist = Point(x + rise.lean, RAISED) + up * rise.raised
    fork = Point(-rise.from_crease - 1.5 * rise.fork - rise.back_fork, -rise.depth - drop)
    curve = crotch_curve(turn, -up, fork, Point(x, -rise.depth), _past(rise.hip)[1], inside_leg)
    return Centre(waist, curve, -up, inside_leg)


def crotch_curve(turn: Point, along: Vec, fork: Point, corner: Point, past: float, inside_leg: Vec = DOWN) -> Cubic:
    """One cubic from where the straight part ends to the end of the fork, square to the inside leg there.

    It leaves along a unit direction and passes `past` mm from the corner, on the line at 45 degrees to its sides; both
    handles are the same share of the chord, as far as its tangents do not cross.
    """
    chord = distance(turn, fork)
    out = Vec(-math.sqrt(0.5), math.sqrt(0.5))
    arriving = inside_leg.right()
    meet = ahead(turn, along, fork, arriving)

    def drawn(share: float) -> Cubic:
        first, last = (min(share * chord, _FULLEST * far) for far in meet)
        return Cubic(turn, turn + along * first, fork - arriving * last, fork)

    def surplus(share: float) -> float:
        return _first_hit(drawn(share), corner, out) - past

    return drawn(root_between(surplus, 0.0, _FULLEST * max(meet) / chord, near=_SHARE))


def ahead(start: Point, leaving: Vec, end: Point, arriving: Vec) -> tuple[float, float]:
    """How far from start and end the tangents of a curve meet, mm."""
    across = end - start
    turn = leaving.cross(arriving)
    return across.cross(arriving) / turn, leaving.cross(across) / turn


def _first_hit(curve: Cubic, corner: Point, out: Vec) -> float:
    """How far from the corner the curve is met. Raises NotAPattern where it is not."""
    found = [hit.along for _, hit in run_hits((curve,), corner, out) if hit.along > 0.0]
    if not found:
        raise NotAPattern("crotch", reason="its curve does not pass its corner")
    return min(found)


def fork_drop(knee_up: float, front_run: float, back_run: float, short: float) -> float:
    """How much lower the back's fork ends, so that its straight inseam is `short` mm shorter than the front's.

    knee_up: from the knee to the crotch; front_run, back_run: how far the fork reaches beyond the knee, in mm
    """
    long = math.hypot(front_run, knee_up) - short
    return knee_up - math.sqrt(long**2 - back_run**2)


def side_at_hip(rise: Rise, round_it: float, front: Centre, back: Centre) -> tuple[float, float]:
    """How far from the crease the sides of front and back lie at the hip, so that it is so many mm round.

    Each quarter is what the book makes of it, the front 1/2 cm under and the back as much over: but from edge to edge,
    as the tape lies on the cloth, and the back's centre leans out there.
    """
    quarter, level = 0.25 * round_it, -rise.hip_depth
    return front.at_level(level) + quarter - _BACK_WIDER, back.at_level(level) + quarter + _BACK_WIDER


def _past(hip: float) -> tuple[float, float]:
    return next((front, back) for most, front, back in _PAST if hip <= most)
