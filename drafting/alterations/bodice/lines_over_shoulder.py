"""How the lines of front and back run on into each other over the shoulder seam when the shoulder has been altered.

Where the shoulder turns, the directions in which armhole and neck leave it turn with it, in front and behind alike. So
the armhole is still one line over the seam, and the neck too. One angle is free: how far from square both lines leave
the shoulder, one inward and the other outward by the same angle. It is chosen again, as the block chooses it
(`blocks/shared/armhole_curve.py`).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from drafting.alterations.bodice.upper_bodice import UpperBodice, hinge_of
from drafting.alterations.techniques.redrawing.fair_armhole import Held, Run, Way, least_bent, turned_against
from drafting.alterations.techniques.redrawing.fair_neck import eased_rise
from drafting.alterations.techniques.redrawing.redraw_run import exact_length
from drafting.errors import NotAPattern
from drafting.geometry import Line, Vec, end_tangents
from drafting.geometry.bending import bending

__all__ = ["Leaning", "downward_sign", "even_armhole_lean", "even_neck_lean"]

_OFF_SQUARE: Final = math.radians(14.0)
"""The most by which armhole and neck leave the shoulder off square, as in the block (our figure)."""

_TRIED: Final = (math.radians(5.0), math.radians(2.5), math.radians(1.25))
"""The steps in which it is sought, each around the best before it (ours: finer is not seen)."""

_WAVERS: Final = (3.0, 20.0)
"""How much more a line counts for the angle, radians, that it turns back, and for its square: a degree as much as a
twentieth of its bending, and two lines that turn back a little less than one that does far (ours)."""

_UNLIKE: Final = 5.0
"""mm by which front and back may come out unlike in length before that counts as much as all their bending (ours):
what is made good by the handles of the curves bends them as well."""

Leaning = Callable[[float, Way], Run]
"""Draws an armhole that leaves the shoulder so much further inward, radians."""


def downward_sign(top: UpperBodice) -> float:
    """The sense in which the shoulder turns about the neck when its end goes down: 1 anticlockwise, else -1.

    In the same sense the direction in which armhole and neck leave it turns inward.
    """
    along = top.fold.vec(end_tangents(top.armhole.open[0][0])[0])
    return math.copysign(1.0, top.slope.cross(along))


def even_armhole_lean(front: UpperBodice, back: UpperBodice, in_front: Leaning, behind: Leaning) -> float:
    """By how much further inward the back armhole is to leave the shoulder, and the front one outward, radians.

    The one of least bending of both, where they hardly turn back and keep their lengths the most. It is sought in
    steps, from zero, within what the block allows off square.
    """
    was = (exact_length(front.armhole.open[0]), exact_length(back.armhole.open[0]))
    held = hinge_of(front).held, hinge_of(back).held
    known: dict[float, float] = {}

    def cost(off: float) -> float:
        if off not in known:
            known[off] = _cost(was, held, off, in_front, behind)
        return known[off]

    most, least = _room(front, back)
    best = 0.0
    for step in _TRIED:
        # downhill in steps, so that what was right already stays
        for sign in (1.0, -1.0):
            while least <= best + sign * step <= most and cost(best + sign * step) < cost(best) - 1e-9:
                best += sign * step
    return best


def _cost(was: tuple[float, float], held: tuple[Held, Held], off: float, in_front: Leaning, behind: Leaning) -> float:
    try:
        # whether one of them turns back too far is what the lean is chosen by: none is drawn milder yet
        (front,), (back,) = (
            least_bent(lambda way: (in_front(-off, way),), held[0]),
            least_bent(lambda way: (behind(off, way),), held[1]),
        )
    except NotAPattern:
        return math.inf
    grown = [exact_length(run) - length for run, length in zip((front, back), was, strict=True)]
    unlike = (grown[0] - grown[1]) / _UNLIKE
    return (_bent(front) + _bent(back)) * (1.0 + unlike * unlike)


def _bent(run: Run) -> float:
    back = turned_against(run)
    return bending(run) * (1.0 + _WAVERS[0] * back + _WAVERS[1] * back * back)


def _room(front: UpperBodice, back: UpperBodice) -> tuple[float, float]:
    """How far inward the back armhole may be turned at the shoulder and the front outward, and how far the other way.

    Zero lies between, even where they are further off square than they may be.
    """
    behind, in_front = _off_square(back), _off_square(front)
    most = min(_OFF_SQUARE - behind, _OFF_SQUARE + in_front)
    least = max(-_OFF_SQUARE - behind, in_front - _OFF_SQUARE)
    return max(0.0, most), min(0.0, least)


def _off_square(top: UpperBodice) -> float:
    """How far inward of square the armhole leaves the folded shoulder, radians."""
    along = top.fold.vec(end_tangents(top.armhole.open[0][0])[0])
    down = downward_sign(top)
    return down * top.arriving.turned(down * 0.5 * math.pi).angle_to(along)


def even_neck_lean(back: UpperBodice, turned: float = 0.0, across: Vec | None = None) -> float:
    """By how much further inward the back neck is to leave the shoulder, and the front one outward, radians.

    Zero or more: so much that it bends no tighter than its allowance takes.
    turned: how far its shoulder is turned, radians
    across: the step from the centre line to the neck point, where that is another than it was
    """
    run = [curve for part in back.neck.folded for curve in part]
    if len(run) > 1 or isinstance(run[0], Line) or any(back.neck.darts):
        return 0.0
    square, into = end_tangents(run[0])[0], end_tangents(run[-1])[1].turned(turned)
    step = run[-1].end - run[0].start if across is None else across
    return eased_rise(square, into, step, back.neck.parts[0].allowance, _OFF_SQUARE)
