"""Which length, if it were measured, would change a garment most: found by drafting the garment again for each."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from typing import Final

from blocks.garment import Garment, Prepared, draft, needed, prepare
from drafting.body.complete import uncertain_first
from drafting.body.person import Person
from drafting.body.terms import measurement
from drafting.dataclass import dataclass
from drafting.errors import TrueseamError
from drafting.geometry import Point
from drafting.pattern import Pattern, Piece, finished

__all__ = ["Worth", "worth_measuring"]

_FELT: Final = 0.05
"""mm: less is a matter of rounding, not of the pattern."""


@dataclass(frozen=True, slots=True)
class Worth:
    """What measuring one estimated length would do for a garment.

    key, mm:  the length, and its estimate; sd_mm: how far off that may be (one standard deviation)
    moved_mm: how far the pattern moves when the length is that much more: the largest change of a finished measurement,
              or of the way between two places of one piece
    where:    what moves so far: a piece, or a finished measurement
    """

    key: str
    mm: float
    sd_mm: float
    moved_mm: float
    where: str


def worth_measuring(garment: Garment, prepared: Prepared | None = None) -> tuple[Worth, ...]:
    """The estimated lengths that the garment is drawn from, the one that moves it most first.

    Each is taken to be measured one standard deviation above its estimate (below, where no body has it above); lengths
    that go with it follow, as they do when it is measured. The pattern is compared before its steps. None for a garment
    made in sizes of a chart. Raises as `prepare` and `draft` do.

    prepared: what `prepare` gave for the garment, where it is there already
    """
    if garment.sizes is not None:
        return ()
    prepared = prepared or prepare(garment)
    base = draft(garment, prepared)
    found = []
    for estimated in uncertain_first(prepared.body, needed(garment)):
        spread = estimated.sd_mm or 0.0
        other = _drafted_with(garment, estimated.key, estimated.mm, spread)
        moved, where = _moved(base, other) if other else (0.0, "")
        found.append(Worth(estimated.key, estimated.mm, spread, moved, where))
    return tuple(sorted(found, key=lambda each: (-each.moved_mm, each.key)))


def _drafted_with(garment: Garment, key: str, mm: float, spread: float) -> Pattern | None:
    """The garment for a wearer of whom this length was measured as well; None where no such body can be drafted."""
    low, high = measurement(key).limits(garment.wearer.body)
    for length in (mm + spread, mm - spread):
        if low <= length <= high:
            changed = replace(garment, wearer=_measured_as(garment.wearer, key, length), steps=(), sources=())
            try:
                return draft(changed, prepare(changed))
            except TrueseamError:
                continue
    return None


def _measured_as(wearer: Person, key: str, mm: float) -> Person:
    return replace(wearer, measurements=(*wearer.measurements, (key, mm)))


def _moved(before: Pattern, after: Pattern) -> tuple[float, str]:
    """The largest change, mm, and what changes so."""
    there = {piece.name: piece for piece in after.pieces}
    changes = [(_change(piece, there[piece.name]), piece.name) for piece in before.pieces if piece.name in there]
    sizes = {each.name: each.finished for each in finished(after)}
    changes += [
        (abs(sizes[each.name] - each.finished), f"finished {each.name}")
        for each in finished(before)
        if each.name in sizes
    ]
    most, where = max(changes, default=(0.0, ""))
    return (most, where) if most >= _FELT else (0.0, "")


def _change(before: Piece, after: Piece) -> float:
    """How much the way between any two places of a piece has changed at most, mm; wherever it lies on the paper."""
    there = dict(_places(after))
    pairs = [(at, there[name]) for name, at in _places(before) if name in there]
    return max(
        (
            abs(math.hypot(a.x - b.x, a.y - b.y) - math.hypot(c.x - d.x, c.y - d.y))
            for (a, c), (b, d) in combinations(pairs, 2)
        ),
        default=0.0,
    )


def _places(piece: Piece) -> Iterator[tuple[tuple[str, int], Point]]:
    """Where the curves of each edge begin, by its name: what is only marked inside is not sewn."""
    for edge in piece.edges:
        for count, curve in enumerate(edge.curves):
            yield (edge.name, count), curve.start
