"""The circle skirt: waist and hem are arcs about one point, a whole circle of cloth or a part of it.

Of a waist W and a part of a circle of angle a the radius is r = W / a; so deep below the waist it is W + a * depth
round (plane geometry). It goes over the hip where that is enough: a >= (hip with its ease - W) / depth to the hip.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from blocks.handover import Drafted, Order, WaistHalf
from blocks.skirts.making import Asked, asked_of, drafted_of, fitting, pieced
from blocks.skirts.panels import Panel, Quarter, Run, straight
from drafting.errors import CannotDraft
from drafting.geometry import Point, arc
from drafting.pattern import Grain, Half, Level, MarkLine

__all__ = ["CIRCLES", "draft_circle_skirt", "girth_at", "least_angle"]

CIRCLES: Final[Mapping[str, float]] = MappingProxyType(
    {
        "full": 2.0 * math.pi,
        "three quarters": 1.5 * math.pi,
        "half": math.pi,
        "third": 2.0 * math.pi / 3.0,
        "quarter": 0.5 * math.pi,
    }
)
"""How much of a circle a skirt may be, radians."""

_MOST_PANELS: Final = 8  # in a quarter


def girth_at(waist: float, angle: float, down: float) -> float:
    """How far round a circle skirt is so far below its waist, mm."""
    return waist + angle * down


def least_angle(waist: float, hip: float, depth: float) -> float:
    """The least part of a circle that goes round the hip, radians; hip: with its ease; depth: how far down it is."""
    return max(0.0, (hip - waist) / depth)


def draft_circle_skirt(order: Order, *, long: float, circle: str) -> Drafted:
    """The circle skirt. Raises CannotDraft where it would not go over the hip, with the part of a circle that does."""
    asked, angle = asked_of(order, long), CIRCLES[circle]
    least = least_angle(asked.round_waist, asked.hip, asked.depth)
    if asked.has_hip and angle < least:
        raise CannotDraft(("waist_girth", "hip_girth", "waist_to_hip"), _too_narrow(asked, angle, least))
    radius = asked.round_waist / angle

    def quarter(half: Half, waist: WaistHalf, opened: float) -> Quarter:
        def drawn(count: int, on_fold: bool) -> Quarter:
            part = waist.length / radius / count
            panels = tuple(_sector(asked, radius, part, first=k == 0) for k in range(count))
            return Quarter(half, panels, waist, on_fold=on_fold, opened=opened)

        folds = (True, False) if not opened else (False,)
        return fitting(half, asked, drawn, [(n, fold) for n in range(1, _MOST_PANELS + 1) for fold in folds])

    quarters = (quarter(Half.FRONT, asked.waist.front, 0.0), quarter(Half.BACK, asked.waist.back, asked.opened))
    return drafted_of(
        order,
        asked,
        [quarters],
        options=(("length", long), ("circle", circle)),
        gave_way=tuple(pieced(quarters, asked)),
        bends=radius + long,
    )


def _sector(asked: Asked, radius: float, angle: float, *, first: bool) -> Panel:
    """A part of the ring; the one at the centre has its inner edge upright, another one its middle."""
    centre = Point(0.0, radius)
    begins = -0.5 * math.pi - (0.0 if first else 0.5 * angle)

    def along(down: float) -> Run:
        # in halves, so that a quarter of a circle strays from its radius by 4 parts in a million only
        halves = (arc(centre, radius + down, begins + k * 0.5 * angle, 0.5 * angle) for k in (0, 1))
        return tuple(curve for half in halves for curve in half)

    lines = []
    if asked.has_hip:
        curves = along(asked.depth)
        lines.append(MarkLine("hip line", curves[0].start, curves[-1].end, curves, Level.HIP))
    middle = 0.5 * (asked.depth + asked.long) if asked.has_hip else 0.5 * asked.long
    curves = along(middle)
    lines.append(MarkLine("lengthen or shorten line", curves[0].start, curves[-1].end, curves, Level.LENGTHEN))
    top, bottom = along(0.0), along(asked.long)
    # the grain line: along the fold or seam of the centre, or in the middle
    side = 25.0 if first else 0.0
    grain = Grain(Point(side, -0.85 * asked.long), Point(side, -0.45 * asked.long))
    return Panel(
        top,
        straight(top[-1].end, bottom[-1].end),
        bottom,
        straight(top[0].start, bottom[0].start),
        grain,
        tuple(lines),
        (asked.depth, asked.depth) if asked.has_hip else None,
    )


def _too_narrow(asked: Asked, angle: float, least: float) -> str:
    """What is too narrow, and the next part of a circle that is wide enough."""
    wide = girth_at(asked.round_waist, angle, asked.depth)
    enough = [name for name, each in sorted(CIRCLES.items(), key=lambda item: item[1]) if each >= least]
    mend = f'take circle = "{enough[0]}"' if enough else "give the waist more ease"
    return (
        f"At the hip, {asked.depth:.0f} mm below the waist, the skirt would be {wide:.0f} mm round, and "
        f"{asked.hip:.0f} mm is wanted there: {mend}."
    )
