"""Is there as much cloth beyond every edge as its allowance says: the cutting line against the sewing line."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.geometry import Curve, run_hits, run_place
from drafting.pattern import Edge, Pattern, Piece, Role
from drafting.pattern.cutting import cutting_line
from drafting.pattern.seam_ends import Sewn, sewn

__all__ = ["look_at_cut_width"]

_SHARES: Final = (0.15, 0.5, 0.85)
"""Where along an edge it is looked, as shares of its length (ours)."""

_OFF: Final = 0.5
"""mm by which the cutting line may lie further off than the allowance: the width of a pencil line (ours)."""

_STEEP: Final = 1e-6
"""mm. A line this near is the edge itself, where it is cut without an allowance."""


def look_at_cut_width(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every edge with an allowance; measured is the widest that the cloth beyond it is at three places, mm.

    It warns where the cutting line lies further off than the allowance. In a hollow, where two allowances are cut as
    one, it lies nearer: that is as it has to be.
    """
    drawn = sewn(pattern)
    for piece in pattern.pieces:
        yield look(_wide, piece, drawn[piece.name])


def _wide(check: Check, piece: Piece, drawn: Sewn) -> Iterator[Result]:
    border = cutting_line(piece, drawn)
    for edge in piece.edges:
        if edge.allowance > 0.0 and edge.role not in (Role.FOLD, Role.DART_LEG):
            wide = max(_beyond(edge, share, border) for share in _SHARES)
            over = wide - edge.allowance
            yield check.result(
                f"{piece.name}: {edge.name}",
                Verdict.WARN if over > _OFF else Verdict.PASS,
                measured=wide,
                wanted=edge.allowance,
                allowed=(None, edge.allowance + _OFF),
                remedy=f"The cutting line lies {wide:.1f} mm off the sewing line there, and the allowance is "
                f"{edge.allowance:.1f} mm: trim it to that after cutting.",
            )


def _beyond(edge: Edge, share: float, border: tuple[Curve, ...]) -> float:
    """How far off the cutting line is, square to an edge at a share of its length, mm; 0.0 where it is met nowhere."""
    at, along = run_place(edge.curves, share * edge.length)
    return min((hit.along for _, hit in run_hits(border, at, along.right()) if hit.along > _STEEP), default=0.0)
