"""In which order the steps of a garment are taken, whatever order they are written in.

The table of alterations has the order in which no step makes a later one impossible: layer by layer, and within a layer
a step that moves a place comes before a step that measures there. Steps of the same alteration keep the order of the
file. There are three exceptions:

- a step that names a piece waits for the step that makes the piece;
- a step may say that it comes after another: a zip in a side seam, after the kimono that draws this seam again;
- a step may say that it comes before another: a hem to be levelled, before the wrap that would leave no place for it.

Nothing is tried and no pattern is looked at, so the same steps are always taken in the same order.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from drafting.alterations.alteration import Alteration
from drafting.alterations.alteration_table import AlterationTable

__all__ = ["order_of_steps", "waits_for"]


def order_of_steps(steps: Sequence[Alteration], table: AlterationTable) -> tuple[int, ...]:
    """The places of the steps in the order in which they are to be taken, from 0.

    Where two steps wait for each other the one that the table has first is taken first.
    """
    rank = {name: number for number, name in enumerate(table.names)}

    def turn(place: int) -> tuple[float, int]:
        before = (rank[other.name] - 0.5 for other in steps if steps[place].comes_before(other))
        return min(rank[steps[place].name], *before, math.inf), place

    left = sorted(range(len(steps)), key=turn)
    order: list[int] = []
    while left:
        ready = (place for place in left if not any(_waits(steps[place], steps[other]) for other in left))
        order.append(next(ready, left[0]))
        left.remove(order[-1])
    return tuple(order)


def waits_for(steps: Sequence[Alteration], place: int) -> tuple[int, ...]:
    """The places of the steps that make a piece which this one names, and of those that it comes after."""
    return tuple(other for other, step in enumerate(steps) if _waits(steps[place], step))


def _waits(step: Alteration, other: Alteration) -> bool:
    """Whether a step says that it comes after another one, or names a piece which that makes and it does not itself."""
    named = (other.makes(name) and not step.makes(name) for name in _pieces_named(step))
    return step is not other and (step.comes_after(other) or any(named))


def _pieces_named(step: Alteration) -> tuple[str, ...]:
    return tuple(name for option in ("piece", "only") if (name := getattr(step, option, "")))
