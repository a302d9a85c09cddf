"""How her bust stands to her upper chest beside the chart's bodies: which of them the size goes by, and what to add."""

from __future__ import annotations

from typing import Final

from drafting.body.person import Person
from drafting.dataclass import dataclass
from drafting.reading.units import MM_PER_INCH
from drafting.sizing.pattern_chart import PatternChart
from drafting.sizing.size_level import size_at, size_by_body

__all__ = ["APART", "USUAL_GAP", "BustShape", "bust_shape"]

USUAL_GAP: Final = 2.0 * MM_PER_INCH
"""mm that a pattern is drawn for between upper chest and bust where its chart does not say: 2 in, the same in every
size of the charts that were read (trade practice)."""

APART: Final = 0.5 * MM_PER_INCH
"""mm that her own difference may be off the chart's before the size goes by the upper chest: half a cup letter."""

_CUP_INCHES: Final = {"AA": 0, "A": 1, "B": 2, "C": 3, "D": 4, "DD": 5, "E": 5, "F": 6, "G": 7}


@dataclass(frozen=True, slots=True)
class BustShape:
    """How her bust stands to her upper chest.

    own, drawn_for: bust less upper chest, mm: hers, and what the pattern is drawn for in that size
    size:     the size by the upper chest
    from_row: whether the chart has the upper chest of its sizes; else 2 in less than their bust is taken
    cup:      the cup to take where the pattern has several; "" for one front
    apart:    whether the size goes by the upper chest: the bust is fuller than the pattern's by so much, or it has cups
    flatter:  whether the bust is so much flatter than the pattern's; the size still goes by the bust
    """

    own: float
    drawn_for: float
    size: str
    from_row: bool
    cup: str

    @property
    def apart(self) -> bool:
        return self.own - self.drawn_for > APART or bool(self.cup)

    @property
    def flatter(self) -> bool:
        return self.drawn_for - self.own > APART

    @property
    def total(self) -> float:
        """By how much the front is to be wider at the bust in all, mm; 0 where the pattern's own room does."""
        return self.own - self.drawn_for if self.own - self.drawn_for > APART else 0.0

    @property
    def per_side(self) -> float:
        """By how much each half of the front is to be wider at the bust, mm: what the slash is spread by."""
        return self.total / 2.0


def bust_shape(chart: PatternChart, who: Person) -> BustShape | None:
    """How her bust stands to her upper chest; None where either was not measured, or the chart has no bust."""
    taken = dict(who.measurements)
    if "upper_chest_girth" not in taken:
        return None
    chest, own = taken["upper_chest_girth"], taken["bust_girth"] - taken["upper_chest_girth"]
    cup = _cup(chart, own)
    gap = _CUP_INCHES[cup] * MM_PER_INCH if cup else USUAL_GAP
    at = size_by_body(chart, "upper_chest_girth", chest)
    if at is None:
        busts = chart.body_row("bust_girth")
        if not busts:
            return None
        at = size_at(chart.sizes, busts, chest + USUAL_GAP)
        return BustShape(own, gap, at.size, False, cup)
    drawn = chart.body_mm(at.size, "bust_girth")
    upper = chart.body_mm(at.size, "upper_chest_girth")
    if drawn is not None and upper is not None and not cup:
        gap = drawn - upper
    return BustShape(own, gap, at.size, True, cup)


def _cup(chart: PatternChart, own: float) -> str:
    """The cup of the pattern that comes nearest to her difference; "" where it has but one front."""
    return min(chart.cups, key=lambda cup: abs(_CUP_INCHES[cup] * MM_PER_INCH - own), default="")
