"""How a child's head gets through: a slit as long as it takes, open shoulders, or a neck wide enough for a band."""

from __future__ import annotations

import math
from typing import Final

from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.geometry import Line, Point
from drafting.pattern import Edge, Place, Role
from drafting.pattern.neck_band import banded_edge
from drafting.pattern.stretch_used import USED_PUTTING_ON

__all__ = [
    "BACK_SLIT",
    "BUTTON_SHOULDER",
    "KNIT_BAND",
    "LAPPED",
    "OPENINGS",
    "Band",
    "Centre",
    "Way",
    "banded",
    "centre_edges",
    "head_with_spread",
    "lapped_shoulders",
    "shoulders_open",
    "way_over_the_head",
]

BACK_SLIT, FRONT_SLIT, BUTTON_SHOULDER = "back slit", "front slit", "button shoulder"
LAPPED = "lapped shoulder"
KNIT_BAND, NONE = "knit band", "none"
OPENINGS: Final = (BACK_SLIT, FRONT_SLIT, BUTTON_SHOULDER, LAPPED, KNIT_BAND, NONE)

_EASE: Final = 10.0  # mm of slit beyond what just lets the head through (common practice)
_SHORTEST: Final = 50.0  # mm of slit that a fastening needs (ours)
_STEP: Final = 5.0  # mm to which a slit is rounded up
_BELOW: Final = 30.0  # mm that an opening is longer than it must be where it goes on below the waist (ours)
_SHOULDER_LOST: Final = 0.17  # mm of shoulder that a mm of neck edge takes when it is scooped out (ours, rather more)
_LAPS: Final = (50.0, 70.0)  # mm that a shoulder laps at the armhole (common practice)
_LAP_SHARE: Final = 0.55  # of the armhole depth, the most that it laps (ours)
_REST: Final = 30.0  # mm of seam below a slit; with less, it is open all the way (ours)


@dataclass(frozen=True, slots=True)
class Band:
    """A band of a knit at the neck: how wide it is when it is finished, mm, and the fraction it stretches by."""

    width: float
    stretch: float


@dataclass(frozen=True, slots=True)
class Way:
    """How the head gets through: one of OPENINGS, how long the slit is, mm, or which band binds the neck.

    neckline: how long the neck edge is to be for that, mm; None for the foot of the neck with its ease
    lap:      how far the shoulders lap over each other at the armhole, mm
    """

    name: str
    slit: float = 0.0
    band: Band | None = None
    neckline: float | None = None
    lap: float = 0.0

    @property
    def open_shoulder(self) -> bool:
        """Whether the shoulders are not sewn: closed by buttons, or lapped over each other."""
        return self.name in (BUTTON_SHOULDER, LAPPED)


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


def shoulders_open(body: Body, neckline: float, stretch: float) -> Way:
    """Shoulders that are buttoned, the neck scooped out where even both of them open would not let the head through."""
    head = body["head_girth"].mm + max(body["head_girth"].sd_mm or 0.0, _EASE)
    given = 1.0 + USED_PUTTING_ON * stretch
    if (neckline * given) + 4.0 * body.mm("shoulder_length") >= head:
        return Way(BUTTON_SHOULDER)
    # each mm of edge comes with a shoulder shorter by about a third of that, four lips of which are lost
    short = head - neckline * given - 4.0 * body.mm("shoulder_length")
    return Way(BUTTON_SHOULDER, neckline=neckline + short / max(0.2, given - 4.0 * _SHOULDER_LOST))


def lapped_shoulders(body: Body, neckline: float, stretch: float) -> Way:
    """Shoulders that lap, 5 to 7 cm at the armhole, the neck scooped out where that would not let the head through.

    The neck opens until the laps meet: by twice the lap on each shoulder (common practice).
    """
    head = body["head_girth"].mm + max(body["head_girth"].sd_mm or 0.0, _EASE)
    given = 1.0 + USED_PUTTING_ON * stretch
    most = min(_LAPS[1], _LAP_SHARE * body.mm("scye_depth"))
    wanted = (head - neckline * given) / 4.0
    lap = min(most, max(_LAPS[0], _STEP * math.ceil(wanted / _STEP)))
    if neckline * given + 4.0 * lap >= head:
        return Way(LAPPED, lap=lap)
    return Way(LAPPED, neckline=neckline + (head - neckline * given - 4.0 * lap) / given + _EASE, lap=lap)


def banded(body: Body, neckline: float, band: Band, stretch: float) -> Way:
    """A neck bound with a band and scooped out so far that the head passes the stretched band and the stretched edge.

    neckline: round the foot of the neck with its ease, mm, which the free edge of the band is to lie at
    stretch:  of the cloth, a fraction
    """
    head = body["head_girth"].mm + max(body["head_girth"].sd_mm or 0.0, _EASE)
    edge = banded_edge(neckline, head, band.width, band.stretch, stretch)
    return Way(KNIT_BAND, band=band, neckline=edge)


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
