"""Level lines that a dart bends: a measurement that ran straight across a piece is laid over the bend.

When a dart is moved, the cloth beyond the new dart is turned. A level line that runs across the new dart is then drawn
in two: up to the dart, and on from there as it was turned with the cloth. The tape follows it, and is as long as it
was, as it is on the sewn garment. When the dart has left, the line is one and straight again.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Move, Point, line_hits
from drafting.geometry.curve import Line
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Across, Bent, MarkLine, Measure, Pattern, Piece, Tape, free_name, relaid, with_pieces

__all__ = [
    "Swing",
    "bent_line",
    "fold_place",
    "measured_lines",
    "onward_of",
    "straightened",
    "with_levels_bent",
    "with_tape_over_bends",
]

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


def onward_of(line: MarkLine, lines: Iterable[MarkLine]) -> MarkLine | None:
    """The far part of a line that a dart bends; None where it is straight."""
    bent_there = line.level is not None and not line.onward
    return next((each for each in lines if bent_there and each.onward and each.level is line.level), None)


def with_levels_bent(pattern: Pattern, was: Piece, swing: Swing) -> Pattern:
    """The pattern with the tape of every measurement laid over the lines that a swing bent on a piece, or unbent.

    was: the piece before the swing
    """
    lines = {line.name: line for line in pattern.piece(was.name).lines}
    measured = measured_lines(pattern, was.name)
    for line in was.lines:
        onward = onward_of(line, was.lines)
        if line.name in measured and (onward or swing.moves(line.start) != swing.moves(line.end)):
            lines[line.name], far = bent_line(line, onward, swing, lines) or (lines[line.name], None)
            if onward:
                del lines[onward.name]
            lines |= {far.name: far} if far else {}
    return with_tape_over_bends(
        with_pieces(pattern, replace(pattern.piece(was.name), lines=tuple(lines.values()))), was.name
    )


def measured_lines(pattern: Pattern, piece: str) -> frozenset[str]:
    """The lines of a piece over which a measurement of the garment is taken."""
    laid = [part for measure in pattern.measures for part in measure.tape]
    return frozenset(part.line for part in laid if isinstance(part, Across | Bent) and part.piece == piece)


def with_tape_over_bends(pattern: Pattern, name: str) -> Pattern:
    """The pattern with the tape of its measurements laid over a piece's bent lines, and straight along the others."""
    lines = pattern.piece(name).lines
    over = {line.name: far.name for line in lines if (far := onward_of(line, lines)) is not None}

    def over_bend(_: Measure, part: Tape) -> tuple[Tape]:
        if isinstance(part, Across) and part.line in over:
            return (Bent(name, part.line, over[part.line], part.times),)
        if isinstance(part, Bent) and part.line not in over:
            return (Across(name, part.line, part.times),)
        return (part,)

    return replace(pattern, measures=relaid(pattern.measures, name, over_bend))


def bent_line(
    line: MarkLine, onward: MarkLine | None, swing: Swing, taken: Collection[str]
) -> tuple[MarkLine, MarkLine | None] | None:
    """A line and its far part after a swing; no far part where it is straight; None where it meets no dart.

    onward: its far part before the swing, if it was bent
    taken:  the names of the lines there are
    """
    if onward is not None:
        if not swing.moves(onward.end):
            return line, onward
        turned = onward.straight(swing.move.point(onward.start), swing.move.point(onward.end))
        straight = straightened(line, turned)
        return (line, turned) if straight is None else (straight, None)
    first, last = (line.end, line.start) if swing.moves(line.start) else (line.start, line.end)
    one, other = (fold_place(first, last, swing.pivot, place) for place in (swing.near, swing.far))
    if one is None or other is None:
        return None
    far = line.straight(swing.move.point(other), swing.move.point(last))
    name = free_name(f"{line.name} beyond the dart", taken)
    return line.straight(first, one), replace(far, name=name, onward=True)


def straightened(line: MarkLine, onward: MarkLine) -> MarkLine | None:
    """The two parts of a bent line as one, where they lie in one line again."""
    along = (line.end - line.start).unit()
    turned, aside = along.cross((onward.end - onward.start).unit()), along.cross(onward.start - line.start)
    return line.straight(line.start, onward.end) if abs(turned) <= _STRAIGHT and abs(aside) <= SAME_PLACE else None


def fold_place(start: Point, end: Point, pivot: Point, mouth: Point) -> Point | None:
    """Where a level line comes to the fold of the new dart: at its point, if it passes just by that."""
    along = (end - start).unit()
    if abs(along.cross(pivot - start)) <= _NEAR:
        return start + along * along.dot(pivot - start)
    hits = line_hits(Line(pivot, mouth), start, along)
    return hits[0].point if hits and hits[0].along > SAME_PLACE else None
