"""Loading a DXF file: refused before the library reads it where it is too much, after that where it is damaged."""

from __future__ import annotations

import io
import logging
import re
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import islice
from typing import TYPE_CHECKING, Final

from drafting.errors import InputProblems, Problem
from output.dxf.entity_data import DRAW_AGAIN, SOUND_NUMBERS, is_line, line_name, printable_text
from output.dxf.load_ezdxf import load_ezdxf

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.entities.dxfentity import DXFEntity

__all__ = ["load_drawing"]

_LARGEST: Final = 20_000_000
"""Bytes. A nest of six sizes of a dress has a fifteenth of this."""

_MOST_VALUES: Final = 500_000
_MOST_ENTITIES: Final = 60_000
"""Of values a nest of six sizes has two fifths, of entities a third: what the library takes seconds for."""

_STATED_UNIT: Final = re.compile(rb"(?m)^ *9 *\r?\n *\$INSUNITS *\r?$")


def load_drawing(raw: bytes, place: str) -> Drawing:
    """The drawing in a file. A damaged one is refused and not mended: a mended coordinate is a wrong measure.

    Its $INSUNITS is 0 where the file states none. Raises InputProblems.
    """
    _refuse_too_much(raw, place)
    load_ezdxf()
    from ezdxf.filemanagement import read
    from ezdxf.lldxf.const import DXFError
    from ezdxf.lldxf.validator import dxf_info

    thrown_out: list[str] = []
    try:
        with _quiet():
            encoding = dxf_info(io.StringIO(raw.decode("latin-1"))).encoding
            document = read(io.StringIO(raw.decode(encoding, "replace").replace("\r\n", "\n")))
            drawn = [(entity, f"a damaged {line_name(entity)}") for entity in _entities(document) if is_line(entity)]
            messages = [error.message for error in document.audit().errors]
            thrown_out = [called for entity, called in drawn if not entity.is_alive]
            # the library's name for the drawing itself tells a person nothing where a block is named as well
            damage = [message for message in messages if '"*' not in message] or messages
    except DXFError:
        damage = ["a part of it is cut off, or stands where none belongs"]
    except Exception:
        # on what is no DXF the library raises whatever its many readers happen to raise
        damage = ["a value that does not fit in its place"]
    if thrown_out and not damage:
        raise InputProblems(Problem(place, read, SOUND_NUMBERS, DRAW_AGAIN) for read in dict.fromkeys(thrown_out))
    if damage:
        said = [f"what is no DXF ({printable_text(message)[:120]})" for message in damage]
        raise InputProblems(Problem(place, read, "a whole DXF file") for read in said)
    if not _STATED_UNIT.search(raw):
        document.header["$INSUNITS"] = 0  # the library supplies metres where there is no header
    return document


def _refuse_too_much(raw: bytes, place: str) -> None:
    """Raise InputProblems for what is no text of a DXF, or holds more than clothing does."""
    if not raw.strip():
        raise InputProblems([Problem(place, "an empty file", "a DXF file")])
    if raw.startswith(b"AutoCAD Binary DXF"):
        raise InputProblems([Problem(place, "a binary DXF", "a DXF in text (ASCII)", "Export it again as text.")])
    if len(raw) > _LARGEST:
        read, expected = f"a file of {len(raw):,} bytes", f"a DXF file of up to {_LARGEST // 1_000_000} MB"
    elif (values := raw.count(b"\n") // 2) > _MOST_VALUES:
        read, expected = f"{values:,} values", f"up to {_MOST_VALUES:,} for the pieces of clothing"
    elif (entities := _begun_entities(raw)) > _MOST_ENTITIES:
        read, expected = f"{entities:,} lines, points and texts", f"up to {_MOST_ENTITIES:,} for the pieces of clothing"
    else:
        return
    raise InputProblems([Problem(place, read, expected, "Export only the pieces that you want to check.")])


def _begun_entities(raw: bytes) -> int:
    """How many things a file begins: each has the group code 0, and codes stand on every other line."""
    return sum(code.strip() == b"0" for code in islice(io.BytesIO(raw), 0, None, 2))


def _entities(document: Drawing) -> Iterator[DXFEntity]:
    yield from document.modelspace()
    for block in document.blocks:
        yield from block


@contextmanager
def _quiet() -> Iterator[None]:
    """The library logs what it meets in a file; what matters of it is raised, the rest stays off the screen."""
    log, silence = logging.getLogger("ezdxf"), logging.NullHandler()
    log.addHandler(silence)
    try:
        yield
    finally:
        log.removeHandler(silence)
