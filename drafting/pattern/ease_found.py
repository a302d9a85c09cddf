"""The ease of a pattern where no finished measurement tells it: the depth of the armhole, and the cap of the sleeve."""

from __future__ import annotations

from drafting.errors import UnknownName
from drafting.pattern.find import line_at, nape_level
from drafting.pattern.pattern import Pattern
from drafting.pattern.places import Level, Place
from drafting.pattern.seam import EdgeRef
from drafting.pattern.walk import run_total

__all__ = ["armhole_depth_ease", "cap_ease"]


def cap_ease(pattern: Pattern) -> float | None:
    """How much longer the cap of one sleeve is than the armhole it is sewn to, mm; None where there is none."""
    caps = [
        run_total(pattern, cap) - run_total(pattern, armhole)
        for seam in pattern.seams
        for cap, armhole in ((seam.a, seam.b), (seam.b, seam.a))
        if all(_place(pattern, ref) is Place.CAP for ref in cap)
    ]
    return sum(caps) if caps else None


def armhole_depth_ease(pattern: Pattern) -> float | None:
    """How far the underarm lies below that of the body, mm; None where the nape or the scye line is not drawn."""
    try:
        body = pattern.wearer.length("scye_depth").mm
    except UnknownName:
        return None
    for piece in pattern.pieces:
        nape, under = nape_level(piece), line_at(piece, Level.SCYE)
        if nape is not None and under is not None:
            return nape - under.start.y - body
    return None


def _place(pattern: Pattern, ref: EdgeRef) -> Place | None:
    return pattern.piece(ref.piece).edge(ref.edge).place
