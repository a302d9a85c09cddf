"""Whether lines that ran on over a seam or a closed dart still do after a step turned the cloth beside them."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from typing import Final

from drafting.pattern import EdgeRef, Pattern, Piece, corner_at

__all__ = ["corners_lost"]

_TRUE: Final = math.radians(3.0)
"""How far a line may bend where two parts of it meet and still be one line: no curve drawn with a rule shows it."""

_BENT: Final = math.radians(2.5)
"""How far it may come to bend while an edge beside it is kept straight (our figure)."""


def corners_lost(before: Pattern, after: Pattern) -> bool:
    """Whether a line that ran on over the end of a seam, or over a dart, came to bend there, and more than it did."""
    changed = {now.name for now in after.pieces if all(now is not piece for piece in before.pieces)}
    was = dict(_bends(before, changed))
    now = _bends(after, changed)
    return any(abs(was[where]) <= _TRUE and abs(bend) > max(_BENT, abs(was[where])) for where, bend in now)


def _bends(pattern: Pattern, of: Collection[str]) -> Iterator[tuple[tuple[str, str], float]]:
    """By how much the cloth on both sides of a seam's ends, and of a dart's mouth, is more than a straight angle."""
    pieces = {piece.name: piece for piece in pattern.pieces}
    for seam in pattern.seams:
        if not any(ref.piece in of for ref in (*seam.a, *seam.b)):
            continue
        for at, end in ((0, "start"), (-1, "end")):
            both = sum(_at_end(pieces, run[at], at_start=at == 0) for run in (seam.a, seam.b))
            yield (seam.name, end), both - math.pi
    for piece in (piece for piece in pattern.pieces if piece.name in of):
        for dart in piece.darts:
            both = _angle(piece, dart.legs[0], at_start=True) + _angle(piece, dart.legs[1], at_start=False)
            yield (piece.name, dart.name), both - math.pi


def _at_end(pieces: dict[str, Piece], ref: EdgeRef, *, at_start: bool) -> float:
    return _angle(pieces[ref.piece], ref.edge, at_start=at_start != ref.backward)


def _angle(piece: Piece, edge: str, *, at_start: bool) -> float:
    """The angle of cloth in the corner at one end of an edge, radians."""
    at = piece.index(edge)
    return math.pi - corner_at(piece, at if at_start else (at + 1) % len(piece.edges))
