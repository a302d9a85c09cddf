"""Pleats on a piece: what of an edge is folded away, read off the lines that mark them.

A pleat is marked by two lines, the one it is folded at and the one to which that fold is brought. Where a seam lies
inside a pleat, each piece has one of the two and a line along the seam in the place of the other. So the lines along an
edge, taken two by two, bound what is folded away, whatever they are called.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import run_hits, run_length
from drafting.geometry.outline import stretch
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import MarkLine
from drafting.pattern.places import Level

__all__ = ["PLEAT_LEVELS", "Pleat", "is_pleated", "pleats_of", "pleats_on"]

PLEAT_LEVELS: Final = (Level.PLEAT_FOLD, Level.PLEAT_PLACE, Level.PLEAT_SEAM)
"""The lines that bound what is folded away in a pleat."""

_NEAR: Final = 0.5  # mm from an edge at which a line still ends on it


@dataclass(frozen=True, slots=True)
class Pleat:
    """What lies between two lines of a piece and is folded away.

    fold:  the line at which it is folded; place: the one to which that is brought; one of them the line along a seam
           inside the pleat, where the pleat goes on over that
    start, end: where they come to the edge, mm from the start of that
    """

    fold: MarkLine
    place: MarkLine
    start: float
    end: float

    @property
    def depth(self) -> float:
        """How deep it lies at the lower end, mm: half of what is folded away there."""
        return 0.5 * abs(self.fold.end.x - self.place.end.x)


def is_pleated(piece: Piece) -> bool:
    """Whether pleats are marked on a piece."""
    return any(line.level in PLEAT_LEVELS for line in piece.lines)


def pleats_on(piece: Piece, edge: str) -> tuple[Pleat, ...]:
    """The pleats along an edge, in its direction."""
    return piece.remembered(("pleats", edge), lambda: tuple(_pleats_along(piece, edge))) if is_pleated(piece) else ()


def pleats_of(piece: Piece) -> tuple[Pleat, ...]:
    """All pleats of a piece, each at the edge at which its lines begin."""
    return tuple(pleat for edge in piece.edges for pleat in pleats_on(piece, edge.name))


def _pleats_along(piece: Piece, edge: str) -> Iterator[Pleat]:
    """The pleats along one edge, from where it starts: the marked lines that end on it, two by two."""
    curves = piece.edge(edge).curves
    met: list[tuple[float, MarkLine]] = []
    for line in piece.lines:
        if line.level not in PLEAT_LEVELS:
            continue
        if line.start.near(curves[0].start, _NEAR):
            met.append((0.0, line))
        elif line.start.near(curves[-1].end, _NEAR):
            met.append((run_length(curves), line))
        else:
            for k, hit in run_hits(curves, line.start, line.drawn[0].end - line.start):
                if abs(hit.along) <= _NEAR:
                    met.append((run_length(stretch(curves, 0.0, k + hit.t)), line))
                    break
    met.sort(key=lambda each: each[0])
    for (start, one), (end, other) in zip(met[::2], met[1::2], strict=False):
        first = one.level is Level.PLEAT_FOLD or other.level is Level.PLEAT_PLACE
        fold, place = (one, other) if first else (other, one)
        yield Pleat(fold, place, start, end)
