"""The tiered skirt: straight strips, each gathered to the one above it, the first to the waist.

The first strip is as wide as the hip and six inches; each following one is 1.5 times the one above in heavier cloth,
2 times in light cloth (a home economics bulletin). The tiers are equally high, or each a quarter higher than the one
above (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import accumulate
from typing import Final

from blocks.handover import Drafted, Order, WaistHalf
from blocks.skirts.making import Asked, asked_of, drafted_of, fitting, pieced
from blocks.skirts.panels import Panel, Quarter, straight
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft
from drafting.geometry import Point
from drafting.pattern import Grain, Half, Level, MarkLine, NotchMark, Place

__all__ = ["draft_tiered_skirt", "tier_heights", "tier_widths"]

_MORE_THAN_HIP: Final = 152.4  # mm that the first tier is wider than the hip: six inches
_LEAST_GATHERED: Final = 1.2  # times the waist that the first tier is wide at the least (ours)
_OPEN_MORE: Final = 30.0  # mm that the opening is longer than the hip asks for (ours)
_BELOW_OPENING: Final = 20.0  # mm of the first tier below the opening
_LEAST_HIGH: Final = 60.0  # mm (ours)
_MOST_PANELS: Final = 12
_MARKED: Final = 450.0  # mm of the edge gathered to between two notches at the most (ours: a quarter of a wide tier)
_CLEAR: Final = 12.0  # mm between what is marked


def tier_widths(first: float, ratio: float, count: int) -> tuple[float, ...]:
    """How wide each tier is from the top down, mm, each `ratio` times the one above."""
    return tuple(first * ratio**k for k in range(count))


def tier_heights(long: float, shares: Sequence[float]) -> tuple[float, ...]:
    """How high each tier is, mm: a length shared out in these proportions."""
    return tuple(long * share / sum(shares) for share in shares)


@dataclass(frozen=True, slots=True)
class _Tier:
    """One tier of the whole skirt: how wide, how high, how far below the waist it begins, mm."""

    number: int
    wide: float
    high: float
    begins: float
    last: bool


def draft_tiered_skirt(order: Order, *, long: float, tiers: int, ratio: float, growing: float) -> Drafted:
    """The tiered skirt. Raises CannotDraft, naming the measurements at odds.

    tiers: how many; ratio: how many times as wide as the one above each is; growing: how many times as high
    """
    asked = asked_of(order, long)
    heights, asked = _heights(order, asked, [growing**k for k in range(tiers)])
    first = max(asked.hip + _MORE_THAN_HIP, _LEAST_GATHERED * asked.round_waist)
    widths = tier_widths(first, ratio, tiers)
    begins = (0.0, *accumulate(heights))
    rows = []
    for k in range(tiers):
        tier = _Tier(k + 1, widths[k], heights[k], begins[k], last=k == tiers - 1)
        rows.append(
            (
                _quarter(asked, tier, ratio, Half.FRONT, asked.waist.front),
                _quarter(asked, tier, ratio, Half.BACK, asked.waist.back),
            )
        )
    return drafted_of(
        order,
        asked,
        rows,
        options=(("length", long), ("tiers", str(tiers)), ("ratio", ratio), ("growing", growing)),
        gave_way=[sentence for row in rows for sentence in pieced(row, asked)],
    )


def _heights(order: Order, asked: Asked, shares: Sequence[float]) -> tuple[tuple[float, ...], Asked]:
    """How high each tier is, the first high enough for an opening that lets the hip through; and that opening."""
    needed = 0.0
    if asked.opened:
        needed = max(0.0, 0.5 * (order.body.mm("hip_girth") - asked.round_waist)) + _OPEN_MORE
        if asked.waist.open_back is not None:
            needed = asked.opened
    heights = tier_heights(asked.long, shares)
    least = needed + _BELOW_OPENING
    if heights[0] < least:
        heights = (least, *tier_heights(asked.long - least, shares[1:]))
    if min(heights) < _LEAST_HIGH:
        raise CannotDraft(
            ("waist_to_hip",),
            f"One of {len(shares)} tiers would be {min(heights):.0f} mm high, and {_LEAST_HIGH:.0f} mm is the least: "
            "make the skirt longer, or take fewer tiers.",
        )
    opened = min(asked.opened, heights[0] - _BELOW_OPENING) if asked.opened else 0.0
    return heights, replace(asked, opened=opened)


def _quarter(asked: Asked, tier: _Tier, ratio: float, half: Half, waist: WaistHalf) -> Quarter:
    """A front or a back quarter of a tier, in as many parts as the cloth asks for; ratio: over the tier above."""
    wide = tier.wide * waist.length / asked.round_waist
    opened = asked.opened if tier.number == 1 and half is Half.BACK else 0.0

    def drawn(count: int, on_fold: bool) -> Quarter:
        """A quarter of the tier in so many panels, with the marks at which they meet the tiers above and below."""
        above = _marks(f"tier {tier.number} notch", wide, wide / ratio, count) if tier.number > 1 else [()] * count
        below = _marks(f"tier {tier.number + 1} notch", wide, wide, count) if not tier.last else [()] * count
        panels = tuple(_panel(asked, tier, wide / count, *marks) for marks in zip(above, below, strict=True))
        return Quarter(
            half,
            panels,
            waist,
            ratio=tier.wide / asked.round_waist,
            on_fold=on_fold,
            opened=opened,
            name=f"skirt {half}, tier {tier.number}",
            tops=Place.WAIST if tier.number == 1 else Place.TIER,
            bottoms=Place.HEM if tier.last else Place.TIER,
        )

    folds = (False,) if opened else (True, False)
    return fitting(half, asked, drawn, [(n, fold) for n in range(1, _MOST_PANELS + 1) for fold in folds])


_Marks = tuple[tuple[str, float, NotchMark], ...]


def _marks(name: str, wide: float, plain: float, count: int) -> list[_Marks]:
    """The notches that part a quarter of a tier evenly, for each of its panels, mm from the inner edge of that.

    plain: mm of the edge that it is gathered to, or that is gathered to it; no two marks on that lie far apart
    """
    parts = max(2, math.ceil(round(plain, 3) / _MARKED))
    found: list[_Marks] = [()] * count
    for k in range(1, parts):
        on = k * count // parts
        called = name if k == 1 else f"{name} {k}"
        found[on] = (*found[on], (called, wide * (k / parts - on / count), NotchMark.BALANCE))
    return found


def _panel(asked: Asked, tier: _Tier, wide: float, above: _Marks, below: _Marks) -> Panel:
    """A part of a tier; above, below: the notches on its upper and on its lower edge."""
    top, low = Point(0.0, 0.0), Point(0.0, -tier.high)
    far, corner = Point(wide, 0.0), Point(wide, -tier.high)
    lines = []
    hip = asked.depth - tier.begins
    if asked.has_hip and 0.0 < hip <= tier.high:
        lines.append(MarkLine("hip line", Point(0.0, -hip), Point(wide, -hip), level=Level.HIP))
    at = -0.5 * tier.high if not lines or abs(0.5 * tier.high - hip) > _CLEAR else -0.75 * tier.high
    lines.append(MarkLine("lengthen or shorten line", Point(0.0, at), Point(wide, at), level=Level.LENGTHEN))
    grain = Grain(Point(25.0, -0.85 * tier.high), Point(25.0, -0.15 * tier.high))
    return Panel(
        straight(top, far),
        straight(far, corner),
        straight(low, corner),
        straight(top, low),
        grain,
        tuple(lines),
        None if not 0.0 < hip < tier.high - _CLEAR else (hip, hip),
        above,
        below,
    )
