"""The example garments as a person gets them, each drafted once in a process for all the tests that look at it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from drafting.pattern import Pattern
from output.api import Draft, draft, read_garment

__all__ = ["GARMENTS", "NAMES", "example", "example_pattern"]

GARMENTS = sorted((Path(__file__).parents[1] / "examples" / "garments").glob("*.toml"))
NAMES = [path.stem for path in GARMENTS]


@cache
def example(name: str) -> Draft:
    """An example by the name of its file."""
    return draft(read_garment(next(path for path in GARMENTS if path.stem == name)))


def example_pattern(name: str) -> Pattern:
    """Its pattern, with all of its steps."""
    return example(name).pattern
