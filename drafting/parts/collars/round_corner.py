"""A corner of a collar rounded off."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drafting.geometry import Cubic, Curve, cut_run, end_tangents, run_length

__all__ = ["round_corner"]

_ROUND_ARM: Final = 0.552  # the handles of a quarter of a circle, as a share of its radius
_MOST: Final = 0.9  # of the shorter run beside the corner that goes into the round


def round_corner(
    before: Sequence[Curve], after: Sequence[Curve], reach: float, most: float = _MOST
) -> tuple[tuple[Curve, ...], Cubic, tuple[Curve, ...]]:
    """What is left of the two runs that meet in a corner, and the bend between, which begins `reach` mm off it.

    most: the share of the shorter run beside the corner that may go into the bend
    """
    whole = run_length(before)
    reach = min(reach, most * whole, most * run_length(after))
    into, out = cut_run(before, whole - reach)[0], cut_run(after, reach)[1]
    start, end = into[-1].end, out[0].start
    arm = _ROUND_ARM * reach
    along, away = end_tangents(into[-1])[1], end_tangents(out[0])[0]
    return into, Cubic(start, start + along * arm, end - away * arm, end), out
