"""The edges of pieces read from a drawing: what each is called, how long it is, where on its piece it lies."""

from __future__ import annotations

from drafting.geometry import run_at, run_bounds
from drafting.pattern import Edge, Pattern
from drafting.reading.units import length_text
from output.report.tables import Column, Row, Table

__all__ = ["edge_table"]


def edge_table(pattern: Pattern, unit: str) -> Table:
    """A row for each edge, anticlockwise round its piece."""
    columns = (Column("edge"), Column("length", True), Column("lies"), Column("done with it"), Column("place"))
    rows = [
        Row(
            (
                f"{piece.name}: {edge.name}",
                length_text(edge.length, unit),
                _lies(edge, box),
                str(edge.role),
                str(edge.place or ""),
            )
        )
        for piece in pattern.pieces
        for box in [run_bounds(piece.outline)]
        for edge in piece.edges
    ]
    return Table("Edges, anticlockwise round each piece", columns, tuple(rows))


def _lies(edge: Edge, box: tuple[float, float, float, float]) -> str:
    """Where its middle lies in the box round the piece: "upper left", "bottom"."""
    left, bottom, right, top = box
    at = run_at(edge.curves, 0.5 * edge.length)
    across = "left" if at.x < left + (right - left) / 3 else "right" if at.x > right - (right - left) / 3 else ""
    up = at.y < bottom + (top - bottom) / 3, at.y > top - (top - bottom) / 3
    if across:
        return f"{'lower ' if up[0] else 'upper ' if up[1] else ''}{across}"
    return "bottom" if up[0] else "top" if up[1] else "middle"
