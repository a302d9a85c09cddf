"""How much of a knit's stretch may be used: a little all day, more for the moment in which a garment goes on."""

from __future__ import annotations

from typing import Final

__all__ = ["MOST_STRETCH", "USED_OVER_HEAD", "USED_PUTTING_ON", "USED_WORN"]

MOST_STRETCH: Final = 3.0
"""A fraction of one; no cloth gets four times as long (ours, against slips of the unit)."""

USED_WORN: Final = 1.0 / 3.0
"""The share of its stretch that a knit is held at while it is worn; the rest is in reserve. Common practice, from
memory."""

USED_PUTTING_ON: Final = 0.5
"""The share of its stretch that it is comfortable to force once, to get in. Common practice, from memory."""

USED_OVER_HEAD: Final = 1.0
"""The share that a grown head may take of the stretch of a neck, for the moment in which it passes: all of it, as in a
worked example (a band that rests at 40.7 cm goes over a head of 56 in a knit of 38 %). A child's neck uses half."""
