"""A DXF file of release 12, from the entities of its blocks: pairs of a group code and a value, a line each.

Release 12 because the exchange of patterns grew from it and every reader of DXF takes it; and because it asks of an
entity nothing but its layer and where it is, where later ones ask for a handle, an owner and the names of two classes:
a vertex takes 34 bytes and not 125, a point 32 and not 101. It has no place for a unit among its own variables;
`$INSUNITS` of later releases is written all the same, which readers of any release look at, and the texts say it too.
Group codes: Autodesk, DXF Reference (the published format). Strings longer than 255 letters may be refused by readers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Point, Vec
from output.dxf.dxf_layers import APP, Layer

__all__ = ["Entities", "dxf_file"]

_ENCODING: Final = "cp1252"

_PLACES: Final = 2
"""Decimals of what is drawn, mm: a hundredth, a fifth of what chords may stray."""

_LONGEST_TEXT: Final = 250

_MILLIMETRES, _METRIC = 4, 1
"""Of `$INSUNITS` and `$MEASUREMENT`."""


@dataclass(frozen=True, slots=True)
class Entities:
    """The entities of one block, or of the drawing itself, as they will stand in the file.

    `data` of each is what is kept on it for our own reader, as extended data; other readers leave it alone.
    """

    written: list[str] = field(default_factory=list)

    def line(self, start: Point, end: Point, layer: str, data: Sequence[float | str] = ()) -> None:
        """A straight line."""
        self._add("LINE", layer, f"{_at(start)}{_at(end, 11)}", data)

    def point(self, at: Point, layer: str, data: Sequence[float | str] = (), *, reach: Vec | None = None) -> None:
        """A point. reach: of a notch, from the edge inward; its length stands as thickness, its direction as angle."""
        deep, angle = (0.0, 0.0) if reach is None else (_number(reach.norm()), _number(math.degrees(reach.angle())))
        cut = (f"39\n{deep}\n" if deep else "") + (f"50\n{angle}\n" if angle else "")
        self._add("POINT", layer, _at(at) + cut, data)

    def polyline(
        self, places: Iterable[Point], layer: str, data: Sequence[float | str] = (), *, closed: bool = False
    ) -> None:
        """Straight from place to place, and back to the first where it is closed."""
        self._add("POLYLINE", layer, f"66\n1\n70\n{int(closed)}\n", data)
        for at in places:
            self._add("VERTEX", layer, _at(at))
        self._add("SEQEND", layer)

    def text(self, words: str, at: Point, size: float, layer: str, data: Sequence[float | str] = ()) -> None:
        """Words on one line, `size` mm high, beginning at a place."""
        self._add("TEXT", layer, f"{_at(at)}40\n{size}\n1\n{_one_line(words)}\n", data)

    def insert(self, block: str, at: Point, layer: str, data: Sequence[float | str] = ()) -> None:
        """A block, its origin put in a place, at true scale."""
        self._add("INSERT", layer, f"2\n{block}\n{_at(at)}", data)

    def _add(self, kind: str, layer: str, body: str = "", data: Sequence[float | str] = ()) -> None:
        self.written.append(f"0\n{kind}\n8\n{layer}\n{body}{_extended(data)}")


def dxf_file(
    blocks: Mapping[str, Entities], drawing: Entities, more_layers: Iterable[str], *, extents: tuple[Point, Point]
) -> bytes:
    """The file of blocks, by name, and of what stands in the drawing itself.

    more_layers: layers besides those of the standard
    extents:     the lower left and upper right corner of all that is drawn
    """
    lowest, highest = extents
    header = (
        "9\n$ACADVER\n1\nAC1009\n9\n$DWGCODEPAGE\n3\nANSI_1252\n"
        f"9\n$INSUNITS\n70\n{_MILLIMETRES}\n9\n$MEASUREMENT\n70\n{_METRIC}\n"
        f"9\n$EXTMIN\n{_at(lowest)}9\n$EXTMAX\n{_at(highest)}"
    )
    layers = [f"2\n{name}\n70\n0\n62\n7\n6\nCONTINUOUS\n" for name in ("0", *Layer, *more_layers)]
    solid = "2\nCONTINUOUS\n70\n0\n3\nSolid line\n72\n65\n73\n0\n40\n0.0\n"
    plain = "2\nSTANDARD\n70\n0\n40\n0.0\n41\n1.0\n50\n0.0\n71\n0\n42\n2.5\n3\ntxt\n4\n\n"
    tables = (
        _table("LTYPE", [solid]),
        _table("LAYER", layers),
        _table("STYLE", [plain]),
        _table("APPID", [f"2\n{APP}\n70\n0\n"]),
    )
    definitions = (
        f"0\nBLOCK\n8\n0\n2\n{name}\n70\n0\n{_at(_ORIGIN)}3\n{name}\n{''.join(entities.written)}0\nENDBLK\n8\n0\n"
        for name, entities in blocks.items()
    )
    sections = {
        "HEADER": header,
        "TABLES": "".join(tables),
        "BLOCKS": "".join(definitions),
        "ENTITIES": "".join(drawing.written),
    }
    text = "".join(f"0\nSECTION\n2\n{name}\n{body}0\nENDSEC\n" for name, body in sections.items())
    return _encoded(f"{text}0\nEOF\n")


_ORIGIN: Final = Point(0.0, 0.0)


def _table(name: str, entries: Sequence[str]) -> str:
    rows = "".join(f"0\n{name}\n{entry}" for entry in entries)
    return f"0\nTABLE\n2\n{name}\n70\n{len(entries)}\n{rows}0\nENDTAB\n"


def _number(value: float) -> float:
    return round(value, _PLACES) + 0.0  # adding zero makes a minus zero plain


def _at(place: Point, code: int = 10) -> str:
    return f"{code}\n{_number(place.x)}\n{code + 10}\n{_number(place.y)}\n"


def _extended(data: Sequence[float | str]) -> str:
    """Extended data: texts under group 1000, numbers with a fraction under 1040, whole ones under 1071."""
    groups = {float: 1040, int: 1071}
    kept = (
        f"1000\n{_one_line(value)}\n" if isinstance(value, str) else f"{groups[type(value)]}\n{value}\n"
        for value in data
    )
    return f"1001\n{APP}\n{''.join(kept)}" if data else ""


def _one_line(text: str) -> str:
    """A text as DXF can hold it: on one line, no longer than any reader takes."""
    return "".join(c if c.isprintable() else " " for c in text)[:_LONGEST_TEXT]


def _encoded(text: str) -> bytes:
    r"""The bytes of a text; a letter that the encoding has not as \U+ and its number, as DXF writes it."""
    try:
        return text.encode(_ENCODING)
    except UnicodeEncodeError:
        strange = {letter for letter in set(text) if not _encodable(letter)}
        return text.translate({ord(letter): f"\\U+{ord(letter):04x}" for letter in strange}).encode(_ENCODING)


def _encodable(letter: str) -> bool:
    return bool(letter.encode(_ENCODING, "ignore"))
