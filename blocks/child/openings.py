"""How a child's head gets through: a slit at a centre line, as long as it takes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from drafting.body.complete import Body
from drafting.geometry import Line, Point
from drafting.pattern import Edge, Place, Role

__all__ = ["OPENINGS", "Centre", "Way", "centre_edges", "head_with_spread", "way_over_the_head"]

BACK_SLIT, FRONT_SLIT, NONE = "back slit", "front slit", "none"
OPENINGS: Final = (BACK_SLIT, FRONT_SLIT, NONE)

_EASE: Final = 10.0  # mm of slit beyond what just lets the head through (common practice)
_SHORTEST: Final = 50.0  # mm of slit that a fastening needs (ours)
_STEP: Final = 5.0  # mm to which a slit is rounded up
_BELOW: Final = 30.0  # mm that an opening is longer than it must be where it goes on below the waist (ours)
_REST: Final = 30.0  # mm of seam below a slit; with less, it is open all the way (ours)


@dataclass(frozen=True, slots=True)
class Way:
    """How the head gets through: one of OPENINGS, and how long the slit is, mm."""

    name: str
    slit: float = 0.0


@dataclass(frozen=True, slots=True)
class Centre:
    """A centre line from the neck down: its name, and the levels of its ends."""

    name: str
    top: float
    bottom: float


def head_with_spread(body: Body) -> float:
    """The head as large as it may well be, mm: one that was only estimated is taken a standard deviation larger."""
    head = body["head_girth"]
    return head.mm + (head.sd_mm or 0.0)


def way_over_the_head(body: Body, opening: str, neckline: float, slit: float | None) -> Way:
    """The opening with its slit, so long that the head passes a neckline of so many mm.

    A slit of length s adds 2 s to the round.
    """
    if opening not in (BACK_SLIT, FRONT_SLIT):
        return Way(opening)
    needs = 0.5 * (head_with_spread(body) - neckline) + _EASE
    return Way(opening, slit if slit is not None else max(_SHORTEST, _STEP * math.ceil(needs / _STEP)))


def centre_edges(way: Way, at: Centre, *, front: bool, tight: float) -> tuple[tuple[Edge, ...], float | None]:
    """The centre line as edges from the neck down, and how far the opening goes on below the waist.

    tight: mm by which the waist is too small to pass over the chest; above zero the back is open to below it
    None stands for a centre line on the fold.
    """
    place = Place.CENTRE_FRONT if front else Place.CENTRE_BACK
    top, bottom = Point(0.0, at.top), Point(0.0, at.bottom)
    slit = way.slit if way.name == (FRONT_SLIT if front else BACK_SLIT) else 0.0
    below = 0.0
    if tight > 0.0 and not front:
        slit, below = at.top - at.bottom, 0.5 * tight + _BELOW
    if not slit:
        return (Edge(at.name, (Line(top, bottom),), Role.FOLD, place=place),), None
    if slit > at.top - at.bottom - _REST:
        return (Edge(at.name, (Line(top, bottom),), Role.OPENING, place=place),), below
    end = Point(0.0, at.top - slit)
    return (
        Edge(f"{at.name} opening", (Line(top, end),), Role.OPENING, place=place),
        Edge(f"{at.name} seam", (Line(end, bottom),), place=place),
    ), below
