"""The ease declared for a seam: how much longer its first side is than its second, and in what range that will sew."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Pattern, SeamEase

__all__ = ["ease_that_sews", "gathered_ease", "with_ease"]

_GIVE: Final = 0.1  # of what is gathered in: the thread is drawn up to what the other side is (our figure)


def with_ease(pattern: Pattern, seam: str, ease: SeamEase) -> Pattern:
    """The pattern with another ease declared for one of its seams."""
    seams = (replace(each, ease=ease) if each.name == seam else each for each in pattern.seams)
    return replace(pattern, seams=tuple(seams))


def gathered_ease(more: float) -> SeamEase:
    """The ease of a seam whose first side is gathered into the second, being so much longer, mm.

    Gathers are drawn up to fit, so a tenth more or less will sew (our figure).
    """
    return SeamEase(more, (1.0 - _GIVE) * more, (1.0 + _GIVE) * more)


def ease_that_sews(ease: SeamEase, more: float) -> SeamEase | None:
    """The ease of a seam after one side became longer by so much, mm; None where that cannot be sewn.

    What was gathered is gathered more or less; what was eased in has to stay within its range.
    """
    if ease.low - SAME_PLACE <= more <= ease.high + SAME_PLACE:
        return replace(ease, wanted=min(max(more, ease.low), ease.high))
    return gathered_ease(more) if min(ease.low, more) > 0.0 else None
