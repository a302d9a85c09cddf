"""What is read of a single thing that is drawn: its layer, its text, what we kept on it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Final

from output.dxf.dxf_layers import APP

if TYPE_CHECKING:
    from ezdxf.entities.dxfentity import DXFEntity

__all__ = [
    "DRAW_AGAIN",
    "MOST_LETTERS",
    "SOUND_NUMBERS",
    "is_line",
    "kept_data",
    "layer_of",
    "line_name",
    "printable_text",
    "spaces_again",
    "spaces_kept",
    "texts_by_word",
]

SOUND_NUMBERS: Final = "numbers that can be drawn"
DRAW_AGAIN: Final = "Draw it again, or export the file again."
"""What is expected of a damaged line, and how it is mended."""

MOST_LETTERS: Final = 200
"""Of a name: as many as a garment file may write. A longer one is cut."""


_DRAWN_AS: Final = {
    "LINE": "line",
    "LWPOLYLINE": "polyline",
    "POLYLINE": "polyline",
    "ARC": "arc",
    "CIRCLE": "circle",
    "ELLIPSE": "ellipse",
    "SPLINE": "spline",
}
"""What is a line, by its type in the file, and what it is called."""


def is_line(entity: DXFEntity) -> bool:
    """Whether an entity is a line or a curve."""
    return entity.dxftype() in _DRAWN_AS


def line_name(entity: DXFEntity) -> str:
    """What a line is called: "polyline on layer 1"."""
    return f"{_DRAWN_AS[entity.dxftype()]} on layer {printable_text(layer_of(entity))[:MOST_LETTERS]}"


def layer_of(entity: DXFEntity) -> str:
    """The layer an entity is on; "" for what the library does not know, which it keeps as it is."""
    return str(entity.dxf.get("layer", "0")) if entity.is_supported_dxf_attrib("layer") else ""


def kept_data(entity: DXFEntity) -> tuple[object, ...]:
    """What we kept on an entity when we wrote it; nothing on another's."""
    if not entity.has_xdata(APP):
        return ()
    return tuple(_plain(tag.value) if isinstance(tag.value, str) else tag.value for tag in entity.get_xdata(APP))


def spaces_kept(json: str) -> str:
    """JSON of ASCII letters without a space in it, which a reader may take from the end of a line."""
    return json.replace("~", r"\u007e").replace(" ", "~")


def spaces_again(text: str) -> str:
    """The JSON that `spaces_kept` was given."""
    return text.replace("~", " ")


def texts_by_word(entities: Iterable[DXFEntity]) -> dict[str, str]:
    """What the texts say, by the word before the colon; the first of each, of 200 letters at most."""
    from ezdxf.entities.mtext import MText

    found: dict[str, str] = {}
    for entity in entities:
        if entity.dxftype() in ("TEXT", "MTEXT"):
            text = str(entity.plain_text() if isinstance(entity, MText) else entity.dxf.get("text", ""))
            word, colon, rest = _plain(text).partition(":")
            if colon:
                found.setdefault(word.strip().upper(), rest.strip()[:MOST_LETTERS])
    return found


def _plain(text: str) -> str:
    """A text with the letters that the file's own alphabet lacks, which stand in it as numbers."""
    from ezdxf.lldxf.encoding import decode_dxf_unicode

    return printable_text(decode_dxf_unicode(text))


def printable_text(text: str) -> str:
    """The text with a ? for each letter that cannot be shown."""
    return "".join(c if c.isprintable() else "?" for c in text)
