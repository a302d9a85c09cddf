"""Holding an alteration to one piece: what is sewn to it stays as it is, and the checks say what no longer meets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drafting.errors import StepRefused, UnknownName
from drafting.pattern import NotchRef, Pattern, with_pieces, without_notches

__all__ = ["ONLY", "held_to_piece", "taking_part"]

ONLY: Final = "hold it to this piece, whatever is sewn to it"
"""What the option `only` says, by which a garment file asks for it. No promise is then made of how a seam meets."""


def taking_part(step: str, only: str, names: Sequence[str]) -> tuple[str, ...]:
    """The pieces that are altered: all of those named, or the one it is held to.

    Raises StepRefused, with the nearest name, for a piece that takes no part.
    """
    if not only:
        return tuple(names)
    if only not in names:
        raise StepRefused(step, reason=f"only: {UnknownName('piece that is altered here', only, names)}")
    return (only,)


def held_to_piece(step: str, before: Pattern, after: Pattern, only: str) -> Pattern:
    """The altered pattern; where one piece is named, the old pattern with only that piece altered.

    A pair of notches one of which was altered away is a pair no more. Raises StepRefused for a piece that is as it was.
    """
    if not only:
        return after
    was = {piece.name: piece for piece in before.pieces}
    changed = [piece.name for piece in after.pieces if piece is not was.get(piece.name)]
    taking_part(step, only, changed)
    new = after.piece(only)
    lost = {notch.name for notch in was[only].notches} - {notch.name for notch in new.notches}
    return with_pieces(without_notches(before, {NotchRef(only, name) for name in lost}), new)
