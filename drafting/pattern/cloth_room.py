"""How wide a piece lies across the cloth, and how much the cloth has room for between its selvedges."""

from __future__ import annotations

from typing import Final

from drafting.geometry import Vec
from drafting.pattern.cutting import cutting_line
from drafting.pattern.locate import outline_box
from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece

__all__ = ["SELVEDGES", "USUAL_CLOTH", "WIDEST_CLOTH", "across_cloth", "cloth_room", "widest_room"]

USUAL_CLOTH: Final = 1400.0
"""mm. How wide cloth is taken to be where nobody said (common practice)."""

WIDEST_CLOTH: Final = 1524.0
"""mm. The widest that cloth for clothes is mostly woven: 60 in, or 150 cm (common practice)."""

SELVEDGES: Final = 20.0
"""mm of its width that the two selvedges take (ours)."""


def cloth_room(pattern: Pattern) -> float:
    """What lies between the selvedges of its cloth, mm; of cloth 140 cm wide where nobody said how wide it is."""
    return (pattern.cloth_width or USUAL_CLOTH) - SELVEDGES


def widest_room(cloth_width: float) -> float:
    """What lies between the selvedges of the widest cloth that can be had, hers that is so wide or a usual one, mm."""
    return max(cloth_width, WIDEST_CLOTH) - SELVEDGES


def across_cloth(piece: Piece, enough: float = 0.0) -> float:
    """How wide a whole piece lies across its grain as it is cut, mm: of one on the fold both halves.

    enough: mm, up to which its sewing line and the widest allowances may stand for it, which are quicker to measure
    """
    up = piece.grain.direction if piece.grain else Vec(0.0, 1.0)
    times = 2.0 if piece.cut.fold else 1.0
    if abs(up.x) < 1e-6:
        left, _, right, _ = outline_box(piece)
        most = times * (right - left + 2.0 * max(edge.allowance for edge in piece.edges))
        if most <= enough:
            return most
    places = [up.x * at.y - up.y * at.x for curve in cutting_line(piece) for at in (curve.start, curve.end)]
    return times * (max(places) - min(places))
