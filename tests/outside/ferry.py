"""The example dress as a person gets it, its sleeve lengthened."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from blocks.garment import finish
from blocks.garment_file import read_garment
from drafting.pattern import Pattern

_GARMENT = Path(__file__).parents[2] / "examples" / "garments" / "ferry-dress.toml"


@cache
def ferry_dress() -> Pattern:
    return finish(read_garment(_GARMENT, papers=("A4",)))
