"""The pleated skirt: knife, box or inverted pleats all round, folded more deeply from the hip up to the waist."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Final

from blocks.handover import Drafted, Order, WaistHalf
from blocks.skirts.making import Asked, asked_of, drafted_of, fitting, pieced
from blocks.skirts.panels import Panel, Quarter, straight
from drafting.alterations.skirt.pleat_plan import (
    PleatPlan,
    deepest,
    folds_for,
    pleat_lines,
    pleat_notches,
    pleat_plan,
    width_of,
)
from drafting.errors import CannotDraft
from drafting.geometry import Point
from drafting.pattern import Grain, Half, Level, MarkLine

__all__ = ["draft_pleated_skirt"]

_MOST_PANELS: Final = 12
_ROUNDING: Final = 1e-6  # mm
_LEAST_SEEN: Final = 8.0  # mm of a pleat that are seen at the waist at the least (ours)


def draft_pleated_skirt(order: Order, *, long: float, pleats: str, wide: float, depth: float | None) -> Drafted:
    """The pleated skirt. Raises CannotDraft, naming the measurements at odds.

    pleats: "knife", "box" or "inverted"; wide: about how much of each is seen at the hip, mm
    depth:  how deep each fold lies, mm; None for as deep as lies flat
    """
    asked = asked_of(order, long)
    hip = max(asked.hip, asked.round_waist)
    halves = ((Half.FRONT, asked.waist.front), (Half.BACK, asked.waist.back))
    hips = {half: hip * waist.length / asked.round_waist for half, waist in halves}
    counts = {half: folds_for(pleats, half, hips[half], wide) for half, _ in halves}
    most = min(deepest(pleats, width_of(pleats, half, hips[half], counts[half])) for half, _ in halves)
    if depth is not None and depth > most + _ROUNDING:
        raise CannotDraft(
            (),
            f"Folds {depth:.0f} mm deep would lap over each other beneath {pleats} pleats so wide: make them "
            f"{most:.1f} mm deep at most, or the pleats wider.",
        )
    deep = most if depth is None else depth
    if min(width_of(pleats, half, waist.length, counts[half]) for half, waist in halves) < _LEAST_SEEN:
        raise CannotDraft(
            ("waist_girth", "hip_girth"),
            f"Less than {_LEAST_SEEN:.0f} mm of each pleat would be seen at the waist: take wider ones.",
        )
    quarters = [
        _quarter(
            asked,
            half,
            waist,
            pleat_plan(pleats, half, counts[half], deep, hip=hips[half], waist=waist.length),
        )
        for half, waist in halves
    ]
    given = {"hip": hip - order.body.mm("hip_girth")} if asked.has_hip else {}
    return drafted_of(
        order,
        asked,
        [(quarters[0], quarters[1])],
        options=(("length", long), ("pleats", pleats), ("wide", wide), ("depth", depth)),
        given=given,
        gave_way=tuple(pieced(quarters, asked)),
    )


def _quarter(asked: Asked, half: Half, waist: WaistHalf, plan: PleatPlan) -> Quarter:
    """A quarter, in as many parts as the cloth asks for, each seam hidden in a pleat."""
    opened = asked.opened if half is Half.BACK else 0.0

    def drawn(count: int, on_fold: bool) -> Quarter:
        goals = [plan.wide * k / count for k in range(1, count)]
        cuts = sorted({min(plan.hidden, key=lambda x: abs(x - goal)) for goal in goals}) if plan.hidden else []
        ends = [0.0, *cuts, plan.wide]
        panels = tuple(_panel(asked, plan, low, high) for low, high in pairwise(ends))
        folded = Quarter(half, panels, waist, on_fold=on_fold, opened=opened, pleated=True)
        return replace(folded, ratio=1.0 / plan.at_waist, shown=plan.shown)

    return fitting(half, asked, drawn, [(n, half is Half.FRONT) for n in range(1, _MOST_PANELS + 1)])


def _panel(asked: Asked, plan: PleatPlan, low: float, high: float) -> Panel:
    """The panel of a pleated skirt from `low` to `high` across the half, mm, with its pleats marked."""
    wide, long = high - low, asked.long
    top, bottom = Point(0.0, 0.0), Point(0.0, -long)
    far, corner = Point(wide, 0.0), Point(wide, -long)
    lines = []
    if asked.has_hip:
        lines.append(MarkLine("hip line", Point(0.0, -asked.depth), Point(wide, -asked.depth), level=Level.HIP))
    middle = -0.5 * (asked.depth + long) if asked.has_hip else -0.5 * long
    lines.append(MarkLine("lengthen or shorten line", Point(0.0, middle), Point(wide, middle), level=Level.LENGTHEN))
    pleats = pleat_lines(plan, low, high, hip=asked.depth if asked.has_hip else 0.0, long=long)
    above, below = pleat_notches(pleats, wide)
    lines += pleats
    grain = Grain(Point(12.0, -0.85 * long), Point(12.0, -0.45 * long))
    return Panel(
        straight(top, far),
        straight(far, corner),
        straight(bottom, corner),
        straight(top, bottom),
        grain,
        tuple(lines),
        (asked.depth, asked.depth) if asked.has_hip else None,
        above,
        below,
    )
