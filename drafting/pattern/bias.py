"""Strips cut on the bias, at 45 degrees to the grain: how wide, how long, and how much cloth they take.

A strip f mm wide is sewn f inside the edge that it binds. Where that edge turns inward by theta, as a neck or an
armhole does, the line it is sewn on is f theta longer (plane geometry). The strip is cut shorter than that line by half
of that, a twentieth of it at the most (common practice), pulled as it is sewn, and the rest is steamed in. Along one
that turns outward it is as long as that line.
"""

from __future__ import annotations

import math
from typing import Final

__all__ = [
    "BOUND",
    "DOUBLE",
    "FACED",
    "STYLES",
    "bias_cloth",
    "bound_shorter",
    "cut_share",
    "strip_share",
    "strip_width",
]

BOUND, DOUBLE, FACED = "folded", "double", "facing"
STYLES: Final = (BOUND, DOUBLE, FACED)
"""What a bias strip is: a binding folded in four; one of two layers, for thin cloth; turned wholly to the inside."""

_TURNS: Final = {BOUND: 4.0, DOUBLE: 6.0, FACED: 1.0}
"""How many times its finished width a strip is cut (common practice)."""

_USUAL: Final = 0.05  # of the edge by which a strip is cut shorter at the most (common practice, 3 to 7 %)


def bound_shorter(width: float, turning: float) -> float:
    """By how much an edge that turns inward by so many radians is shorter than the line `width` mm inside it, mm."""
    return width * turning


def strip_share(edge: float, width: float, turning: float) -> float:
    """What a strip is cut to, as a share of the edge of so many mm that it binds; turning: radians, inward above 0."""
    line = edge + bound_shorter(width, turning)
    return cut_share(line, width, turning) * line / edge


def cut_share(length: float, width: float, turning: float) -> float:
    """What a strip bound to an edge is cut to, as a share of the line of so many mm that it is sewn on."""
    return 1.0 - min(_USUAL, max(0.0, 0.5 * bound_shorter(width, turning) / length))


def strip_width(style: str, width: float, seam: float, wrap: float) -> float:
    """How wide a strip is cut, mm. width: finished; seam: what is turned in of a facing; wrap: what the folds take."""
    return _TURNS[style] * width + (2.0 * seam if style == FACED else wrap)


def bias_cloth(length: float, width: float) -> tuple[float, float]:
    """The sides of the squares of cloth that a strip is cut from, mm: in one length (its diagonal), and of a square
    sewn to a tube and cut round and round, as large as the strip itself.
    """
    return length / math.sqrt(2.0), math.sqrt(length * width)
