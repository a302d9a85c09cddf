"""Where a pattern goes over from one size into another at its side seams, and by how much each edge moves.

A change of d round the garment over two side seams is d / 4 on each edge of them (plane geometry).
"""

from __future__ import annotations

from typing import Final

from drafting.dataclass import dataclass
from drafting.sizing.garment_kinds import GarmentKind
from drafting.sizing.pattern_chart import BODY_OF, PatternChart
from drafting.sizing.size_level import SizeLevel

__all__ = ["MARGIN", "SURPLUS", "Blend", "blends"]

SURPLUS: Final = 25.0
"""mm of ease over what is wanted at a level that lies close, from which it is taken in (an inch, common practice)."""

MARGIN: Final = 5.0
"""mm by which the ease may be under the least for comfort before a blend is advised: nobody cuts for less (ours)."""


@dataclass(frozen=True, slots=True)
class Blend:
    """One change of size along the side seam.

    place:     the level at which it is done: "waist" or "hip"
    size:      the size the pattern has there
    from_place, from_size: the level it begins at, and the size there
    by:        mm that each edge of the side seams moves out at that level, from the line of the size that was taken;
               below zero inward
    ease_before: the ease there without it, mm; None where the chart does not tell
    """

    place: str
    size: str
    from_place: str
    from_size: str
    by: float
    ease_before: float | None


def blends(
    chart: PatternChart, levels: tuple[SizeLevel, ...], kind: GarmentKind, size: str, *, shaped: bool
) -> tuple[tuple[Blend, ...], tuple[str, ...]]:
    """The blends that are needed from the size that was taken, and the levels of another size that need none.

    A child's garment is not taken in: it grows into it (common practice).

    shaped: whether the room at the bust is given by a full-bust (or small-bust) alteration instead of the side seam
    """
    found: list[Blend] = []
    unneeded: list[str] = []
    at, at_size = ("bust", size) if kind.rules in ("shoulder", "bust") else (kind.rules, size)
    below = [level for level in levels if level.pick is not None and level.place != at]
    for level in below:
        pick = level.pick or size
        if pick == size or (level.place == "bust" and shaped):
            continue
        ease = _ease(chart, level, size)
        inward = chart.sizes.index(pick) < chart.sizes.index(size)
        if not _needed(level, kind, ease) or (inward and chart.body_kind != "woman"):
            unneeded.append(level.place)
            continue
        found.append(Blend(level.place, pick, at, at_size, _by(chart, level.place, size, pick), ease))
        at, at_size = level.place, pick
    return _joined(found, levels, kind, size), tuple(unneeded)


def _needed(level: SizeLevel, kind: GarmentKind, ease: float | None) -> bool:
    """Whether the size that was taken will not do at a level: too tight, or close there and too wide."""
    if ease is not None and ease < level.least - MARGIN:
        return True
    if level.place in kind.free or level.loose:
        return False
    return ease is None or ease > level.wanted + SURPLUS


def _joined(found: list[Blend], levels: tuple[SizeLevel, ...], kind: GarmentKind, size: str) -> tuple[Blend, ...]:
    """The blends, each beginning at the level above it (of a garment that goes by the hip, at the hip)."""
    order = [level.place for level in levels]
    joined = []
    for each in found:
        from_place, from_size = each.from_place, each.from_size
        if kind.rules in ("shoulder", "bust") and order.index(each.place) > 0:
            above = order[order.index(each.place) - 1]
            from_place = above
            from_size = next((other.size for other in found if other.place == above), size)
        joined.append(Blend(each.place, each.size, from_place, from_size, each.by, each.ease_before))
    return tuple(joined)


def _ease(chart: PatternChart, level: SizeLevel, size: str) -> float | None:
    made = chart.finished_mm(size, level.place)
    return None if made is None else made - level.body


def _by(chart: PatternChart, place: str, size: str, to: str) -> float:
    """How far each edge of the side seams moves between two sizes, mm."""
    row = chart.finished_row(place) or chart.body_row(BODY_OF[place])
    return (row[chart.sizes.index(to)] - row[chart.sizes.index(size)]) / 4.0
