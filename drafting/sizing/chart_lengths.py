"""Where a pattern is too long or too short for a body, and by how much."""

from __future__ import annotations

from typing import Final

from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.reading.units import MM_PER_INCH
from drafting.sizing.garment_kinds import GarmentKind
from drafting.sizing.pattern_chart import BODY_OF, PatternChart

__all__ = ["TOLD_FROM", "LengthChange", "length_changes"]

TOLD_FROM: Final = MM_PER_INCH / 4.0
"""mm. A quarter of an inch is within what two people measure: less is not told."""

_FINISHED: Final = ("sleeve_length", "inside_leg", "shoulder_length", "across_back")
_WAY: Final = {"shoulder_length": "width", "interscye_mid_distance": "width"}


@dataclass(frozen=True, slots=True)
class LengthChange:
    """One length that is not hers.

    key:    the body measurement
    own, has: hers, and the garment's (or that of the body it is drawn for), mm
    by:     how much is to be added, mm; below zero taken out
    finished: whether the chart tells what the garment measures; else what body it is drawn for
    sd:     how far off an estimate of hers may be, mm; None for what was measured
    like:   the size of the chart that a child's own was taken from; "" for what is her own
    """

    key: str
    own: float
    has: float
    by: float
    finished: bool
    sd: float | None
    like: str = ""

    @property
    def across(self) -> bool:
        """Whether it runs across the body: it is made wider or narrower, not longer."""
        return self.key in _WAY


def length_changes(
    chart: PatternChart, body: Body, size: str, kind: GarmentKind, *, length_size: str | None = None
) -> tuple[LengthChange, ...]:
    """The lengths of a size that are not hers, by a quarter of an inch and more.

    length_size: of a child, the size of its height: what was not measured of it is taken from there, not estimated
    """
    found: dict[str, LengthChange] = {}
    for word in _FINISHED:
        made, key = chart.finished_mm(size, word), BODY_OF[word]
        if made is not None and key in body and key in kind.lengths:
            own = body[key]
            found[key] = LengthChange(key, own.mm, made, own.mm - made, True, own.sd_mm)
    for key in kind.lengths:
        drawn = chart.body_mm(size, key)
        if drawn is None or key in found:
            continue
        taller = chart.body_mm(length_size, key) if length_size is not None else None
        if key in body and (body[key].source == "measured" or taller is None):
            found[key] = LengthChange(key, body.mm(key), drawn, body.mm(key) - drawn, False, body[key].sd_mm)
        elif taller is not None:
            found[key] = LengthChange(key, taller, drawn, taller - drawn, False, None, length_size or "")
    return tuple(each for each in found.values() if abs(each.by) >= TOLD_FROM - 0.05 and _sure(each))


def _sure(change: LengthChange) -> bool:
    """Whether an estimate is far enough off the garment to be told: by more than it may itself be wrong."""
    return change.sd is None or abs(change.by) > change.sd
