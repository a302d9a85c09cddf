"""Reading the pieces in a DXF back, so that they can be checked: ours, or any that keeps to the layers.

What a DXF of pieces does not hold, the pattern that comes back does not have: measurements, and, unless we wrote it,
seams and the names of edges, darts and allowances.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from drafting.errors import InputProblems, Problem
from drafting.pattern import Pattern, Piece, Wearer
from drafting.pattern.find import free_name
from drafting.pattern.text import with_seams
from drafting.pattern.text_values import MOST_PIECES
from output.dxf.block_drawing import BlockReading
from output.dxf.block_reader import read_piece
from output.dxf.dxf_layers import APP, INCH, METRIC, Layer, Mark, Word
from output.dxf.entity_data import (
    MOST_LETTERS,
    is_line,
    kept_data,
    layer_of,
    line_name,
    printable_text,
    spaces_again,
    texts_by_word,
)
from output.dxf.load_drawing import load_drawing

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.entities.dxfentity import DXFEntity

__all__ = ["read_dxf"]

_MM_PER_UNIT: Final = {1: 25.4, 4: 1.0, 5: 10.0, 6: 1000.0}
"""Millimetres to the unit, by the code under $INSUNITS in the header (DXF reference): inch, mm, cm, m."""

_MM_PER_NAME: Final = {"mm": 1.0, "cm": 10.0, "in": 25.4}
_SAY_UNIT: Final = 'Export the file again with its unit stated, or say it in a file beside it: drawing_unit = "mm".'

_MM_PER_SYSTEM: Final = {METRIC: 1.0, INCH: 25.4}


def read_dxf(raw: bytes, *, place: str = "the DXF file", unit: str | None = None) -> Pattern:
    """The pieces in a DXF file, one to each block that holds an outline, in millimetres.

    The outline is what lies on the layer of the sew lines, else the boundary, else the line that encloses the most; it
    is split at its turn points, or, where there are none, at its corners. Where no block holds one, every closed line
    of the drawing itself that lies in no other is a piece.
    unit: "mm", "cm" or "in", for a file that states none
    Raises InputProblems that lists everything that keeps the pieces from being read.
    """
    document = load_drawing(raw, place)
    problems: list[Problem] = []
    scale = _mm_per_unit(document, place, unit, problems)
    drawn = _drawn_pieces(document, scale, place, problems)
    if not drawn and not problems:
        expected = f"a block with an outline on layer {Layer.SEW_LINES} or {Layer.BOUNDARY} for each piece"
        points = dict.fromkeys(line_name(entity) for entity in document.modelspace() if is_line(entity))
        found = [f"a {name} that is a single point" for name in points] or ["no block that holds a piece"]
        problems += [Problem(place, each, expected) for each in found]
    _note_scaled(document, {reading.name for reading in drawn}, place, problems)
    if problems:
        raise InputProblems(problems)
    read: list[tuple[Piece, str]] = []
    for reading in drawn:
        piece = read_piece(reading)
        if piece is not None:
            read.append((piece, texts_by_word(reading.entities).get(Word.SIZE, "")))
    if problems:
        raise InputProblems(problems)
    words = texts_by_word([*document.modelspace(), *(entity for reading in drawn for entity in reading.entities)])
    one_size = len({size for _, size in read}) == 1
    wearer = Wearer(words.get(Word.SIZE, "") if one_size else "", unit="in" if scale == _MM_PER_NAME["in"] else "cm")
    return _with_our_seams(Pattern(words.get(Word.STYLE, ""), wearer, _of_one_name_each(read)), document, place)


def _with_our_seams(pattern: Pattern, document: Drawing, place: str) -> Pattern:
    """The pattern with the seams that we kept in the file; without, where there are none or they go with it no longer.

    The last is so where a program that knows nothing of them has changed the pieces and saved the file.
    """
    shares = [kept_data(insert) for insert in document.modelspace().query("INSERT")]
    ours = sorted((data[1], data[2:]) for data in shares if data[:1] == (Mark.SEAMS.value,))
    text = spaces_again("".join(str(line) for _, lines in ours for line in lines)) or _record(document)
    if not text:
        return pattern
    try:
        return with_seams(pattern, text, place=place)
    except InputProblems:
        return pattern


def _record(document: Drawing) -> str:
    """The seams of a file of release 2000, as ours once were: kept in a record of the whole file; "" where none are."""
    from ezdxf.entities.dxfobj import XRecord

    record = document.rootdict.get(APP)
    return "".join(str(tag.value) for tag in record.tags if tag.code == 1) if isinstance(record, XRecord) else ""


def _of_one_name_each(read: Sequence[tuple[Piece, str]]) -> tuple[Piece, ...]:
    """The pieces, no two of one name: those of a nest are called after their size as well."""
    names = [piece.name for piece, _ in read]
    pieces: list[Piece] = []
    for piece, size in read:
        name = f"{piece.name}, size {size}" if size and names.count(piece.name) > 1 else piece.name
        pieces.append(replace(piece, name=free_name(name, [other.name for other in pieces])))
    return tuple(pieces)


def _drawn_pieces(document: Drawing, scale: float, place: str, problems: list[Problem]) -> list[BlockReading]:
    """What is drawn of each piece: the blocks with an outline on its layer, else every block, else the drawing."""
    blocks = {block.name: list(block) for block in document.blocks if not block.is_any_layout}
    space = list(document.modelspace())
    outlined = {name: entities for name, entities in blocks.items() if _holds_outline(entities)}
    loose = BlockReading(space, "", scale, place, problems)
    if not outlined and (_holds_outline(space) or not any(blocks.values())):
        return loose.parted()
    drawn = {name: entities for name, entities in (outlined or blocks).items() if entities}
    if len(drawn) > MOST_PIECES:
        loose.problem(f"{len(drawn):,} blocks with something drawn in them", f"up to {MOST_PIECES}, one for each piece")
        return []
    return [
        replace(loose, entities=entities, name=name, place=f"{place}, block {printable_text(name)[:MOST_LETTERS]}")
        for name, entities in drawn.items()
    ]


def _mm_per_unit(document: Drawing, place: str, unit: str | None, problems: list[Problem]) -> float:
    """How many mm one unit of the drawing is, by its header, a text in it, or who asked; noted where nobody says."""
    stated = str(document.header.get("$INSUNITS", 0))
    code = int(stated) if stated.isdecimal() and len(stated) < 4 else 0
    if code in _MM_PER_UNIT:
        return _MM_PER_UNIT[code]
    entities = [*document.modelspace(), *(entity for block in document.blocks for entity in block)]
    system = texts_by_word(entities).get(Word.UNITS, "").upper()
    if system in _MM_PER_SYSTEM:
        return _MM_PER_SYSTEM[system]
    if unit is not None:
        return _MM_PER_NAME[unit]
    read = "no unit" if not code else f"the unit number {stated}"
    expected = f'$INSUNITS of 4 (millimetres) in the header, or a text "{Word.UNITS}: {METRIC}"'
    problems.append(Problem(place, read, expected, _SAY_UNIT))
    return 1.0


def _holds_outline(entities: Sequence[DXFEntity]) -> bool:
    return any(layer_of(entity) in (Layer.SEW_LINES.value, Layer.BOUNDARY.value) for entity in entities)


def _note_scaled(document: Drawing, blocks: set[str], place: str, problems: list[Problem]) -> None:
    for insert in document.modelspace().query("INSERT"):
        scales = [abs(insert.dxf.get(key, 1.0)) for key in ("xscale", "yscale")]
        if insert.dxf.name in blocks and any(abs(scale - 1.0) > 1e-9 for scale in scales):
            where = f"{place}, block {insert.dxf.name}"
            read = f"a piece inserted at a scale of {scales[0]:g} by {scales[1]:g}"
            problems.append(Problem(where, read, "a scale of 1", "Only true scale can be checked."))
