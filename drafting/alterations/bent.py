"""Level lines that a dart bends: a measurement that ran straight across a piece is laid over the bend.

While no dart lies across the bust line, the tape lies straight along it. When a dart is moved into the side seam below
it, the cloth from the bust point to the side is turned with the part above; the tape runs to the bust point and from
there on along the line as it was turned. It is as long as it was, and straight again when the dart has left.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from drafting.geometry import Move, Point
from drafting.pattern import Across, Bent, MarkLine, Measure, Pattern, Piece, Tape, with_pieces

__all__ = ["bent_levels", "is_onward", "onward_name"]

_BEYOND: Final = " beyond the dart"

_NEAR: Final = 15.0
"""mm from a level line within which a dart that is turned about a place bends it there (our figure)."""

_STRAIGHT: Final = 1e-9
"""The sine of the angle under which a bent line is straight again: the rounding of two turns."""


def onward_name(line: str) -> str:
    """What the far part of a bent line is called."""
    return f"{line}{_BEYOND}"


def is_onward(line: MarkLine) -> bool:
    """Whether a line is the far part of a bent one."""
    return line.name.endswith(_BEYOND)


def bent_levels(pattern: Pattern, was: Piece, pivot: Point, moves: Callable[[Point], bool], move: Move) -> Pattern:
    """The pattern with the tape of every measurement laid over the lines that were bent on a piece, or unbent.

    was: the piece before a part of it was turned about the pivot; `moves` says of a place whether it lies on that part
    """
    measured = {
        part.line
        for m in pattern.measures
        for part in m.tape
        if isinstance(part, Across | Bent) and part.piece == was.name
    }
    piece = pattern.piece(was.name)
    for line in was.lines:
        if line.name in measured:
            piece = _bent(piece, was, line, pivot, moves, move)
    bent = {line.name for line in piece.lines if any(other.name == onward_name(line.name) for other in piece.lines)}
    measures = tuple(_laid(measure, piece.name, bent) for measure in pattern.measures)
    return replace(with_pieces(pattern, piece), measures=measures)


def _bent(piece: Piece, was: Piece, line: MarkLine, pivot: Point, moves: Callable[[Point], bool], move: Move) -> Piece:
    """The piece with one line bent, bent further or unbent."""
    onward = next((other for other in was.lines if other.name == onward_name(line.name)), None)
    along = (line.end - line.start).unit()
    if onward is not None:
        if not moves(onward.end):
            return piece
        turned = MarkLine(onward.name, onward.start, move.point(onward.end))
        rest = tuple(other for other in piece.lines if other.name != onward.name)
        straight = abs(along.cross((turned.end - turned.start).unit())) <= _STRAIGHT
        return replace(piece, lines=rest if straight else (*rest, turned))
    if abs(along.cross(pivot - line.start)) > _NEAR or moves(line.start) == moves(line.end):
        return piece
    foot = line.start + along * along.dot(pivot - line.start)
    far = line.end if moves(line.end) else line.start
    return replace(piece, lines=(*piece.lines, MarkLine(onward_name(line.name), foot, move.point(far))))


def _laid(measure: Measure, piece: str, bent: set[str]) -> Measure:
    tape: list[Tape] = []
    for part in measure.tape:
        if isinstance(part, Across) and part.piece == piece and part.line in bent:
            tape.append(Bent(piece, part.line, onward_name(part.line), part.times))
        elif isinstance(part, Bent) and part.piece == piece and part.line not in bent:
            tape.append(Across(piece, part.line, part.times))
        else:
            tape.append(part)
    return replace(measure, tape=tuple(tape))
