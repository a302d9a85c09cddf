"""Walking a seam: laying one run of edges along the other from their common start, as a cutter does with two pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drafting.pattern.locate import from_start
from drafting.pattern.pattern import Pattern
from drafting.pattern.seam import EdgeRef, NotchRef, Seam

__all__ = ["Walked", "WalkedNotch", "notch_distance", "run_total", "walk"]


@dataclass(frozen=True, slots=True)
class WalkedNotch:
    """How far along each run a pair of notches lies, mm from the common start; None for one off its seam."""

    a: NotchRef
    b: NotchRef
    along_a: float | None
    along_b: float | None


@dataclass(frozen=True, slots=True)
class Walked:
    """The lengths of both runs of a seam, mm, and where its notch pairs lie."""

    a: float
    b: float
    notches: tuple[WalkedNotch, ...]


def walk(pattern: Pattern, seam: Seam) -> Walked:
    """Walk both runs of a seam. Raises UnknownName where an edge or notch is not there."""
    pairs = tuple(
        WalkedNotch(one, other, notch_distance(pattern, seam.a, one), notch_distance(pattern, seam.b, other))
        for one, other in seam.notches
    )
    return Walked(run_total(pattern, seam.a), run_total(pattern, seam.b), pairs)


def run_total(pattern: Pattern, run: Sequence[EdgeRef]) -> float:
    """The length of a run of edges, mm."""
    return sum(pattern.piece(ref.piece).edge(ref.edge).length for ref in run)


def notch_distance(pattern: Pattern, run: Sequence[EdgeRef], mark: NotchRef) -> float | None:
    """How far along a run a notch lies, mm from the run's start; None when it lies on none of its edges."""
    gone = 0.0
    for ref in run:
        piece = pattern.piece(ref.piece)
        edge = piece.edge(ref.edge)
        if ref.piece == mark.piece:
            station = piece.notch(mark.notch).station
            if station.edge == ref.edge:
                at = from_start(edge, station)
                return gone + (edge.length - at if ref.backward else at)
        gone += edge.length
    return None
