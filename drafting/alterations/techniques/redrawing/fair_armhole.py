"""An armhole redrawn between its two ends: the fairest line past the place where it is held, as the block draws it.

It is held at its notch, where front or back is narrowest. In front the armhole runs upright there: how far in the place
lies is kept, and its height is free. Behind, the place itself is kept, at the level of the back's width.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from contextlib import suppress
from itertools import chain
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Point, Vec, fair_through, fair_touching
from drafting.geometry.bending import bending, tightest_radius, turns
from drafting.geometry.curve import Curve, end_tangents
from drafting.pattern import Edge

__all__ = [
    "WAYS",
    "Ends",
    "Held",
    "Run",
    "Way",
    "accept_bend",
    "drawn_past",
    "ends_of",
    "fairest",
    "fairest_of",
    "held_at",
    "least_bent",
    "turned_against",
]

MOST_WAVER: Final = math.radians(10.0)
"""How far a line redrawn may turn back: a shoulder broader than chest and back makes an armhole turn out to it, and
more than this no cutter would sign (our figure)."""

_UPRIGHT: Final = math.radians(3.0)
"""How near to upright an armhole runs at its notch where that is its narrowest place (our figure)."""


@dataclass(frozen=True, slots=True)
class Held:
    """Where an armhole is held: the place, and the way it runs there where its height may be chosen, else None."""

    at: Point
    along: Vec | None = None


@dataclass(frozen=True, slots=True)
class Ends:
    """Both ends of a line and its directions of travel there."""

    start: Point
    leaving: Vec
    end: Point
    arriving: Vec


Run = tuple[Curve, ...]
Way = Callable[[Ends, Held], Run]


def held_at(at: Point, before: Curve) -> Held:
    """Held at a place, the armhole running there as a curve arrives: by its narrowness alone where that is upright."""
    along = end_tangents(before)[1]
    return Held(at, Vec(0.0, math.copysign(1.0, along.y)) if abs(along.x) < math.sin(_UPRIGHT) else None)


def ends_of(run: tuple[Curve, ...]) -> Ends:
    """The ends of a run."""
    return Ends(run[0].start, end_tangents(run[0])[0], run[-1].end, end_tangents(run[-1])[1])


def drawn_past(ends: Ends, held: Held) -> Run:
    """The fairest line between two ends past a place, in two curves that meet there. Raises NotAPattern."""
    return fairest(lambda way: way(ends, held))


def fairest(drawn: Callable[[Way], Run], held: Held | None = None) -> Run:
    """The line that is bent least of those drawn in each way; raises NotAPattern where it can be drawn in none.

    Where that one turns back too far, the one drawn halfway to a line of one bend, if that turns back less.
    held: how all of them are held, where that is known: a way that draws what another draws is then left out
    """
    return fairest_of(lambda way: (drawn(way),), held)[0]


def fairest_of(drawn: Callable[[Way], tuple[Run, ...]], held: Held | None = None) -> tuple[Run, ...]:
    """The lines, of those drawn together in each way, that are bent least in all; raises NotAPattern for none."""
    best = least_bent(drawn, held)
    if _most_against(best) > MOST_WAVER:
        with suppress(NotAPattern):
            return min(best, drawn(_halfway), key=_most_against)
    return best


def least_bent(drawn: Callable[[Way], tuple[Run, ...]], held: Held | None = None) -> tuple[Run, ...]:
    """Those of lines drawn together that are bent least in all, however far they turn back."""
    found: list[tuple[float, tuple[Run, ...]]] = []
    refused: NotAPattern | None = None
    for way, dear in WAYS if held is None or held.along else WAYS[1:]:
        try:
            runs = drawn(way)
        except NotAPattern as error:
            refused = error
            continue
        found.append((dear * bending(tuple(chain.from_iterable(runs))), runs))
    if refused is not None and not found:
        raise refused
    return min(found, key=lambda each: each[0])[1]


def _most_against(runs: tuple[Run, ...]) -> float:
    return max(map(turned_against, runs))


def turned_against(run: Run) -> float:
    """By how much in all a line turns against its own bend, radians."""
    angles = [each.angle for each in turns(run)]
    return min(sum(each for each in angles if each > 0.0), -sum(each for each in angles if each < 0.0))


def accept_bend(edge: Edge, run: Run) -> None:
    """Raise NotAPattern where a line that is redrawn folds its cutting line, or turns back further than it may.

    A line that did so before may be drawn no tighter, and turn back no further.
    """
    now, was = map(tightest_radius, (run, edge.curves))
    if now < min(was, edge.allowance):
        raise NotAPattern(f'"{edge.name}"', reason=f"it would bend as tightly as a circle of {now:.0f} mm radius")
    back = turned_against(run)
    if back > max(MOST_WAVER, turned_against(edge.curves)):
        raise NotAPattern(f'"{edge.name}"', reason=f"it would turn back by {math.degrees(back):.0f} degrees on its way")


def _touching(ends: Ends, held: Held) -> Run:
    if held.along is None:
        return _through(ends, held)
    return fair_touching(ends.start, ends.leaving, held.at, held.along, ends.end, ends.arriving)


def _halfway(ends: Ends, held: Held) -> Run:
    if held.along is None:
        return _through(ends, held)
    return fair_touching(ends.start, ends.leaving, held.at, held.along, ends.end, ends.arriving, halfway=True)


def _through(ends: Ends, held: Held) -> Run:
    return fair_through(ends.start, ends.leaving, held.at, ends.end, ends.arriving, steady=True)


def _as_a_spline(ends: Ends, held: Held) -> Run:
    return fair_through(ends.start, ends.leaving, held.at, ends.end, ends.arriving)


WAYS: Final[tuple[tuple[Way, float], ...]] = ((_touching, 1.0), (_through, 1.0), (_as_a_spline, 1.25))
"""The ways to draw it, and how many times its bending counts: a spline may waver a little, which is to be worth it."""
