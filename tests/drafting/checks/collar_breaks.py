"""Ways to break a collar and a cuff, each in one respect."""

from __future__ import annotations

from dataclasses import replace

from drafting.geometry import Point
from drafting.pattern import Level, Pattern, PieceKind, pieces_of, with_pieces
from tests.drafting.checks.breaks import wearer_length

__all__ = ["cuff_buttoned_too_tight", "neck_grown", "slit_gone", "under_collar_larger"]


def under_collar_larger(pattern: Pattern) -> Pattern:
    """Collar and under collar exchanged, their names kept; the seams follow."""
    top, under = (next(p for p in pieces_of(pattern, PieceKind.COLLAR) if p.identity.of is of) for of in _LAYERS)
    swapped = with_pieces(pattern, replace(under, name=top.name), replace(top, name=under.name))
    eased = (
        replace(seam, ease=replace(seam.ease, wanted=-seam.ease.wanted, low=-seam.ease.high, high=-seam.ease.low))
        if {seam.a[0].piece, seam.b[0].piece} == {top.name, under.name}
        else seam
        for seam in swapped.seams
    )
    return replace(swapped, seams=tuple(eased))


_LAYERS = (None, PieceKind.COLLAR)


def neck_grown(pattern: Pattern) -> Pattern:
    """A wearer whose neck is a good deal larger than the collar."""
    return wearer_length(pattern, "neck_base_girth", 60.0)


def cuff_buttoned_too_tight(pattern: Pattern) -> Pattern:
    (cuff,) = pieces_of(pattern, PieceKind.CUFF)
    points = tuple(replace(mark, at=Point(0.5 * (mark.at.x + 130.0), mark.at.y)) for mark in cuff.points)
    return with_pieces(pattern, replace(cuff, points=points))


def slit_gone(pattern: Pattern) -> Pattern:
    """No slit, and a wrist whose hand then cannot pass."""
    (sleeve,) = pieces_of(pattern, PieceKind.SLEEVE)
    lines = tuple(line for line in sleeve.lines if line.level is not Level.SLIT)
    return with_pieces(wearer_length(pattern, "wrist_girth", 45.0), replace(sleeve, lines=lines))
