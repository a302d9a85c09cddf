"""Do lines run on truly where pieces are joined: at the ends of seams, over closed darts, at folds."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Literal

from drafting.checks.base import Check, Result, graded
from drafting.geometry import end_tangents
from drafting.pattern import Edge, EdgeRef, Pattern, Piece, Role, Seam

__all__ = ["CORNER", "CORNER_UNIT", "corners_look", "look_at_corners"]

CORNER = 3.0
"""degrees by which a joined line may bend where its two parts meet: less than a curve drawn with a rule would show
(our figure; that the corners must add up to a straight line is common practice)."""

CORNER_UNIT = "degrees"


@dataclass(frozen=True, slots=True)
class _Corner:
    """One corner of a piece seen from an edge: the angle of cloth in it, and the edge on its other side."""

    piece: str
    angle: float
    beside: Edge

    @property
    def name(self) -> str:
        return f"{self.piece} {self.beside.name}"


def look_at_corners(check: Check, pattern: Pattern, *, points: Collection[str] = ()) -> Iterator[Result]:
    """The corners that make one line of two edges; measured is what they add up to, degrees.

    At the end of each seam the two edges beside it run on into each other when neither is sewn, or when both are sewn
    only later: the seams of a pattern stand in the order of sewing, and a line is trued in that order (the shoulder
    before the armhole, the side seam before the armhole base and the hem; common practice). The angles must add up to
    180 degrees. So must the two beside a dart, closed, and twice the angle at a fold or a centre line, where a piece
    meets its own mirror image.

    points: the `where` of results at which a point is meant (a V neck), to be left out
    """
    for result in _all_corners(check, pattern):
        if result.where not in points:
            yield result


def corners_look(*points: str) -> partial[Iterator[Result]]:
    """`look_at_corners` with the places at which a point is meant, for a table of checks of one's own."""
    return partial(look_at_corners, points=frozenset(points))


def _all_corners(check: Check, pattern: Pattern) -> Iterator[Result]:
    order = {(ref.piece, ref.edge): count for count, seam in enumerate(pattern.seams) for ref in (*seam.a, *seam.b)}
    pieces = {piece.name: piece for piece in pattern.pieces}
    for count, seam in enumerate(pattern.seams):
        for end in ("start", "end"):
            yield from _seam_end(check, pieces, seam, end, order, count)
    for piece in pattern.pieces:
        yield from _dart_mouths(check, piece)
        yield from _centre_lines(check, piece)


def _seam_end(
    check: Check,
    pieces: dict[str, Piece],
    seam: Seam,
    end: Literal["start", "end"],
    order: dict[tuple[str, str], int],
    count: int,
) -> Iterator[Result]:
    one, other = _run_corner(pieces, seam.a, end), _run_corner(pieces, seam.b, end)
    if not _runs_on(one, other, order, count):
        return
    both = one.angle + other.angle
    where = f"{seam.name}, {end}: {one.name} to {other.name}"
    line = one.beside.name if one.beside.name == other.beside.name else "joined line"
    yield _judged(check, where, both, f"The {line} has", "redraw it across the seam until it runs straight on")


def _runs_on(one: _Corner, other: _Corner, order: dict[tuple[str, str], int], count: int) -> bool:
    """Whether the edges beside a seam make one line when it is sewn."""
    # darts and centre lines are looked at for themselves; an opening stops at a seam
    apart = (Role.FOLD, Role.OPENING, Role.DART_LEG)
    if one.beside.role in apart or other.beside.role in apart:
        return False
    sewn = [order.get((corner.piece, corner.beside.name)) for corner in (one, other)]
    if sewn[0] is None or sewn[1] is None:
        return sewn[0] is sewn[1]
    return min(sewn[0], sewn[1]) > count


def _dart_mouths(check: Check, piece: Piece) -> Iterator[Result]:
    for dart in piece.darts:
        before, after = _corner(piece, dart.legs[0], "start"), _corner(piece, dart.legs[1], "end")
        if Role.DART_LEG in (before.beside.role, after.beside.role):
            continue
        both = before.angle + after.angle
        where = f"{piece.name}: mouth of {dart.name}"
        subject = f'With "{dart.name}" closed the seam line has'
        yield _judged(check, where, both, subject, "fold the dart, redraw the line across it and unfold")


def _centre_lines(check: Check, piece: Piece) -> Iterator[Result]:
    for edge in piece.edges:
        if not _mirrored(edge):
            continue
        for end in ("start", "end"):
            corner = _corner(piece, edge.name, end)
            if _mirrored(corner.beside) or corner.beside.role is Role.DART_LEG:
                continue  # two stretches of one centre line, or a dart that lies in it
            where = f"{piece.name}: {corner.beside.name} at {edge.name}"
            subject = f"Opened out at the {edge.name}, the {corner.beside.name} has"
            yield _judged(check, where, 2.0 * corner.angle, subject, "draw it square to that line")


def _mirrored(edge: Edge) -> bool:
    """Whether the piece meets its own mirror image here: at a fold, or along a centre line of two mirrored halves."""
    return edge.role is Role.FOLD or (edge.role is not Role.DART_LEG and edge.name.startswith("centre "))


def _judged(check: Check, where: str, both: float, subject: str, cure: str) -> Result:
    bend = both - 180.0
    remedy = f"{subject} a {'hollow' if bend > 0.0 else 'peak'} of {abs(bend):.1f} degrees: {cure}."
    verdict = graded(abs(bend), passing=CORNER)
    return check.result(where, verdict, measured=both, wanted=180.0, allowed=CORNER, unit=CORNER_UNIT, remedy=remedy)


def _run_corner(pieces: dict[str, Piece], run: tuple[EdgeRef, ...], end: Literal["start", "end"]) -> _Corner:
    ref = run[0] if end == "start" else run[-1]
    at_its_start = (end == "start") != ref.backward
    return _corner(pieces[ref.piece], ref.edge, "start" if at_its_start else "end")


def _corner(piece: Piece, edge: str, end: Literal["start", "end"]) -> _Corner:
    """The corner at one end of an edge: the angle of cloth in it, degrees, and the edge beyond."""
    names = [each.name for each in piece.edges]
    at = names.index(edge)
    here = piece.edges[at]
    if end == "start":
        beside = piece.edges[at - 1]
        arriving, leaving = end_tangents(beside.curves[-1])[1], end_tangents(here.curves[0])[0]
    else:
        beside = piece.edges[(at + 1) % len(names)]
        arriving, leaving = end_tangents(here.curves[-1])[1], end_tangents(beside.curves[0])[0]
    turn = math.degrees(math.atan2(arriving.cross(leaving), arriving.dot(leaving)))
    return _Corner(piece.name, 180.0 - turn, beside)
