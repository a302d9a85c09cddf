"""The example dress as a person gets it, its sleeve lengthened."""

from __future__ import annotations

from drafting.pattern import Pattern
from tests.examples import example_pattern


def ferry_dress() -> Pattern:
    return example_pattern("ferry-dress")
