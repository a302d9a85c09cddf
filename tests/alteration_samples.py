"""Sensible options of every alteration, small, middle and large, for sweeps over bodies and for chains.

Blending is for dresses drafted from the size chart, and these options for its size 92.
"""

from __future__ import annotations

from collections.abc import Mapping

__all__ = ["SAMPLES"]

SAMPLES: Mapping[str, tuple[dict[str, float], ...]] = {
    "blend": ({"waist": 96}, {"waist": 100, "hip": 84}, {"waist": 84, "hip": 104}),
}
