"""A cut straight across the grain of a piece, and how the lines marked on it lie to that."""

from __future__ import annotations

from dataclasses import dataclass

from drafting.geometry import Point, Vec
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import MarkLine

__all__ = ["CutLine", "level_with", "lies_across"]


@dataclass(frozen=True, slots=True)
class CutLine:
    """A cut straight across the grain, through a point; `down` is the unit direction towards the part that moves.

    line: the marked line that the cut follows; None where it follows none
    """

    through: Point
    down: Vec
    line: MarkLine | None = None

    def depth(self, point: Point) -> float:
        """How far a point lies below the cut, mm along the grain; negative above it."""
        return (point.x - self.through.x) * self.down.x + (point.y - self.through.y) * self.down.y

    def below(self, point: Point) -> bool:
        """Whether a point moves. What lies on the cut itself stays."""
        return self.depth(point) > SAME_PLACE


def lies_across(line: MarkLine, cut: CutLine) -> bool:
    """Whether a marked line lies more across the grain than along it."""
    direction = line.end - line.start
    return abs(direction.cross(cut.down)) > abs(direction.dot(cut.down))


def level_with(line: MarkLine, cut: CutLine) -> bool:
    """Whether a line lies where the cut is: the width there is what the redrawn sides make it."""
    return line is cut.line or max(abs(cut.depth(line.start)), abs(cut.depth(line.end))) <= 0.5
