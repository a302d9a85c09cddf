"""A DXF file made of an empty drawing and the entities of its blocks, as pairs of a group code and a value.

`empty_drawing.dxf` is what ezdxf writes for a new R2000 drawing in millimetres with our layers; a test holds it to
that, and `python -m tests.outside.empty_drawing` writes it again. Only what differs from pattern to pattern is written
here: loading the library and making an object for each of some thousand points took half the time of a draft.
Group codes: Autodesk, DXF Reference (the published format).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import Final

from drafting.geometry import Point, Vec
from output.dxf.dxf_layers import APP

__all__ = ["Entities", "dxf_file", "new_handles"]

_ENCODING: Final = "cp1252"
_PLACES: Final = 6
_LONGEST_TEXT: Final = 200

_MODEL_SPACE, _LAYERS, _BLOCK_RECORDS, _PLOT_STYLE = "17", "1", "9", "13"
"""Handles in the empty drawing: of the record of the drawing itself, of two tables, of the plot style of its layers."""

_ROOT: Final = "A"
"""Handle in the empty drawing of the dictionary that holds all others."""

_FIRST_HANDLE: Final = 0x1000
"""Higher than any handle in the empty drawing."""


def new_handles() -> Iterator[str]:
    """The handles by which the entities of a file know each other, none twice and none of the empty drawing."""
    return (f"{number:X}" for number in count(_FIRST_HANDLE))


@dataclass(frozen=True, slots=True)
class Entities:
    """The entities of one block, or of the drawing itself, as they will stand in the file.

    owner: the handle of the block's record
    data:  what is kept on an entity for our own reader, as extended data; other readers leave it alone
    """

    handles: Iterator[str]
    owner: str = _MODEL_SPACE
    written: list[str] = field(default_factory=list)

    def line(self, start: Point, end: Point, layer: str, data: Sequence[int | float | str] = ()) -> None:
        """A straight line."""
        self._add("LINE", layer, f"100\nAcDbLine\n{_at(start)}{_at(end, 11)}", data)

    def point(
        self,
        at: Point,
        layer: str,
        data: Sequence[int | float | str] = (),
        *,
        reach: Vec | None = None,
    ) -> None:
        """A point. reach: of a notch, from the edge inward; its length stands as thickness, its direction as angle."""
        deep, angle = (0.0, 0.0) if reach is None else (_number(reach.norm()), _number(math.degrees(reach.angle())))
        cut = (f" 39\n{deep}\n" if deep else "") + (f" 50\n{angle}\n" if angle else "")
        self._add("POINT", layer, f"100\nAcDbPoint\n{_at(at)}{cut}", data)

    def polyline(
        self, places: Iterable[Point], layer: str, data: Sequence[int | float | str] = (), *, closed: bool = False
    ) -> None:
        """Straight from place to place, and back to the first where it is closed."""
        body = f"100\nAcDb2dPolyline\n 66\n1\n{_at(_ORIGIN)} 70\n{int(closed)}\n"
        own = self._add("POLYLINE", layer, body, data)
        for at in places:
            self._add("VERTEX", layer, f"100\nAcDbVertex\n100\nAcDb2dVertex\n{_at(at)} 70\n0\n")
        self.written.append(_entity("SEQEND", next(self.handles), own, layer))

    def text(self, words: str, at: Point, size: float, layer: str, data: Sequence[int | float | str] = ()) -> None:
        """Words on one line, `size` mm high, beginning at a place."""
        body = f"100\nAcDbText\n{_at(at)} 40\n{size}\n  1\n{_one_line(words)}\n{_at(at, 11)}100\nAcDbText\n"
        self._add("TEXT", layer, body, data)

    def insert(self, block: str, at: Point, layer: str) -> None:
        """A block, its origin put in a place, at true scale."""
        self._add("INSERT", layer, f"100\nAcDbBlockReference\n  2\n{block}\n{_at(at)}")

    def _add(self, kind: str, layer: str, body: str, data: Sequence[int | float | str] = ()) -> str:
        """Write an entity; its handle."""
        handle = next(self.handles)
        self.written.append(_entity(kind, handle, self.owner, layer) + body + _extended(data))
        return handle


def dxf_file(
    blocks: Mapping[str, Entities],
    drawing: Entities,
    handles: Iterator[str],
    more_layers: Mapping[str, str],
    *,
    extents: tuple[Point, Point],
    record: str = "",
) -> bytes:
    """The file of blocks, by name, and of what stands in the drawing itself.

    handles:     those that the entities had theirs of
    more_layers: layers besides those of the standard, and what each is for
    extents:     the lower left and upper right corner of all that is drawn
    record:      a text without spaces, kept for our own reader where no other looks; "" for none
    """
    layers, records, definitions = [], [], []
    for name, about in more_layers.items():
        look = f" 70\n0\n 62\n7\n  6\nContinuous\n370\n-3\n390\n{_PLOT_STYLE}\n"
        note = f"1001\nAcAecLayerStandard\n1000\n\n1000\n{_one_line(about)}\n"
        layers.append(_record("LAYER", next(handles), _LAYERS, "AcDbLayerTableRecord", name) + look + note)
    for name, entities in blocks.items():
        records.append(
            _record("BLOCK_RECORD", entities.owner, _BLOCK_RECORDS, "AcDbBlockTableRecord", name) + "340\n0\n"
        )
        begin = f"100\nAcDbBlockBegin\n  2\n{name}\n 70\n0\n{_at(_ORIGIN)}  3\n{name}\n  1\n\n"
        definitions.append(_entity("BLOCK", next(handles), entities.owner, "0") + begin)
        definitions += entities.written
        definitions.append(_entity("ENDBLK", next(handles), entities.owner, "0") + "100\nAcDbBlockEnd\n")
    text = (Path(__file__).parent / "empty_drawing.dxf").read_text(encoding=_ENCODING)
    text = _longer_table(text, "LAYER", layers)
    text = _longer_table(text, "BLOCK_RECORD", records)
    text = _inserted(text, definitions, "SECTION\n  2\nBLOCKS\n", "ENDSEC")
    text = _inserted(text, drawing.written, "SECTION\n  2\nENTITIES\n", "ENDSEC")
    text = _with_record(text, record, next(handles)) if record else text
    for name, corner in zip(("$EXTMIN", "$EXTMAX"), extents, strict=True):
        head, begin, rest = text.partition(f"  9\n{name}\n")
        text = head + begin + _at(corner) + rest[rest.index("  9\n") :]
    head, seed, rest = text.partition("$HANDSEED\n  5\n")
    return _encoded(head + seed + next(handles) + rest[rest.index("\n") :])


_ORIGIN: Final = Point(0.0, 0.0)


def _entity(kind: str, handle: str, owner: str, layer: str) -> str:
    return f"  0\n{kind}\n  5\n{handle}\n330\n{owner}\n100\nAcDbEntity\n  8\n{layer}\n"


def _record(kind: str, handle: str, table: str, subclass: str, name: str) -> str:
    return f"  0\n{kind}\n  5\n{handle}\n330\n{table}\n100\nAcDbSymbolTableRecord\n100\n{subclass}\n  2\n{name}\n"


def _number(value: float) -> float:
    return round(value, _PLACES) + 0.0  # adding zero makes a minus zero plain


def _at(place: Point, code: int = 10) -> str:
    x, y = _number(place.x), _number(place.y)
    return f" {code}\n{x}\n {code + 10}\n{y}\n {code + 20}\n0.0\n"


def _extended(data: Sequence[int | float | str]) -> str:
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


def _inserted(text: str, entries: Iterable[str], begin: str, end: str) -> str:
    """The text with entries put in before the end of the part that begins so."""
    at = text.index(f"  0\n{end}\n", text.index(begin))
    return text[:at] + "".join(entries) + text[at:]


def _longer_table(text: str, name: str, entries: Sequence[str]) -> str:
    """The text with entries at the end of the table of that name, and how many there are at its begin."""
    begin = f"TABLE\n  2\n{name}\n"
    head, name_line, rest = _inserted(text, entries, begin, "ENDTAB").partition(begin)
    before, group, after = rest.partition("\n 70\n")
    known, _, after = after.partition("\n")
    return f"{head}{name_line}{before}{group}{int(known) + len(entries)}\n{after}"


def _with_record(text: str, record: str, handle: str) -> str:
    """The text with a record of the application in the dictionary that holds all others."""
    entry = f"  3\n{APP}\n350\n{handle}\n"
    text = _inserted(text, [entry], f"DICTIONARY\n  5\n{_ROOT}\n", "DICTIONARY")
    lines = (record[at : at + _LONGEST_TEXT] for at in range(0, len(record), _LONGEST_TEXT))
    body = "".join(f"  1\n{line}\n" for line in lines)
    xrecord = f"  0\nXRECORD\n  5\n{handle}\n330\n{_ROOT}\n100\nAcDbXrecord\n280\n1\n{body}"
    return _inserted(text, [xrecord], "SECTION\n  2\nOBJECTS\n", "ENDSEC")


def _encoded(text: str) -> bytes:
    r"""The bytes of a text; a letter that the encoding has not as \U+ and its number, as DXF writes it."""
    try:
        return text.encode(_ENCODING)
    except UnicodeEncodeError:
        strange = {letter for letter in set(text) if not _encodable(letter)}
        return text.translate({ord(letter): f"\\U+{ord(letter):04x}" for letter in strange}).encode(_ENCODING)


def _encodable(letter: str) -> bool:
    return bool(letter.encode(_ENCODING, "ignore"))
