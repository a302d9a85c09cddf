"""Do lines run on truly where pieces are joined: at the ends of seams, over closed darts, at folds."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Literal

from drafting.checks.base import Check, Result, graded
from drafting.geometry import tangent
from drafting.pattern import Edge, EdgeRef, Pattern, Piece, Role

__all__ = ["CORNER", "CORNER_UNIT", "corners_look", "look_at_corners"]

CORNER = 3.0
"""degrees by which a joined line may bend where its two parts meet: less than a curve drawn with a rule would show
(our figure; that the corners must add up to a straight line is common practice)."""

CORNER_UNIT = "degrees"


_End = Literal["start", "end"]


@dataclass(frozen=True, slots=True)
class _Corner:
    """One corner of a piece seen from an edge: the angle of cloth in it, degrees, and the edge on its other side.

    meant: whether a point is meant there, so that it need not make a line with anything
    """

    piece: str
    angle: float
    beside: Edge
    meant: bool

    @property
    def name(self) -> str:
        return f"{self.piece} {self.beside.name}"


_Corners = dict[tuple[str, str, _End], _Corner]
"""Every corner of a pattern by the piece, the edge and which end of the edge it is seen from."""


def look_at_corners(check: Check, pattern: Pattern, *, points: Collection[str] = ()) -> Iterator[Result]:
    """The corners that make one line of two edges; measured is what they add up to, degrees.

    At the end of each seam the two edges beside it run on into each other when neither is sewn, or when both are sewn
    only later: the seams of a pattern stand in the order of sewing, and a line is trued in that order (the shoulder
    before the armhole, the side seam before the armhole base and the hem; common practice). Where a piece is sewn to
    itself it makes a tube, and both rims are lines whatever the order. The angles must add up to 180 degrees. So must
    the two beside a dart, closed, and twice the angle at a fold or a centre line, where a piece meets its own mirror
    image.

    A corner that the piece says is meant (a V neck) is left out; points names further ones by the `where` of results.
    """
    for result in _all_corners(check, pattern):
        if result.where not in points:
            yield result


def corners_look(*points: str) -> partial[Iterator[Result]]:
    """`look_at_corners` with the places at which a point is meant, for a table of checks of one's own."""
    return partial(look_at_corners, points=frozenset(points))


def _all_corners(check: Check, pattern: Pattern) -> Iterator[Result]:
    order = {(ref.piece, ref.edge): count for count, seam in enumerate(pattern.seams) for ref in (*seam.a, *seam.b)}
    corners = _corners(pattern)
    for count, seam in enumerate(pattern.seams):
        for end in ("start", "end"):
            one, other = _run_corner(corners, seam.a, end), _run_corner(corners, seam.b, end)
            if not (one.meant or other.meant) and _runs_on(one, other, order, count):
                line = one.beside.name if one.beside.name == other.beside.name else "joined line"
                where = f"{seam.name}, {end}: {one.name} to {other.name}"
                cure = "redraw it across the seam until it runs straight on"
                yield _judged(check, where, one.angle + other.angle, f"The {line} has", cure)
    for piece in pattern.pieces:
        yield from _dart_mouths(check, piece, corners)
        yield from _centre_lines(check, piece, corners)


def _runs_on(one: _Corner, other: _Corner, order: dict[tuple[str, str], int], count: int) -> bool:
    """Whether the edges beside a seam make one line when it is sewn."""
    # darts and centre lines are looked at for themselves; an opening stops at a seam
    apart = (Role.FOLD, Role.OPENING, Role.DART_LEG)
    if one.beside.role in apart or other.beside.role in apart:
        return False
    sewn = [order.get((corner.piece, corner.beside.name)) for corner in (one, other)]
    if one.piece == other.piece:
        return True
    if sewn[0] is None or sewn[1] is None:
        return sewn[0] is sewn[1]
    return min(sewn[0], sewn[1]) > count


def _dart_mouths(check: Check, piece: Piece, corners: _Corners) -> Iterator[Result]:
    for dart in piece.darts:
        before, after = corners[piece.name, dart.legs[0], "start"], corners[piece.name, dart.legs[1], "end"]
        if before.meant or after.meant or Role.DART_LEG in (before.beside.role, after.beside.role):
            continue
        where = f"{piece.name}: mouth of {dart.name}"
        subject = f'With "{dart.name}" closed the seam line has'
        cure = "fold the dart, redraw the line across it and unfold"
        yield _judged(check, where, before.angle + after.angle, subject, cure)


def _centre_lines(check: Check, piece: Piece, corners: _Corners) -> Iterator[Result]:
    for edge in piece.edges:
        if not _mirrored(edge):
            continue
        for end in ("start", "end"):
            corner = corners[piece.name, edge.name, end]
            if corner.meant or _mirrored(corner.beside) or corner.beside.role is Role.DART_LEG:
                continue  # a V, two stretches of one centre line, or a dart that lies in it
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


def _run_corner(corners: _Corners, run: tuple[EdgeRef, ...], end: _End) -> _Corner:
    ref = run[0] if end == "start" else run[-1]
    at_its_start = (end == "start") != ref.backward
    return corners[ref.piece, ref.edge, "start" if at_its_start else "end"]


def _corners(pattern: Pattern) -> _Corners:
    found: _Corners = {}
    for piece in pattern.pieces:
        before = piece.edges[-1]
        points = {frozenset(pair) for pair in piece.points_meant}
        for edge in piece.edges:
            meant = bool(points) and frozenset((before.name, edge.name)) in points
            arriving, leaving = tangent(before.curves[-1], 1.0), tangent(edge.curves[0], 0.0)
            angle = 180.0 - math.degrees(math.atan2(arriving.cross(leaving), arriving.dot(leaving)))
            found[piece.name, edge.name, "start"] = _Corner(piece.name, angle, before, meant)
            found[piece.name, before.name, "end"] = _Corner(piece.name, angle, edge, meant)
            before = edge
    return found
