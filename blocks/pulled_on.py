"""A skirt or trousers with elastic at the waist: straight up from the hip, without darts, wide enough to be pulled on.

The usual way (common practice): the waist is as wide as the hip, and 2 cm wider than the body there at the least.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from blocks.block import Block
from blocks.handover import PASSES, Drafted
from drafting.body.complete import Body
from drafting.parts.part_table import find_part
from drafting.pattern import Derived

__all__ = ["as_pulled_on", "ease_to_pull_on", "is_pulled_on"]

_ELASTIC: Final = "waist elastic"


def is_pulled_on(block: Block, parts: Sequence[Derived]) -> bool:
    """Whether elastic was ordered for the waist that this block has."""
    return any(part.part == _ELASTIC for part in parts) and find_part(_ELASTIC).fits(block.sites)


def ease_to_pull_on(body: Body, ease: Mapping[str, float]) -> dict[str, float]:
    """The ease by place, mm, that at the waist so large that it is as wide as the hip."""
    hip = body.mm("hip_girth") + max(ease["hip"], PASSES)
    return {**ease, "waist": max(ease["waist"], hip - body.mm("waist_girth"))}


def as_pulled_on(drafted: Drafted) -> Drafted:
    """What a block gave, without the ease at its waist among what is compared with what was asked for."""
    return replace(drafted, given={place: mm for place, mm in drafted.given.items() if place != "waist"})
