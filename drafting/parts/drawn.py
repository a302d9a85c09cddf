"""What drawing a part gives."""

from __future__ import annotations

from collections.abc import Callable

from drafting.dataclass import dataclass
from drafting.pattern import Derived, EdgeAs, MarkLine, Notch, Pattern, Piece, Seam

__all__ = ["Draw", "Drawn"]


@dataclass(frozen=True, slots=True)
class Drawn:
    """The pieces of a part, the seams that join them to the garment, and marks for the pieces they are sewn to.

    notches, lines: by the name of a piece
    edges:   edges of the garment as they are while it is there: a hem that is sewn to a band, a neck that is a casing
    """

    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    notches: tuple[tuple[str, Notch], ...] = ()
    edges: tuple[EdgeAs, ...] = ()
    lines: tuple[tuple[str, MarkLine], ...] = ()


Draw = Callable[[Pattern, Derived], Drawn]
"""How a part is drawn to a pattern without its derived pieces. Raises NotAPattern where it cannot be."""
