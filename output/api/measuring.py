"""Taking measurements one after another: in which order, and what looks wrong about one that was just taken."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from blocks.block_table import blocks_for
from blocks.garment import Garment, needed
from drafting.body.complete import complete
from drafting.body.earlier import height_slips
from drafting.body.person import person
from drafting.body.plausible import contradictions, doubts
from drafting.body.terms import BASICS, KEYS, BodyKind

__all__ = ["looks_wrong", "measuring_order"]

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
    if set(BASICS) <= taken.keys():
        found = complete(person(taken, body=body, unit=unit))
        at_odds = (each for each in contradictions(found) if key in each.keys)
        told += [each.sentence for each in at_odds if all(one in taken for one in each.keys)]
        told += [each.sentence for each in doubts(found, among=[key]) if each.sentence not in told]
    return tuple(told)
