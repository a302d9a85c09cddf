"""An edge divided between its upper and its lower end, as for a pocket, a zip or a godet: its parts, and their notches.

upper end                   The parts are named from the upper end down, whichever way the outline runs along the edge.
 |  side seam above ...     What lay along the edge follows its cloth (`split_edges.py`): seams, tapes, notches.
 +- notch
 |  side seam at ...
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from drafting.alterations.techniques.cutting.split_edges import EdgePart, cut_at
from drafting.pattern import Edge, Notch, NotchMark, NotchRef, Pattern, Piece, Station, free_name

__all__ = ["divided", "end_notch", "notched_edge", "without_notches_along"]


def divided(
    piece: Piece, edge: Edge, places: Sequence[float], words: Sequence[str], *, downward: bool
) -> tuple[EdgePart, ...]:
    """The parts of an edge from its upper end down, each called after the edge and its word.

    places: where it is divided, mm from its start; downward: whether the outline runs down it
    Raises NotAPattern where a part has no length.
    """
    parts = cut_at(edge, *places)
    taken = {each.name for each in piece.edges} - {edge.name}
    from_top = parts if downward else parts[::-1]
    return tuple(
        part.named(free_name(f"{edge.name} {word}", taken)) for part, word in zip(from_top, words, strict=True)
    )


def end_notch(piece: Piece, part: EdgePart, name: str, marks: NotchMark, *, at_start: bool) -> Notch:
    """A notch of the piece at one end of a part of its edge: at its start, or at its end, in outline order."""
    end = Station(part.edge.name, 0.0, "start" if at_start else "end")
    return Notch(free_name(name, {notch.name for notch in piece.notches}), end, marks=marks)


def notched_edge(pattern: Pattern, mark: NotchRef) -> tuple[str, str]:
    """The piece and the edge that a notch lies on."""
    return mark.piece, pattern.piece(mark.piece).notch(mark.notch).station.edge


def without_notches_along(pattern: Pattern, edges: Collection[tuple[str, str]]) -> tuple[Piece, ...]:
    """The pieces without notches along these edges: what these are sewn to now has none that they could meet."""
    return tuple(_bare(piece, {edge for name, edge in edges if name == piece.name}) for piece in pattern.pieces)


def _bare(piece: Piece, edges: Collection[str]) -> Piece:
    kept = tuple(notch for notch in piece.notches if notch.station.edge not in edges)
    return piece if len(kept) == len(piece.notches) else replace(piece, notches=kept)
