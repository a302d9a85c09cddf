"""What is other about a child's body when it is drawn: a large round head, next to no neck, plain short hair.

How many heads tall a child is goes by height: four as a baby, five at four years, over seven when grown (common
practice of those who draw; the heights between are ours).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from typing import Final

__all__ = ["DRAWN_TALL", "FACE", "HAIR", "head_and_levels", "is_baby"]

DRAWN_TALL: Final = 165.0
"""cm that a child is drawn tall, whatever the height: the hands, feet and soft lines of a drawing grow with it."""

_HEADS_TALL: Final = ((50.0, 4.0), (75.0, 4.15), (102.0, 5.0), (116.0, 5.6), (140.0, 6.5), (165.0, 7.3))
"""Height in cm, and how many heads make it."""

_BREADTHS_IN_GIRTH: Final = 3.5
"""How often a head's breadth goes into its girth: as of an oval four fifths as broad as long (ours)."""

_BABY: Final = 82.0
"""cm of height under which a child is drawn with a baby's hair: about a year and a half."""

XY = tuple[float, float]

FACE: Final[tuple[XY, ...]] = (
    (0.0, 0.0), (0.58, 0.05), (0.94, 0.24), (1.0, 0.5), (0.92, 0.74), (0.6, 0.93), (0.26, 0.99), (0.0, 1.0)
)  # fmt: skip
"""The right half of a round face, in half breadths outward and heights down."""

HAIR: Final[Mapping[str, Mapping[str, tuple[XY, ...]]]] = {
    "girl": {
        "front": (
            (0.0, -0.04), (0.62, 0.0), (1.06, 0.24), (1.12, 0.55), (1.06, 0.8), (0.9, 0.8), (0.93, 0.5), (0.8, 0.3),
            (0.4, 0.24), (0.0, 0.25),
        ),
        "back": ((0.0, -0.04), (0.62, 0.0), (1.06, 0.24), (1.12, 0.55), (1.05, 0.82), (0.5, 0.86), (0.0, 0.86)),
    },
    "boy": {
        "front": (
            (0.0, -0.03), (0.6, 0.01), (1.02, 0.22), (1.05, 0.44), (0.96, 0.46), (0.86, 0.28), (0.45, 0.19),
            (0.0, 0.21),
        ),
        "back": ((0.0, -0.03), (0.6, 0.01), (1.02, 0.22), (1.03, 0.5), (0.84, 0.7), (0.4, 0.76), (0.0, 0.77)),
    },
    "baby": {
        "front": ((0.0, -0.015), (0.3, -0.005), (0.52, 0.06), (0.3, 0.09), (0.0, 0.14)),
        "back": ((0.0, -0.02), (0.56, 0.03), (0.96, 0.24), (1.0, 0.5), (0.55, 0.64), (0.0, 0.66)),
    },
}  # fmt: skip
"""The right half of the hair of a girl, a boy and a baby, from before and from behind; in the same shares."""


def is_baby(height: float) -> bool:
    """Whether a child of that height, cm, is drawn as a baby."""
    return height < _BABY


def head_and_levels(height: float, head_girth: float | None, y: Mapping[str, float]) -> tuple[XY, dict[str, float]]:
    """How broad (half) and how tall a child's head is, and the levels of neck, shoulder and bust under it.

    All as shares of the height but `height` and `head_girth`, which are cm. y: the levels before
    """
    tall = 1.0 / _heads_tall(height)
    wide = 0.36 * tall if head_girth is None else 0.5 * head_girth / _BREADTHS_IN_GIRTH / height
    wide = min(max(wide, 0.31 * tall), 0.43 * tall)
    pit = max(y["pit"], tall + 0.02 + 0.02 * min(1.0, max(0.0, (height - 75.0) / 65.0)))
    levels = {"pit": pit, "side neck": pit - 0.03, "nape": pit - 0.04, "shoulder": pit - 0.012}
    levels["armpit"] = max(y["armpit"], levels["shoulder"] + 0.06)
    levels["bust"] = max(levels["armpit"] + 0.02, 0.62 * levels["armpit"] + 0.38 * y["waist"])
    return (wide, tall), {**y, **levels}


def _heads_tall(height: float) -> float:
    heights = [each for each, _ in _HEADS_TALL]
    place = min(max(bisect_left(heights, height), 1), len(heights) - 1)
    (low, few), (high, many) = _HEADS_TALL[place - 1 : place + 1]
    return few + (many - few) * min(1.0, max(0.0, (height - low) / (high - low)))
