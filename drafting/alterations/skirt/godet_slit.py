"""A slit in the middle of a skirt piece, where it has no seam, for a godet to be set into.

The cloth stays whole until the godet is sewn in. Only the two sewing lines are drawn: 12 mm apart at the hem, together
at the point. Between them lie the two allowances, 6 mm at the hem and nothing at the point (common practice).
"""

from __future__ import annotations

import math
from typing import Final

from drafting.alterations.techniques.cutting.split_edges import EdgePart, cut_at, with_edge_cut
from drafting.alterations.techniques.marks.grain_line import with_grain_inside
from drafting.errors import NotAPattern
from drafting.geometry import Line, Point, lerp, run_hits
from drafting.pattern import CENTRES, Edge, Pattern, Piece, Place, Role, free_name, with_pieces

__all__ = ["ALLOWANCE", "room_above", "with_slit"]

ALLOWANCE: Final = 6.0
"""mm between a side of the slit and its middle at the hem (common practice)."""


def with_slit(pattern: Pattern, piece: Piece, hem: Edge, across: float, long: float) -> tuple[Pattern, str, str]:
    """The pattern with a slit up from a hem, its two sides so long, mm; what these are called, in outline order.

    across: where it lies, a share of the hem from the centre (or the start of the hem) on
    """
    middle = _middle(piece, hem, across)
    (before, _, after), left, right, point = _slit_lines(hem, middle, long)
    taken = {each.name for each in piece.edges} - {hem.name}
    names: list[str] = []
    for word in (hem.name, "slit, one side", "slit, other side", f"{hem.name} beyond the slit"):
        names.append(free_name(word, [*taken, *names]))
    sides = [
        Edge(name, (Line(*ends),), Role.SEAM, ALLOWANCE, Place.GODET)
        for name, ends in ((names[1], (left, point)), (names[2], (point, right)))
    ]
    parts = (before.named(names[0]), *(EdgePart(side, ()) for side in sides), after.named(names[3]))
    # the corners at the hem are no points: the hem runs on along the godet
    slit = with_edge_cut(pattern, piece, parts, corners=[(names[1], names[2])])
    return with_pieces(slit, with_grain_inside(slit.piece(piece.name))), names[1], names[2]


def room_above(piece: Piece, hem: Edge, across: float) -> float:
    """How far up from its hem a piece reaches where a slit would lie, mm."""
    *_, left, right, _ = _slit_lines(hem, _middle(piece, hem, across), 4.0 * ALLOWANCE)
    start, up = lerp(left, right, 0.5), (right - left).left().unit()
    ahead = [hit.along for _, hit in run_hits(piece.outline, start, up) if hit.along > ALLOWANCE]
    return min(ahead, default=0.0)


def _middle(piece: Piece, hem: Edge, across: float) -> float:
    """Where the middle of the slit lies along the hem, mm from its start."""
    _, after = piece.beside(hem.name)
    return hem.length_within(1e-9) * (1.0 - across if after.place in CENTRES else across)


def _slit_lines(hem: Edge, middle: float, long: float) -> tuple[tuple[EdgePart, ...], Point, Point, Point]:
    """The hem before, at and after the mouth of the slit, the two ends of that, and the point."""
    if not ALLOWANCE < middle < hem.length - ALLOWANCE:
        raise NotAPattern(hem.name, reason="it is too short for a slit")
    parts = cut_at(hem, middle - ALLOWANCE, middle + ALLOWANCE)
    left, right = parts[1].edge.start, parts[1].edge.end
    half = 0.5 * (right - left).norm()
    up = (right - left).left().unit()
    return parts, left, right, lerp(left, right, 0.5) + up * math.sqrt(long * long - half * half)
