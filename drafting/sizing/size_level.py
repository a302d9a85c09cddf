"""One level of a garment, bust, waist or hip: the size by the body, and the size by what the garment measures there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from drafting.dataclass import dataclass
from drafting.fit.ease import EaseSet
from drafting.fit.least_ease import LeastEase
from drafting.sizing.pattern_chart import BODY_OF, PatternChart

__all__ = ["LOOSE_BEYOND", "SLACK", "SizeAt", "SizeEase", "size_at", "size_by_body", "size_level"]

LOOSE_BEYOND: Final = 13.0
"""mm by which the ease of the pattern may be more than that of a loose fit before it is the style's own width."""

_HALF_WAY: Final = 0.5
_CHILD_FROM: Final = 0.25
"""From how far between two sizes the larger one is taken: half way; a child, who grows, from a quarter (children always
the larger: trade practice; a quarter: ours, for what two people measure)."""

_CHILD_UNDER: Final = 5.0
"""mm by which a child's ease may be under what is wanted: between two sizes a child takes the larger (ours)."""

SLACK: Final = 1.6
"""mm that are not told apart: a sixteenth of an inch, which is what a tape reads."""


@dataclass(frozen=True, slots=True)
class SizeEase:
    """What the garment measures in one size, and how much more that is than her body there, mm."""

    size: str
    finished: float
    ease: float


@dataclass(frozen=True, slots=True)
class SizeAt:
    """Where a girth falls among the sizes.

    size:    the one to take: the nearest, of two equally near the larger; of a child mostly the larger
    between: the two sizes that it lies between, and how far from the smaller one (0 to 1); beyond the chart twice the
             end, and how many steps beyond (below zero or above one)
    """

    size: str
    between: tuple[str, str]
    share: float

    @property
    def is_beyond(self) -> bool:
        """Whether the girth lies further than half a step outside the chart."""
        return not -0.5 <= self.share <= 1.5


@dataclass(frozen=True, slots=True)
class SizeLevel:
    """What is known of one level.

    place:    "bust", "waist" or "hip"
    body:     her girth there, mm
    by_body:  the size whose body comes nearest; None where the chart has no such row
    by_finished: the size whose finished measure suits best; None where the chart has no such row
    eases:    the ease in that size and in its neighbours; empty where the chart has no finished row
    wanted:   the ease for this cloth and fit, mm; least: below that it is too tight for comfort
    source:   where the wanted ease comes from
    designed: the ease of the pattern itself, finished less body, mm; None where one of both is not known
    loose:    whether that is so much that the body decides, not the ease
    """

    place: str
    body: float
    by_body: SizeAt | None
    by_finished: str | None
    eases: tuple[SizeEase, ...]
    wanted: float
    least: float
    source: str
    designed: float | None
    loose: bool

    @property
    def pick(self) -> str | None:
        """The size at this level: by the finished measure, else by the body; None where nothing is known."""
        return self.by_finished or (self.by_body.size if self.by_body else None)


def size_by_body(chart: PatternChart, key: str, mm: float) -> SizeAt | None:
    """Where a body's length falls among the sizes; None where the chart has no such row."""
    row = chart.body_row(key)
    return size_at(chart.sizes, row, mm, child=chart.body_kind != "woman") if row else None


def size_at(sizes: Sequence[str], row: Sequence[float], mm: float, *, child: bool = False) -> SizeAt:
    """Where a length falls in a row that rises."""
    at = next((at for at, value in enumerate(row) if value >= mm), len(row) - 1)
    low = max(0, min(at - 1, len(row) - 2))
    step = row[low + 1] - row[low]
    share = (mm - row[low]) / step if step > 0.0 else 0.0
    taken = sizes[low + 1] if share >= (_CHILD_FROM if child else _HALF_WAY) - 1e-9 else sizes[low]
    return SizeAt(taken, (sizes[low], sizes[low + 1]), share)


def size_level(
    chart: PatternChart,
    place: str,
    body: float,
    ease: EaseSet,
    least: Mapping[str, LeastEase],
    *,
    loosest: float,
    as_drawn: float | None,
) -> SizeLevel:
    """What is known of one level. body: her girth there, mm; loosest: the ease of a loose fit in this cloth, mm

    as_drawn: what her cloth wants beyond the one the pattern is drawn for, mm, where the ease of the pattern itself is
              what is wanted; None where the ease of the table is, because she named a fit

    By the finished measure: the size whose ease is nearest to what is wanted, among those not below the least for
    comfort, the largest where all are. A pattern that is drawn wider than a loose fit goes by the body: its width is
    its style (trade practice: close styles by finished measure, loose ones by the body). A child for whom no fit was
    named takes the larger of its size by the body and by the finished measure (trade practice).
    """
    by_body = size_by_body(chart, BODY_OF[place], body)
    eases = [
        SizeEase(size, made, made - body) for size, made in zip(chart.sizes, chart.finished_row(place), strict=False)
    ]
    designed = _designed(chart, place, by_body)
    wanted, source = ease.mm(place), ease[place].source
    floor = least[place].warns_below if place in least else 0.0
    if as_drawn is not None and designed is not None:
        wanted, source = designed + as_drawn, "the pattern's own: what it measures less the body it is drawn for"
        floor = max(least[place].fails_below if place in least else 0.0, min(floor, wanted))
    loose = designed is not None and designed > loosest + LOOSE_BEYOND
    by_finished = None
    if eases:
        least_of_child = wanted - _CHILD_UNDER if chart.body_kind != "woman" else floor
        enough = [each for each in eases if each.ease >= max(floor, least_of_child) - SLACK]
        best = min(enough, key=lambda each: (abs(each.ease - wanted), -each.ease)) if enough else eases[-1]
        by_finished = best.size
        if loose and by_body is not None and any(each.size == by_body.size for each in enough):
            by_finished = by_body.size
        if chart.body_kind != "woman" and as_drawn is not None and by_body is not None:
            by_finished = max(best.size, by_body.size, key=chart.sizes.index)
    shown = chart.neighbours(by_finished) if by_finished else ()
    near = tuple(each for each in eases if each.size in shown)
    return SizeLevel(place, body, by_body, by_finished, near, wanted, floor, source, designed, loose)


def _designed(chart: PatternChart, place: str, by_body: SizeAt | None) -> float | None:
    """The ease of the pattern itself at a level, in her size, mm; None where it cannot be told."""
    if by_body is None:
        return None
    made, worn = chart.finished_mm(by_body.size, place), chart.body_mm(by_body.size, BODY_OF[place])
    return None if made is None or worn is None else made - worn
