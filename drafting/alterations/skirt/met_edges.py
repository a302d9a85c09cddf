"""Old edges that a line below the waist cuts, or that lie above it: how they are parted there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.alterations.skirt.skirt_top import LineBelow, Top, borders
from drafting.alterations.techniques.cutting.split_edges import EdgePart, cut, whole_edge
from drafting.dataclass import dataclass
from drafting.geometry import run_length
from drafting.parts.folded_outline import LaidEdge
from drafting.pattern import Edge, EdgeRef, Pattern

__all__ = ["EdgeName", "MetEdge", "met_at_end", "met_at_ends", "met_between"]

EdgeName = tuple[str, str]
"""The names of a piece and of an edge of it."""


@dataclass(frozen=True, slots=True)
class MetEdge:
    """An old edge that the line cuts, or that lies above it.

    above:     how much of it lies above the line, mm
    runs_down: whether the outline runs along it down from the waist; else it runs up to the waist
    """

    ref: EdgeRef
    above: float
    runs_down: bool

    def part_above(self, edge: Edge) -> EdgePart:
        """What of it lies above the line."""
        part = self._parts(edge)[0]
        assert part is not None  # none is met that begins below the line
        return part

    def part_below(self, edge: Edge) -> EdgePart | None:
        """What of it lies below the line; None where nothing does."""
        return self._parts(edge)[1]

    def in_order(self, above: Sequence[EdgeName], below: Sequence[EdgeName]) -> tuple[EdgeName, ...]:
        """The new edges that are made of it, in the direction of the outline."""
        return (*above, *below) if self.runs_down else (*below, *above)

    def _parts(self, edge: Edge) -> tuple[EdgePart | None, EdgePart | None]:
        if self.above >= edge.length - 1e-6:
            return whole_edge(edge), None
        first, second = cut(edge, self.above if self.runs_down else edge.length - self.above)
        return (first, second) if self.runs_down else (second, first)


def met_at_end(laid: LaidEdge, *, runs_down: bool) -> MetEdge:
    """The old edge of which this stretch lies above the line, at an end of the waist."""
    return MetEdge(laid.ref, run_length(laid.edge.curves), runs_down)


def met_at_ends(line: LineBelow) -> Iterator[MetEdge]:
    """The edges beside the waist: first those that run down from its end, then those that run up to its start."""
    yield from (met_at_end(each, runs_down=True) for each in line.after)
    yield from (met_at_end(each, runs_down=False) for each in line.before)


def met_between(pattern: Pattern, top: Top, line: LineBelow) -> Iterator[MetEdge]:
    """The legs of darts and the seams of panels that run down and up between the ends of the waist."""
    for border, beyond, down in zip(borders(pattern, top), top.run[1:], line.downs, strict=True):
        name = border.piece.name
        if border.dart is not None:
            into, out = border.dart.legs
            yield MetEdge(EdgeRef(name, into), down, True)
            yield MetEdge(EdgeRef(name, out), down, False)
        elif border.edge:
            other = pattern.piece(beyond.ref.piece)
            yield MetEdge(EdgeRef(name, border.edge), down, True)
            yield MetEdge(EdgeRef(other.name, other.beside(beyond.ref.edge)[0].name), down, False)
