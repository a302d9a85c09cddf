"""What drawing a part gives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from drafting.pattern import Derived, Notch, Pattern, Piece, Seam

__all__ = ["Draw", "Drawn"]


@dataclass(frozen=True, slots=True)
class Drawn:
    """The pieces of a part, the seams that join them to the garment, and notches for the pieces they are sewn to.

    notches: by the name of a piece
    """

    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    notches: tuple[tuple[str, Notch], ...] = ()


Draw = Callable[[Pattern, Derived], Drawn]
"""How a part is drawn to a pattern without its derived pieces. Raises NotAPattern where it cannot be."""
