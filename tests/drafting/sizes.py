"""Dresses of the chart, drafted once: for whatever is done to sizes."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from blocks.from_file.garment_file import read_garment
from blocks.garment import Garment, draft, prepare
from drafting.body.sizes import Sizes, sizes_body
from drafting.pattern import Pattern

_DRESS = Path(__file__).parents[2] / "examples" / "garments" / "ferry-dress.toml"


@cache
def order(*names: str) -> Garment:
    """The order of the example dress without its steps; of these blocks only, where some are named."""
    whole = replace(read_garment(_DRESS), steps=())
    return replace(whole, blocks=tuple(each for each in whole.blocks if not names or each.block.name in names))


@cache
def sized(size: int, *names: str) -> Pattern:
    """The dress in a size of the women's chart, as it is drafted; of these blocks only, where some are named."""
    sizes = Sizes(bust=size)
    garment = replace(order(*names), sizes=sizes, wearer=sizes_body(sizes).person)
    return draft(garment, prepare(garment))
