"""Is each piece a shape that can be cut out: one outline, closed, that never crosses itself."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.checks.base import Check, Result, Verdict
from drafting.geometry import Point
from drafting.geometry.meet import outline_crossings
from drafting.pattern import Edge, Pattern, Piece

__all__ = ["look_at_outlines"]


def look_at_outlines(check: Check, pattern: Pattern) -> Iterator[Result]:
    """Every piece's sewing line; measured is at how many places it crosses or touches itself, or stands open."""
    for piece in pattern.pieces:
        faults = [*_gaps(piece), *_crossings(piece)]
        yield check.result(
            piece.name,
            Verdict.FAIL if faults else Verdict.PASS,
            measured=float(len(faults)),
            wanted=0.0,
            allowed=0.0,
            unit="places",
            remedy=" ".join(faults[:3]),
        )


def _gaps(piece: Piece) -> Iterator[str]:
    at = piece.edges[-1].end
    for edge in piece.edges:
        if edge.start != at:
            yield f'The outline is open before "{edge.name}": move its start to the end of the edge before it.'
        at = edge.end


def _crossings(piece: Piece) -> Iterator[str]:
    owners: list[Edge] = [edge for edge in piece.edges for _ in edge.curves]
    for one, other, meeting in outline_crossings(piece.outline):
        first, second = owners[one].name, owners[other].name
        place = _place(meeting.point)
        if first == second:
            yield f'"{first}" crosses itself at {place}: draw it without the loop.'
        else:
            yield f'"{first}" and "{second}" meet at {place}, where cloth is to lie between them: draw them apart.'


def _place(point: Point) -> str:
    return f"({point.x:.1f}, {point.y:.1f}) mm"
