"""The straps of a bib: made, sewn on behind, buttoned in front."""

from __future__ import annotations

from typing import Final

from drafting.pattern import Landmark, PieceKind, points_at
from drafting.sewing.sewing_step import Act, Fastening, SewingStep
from drafting.sewing.stages import Found, Sewing, Stage, left_over
from drafting.sewing.stays import times_cut

__all__ = ["straps"]

_BUTTON: Final = 18.0
"""mm across a button of a strap (common practice)."""


def straps(sewing: Sewing) -> Found:
    """One step for all straps: after the edges they are sewn to are finished, with a button to each on the bib."""
    for piece in sewing.pattern.pieces:
        if piece.identity.kind is PieceKind.STRAP:
            fronts = [each for each in sewing.pattern.pieces if each.identity.kind is PieceKind.FRONT]
            buttons = sum(times_cut(each) * len(points_at(each, Landmark.STRAP)) for each in fronts)
            fastening = Fastening(max(edge.length for edge in piece.edges), True, buttons, _BUTTON)
            names = tuple(each.name for each in sewing.pattern.pieces if each.identity.part is piece.identity.part)
            edges = tuple(left_over(sewing.pattern, piece))
            yield (
                Stage.BUTTONS,
                SewingStep(Act.STRAPS, None, piece.identity.part, names, edges=edges, fastening=fastening),
            )
