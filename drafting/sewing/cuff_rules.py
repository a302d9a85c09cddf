"""When cuffs are sewn: the slit is bound while the sleeve is flat, the cuff goes on when its underarm is closed."""

from __future__ import annotations

from typing import Final

from drafting.pattern import Level, Place, lines_at
from drafting.sewing.seam_kinds import SeamKind
from drafting.sewing.sewing_step import Act, SewingStep, Strip
from drafting.sewing.stages import Found, Sewing, Stage, left_over

__all__ = ["cuffs"]

_STRIP: Final = 35.0  # mm: a strip that binds a slit 1 cm wide, its seams in it (common practice)
_ENDS: Final = 20.0  # mm by which it is longer than the slit is round


def cuffs(sewing: Sewing) -> Found:
    """A step for the slits, and one for each cuff."""
    pattern = sewing.pattern
    slits = [(piece, line) for piece in pattern.pieces for line in lines_at(piece, Level.SLIT)]
    for piece, line in slits:
        long = 2.0 * (line.end - line.start).norm() + _ENDS
        strip = Strip(piece.cut.count, long, _STRIP, 0.0)
        yield Stage.COLLAR, SewingStep(Act.SLIT, Place.WRIST, piece.identity.part, (piece.name,), strips=(strip,))
    for seam in sewing.seams(SeamKind.CUFF):
        cuff = pattern.piece(seam.b[0].piece)
        edges = tuple(left_over(pattern, cuff))
        yield Stage.HEMS, sewing.step(Act.CUFF, [seam], place=Place.WRIST, edges=edges)
