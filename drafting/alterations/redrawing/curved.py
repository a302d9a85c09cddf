"""Level lines that a fan of cloth has curved: a tape round the body lies along the arc, not along its chord.

Slashed from the hem and spread, the cloth beside each slash is turned a little further than before it. What was level
then lies in an arc that leaves the centre line square and has turned, at the side, by as much as the side. The marked
line is its chord, and slants by half of that: with t for the turn, the arc is (t / 2) / sin(t / 2) times as long (plane
geometry).
"""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import replace
from typing import Final

from drafting.pattern import Across, Curved, Measure, Pattern, Piece, Tape, across

__all__ = ["curved_levels"]

_LEAST: Final = 1e-3
"""mm by which an arc must be longer than its chord to be told."""


def curved_levels(pattern: Pattern, pieces: Collection[str]) -> Pattern:
    """The pattern with the tape of every measurement across these pieces, which were fanned, laid along the arc."""
    fanned = {name: pattern.piece(name) for name in pieces}
    return replace(pattern, measures=tuple(_laid_anew(measure, fanned) for measure in pattern.measures))


def _laid_anew(measure: Measure, fanned: dict[str, Piece]) -> Measure:
    tape: list[Tape] = []
    for part in measure.tape:
        piece = fanned.get(part.piece)
        if piece is None or not isinstance(part, Across | Curved):
            tape.append(part)
        elif isinstance(part, Across):
            longer = _longer(piece, part.line)
            tape += [part, Curved(part.piece, part.line, longer, part.times)] if longer > _LEAST else [part]
    return replace(measure, tape=tuple(tape))


def _longer(piece: Piece, line: str) -> float:
    """How much longer the arc is than the line that is its chord, mm; the grain shows what was level."""
    if piece.grain is None:
        return 0.0
    mark, grain = piece.line(line), piece.grain.end - piece.grain.start
    slant = math.asin(abs((mark.end - mark.start).unit().dot(grain.unit())))
    return across(piece, line) * (slant / math.sin(slant) - 1.0) if slant else 0.0
