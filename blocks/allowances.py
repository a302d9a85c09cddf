"""The allowances of a pattern as it is drafted: one on every seam, another on every hem."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from drafting.pattern import Pattern, Piece, Role

__all__ = ["with_allowances"]


def with_allowances(
    pattern: Pattern, *, seam: float, hem: float, flat: Mapping[str, float] = MappingProxyType({})
) -> Pattern:
    """The pattern with one allowance on every seam and opening, another on every hem, none on folds and in darts.

    flat: by piece the deepest hem that lies flat on it, mm
    """
    by_role = {Role.SEAM: seam, Role.OPENING: seam, Role.FOLD: 0.0, Role.DART_LEG: 0.0}

    def allowed(piece: Piece) -> Piece:
        by_role[Role.HEM] = min(hem, flat.get(piece.name, hem))
        return replace(piece, edges=tuple(edge.with_allowance(by_role[edge.role]) for edge in piece.edges))

    return replace(pattern, pieces=tuple(allowed(piece) for piece in pattern.pieces))
