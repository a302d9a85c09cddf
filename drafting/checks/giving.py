"""How far a knit gives when it is put on, and how far it is stretched while it is worn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.pattern import Along, EdgeRef, Pattern, Piece, Seam, Tape, finished
from drafting.pattern.stretch_used import USED_PUTTING_ON

__all__ = ["share_stretched", "worn_stretched"]


def share_stretched(
    pieces: Sequence[Piece],
    seams: Iterable[Seam],
    tape: Sequence[Tape],
    stretch: float,
    used: float = USED_PUTTING_ON,
) -> float:
    """How much longer a line round the body becomes when it is pulled over it, as a share of its length.

    stretch: of the cloth; 0 for a woven; used: the share of it that is taken
    Nothing where the line is an edge that a piece with interfacing is sewn to, a faced neck or a waistband: that holds.
    """
    if not stretch or _held(pieces, seams, tape):
        return 0.0
    return used * stretch


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


def worn_stretched(pattern: Pattern) -> dict[str, float]:
    """How far a knit is stretched round the body while it is worn, as a share, by the name of the measurement.

    That is body / finished - 1, and nothing where the garment is as large as the body. Empty for a woven.
    """
    if not pattern.stretch:
        return {}
    made = zip(pattern.measures, finished(pattern), strict=True)
    return {m.name: max(0.0, m.body / each.finished - 1.0) for m, each in made if m.round and m.body and each.finished}
