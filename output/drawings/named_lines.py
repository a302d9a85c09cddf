"""The lines of a piece one by one, each with a name, for whoever finishes the pattern in a drawing program."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line
from drafting.pattern import Piece, Role
from drafting.pattern.cutting import cutting_line, dart_roof
from drafting.pattern.notches import notch_ends
from drafting.pattern.seam_ends import ALONE, Sewn
from output.drawings.drawing import LineKind, printable
from output.drawings.piece_marks import drawn_lines, mark_curves

__all__ = ["NamedLine", "named_lines", "xml_ids"]


@dataclass(frozen=True, slots=True)
class NamedLine:
    """A line and what it is: "edge: side seam". kind: how it is drawn; None for an edge that is not drawn by itself."""

    name: str
    kind: LineKind | None
    curves: tuple[Curve, ...]


def named_lines(piece: Piece, sewn: Sewn = ALONE) -> tuple[NamedLine, ...]:
    """Every edge, dart, notch and mark of a piece, drawn as `piece_strokes` draws it.

    An edge without an allowance lies under the cutting line or the fold, and is there without being drawn.
    """
    return (*_edges(piece), *_darts(piece), *_marks(piece, sewn))


def _edges(piece: Piece) -> Iterator[NamedLine]:
    for edge in piece.edges:
        if edge.role is not Role.DART_LEG:
            drawn = edge.allowance > 0.0 and edge.role is not Role.FOLD
            yield NamedLine(f"edge: {edge.name}", LineKind.SEWING if drawn else None, edge.curves)


def _darts(piece: Piece) -> Iterator[NamedLine]:
    in_darts = {leg for dart in piece.darts for leg in dart.legs}
    for dart in piece.darts:
        legs = tuple(curve for leg in dart.legs for curve in piece.edge(leg).curves)
        yield NamedLine(f"dart: {dart.name}", LineKind.DART, legs)
        if roof := tuple(dart_roof(piece, dart)):
            yield NamedLine(f"dart, between its legs: {dart.name}", LineKind.SEWING, roof)
    for edge in piece.edges:
        if edge.role is Role.DART_LEG and edge.name not in in_darts:
            yield NamedLine(f"edge: {edge.name}", LineKind.DART, edge.curves)


def _marks(piece: Piece, sewn: Sewn) -> Iterator[NamedLine]:
    border = cutting_line(piece, sewn)
    for notch in piece.notches:
        ends = notch_ends(piece, notch, border)
        yield NamedLine(f"notch: {notch.name}", LineKind.NOTCH, tuple(Line(a, b) for a, b in ends))
    for line in drawn_lines(piece):
        yield NamedLine(f"line: {line.name}", LineKind.BALANCE, line.drawn)
    for name, curves in mark_curves(piece):
        yield NamedLine(name, LineKind.POINT, curves)


def xml_ids(names: Iterable[str]) -> Iterator[str]:
    """A name for each in the letters of an XML id, no two alike: "edge: side seam" becomes edge-side-seam."""
    taken: set[str] = set()
    for name in names:
        parts = "".join(letter if _may_stand_in_an_id(letter) else " " for letter in printable(name)).split()
        stem = "-".join(parts) or "line"
        stem = stem if stem[0].isalpha() else f"line-{stem}"
        one, count = stem, 1
        while one in taken:
            count += 1
            one = f"{stem}-{count}"
        taken.add(one)
        yield one


def _may_stand_in_an_id(letter: str) -> bool:
    """Whether XML 1.0 allows a letter in a name (production 4), the ranges of the writing of people."""
    if letter.isascii():
        return letter.isalnum()
    code = ord(letter)
    return letter.isalnum() and (0xC0 <= code <= 0x1FFF or 0x3001 <= code <= 0xD7FF) and code not in (0xD7, 0xF7, 0x37E)
