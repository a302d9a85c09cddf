"""Do buttons lie clear of seams and edges: a buttonhole is sewn through no allowances."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.pattern import Landmark, Pattern, Piece, points_at
from drafting.pattern.buttons import CLEAR, beside_buttons

__all__ = ["look_at_buttons"]

_ROUNDING: Final = 0.01  # mm


def look_at_buttons(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every button; measured is how far its rim lies from the neck or waist edge nearest to it, mm."""
    buttoned = [piece for piece in pattern.pieces if points_at(piece, Landmark.BUTTON)]
    for piece in buttoned:
        yield look(_clear, piece)
    if not buttoned:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("there are no buttons", Verdict.PASS)


def _clear(check: Check, piece: Piece) -> Iterator[Result]:
    for mark, edge, off in beside_buttons(piece):
        near = off < CLEAR - _ROUNDING
        yield check.result(
            f"{piece.name}, {mark.name}",
            Verdict.WARN if near else Verdict.PASS,
            measured=off,
            wanted=CLEAR,
            allowed=(CLEAR, None),
            remedy=f"Its rim would lie {max(off, 0.0):.1f} mm from the {edge.place}: mark it {CLEAR - off:.1f} mm "
            "further from there, or take smaller buttons.",
        )
