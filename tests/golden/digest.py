"""A pattern in a page of plain text: every edge, dart, notch and seam with its length, to a thousandth of a mm."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.geometry import distance
from drafting.pattern import Pattern, Piece, dart_width, finished, walk

__all__ = ["digest"]


def digest(pattern: Pattern) -> str:
    """The text, with a line for each thing."""
    lines = [pattern.title]
    for piece in pattern.pieces:
        lines += ["", piece.name, *_piece(piece)]
    lines += ["", "seams"]
    for seam in pattern.seams:
        walked = walk(pattern, seam)
        lines.append(_row(seam.name, walked.a, walked.b))
    lines += ["", "finished", *(_row(each.name, each.finished) for each in finished(pattern))]
    return "\n".join(lines) + "\n"


def _piece(piece: Piece) -> Iterator[str]:
    for edge in piece.edges:
        yield _row(f"{edge.name} ({edge.role})", edge.length, edge.allowance)
    for dart in piece.darts:
        yield _row(f"{dart.name}, width", dart_width(piece, dart))
    for notch in piece.notches:
        yield _row(f"{notch.name}, from the {notch.station.end} of {notch.station.edge}", notch.station.at)
    for line in piece.lines:
        yield _row(line.name, distance(line.start, line.end))
    for mark in piece.points:
        yield _row(mark.name, mark.at.x, mark.at.y)


def _row(name: str, *values: float) -> str:
    # zero is written without the sign that rounding may leave
    return f"  {name:60}" + "".join(f"{round(value, 3) + 0.0:12.3f}" for value in values)
