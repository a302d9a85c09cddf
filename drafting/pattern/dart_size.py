"""How wide a dart may be to be sewn as one: the figures by which blocks divide darts and checks warn of them."""

from __future__ import annotations

import math
from typing import Final

__all__ = ["STEEPEST_DART", "WIDEST_WAIST_DART", "widest_waist_dart"]

WIDEST_WAIST_DART: Final = 40.0
"""mm across the mouth up to which a waist dart is sewn as one: that a wider one is divided is common practice (a school
text of 1898 has a second dart in each front from 7 inches between bust and waist); the figure is ours."""

STEEPEST_DART: Final = math.radians(30.0)
"""The angle up to which any dart is sewn as one: a wider one ends in a peak (common practice; the figure is ours)."""


def widest_waist_dart(leg: float) -> float:
    """How wide a waist dart with legs `leg` mm long may be, mm."""
    return min(WIDEST_WAIST_DART, 2.0 * leg * math.sin(0.5 * STEEPEST_DART))
