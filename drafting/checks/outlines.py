"""Is each piece a shape that can be cut out: one outline, closed, that never crosses itself nor the fold it is on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.geometry import Point, polyline
from drafting.geometry.meet import Meeting, outline_crossings
from drafting.geometry.tolerance import FLAT
from drafting.pattern import Edge, Pattern, Piece, Role
from drafting.pattern.cutting import cutting_line
from drafting.pattern.seam_ends import Sewn, sewn

__all__ = ["look_at_outlines", "outline_meets_itself"]

_COUNTED: Final = 100
"""Crossings of one outline that are counted; nobody mends the rest of them one by one (our figure)."""

_CHORD: Final = 0.1  # mm between the cutting line and the chords that are looked at


def look_at_outlines(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every piece's sewing line; measured is at how many places it crosses or touches itself, or stands open.

    A place where the cutting line lies beyond the fold is one too: unfolded, the piece would cross itself there.
    """
    drawn = sewn(pattern)
    for piece in pattern.pieces:
        yield look(_outline, piece, drawn[piece.name])


def _outline(check: Check, piece: Piece, drawn: Sewn) -> Iterator[Result]:
    """Measured is at how many places an outline has a gap, crosses itself or runs over its fold."""
    edges = piece.edges
    crossings = list(_crossings(piece))
    faults = [*_gaps(edges), *crossings]
    if not faults:
        faults = list(_over_fold(piece, drawn))
    found = len(faults)
    if len(crossings) >= _COUNTED:
        many = f"The outline crosses itself in {_COUNTED} places or more: draw it as one line that never meets itself."
        faults = [many, *faults]
    yield check.result(
        piece.name,
        Verdict.FAIL if faults else Verdict.PASS,
        measured=float(found),
        wanted=0.0,
        allowed=0.0,
        unit="places",
        remedy=" ".join(faults[:3]),
    )


def _gaps(edges: tuple[Edge, ...]) -> Iterator[str]:
    at = edges[-1].end
    for edge in edges:
        if edge.start != at:
            yield f'The outline is open before "{edge.name}": move its start to the end of the edge before it.'
        at = edge.end


def outline_meets_itself(piece: Piece) -> tuple[tuple[int, int, Meeting], ...]:
    """Where the sewing line of a piece crosses or touches itself, as `outline_crossings`; `_COUNTED` of them or so."""
    return piece.remembered("meets itself", lambda: tuple(outline_crossings(piece.outline, most=_COUNTED)))


def _crossings(piece: Piece) -> Iterator[str]:
    owners = [edge.name for edge in piece.edges for _ in edge.curves]
    for one, other, meeting in outline_meets_itself(piece):
        first, second = owners[one], owners[other]
        place = _place(meeting.point)
        if first == second:
            yield f'"{first}" crosses itself at {place}: draw it without the loop.'
        else:
            yield f'"{first}" and "{second}" meet at {place}, where cloth is to lie between them: draw them apart.'


def _over_fold(piece: Piece, drawn: Sewn) -> Iterator[str]:
    """The folds that the cutting line lies beyond; it cuts its own loops out, so there it can still cross itself."""
    folds = [edge for edge in piece.edges if edge.role is Role.FOLD]
    border = polyline(cutting_line(piece, drawn), _CHORD) if folds else ()
    for edge in folds:
        along = (edge.end - edge.start).unit()
        furthest = min(border, key=lambda point: along.cross(point - edge.start))
        if along.cross(furthest - edge.start) < -FLAT:
            yield (
                f'The cutting line lies beyond "{edge.name}", which is on the fold, at {_place(furthest)}: unfolded it '
                "would cross itself."
            )


def _place(point: Point) -> str:
    return f"({point.x:.1f}, {point.y:.1f}) mm"
