"""How much cloth to leave in a garment now, so that it can be let down until a day to come.

Two measures of it stand side by side, and the larger one is left: how much longer that part of her body is then, at the
upper end of the range (`body`); and what sewing books leave (`custom`), in proportion to her growth.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date
from typing import Final

from drafting.dataclass import dataclass
from drafting.growth.height_tables import Child
from drafting.growth.lengths import typical_mm
from drafting.growth.own_centile import Expected, Growth, expected_height

__all__ = ["PLACES_TO_LET_DOWN", "LetDownPlace", "ToLeave", "Wider", "grown_dress", "grown_skirt", "to_leave", "wider"]

_A_SIZE: Final = 67.0
"""mm that a child grows from size 4 to 5 and from 5 to 6, of which the figures of the "Ensign" speak: the middle girl
from 4 to 6 years by the growth tables."""

_IN: Final = 25.4


@dataclass(frozen=True, slots=True)
class LetDownPlace:
    """A place of a garment where cloth can be left.

    grows:  how long what it covers is in children so tall (mm), mm
    custom: what sewing books leave there, as a share of how much taller the child becomes; and who says so
    """

    name: str
    what: str
    grows: Callable[[Child, float], float]
    custom: float
    source: str


def _knee_from_waist(child: Child, stature: float) -> float:
    return typical_mm(child, "waist_height", stature) - typical_mm(child, "knee_height", stature)


def grown_skirt(child: Child, mm: float, now: float, then: float) -> float:
    """How long a skirt must be to come as far down when a child's height goes from `now` to `then`, all mm."""
    return mm * _knee_from_waist(child, then) / _knee_from_waist(child, now)


def grown_dress(child: Child, mm: float, now: float, then: float) -> float:
    """How long what hangs from the neck must be to come as far down when a child's height goes from `now` to `then`."""

    def above_the_knee(stature: float) -> float:
        return typical_mm(child, "neck_pit_height", stature) - typical_mm(child, "knee_height", stature)

    return mm * above_the_knee(then) / above_the_knee(now)


def _trunk(child: Child, stature: float) -> float:
    return typical_mm(child, "back_waist_length", stature)


def _arm(child: Child, stature: float) -> float:
    return typical_mm(child, "arm_length", stature)


def _leg(child: Child, stature: float) -> float:
    return typical_mm(child, "crotch_height", stature)


def _loop(child: Child, stature: float) -> float:
    rise = typical_mm(child, "waist_height", stature) - typical_mm(child, "crotch_height", stature)
    return 2.0 * (typical_mm(child, "back_waist_length", stature) + rise)


_ENSIGN: Final = "Growing clothes, the Ensign 1976: 1 1/2 in on the skirt and 1/2 in on the bodice for a size"
_LOOP: Final = "nape to seat grows by 2 cm for 6 cm of height in a chart of babies (W. Aldrich, at second hand)"

PLACES_TO_LET_DOWN: Final = (
    LetDownPlace("skirt", "hem of a skirt", _knee_from_waist, 1.5 * _IN / _A_SIZE, _ENSIGN),
    LetDownPlace("bodice", "waist of a bodice", _trunk, 0.5 * _IN / _A_SIZE, _ENSIGN),
    LetDownPlace("top", "hem of a top", _trunk, 1.0 * _IN / _A_SIZE, "the same: 1/2 in above and below the waist"),
    LetDownPlace("sleeve", "hem of a sleeve, or a tuck in it", _arm, 0.0, ""),
    LetDownPlace("legs", "hems of trousers", _leg, 0.0, ""),
    LetDownPlace("straps", "straps of a pinafore or dungarees, both together with the crotch", _loop, 4.0 / 6.0, _LOOP),
)
"""Where cloth is left, and how much. Lengths of the body: the survey of 1977."""


@dataclass(frozen=True, slots=True)
class ToLeave:
    """How much cloth to leave at a place, mm.

    expected: by how much longer what it covers is to be expected to be; high: at the upper end of the range
    custom:   what sewing books leave for so much growth; 0 where none is known to say
    leave:    the larger of `high` and `custom`
    """

    place: LetDownPlace
    expected: float
    high: float
    custom: float

    @property
    def leave(self) -> float:
        """What to leave, mm, to the next half centimetre."""
        return 5.0 * math.ceil(max(self.high, self.custom, 0.0) / 5.0 - 1e-9)


def to_leave(growth: Growth, until: date) -> tuple[ToLeave, ...]:
    """What to leave at each of `PLACES_TO_LET_DOWN` until a day, from the day she was measured last."""
    now, then = expected_height(growth, growth.last.day), expected_height(growth, until)
    return tuple(_left_at(place, growth.child, now, then) for place in PLACES_TO_LET_DOWN)


def _left_at(place: LetDownPlace, child: Child, now: Expected, then: Expected) -> ToLeave:
    def longer(stature: float) -> float:
        return place.grows(child, stature) - place.grows(child, now.mm)

    return ToLeave(place, longer(then.mm), longer(then.high), place.custom * (then.mm - now.mm))


_NO_MATTER: Final = 20.0
"""mm. By so much a girth may grow while a garment is worn and its usual ease is enough (from memory)."""


@dataclass(frozen=True, slots=True)
class Wider:
    """How a girth or a breadth grows until a day, mm.

    expected, high: by how much, and at the upper end of the range
    more:           how much ease is added for it; 0 for little growth
    """

    expected: float
    high: float
    more: float


def wider(growth: Growth, key: str, mm: float, until: date) -> Wider:
    """How a girth or a breadth that is `mm` now grows until a day.

    Sewing books add nothing in width for one size ("Growing clothes", the Ensign 1976): a child grows
    by 2 to 3 cm round the chest in a year, which the usual ease all but takes; what is more than 2 cm is added.
    """
    now, then = expected_height(growth, growth.last.day), expected_height(growth, until)
    was = typical_mm(growth.child, key, now.mm)
    expected, high = (mm * (typical_mm(growth.child, key, each) - was) / was for each in (then.mm, then.high))
    return Wider(expected, high, max(0.0, expected - _NO_MATTER))
