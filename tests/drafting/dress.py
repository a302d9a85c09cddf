"""The example dress as it is drafted, before any step: a real pattern for checks and alterations."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from blocks.from_file.garment_file import read_garment
from blocks.garment import draft, prepare
from drafting.pattern import Pattern

_GARMENT = Path(__file__).parents[2] / "examples" / "garments" / "ferry-dress.toml"


@cache
def dress() -> Pattern:
    garment = read_garment(_GARMENT)
    return draft(garment, prepare(garment))
