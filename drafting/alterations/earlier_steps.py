"""What an earlier step has made of a piece, so that a later one cannot be taken any more: in words that say which.

Almost every such refusal has one mend: the steps of a garment file in another order. So each sentence names the
alteration before which the refused step is to be put. It is "" where the cause is not known.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.pattern import Pattern, Piece, Role

__all__ = ["WRAP_EDGE", "cut_in_two", "in_the_way", "left_unsewn", "not_whole"]

WRAP_EDGE: Final = "wrap edge"
"""The name of the edge that a piece which wraps over ends with."""

_PART: Final = ", "
"""Between the name of a piece that was cut in two and what its parts are called."""


def not_whole(piece: Piece, kind: str) -> str:
    """Why a piece has no whole edge of that name ("side seam"): what lies in it, or what became of the piece."""
    parts = [edge for edge in piece.edges if edge.role is not Role.DART_LEG and edge.name.startswith(f"{kind} ")]
    if not parts:
        return in_the_way(piece)
    if any(edge.role is Role.OPENING for edge in parts):
        return f'the {kind} of "{piece.name}" has a zip in it; put this step before "opening"'
    gathers = _gathers(piece, kind)
    return gathers or f'the {kind} of "{piece.name}" has a dart in it; put this step before "move a dart"'


def in_the_way(piece: Piece, kind: str = "") -> str:
    """Why a piece has no plain centre line, or why its edges of one kind do not lie together."""
    names = [edge.name for edge in piece.edges]
    if any(name.startswith("stand at ") for name in names):
        return f'"{piece.name}" has a button stand; put this step before "opening"'
    if WRAP_EDGE in names:
        return f'"{piece.name}" wraps over; put this step before "wrap over"'
    if gathers := _gathers(piece, kind) if kind else "":
        return gathers
    whole, part, _ = piece.name.partition(_PART)
    return f'"{whole}" was cut in two; put this step before "dart into seam"' if part else ""


def cut_in_two(pattern: Pattern, name: str) -> str:
    """What a piece of that name was cut into."""
    parts = [f'"{piece.name}"' for piece in pattern.pieces if piece.name.startswith(f"{name}{_PART}")]
    if not parts:
        return ""
    return f'"{name}" was cut into {" and ".join(parts)}; name one of them, or put this step before "dart into seam"'


def left_unsewn(edge: str) -> bool:
    """Whether an edge of that name lies over the mouth of a dart left unsewn: it is called after the dart and how."""
    return edge.endswith((" gathers", " ease"))


def _gathers(piece: Piece, kind: str) -> str:
    """The gathers or the ease of a dart between the edges of one kind."""
    found = [name for name in _amid(piece, kind) if left_unsewn(name)]
    if not found:
        return ""
    return f'"{found[0]}" lie in the {kind} of "{piece.name}"; put this step before "dart into gathers"'


def _amid(piece: Piece, kind: str) -> Iterator[str]:
    """The edges with one of that kind before and after them."""
    edges = piece.edges
    for k, edge in enumerate(edges):
        before, after = edges[k - 1], edges[(k + 1) % len(edges)]
        if not edge.name.startswith(kind) and before.name.startswith(kind) and after.name.startswith(kind):
            yield edge.name
