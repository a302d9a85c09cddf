"""Level lines that a dart bends: a measurement that ran straight across a piece is laid over the bend.

When a dart is moved, the cloth beyond the new dart is turned. A level line that runs across the new dart is then drawn
in two: up to the dart, and on from there as it was turned with the cloth. The tape follows it, and is as long as it
was, as it is on the sewn garment. When the dart has left, the line is one and straight again.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from drafting.geometry import Move, Point, line_hits
from drafting.geometry.curve import Line
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Across, Bent, MarkLine, Measure, Pattern, Piece, Tape, with_pieces

__all__ = ["Swing", "bent_levels", "is_onward", "onward_name"]

_BEYOND: Final = " beyond the dart"

_NEAR: Final = 15.0
"""mm from the point of a dart within which a level line that runs past it is bent there (our figure)."""

_STRAIGHT: Final = 1e-9
"""The sine of the angle under which a bent line is straight again: the rounding of two turns."""


@dataclass(frozen=True, slots=True)
class Swing:
    """The turn of a part of a piece.

    pivot:     what it is turned about
    near, far: where the mouth of the new dart lies before the turn, on the part that stays and on the part that moves
    moves:     whether a place lies on the part that moves
    move:      the turn
    """

    pivot: Point
    near: Point
    far: Point
    moves: Callable[[Point], bool]
    move: Move


def onward_name(line: str) -> str:
    """What the far part of a bent line is called."""
    return f"{line}{_BEYOND}"


def is_onward(line: MarkLine) -> bool:
    """Whether a line is the far part of a bent one."""
    return line.name.endswith(_BEYOND)


def bent_levels(pattern: Pattern, was: Piece, swing: Swing) -> Pattern:
    """The pattern with the tape of every measurement laid over the lines that a swing bent on a piece, or unbent.

    was: the piece before the swing
    """
    laid = [part for measure in pattern.measures for part in measure.tape]
    measured = {part.line for part in laid if isinstance(part, Across | Bent) and part.piece == was.name}
    piece = pattern.piece(was.name)
    for line in was.lines:
        if line.name in measured:
            piece = _bent(piece, was, line, swing)
    bent = {line.name for line in piece.lines if any(other.name == onward_name(line.name) for other in piece.lines)}
    measures = tuple(_over(measure, piece.name, bent) for measure in pattern.measures)
    return replace(with_pieces(pattern, piece), measures=measures)


def _bent(piece: Piece, was: Piece, line: MarkLine, swing: Swing) -> Piece:
    """The piece with one line bent, bent further or unbent."""
    onward = next((other for other in was.lines if other.name == onward_name(line.name)), None)
    if onward is not None:
        if not swing.moves(onward.end):
            return _with_lines(piece, line, onward)
        turned = MarkLine(onward.name, swing.move.point(onward.start), swing.move.point(onward.end))
        along = (line.end - line.start).unit()
        straight = abs(along.cross((turned.end - turned.start).unit())) <= _STRAIGHT
        if straight and abs(along.cross(turned.start - line.start)) <= SAME_PLACE:
            return _with_lines(piece, MarkLine(line.name, line.start, turned.end), None)
        return _with_lines(piece, line, turned)
    if swing.moves(line.start) == swing.moves(line.end):
        return piece
    first, last = (line.end, line.start) if swing.moves(line.start) else (line.start, line.end)
    one, other = (_crossing(first, last, swing.pivot, place) for place in (swing.near, swing.far))
    if one is None or other is None:
        return piece
    turned = MarkLine(onward_name(line.name), swing.move.point(other), swing.move.point(last))
    return _with_lines(piece, MarkLine(line.name, first, one), turned)


def _crossing(start: Point, end: Point, pivot: Point, mouth: Point) -> Point | None:
    """Where a level line comes to the fold of the new dart: at its point, if it passes just by that."""
    along = (end - start).unit()
    if abs(along.cross(pivot - start)) <= _NEAR:
        return start + along * along.dot(pivot - start)
    hits = line_hits(Line(pivot, mouth), start, along)
    return hits[0].point if hits and hits[0].along > SAME_PLACE else None


def _with_lines(piece: Piece, line: MarkLine, onward: MarkLine | None) -> Piece:
    """The piece with a line in the place of the one of that name, and its far part last, or none."""
    name = onward_name(line.name)
    lines = tuple(line if other.name == line.name else other for other in piece.lines if other.name != name)
    return replace(piece, lines=lines if onward is None else (*lines, onward))


def _over(measure: Measure, piece: str, bent: set[str]) -> Measure:
    tape: list[Tape] = []
    for part in measure.tape:
        if isinstance(part, Across) and part.piece == piece and part.line in bent:
            tape.append(Bent(piece, part.line, onward_name(part.line), part.times))
        elif isinstance(part, Bent) and part.piece == piece and part.line not in bent:
            tape.append(Across(piece, part.line, part.times))
        else:
            tape.append(part)
    return replace(measure, tape=tuple(tape))
