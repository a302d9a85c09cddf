"""One half of a kimono: a front or a back with half of the sleeve cut in one, drawn with its side to the right.

The shoulder runs on over the arm in one round, bent down from its own line by an angle, as far as the sleeve reached.
The sleeve is half as wide at upper arm and wrist as the sleeve was there; its underarm runs in one hollow from the
wrist to the side seam, which it meets below the old armhole. There the piece is slit toward the shoulder for a gusset
(common practice; the rounding, and the mouth of the slit, are ours).
"""

from __future__ import annotations

import math
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Line,
    Point,
    Vec,
    distance,
    fair,
    lerp,
    run_at,
    run_hits,
    run_length,
    run_reversed,
    split,
)

__all__ = ["MOUTH", "Arm", "Body", "Drawn", "drawn", "lowest"]

MOUTH: Final = 15.0
"""mm that the mouth of a slit lies down the side seam and out on the sleeve from where these meet (ours)."""

_ROUND: Final = 60.0
"""mm on either side of the end of the shoulder within which the line over the arm is rounded (ours)."""


@dataclass(frozen=True, slots=True)
class Arm:
    """Half of a sleeve, mm: how far it reaches, how high its cap is, and half of it round upper arm and wrist."""

    long: float
    cap: float
    upper: float
    wrist: float


@dataclass(frozen=True, slots=True)
class Body:
    """Half of a bodice with its side to the right: where its shoulder ends, in what direction, its side from above."""

    tip: Point
    along: Vec
    side: tuple[Curve, ...]


@dataclass(frozen=True, slots=True)
class Drawn:
    """The new outline from the side seam up, round the sleeve, to the end of the shoulder.

    at: how far down the old side seam it begins, mm
    """

    at: float
    slit_at_side: Line
    slit_at_sleeve: Line
    underarm: Curve
    hem: Line
    over: tuple[Curve, ...]

    @property
    def mouth(self) -> float:
        """How wide the slit is open, mm."""
        return distance(self.slit_at_side.start, self.slit_at_sleeve.end)


@dataclass(frozen=True, slots=True)
class _Sleeve:
    over: tuple[Curve, ...]
    down: Vec
    elbow: Point
    wrist: Point


def _sleeve(body: Body, arm: Arm, bend: float) -> _Sleeve:
    """The line over the arm down to the hem, and the inner ends of upper arm and wrist."""
    along = body.along.unit()
    down = along.turned(-bend)
    inward = down.right()
    # rounded over the end of the shoulder: from so far before it to so far behind it
    behind = body.tip + down * _ROUND
    first = fair(body.tip, along, behind + along * (0.5 * _ROUND * _open(along, down)), down)
    short = arm.long - run_length((first,))
    end = first.end + down * short
    over = (first, Line(first.end, end))
    crown = end - down * arm.long
    return _Sleeve(over, down, crown + down * arm.cap + inward * arm.upper, end + inward * arm.wrist)


def _open(along: Vec, down: Vec) -> float:
    """How much further out the rounded line lies, as a share: what the corner it takes the place of turned."""
    return abs(math.sin(along.angle_to(down)))


def lowest(body: Body, arm: Arm, bend: float) -> float:
    """How far down the side seam the underarm of the sleeve meets it, mm from the armhole.

    0 where it comes above that, infinite where it comes below the whole side seam.
    """
    sleeve = _sleeve(body, arm, bend)
    hits = run_hits(body.side, sleeve.wrist, sleeve.elbow - sleeve.wrist)
    found = [run_length((*body.side[:k], split(body.side[k], hit.t)[0])) for k, hit in hits if hit.along > 0.0]
    if found:
        return min(found)
    top = body.side[0].start
    aside = (top - sleeve.elbow).cross(sleeve.wrist - sleeve.elbow)
    return 0.0 if aside > 0.0 else math.inf


def drawn(body: Body, arm: Arm, bend: float, meets: float, slit: float) -> Drawn:
    """The new outline, its sleeve meeting the side so far below the armhole, its slit so long, mm."""
    sleeve = _sleeve(body, arm, bend)
    corner = run_at(body.side, meets)
    at = meets + MOUTH
    low = run_at(body.side, at)
    out = corner + (sleeve.wrist - corner).unit() * MOUTH
    middle, half = lerp(low, out, 0.5), 0.5 * distance(low, out)
    if slit <= half:
        raise NotAPattern("the slit", reason="it would be shorter than its mouth is wide")
    inward = (low - out).left()
    if inward.dot(body.tip - middle) < 0.0:
        inward = -inward
    point = middle + inward.unit() * math.sqrt(slit * slit - half * half)
    # as much hollow at either end, so that it comes to the hem square
    chord = sleeve.wrist - out
    underarm = fair(out, chord.turned(-chord.angle_to(sleeve.down)), sleeve.wrist, sleeve.down)
    hem = Line(sleeve.wrist, sleeve.over[-1].end)
    return Drawn(at, Line(low, point), Line(point, out), underarm, hem, run_reversed(sleeve.over))
