"""Whether two garments are drafted alike before any step is taken."""

from __future__ import annotations

import math
from dataclasses import replace

from blocks.garment import Garment
from blocks.paper import Paper
from blocks.parts_of_blocks import options_for_steps, parts_with_room

__all__ = ["begin_alike", "ordered_alike"]


def begin_alike(one: Garment, other: Garment) -> bool:
    """Whether two garments that differ in nothing but their steps are the same before any step is taken.

    A step may ask for an option of a block, give the room that a part asked for, or hold a hem narrow.
    """
    return _asked_by_steps(one) == _asked_by_steps(other)


def ordered_alike(one: Garment, other: Garment) -> bool:
    """Whether two garments differ in nothing that a piece is drawn by but in their steps."""
    return _before_steps(one) == _before_steps(other)


def _before_steps(garment: Garment) -> Garment:
    """What is ordered before any step, and without what no piece is drawn by."""
    paper = replace(garment.paper, size=Paper().size, roll=None)
    return replace(garment, steps=(), sources=(), order="by layer", date=None, paper=paper)


def _asked_by_steps(garment: Garment) -> tuple[object, ...]:
    """What the steps ask of the draft: options of each block, parts that need no room, how deep a hem may be, mm."""
    options = [options_for_steps(each.block.options, each.options, garment.steps) for each in garment.blocks]
    deepest = min((step.deepest_hem for step in garment.steps), default=math.inf)
    return options, parts_with_room(garment.parts, garment.steps), deepest
