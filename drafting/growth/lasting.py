"""Until when a garment fits a child that grows: every girth and length of it, now and let down."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.dataclass import dataclass
from drafting.growth.height_tables import Child
from drafting.growth.lengths import grown_mm
from drafting.growth.own_centile import Growth, Reached, expected_height, when_reached
from drafting.growth.to_leave import grown_dress, grown_skirt
from drafting.pattern import BodyPart, Measure, Pattern, finished_length, hangs_from
from drafting.pattern.let_down import let_down_by

__all__ = ["SHORT_SKIRT", "SHORT_WAIST", "Lasting", "lasting"]

SHORT_WAIST: Final = 15.0
"""mm that a waist may have come up: a little more than the 1/2 in that is left for a size ("Growing clothes")."""

SHORT_SKIRT: Final = 20.0
"""mm that a hem may have come up: half of the 1 1/2 in that a skirt gets longer by for a size ("Growing clothes")."""

_LENGTHS: Final = {
    "arm_length": 20.0,
    "back_waist_length": SHORT_WAIST,
    "front_waist_length_from_neck_pit": SHORT_WAIST,
}
"""mm by which a length may come out short and still be worn: a sleeve 2 cm (ours)."""

_LET_DOWN: Final = {"arm_length": "sleeve", "back_waist_length": "waist", "": "hem"}
"""What is let down to make a length longer, by the body length it goes along."""

_TALLEST: Final = 2100.0  # mm


@dataclass(frozen=True, slots=True)
class Lasting:
    """Until when one measurement of a garment fits.

    place: what is let down for it: "sleeve", "waist", "hem"; the name of the measurement for what cannot be
    finished, let_down: what it measures now, and once all that was left is let down, mm
    until, until_let_down: when it no longer fits, as it is and let down
    """

    name: str
    place: str
    girth: bool
    finished: float
    let_down: float
    until: Reached
    until_let_down: Reached


def lasting(pattern: Pattern, growth: Growth) -> tuple[Lasting, ...]:
    """Until when each girth and length of a garment fits, the first to grow out of first.

    A girth fits while it leaves the least ease that it can be worn with; a length, until it comes out short by more
    than is worn (2 cm at the wrist and at the hem of a skirt, 1.5 cm at the waist).
    """
    found = {(each.name, round(each.finished, 3)): each for each in _each(pattern, growth)}  # a waist is in two pieces
    last = max(growth.last.day.replace(year=growth.last.day.year + 30), growth.last.day)
    return tuple(sorted(found.values(), key=lambda each: (each.until.middle or last, each.name)))


def _each(pattern: Pattern, growth: Growth) -> Iterator[Lasting]:
    now, pieces = growth.last.mm, {piece.name: piece for piece in pattern.pieces}
    for measure in pattern.measures:
        mm, more = finished_length(pattern, measure), let_down_by(pattern, measure)
        hangs = hangs_from(pieces, measure)
        spare = _spare(measure, mm, hangs)
        if spare is None:
            continue
        ends = [_outgrown(growth.child, measure, hangs, (mm, spare + down), now) for down in (0.0, more)]
        until, let_down = (when_reached(growth, _on_line(growth, each)) for each in ends)
        place = _LET_DOWN.get(measure.key, measure.name)
        yield Lasting(measure.name, place, measure.least is not None, mm, mm + more, until, let_down)


def _spare(measure: Measure, mm: float, hangs: BodyPart | None) -> float | None:
    """By how much the body may grow there, mm; None where that is not judged."""
    if measure.body is not None and measure.least is not None:
        return mm - measure.body - measure.least
    if measure.body is not None and measure.key in _LENGTHS:
        return mm - measure.body + _LENGTHS[measure.key] - min(measure.ease, 0.0)
    return SHORT_SKIRT if hangs is not None else None


def _outgrown(
    child: Child, measure: Measure, hangs: BodyPart | None, amounts: tuple[float, float], now: float
) -> float:
    """At which height (mm) the body has outgrown a measurement of this length and this much to spare, mm."""
    mm, spare = amounts
    low, high = now, _TALLEST
    for _ in range(40):
        middle = 0.5 * (low + high)
        if measure.key and measure.body is not None:
            grown = grown_mm(child, measure.key, measure.body, now, middle) - measure.body
        else:
            grown = (grown_dress if hangs is BodyPart.BODICE else grown_skirt)(child, mm, now, middle) - mm
        low, high = (middle, high) if grown < spare else (low, middle)
    return high


def _on_line(growth: Growth, height: float) -> float:
    """The height as her own centile has it, which on the day of the tape is not quite what was taken, mm."""
    return height + expected_height(growth, growth.last.day).mm - growth.last.mm
