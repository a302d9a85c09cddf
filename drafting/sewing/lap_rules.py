"""Lapped shoulders: each half is bound along its neck and laps in one, then the two are laid over each other."""

from __future__ import annotations

from drafting.pattern import EdgeRef, Pattern, Place, Role
from drafting.sewing.sewing_step import Act, SewingStep, Strip
from drafting.sewing.stages import Found, Sewing, Stage
from drafting.sewing.stays import times_cut
from drafting.sewing.strips import BINDING_ENDS, KNIT_BINDING

__all__ = ["is_lapped", "lapped_shoulders"]


def is_lapped(pattern: Pattern) -> bool:
    """Whether the shoulders of a garment lap over each other."""
    return any(edge.place is Place.LAP_END for piece in pattern.pieces for edge in piece.edges)


def lapped_shoulders(sewing: Sewing) -> Found:
    """One step for both shoulders; its strips are for a knit, a woven is bound with tape that is bought."""
    refs, longest = [], 0.0
    for piece in sewing.pattern.pieces:
        if not any(edge.place is Place.LAP_END for edge in piece.edges):
            continue
        bound = [edge for edge in piece.edges if _bound(edge.place, edge.role)]
        longest = max(longest, times_cut(piece) * sum(edge.length for edge in bound))
        laid = [edge for edge in piece.edges if edge in bound or edge.place is Place.LAP_END]
        refs += [EdgeRef(piece.name, edge.name) for edge in laid]
    if refs:
        strip = Strip(2, longest + BINDING_ENDS, 4.0 * KNIT_BINDING, KNIT_BINDING)
        strips = (strip,) if sewing.pattern.stretch else ()
        names = tuple(dict.fromkeys(ref.piece for ref in refs))
        step = SewingStep(Act.LAP_SHOULDERS, Place.SHOULDER, None, names, edges=tuple(refs), strips=strips)
        yield Stage.SHOULDERS, step


def _bound(place: Place | None, role: Role) -> bool:
    return place is Place.NECK or (place is Place.SHOULDER and role is Role.OPENING)
