"""The band of a knit neck, folded, shorter than the neck so that it lies flat."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import end_tangents
from drafting.parts.bands.band_edge import Stretch, StripBand, on_side, turning
from drafting.parts.bands.band_notches import quarter_marks
from drafting.parts.bands.knit_stretch import accept_knit, share_it_gives
from drafting.parts.bands.strip import drawn_strip
from drafting.parts.collars.neck_line import NeckLine, NeckPart, neck_line
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.neck_facing import centre_marks
from drafting.parts.what_helps import other_part
from drafting.pattern import BodyPart, Derived, Pattern, Role, free_piece_name
from drafting.pattern.neck_band import BAND_WIDTH, NECK_BAND, band_of_block

__all__ = ["draw_neck_band"]

_LEAST: Final = 0.5  # of an edge; no strip is cut shorter (ours, against slips)
_POINTED: Final = math.radians(75.0)  # from the centre line upward, below which a neck comes to a point there (ours)
_MITRE: Final = 0.45  # of a band's half, the most that its slanting end takes (ours)


def draw_neck_band(pattern: Pattern, derived: Derived) -> Drawn:
    """The band of a neck; width: when it is finished, mm. Raises NotAPattern where there is no neck for it."""
    accept_knit(pattern, NECK_BAND)
    line = neck_line(pattern, NECK_BAND)
    usual = band_of_block(pattern)
    width = derived.length_or("width", usual.width if usual else BAND_WIDTH)
    if line.length_beyond():
        raise NotAPattern(NECK_BAND, reason="a button stand ends in the neck: take a collar or a neck facing there")
    slant = _slant(line, width)
    if slant > 0.0 and line.front.role is Role.OPENING:
        raise NotAPattern(
            NECK_BAND,
            reason="the V runs into the open front: one band goes round both",
            remedies=(other_part("front band"),),
        )
    half = _half_neck(
        line, width, derived.length_or("share", 0.0), share_it_gives(pattern, derived, usual), pointed=slant > 0.0
    )
    round_it = [on_side("right", each.turned_round()) for each in reversed(half)]
    over = [on_side("left", each) for each in half]
    from_front = slant > 0.0 or line.front.role is Role.OPENING
    stretches = (*over, *round_it) if from_front else (*round_it, *over)
    if slant > _MITRE * sum(each.rest for each in half):
        raise NotAPattern(NECK_BAND, reason=f"the V is too narrow for a band {width:.0f} mm wide")
    band = StripBand(free_piece_name(pattern, NECK_BAND), tuple(stretches), width, BodyPart.BODICE, slant=slant)
    marks = [*centre_marks(pattern, derived), *quarter_marks(pattern, half)]
    return drawn_strip(pattern, band, marks, from_front=from_front)


def _half_neck(line: NeckLine, width: float, share: float, least: float, *, pointed: bool) -> list[Stretch]:
    """From the centre front to the centre back, drawn in evenly to the share, or by what the neck turns, so far as its
    knit gives: to `least` of the edge.

    The side of a V hardly turns and is drawn in by its own turning alone; what lies behind it is drawn in evenly.
    """
    parts = line.to_centre
    apart = 1 if pointed and len(parts) > 1 else 0
    rest = [*(share or max(least, _flat(width, [part])) for part in parts[:apart])]
    rest += [share or max(least, _flat(width, parts[apart:]))] * len(parts[apart:])
    shortest, part = min(zip(rest, parts, strict=True), key=lambda each: each[0])
    if shortest < _LEAST:
        raise NotAPattern(
            NECK_BAND, reason=f"it is too wide for the {part.name}, {part.length:.0f} mm long: make it narrower"
        )
    return [
        Stretch(part.name, tuple(each.ref for each in part.edges), part.length, of * part.length)
        for of, part in zip(rest, parts, strict=True)
    ]


def _flat(width: float, parts: Sequence[NeckPart]) -> float:
    """The share of an edge at which a band so wide lies flat on it."""
    return 1.0 - width * sum(turning(part.edges) for part in parts) / sum(part.length for part in parts)


def _slant(line: NeckLine, width: float) -> float:
    """How much shorter the folded edge of the band is at each end of it, where the neck comes to a point in front."""
    first = line.to_centre[0].edges[0].edge.curves[0]
    near, far = line.front.start, line.front.end
    up = (near - far) if (first.start - near).norm() < (first.start - far).norm() else (far - near)
    off = abs(up.angle_to(end_tangents(first)[0]))
    return width / math.tan(off) if off < _POINTED else 0.0
