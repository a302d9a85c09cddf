"""Every figure of geometry that is no tolerance, typed here anew."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

__all__ = ["FIGURES"]

FIGURES: Final[Mapping[str, Mapping[str, tuple[object, str]]]] = {
    "drafting.geometry.allowance": {
        "MITRE_LIMIT": (3.0, "common practice: a longer point frays and is in the way"),
        "_LOOPS": (64, "ours"),
    },
    "drafting.geometry.arclength": {
        "_MOST_REACH": (32.0, "ours"),
    },
    "drafting.geometry.bending": {
        "_LOOKS": (12, "ours"),
        "_CLOSE": (1e-09, "ours"),
        "_PARTS": (12, "ours"),
        "_STEPS": (16, "ours"),
        "_BENT": (math.radians(0.01), "ours"),
    },
    "drafting.geometry.cap": {
        "_FLATTEST": (0.12, "ours"),
        "_OFF_CENTRE": (0.25, "ours"),
        "_DEEPER": (1.05, "from memory"),
    },
    "drafting.geometry.corner": {
        "_NEARLY_THERE": (1.1, "ours"),
        "_FILED_OFF": (3.0, "ours"),
        "_LIKE_A_LINE": (1e-06, "ours"),
    },
    "drafting.geometry.curve": {
        "_FINEST": (1e-07, "ours"),
    },
    "drafting.geometry.dart_mouth": {
        "_NO_FOLD": (1e-06, "ours"),
        "_WIDEST_PEAK": (4.0, "ours"),
    },
    "drafting.geometry.fair": {
        "_HANDLE": ((-1.1075, 0.2897, 0.0318, -0.0584, -0.0607, -0.0338, 0.1094, 0.0474, 0.0023), "ours"),
        "_WIDEST": (math.radians(100.0), "ours"),
        "_SHORTEST": (0.1, "ours"),
        "_NEAR_END": (0.02, "ours"),
        "_HINT": (1e-06, "ours"),
        "_ROOT": (1e-11, "ours"),
    },
    "drafting.geometry.few_chords": {
        "_STEPS": (16, "ours"),
        "_LOOKS": ((0.3, 0.4, 0.5, 0.6, 0.7), "ours"),
    },
    "drafting.geometry.hull": {
        "LEAST_SINE": (1e-06, "ours"),
        "NARROW": (1e-09, "ours"),
    },
    "drafting.geometry.meet": {
        "_MANY": (24, "Bezout"),
        "_MOST": (4096, "ours"),
    },
    "drafting.geometry.offset": {
        "_LEVEL": (0.05, "ours"),
        "_LOOKS": (24, "ours"),
        "_CHECKED": ((0.15, 0.3, 0.5, 0.7, 0.85), "ours"),
        "_HALVINGS": (12, "ours"),
    },
    "drafting.geometry.solve": {
        "_CLOSE": (1e-08, "ours"),
    },
}
"""By module and constant: its value (mm, degrees or a share, as the module says) and who says so."""
