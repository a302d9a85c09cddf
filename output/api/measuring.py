"""Taking measurements one after another: in which order, and what looks wrong about one that was just taken."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from blocks.block_table import blocks_for
from blocks.garment import Garment, needed
from drafting.body.charts import chart_length, chart_named
from drafting.body.complete import complete
from drafting.body.earlier import height_slips
from drafting.body.person import person
from drafting.body.plausible import contradictions, doubts
from drafting.body.terms import BASICS, KEYS, BodyKind, measurement_for
from drafting.reading.units import length_text

__all__ = ["looks_wrong", "measuring_order", "unlike_children"]

_A_YEAR: Final = 366
_CHANGED: Final = 0.15
"""Within so many days no girth changes by a larger share without one's knowing (our figures)."""

_FAR_BELOW: Final = 3.3
_FAR_ABOVE: Final = 5.0
"""Standard deviations from the chart of a child's height: children today are rounder than those it was made of, so that
more is taken above it (our figures)."""

_ORDER: Final = (
    # against the wall, then a string round the waist, which stays until the end
    "stature", "waist_girth", "hip_girth", "waist_to_hip",
    # she faces you
    "bust_girth", "upper_chest_girth", "under_bust_girth", "head_girth", "neck_base_girth", "shoulder_length",
    "neck_to_bust_point", "bust_point_breadth", "front_waist_length_from_neck_pit",
    # her arm
    "scye_girth", "upper_arm_girth", "elbow_girth", "wrist_girth", "arm_length", "shoulder_to_elbow",
    # she turns round, once
    "biacromial_breadth", "interscye_mid_distance", "interscye_distance", "back_waist_length", "scye_depth",
    # her legs
    "crotch_length", "thigh_girth", "knee_girth", "calf_girth", "ankle_girth",
    # with the book against the wall again, from above to below
    "cervicale_height", "neck_side_height", "shoulder_height", "shoulder_drop", "neck_pit_height", "axilla_height",
    "bust_height", "waist_height", "hip_height", "crotch_height", "knee_height",
)  # fmt: skip
"""What is taken after what, so that she turns round once (ours)."""


def measuring_order(body: BodyKind, garments: Iterable[Garment] = (), *, every: bool = False) -> tuple[str, ...]:
    """The measurements to take, by key, in an order that saves turning round; the four basics are always among them.

    garments: those that it is measured for; without any, all blocks that are drawn for such a body
    every:    whether to take all there are, not those alone that something is drawn from
    """
    wanted = set(BASICS)
    for garment in garments:
        wanted |= set(needed(garment))
    if not garments:
        wanted |= {key for block in blocks_for(body) for key in block.needs}
    order = [*_ORDER, *(key for key in KEYS if key not in _ORDER)]
    return tuple(key for key in order if every or key in wanted)


def looks_wrong(
    key: str,
    taken: Mapping[str, float],
    body: BodyKind,
    unit: str,
    before: Sequence[tuple[datetime.date, float]] = (),
    today: datetime.date | None = None,
) -> tuple[str, ...]:
    """What looks wrong about the length of that key, in sentences; nothing where it can be right.

    taken:  all lengths there are, mm by key; unit: what the sentences speak in
    before: what the same length was on earlier days, oldest first; today: the day of this one
    """
    told = []
    if key == "stature" and today is not None:
        told += [each.sentence for each in height_slips((*before[-1:], (today, taken[key])), body, unit)]
    others = (_unlike_last(key, taken[key], body, unit, before, today), unlike_children(key, taken, body, unit))
    told += [sentence for sentence in others if sentence]
    if set(BASICS) <= taken.keys():
        found = complete(person(taken, body=body, unit=unit))
        at_odds = (each for each in contradictions(found) if key in each.keys)
        told += [each.sentence for each in at_odds if all(one in taken for one in each.keys)]
        told += [each.sentence for each in doubts(found, among=[key]) if each.sentence not in told]
    return tuple(told)


def _unlike_last(
    key: str,
    mm: float,
    body: BodyKind,
    unit: str,
    before: Sequence[tuple[datetime.date, float]],
    today: datetime.date | None,
) -> str:
    """That a girth is far from what it was on the last day, less than a year ago; "" where it is not."""
    about = measurement_for(key, body)
    if not before or today is None or about.kind != "girth":
        return ""
    day, last = before[-1]
    if (today - day).days > _A_YEAR or abs(mm - last) <= _CHANGED * last:
        return ""
    return f"{about.name}: {length_text(last, unit)} on {day.isoformat()}, and {length_text(mm, unit)} now: is it so?"


def unlike_children(key: str, taken: Mapping[str, float], body: BodyKind, unit: str) -> str:
    """That a child's girth is far from those of children of that height; "" where it is not, and for a woman."""
    if body == "woman" or key not in BASICS or key == "stature" or "stature" not in taken:
        return ""
    chart = chart_named(f"{body}s")
    size = min(chart.sizes, key=lambda each: abs(each - taken["stature"] / 10.0))
    usual = chart_length(size, key, chart=chart.name)
    off = (taken[key] - usual.mm) / (usual.sd_mm or 1.0)
    if -_FAR_BELOW <= off <= _FAR_ABOVE:
        return ""
    what, height = measurement_for(key, body).name, length_text(size * 10.0, unit)
    have = f"{length_text(usual.mm, unit)}, give or take {length_text(3.0 * (usual.sd_mm or 0.0), unit)}"
    return f"{what}: {length_text(taken[key], unit)}; {body}s of about {height} have {have}. Is it so?"
