"""A pattern in a page of plain text: every number it is made of, to a thousandth of a mm or a tenth of a degree."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from drafting.geometry import Vec, distance, run_at, run_ends
from drafting.pattern import Edge, Pattern, Piece, dart_width, finished, walk
from drafting.reading.options import Option, Required

__all__ = ["digest", "options_digest"]

_ABOUT = (
    "An edge: its length, its allowance; where it begins; the degrees at which it begins and ends, anticlockwise from",
    "the right; how far to the right of its chord it lies half way along. A dart: its width, its point. A notch: how",
    "far along. A line: from where to where, its length. A point: where. The grain: from where to where.",
    "A seam: both sides, the ease asked for, the least and the most. Finished: the size, the least ease, the usual.",
)


def digest(pattern: Pattern) -> str:
    """The text, with a line for each thing."""
    lines = [pattern.title, *_ABOUT]
    for piece in pattern.pieces:
        lines += ["", piece.name, *_piece(piece)]
    lines += ["", "seams"]
    for seam in pattern.seams:
        walked = walk(pattern, seam)
        ease = (seam.ease.wanted, seam.ease.low, seam.ease.high)
        lines.append(_row(seam.name, walked.a, walked.b, *(ease if any(ease) else ())))
        lines += [f"    {one.notch} of {one.piece} meets {other.notch} of {other.piece}" for one, other in seam.notches]
    lines += ["", "finished"]
    for measure, made in zip(pattern.measures, finished(pattern), strict=True):
        limits = [limit for limit in (measure.least, measure.snug) if limit is not None]
        lines.append(_row(f"{measure.name} ({measure.key or 'of no body'})", made.finished, *limits))
    lines += ["", "gave way", *(f"  {sentence}" for origin in pattern.origin for sentence in origin.gave_way)]
    return "\n".join(lines) + "\n"


def _piece(piece: Piece) -> Iterator[str]:
    cut = piece.cut
    yield f"  cut {cut.count}{', on the fold' * cut.fold}{', the second a mirror image' * cut.mirror}"
    if piece.grain is not None:
        yield _row("grain", piece.grain.start.x, piece.grain.start.y, piece.grain.end.x, piece.grain.end.y)
    for edge in piece.edges:
        what = ", ".join(str(word) for word in (edge.role, edge.place, edge.half) if word is not None)
        yield _row(f"{edge.name} ({what})", edge.length, edge.allowance, edge.start.x, edge.start.y, *_shape(edge))
    for dart in piece.darts:
        aim = f", drawn towards the {dart.aims_at}" if dart.aims_at else ""
        yield _row(f"{dart.name}{aim}", dart_width(piece, dart), dart.apex.x, dart.apex.y)
    for notch in piece.notches:
        station = notch.station
        yield _row(f"{notch.name} ({notch.style}), from the {station.end} of {station.edge}", station.at)
    for line in piece.lines:
        yield _row(line.name, line.start.x, line.start.y, line.end.x, line.end.y, distance(line.start, line.end))
    for mark in piece.points:
        yield _row(mark.name, mark.at.x, mark.at.y)
    for one, other in piece.points_meant:
        yield f"  a point is meant between {one} and {other}"


def _shape(edge: Edge) -> tuple[float, float, float]:
    """The directions at its ends in degrees, and how far from its chord it lies half way along, mm."""
    first, last = run_ends(edge.curves)
    chord = edge.end - edge.start
    off = (run_at(edge.curves, edge.length / 2) - edge.start).cross(chord) / chord.norm()
    return _degrees(first), _degrees(last), off


def _degrees(direction: Vec) -> float:
    return round(math.degrees(math.atan2(direction.y, direction.x)), 1) % 360.0


def options_digest(tables: Iterable[tuple[str, Sequence[Option]]]) -> str:
    """Every option of what is listed: its kind, the least and the most it may be, and what it is when left out."""
    lines = ["Every option: its kind, the least and the most, what may be chosen, and what it is when it is left out."]
    for name, options in tables:
        lines += ["", name, *(f"  {_option(option)}" for option in options)]
    return "\n".join(lines) + "\n"


def _option(option: Option) -> str:
    default = "has to be given" if isinstance(option.default, Required) else f"else {option.default}"
    limits = f"{option.low} to {option.high}" if option.kind not in ("text", "choice", "flag") else ""
    return ", ".join(part for part in (option.name, option.kind, limits, " or ".join(option.choices), default) if part)


def _row(name: str, *values: float) -> str:
    # zero is written without the sign that rounding may leave
    return f"  {name:60}" + "".join(f"{round(value, 3) + 0.0:11.3f}" for value in values)
