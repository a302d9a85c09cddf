"""How far a knit gives when it is put on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.pattern import Along, EdgeRef, Piece, Seam, Tape
from drafting.pattern.stretch_used import USED_PUTTING_ON

__all__ = ["given_way"]


def given_way(pieces: Sequence[Piece], seams: Iterable[Seam], tape: Sequence[Tape], stretch: float) -> float:
    """How much longer a line round the body becomes when it is pulled over it, as a share of its length.

    stretch: of the cloth; 0 for a woven
    Nothing where the line is an edge that a piece with interfacing is sewn to, a faced neck or a waistband: that holds.
    """
    if not stretch or _held(pieces, seams, tape):
        return 0.0
    return USED_PUTTING_ON * stretch


def _held(pieces: Sequence[Piece], seams: Iterable[Seam], tape: Sequence[Tape]) -> bool:
    stiff = {piece.name for piece in pieces if piece.cut.interfacing}
    along = {(part.piece, part.edge) for part in tape if isinstance(part, Along)}
    return any(_of(seam.a) & along and _names(seam.b) & stiff for seam in seams) or any(
        _of(seam.b) & along and _names(seam.a) & stiff for seam in seams
    )


def _of(run: Iterable[EdgeRef]) -> set[tuple[str, str]]:
    return {(ref.piece, ref.edge) for ref in run}


def _names(run: Iterable[EdgeRef]) -> set[str]:
    return {ref.piece for ref in run}
