"""The font that a document carries with it, cut down to the letters it uses.

DejaVu Sans and its bold face (`fonts/`): Latin, Greek, Cyrillic, Armenian and Georgian letters. A letter that it lacks
is shown as an empty box; the document still holds the letter itself, so it can be searched and copied.
"""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Iterable, Mapping
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Final

from drafting.dataclass import dataclass
from output.drawings.drawing import printable

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

__all__ = ["Face", "face", "lacking", "shown_words"]

_FILES: Final = {False: "DejaVuSans.ttf", True: "DejaVuSans-Bold.ttf"}
_NEEDED: Final = ("head", "hhea", "hmtx", "maxp", "loca", "glyf")  # ISO 32000-1, 9.9, table 126: what TrueType needs
_NO_LETTER: Final = ".notdef"


@dataclass(frozen=True, slots=True)
class Face:
    """One face with the letters a document uses.

    name:     as the document calls it: six capitals that stand for this choice of letters, and the font's name
    codes:    the number of each letter in the document, from 1
    glyphs:   the place of each letter's shape in the font program, in the order of the numbers
    advances: the width of each, in thousandths of the size, in the same order
    box, ascent, descent: of the whole face, in thousandths of the size
    program:  the font file with these shapes alone
    """

    name: str
    codes: Mapping[str, int]
    glyphs: tuple[int, ...]
    advances: tuple[float, ...]
    box: tuple[float, float, float, float]
    ascent: float
    descent: float
    program: bytes

    def width(self, words: str, size: float) -> float:
        """How long a line of writing is, mm, for a size in mm."""
        return sum(self.advances[self.codes[letter] - 1] for letter in words) * size / 1000.0


def lacking(words: str) -> str:
    """The letters of the words that the font does not have, each once."""
    if words.isascii():
        return ""
    with _opened(_path(bold=False)) as font:  # both faces hold the same letters
        known = font.getBestCmap()
    return "".join(dict.fromkeys(letter for letter in shown_words(words) if ord(letter) not in known))


def shown_words(words: str) -> str:
    """The words as they are written with the font: accents put together with their letters, no control characters."""
    return unicodedata.normalize("NFC", printable(words))


def _path(*, bold: bool) -> Path:
    return Path(__file__).with_name("fonts") / _FILES[bold]


def _opened(path: Path) -> TTFont:
    """A font file, its shapes by their numbers: to find the names that letters give them takes as long as the rest."""
    from fontTools.ttLib import TTFont

    font = TTFont(path, lazy=True, recalcBBoxes=False, recalcTimestamp=False)
    font.setGlyphOrder([_NO_LETTER, *(f"shape {n}" for n in range(1, font["maxp"].numGlyphs))])
    return font


def face(letters: Iterable[str], *, bold: bool) -> Face:
    """The regular or the bold face with these letters; the same letters give the same bytes."""
    path = _path(bold=bold)
    used = sorted(set(letters))
    with _opened(path) as font:
        known = font.getBestCmap()
        names = [known.get(ord(letter), _NO_LETTER) for letter in used]
        per_em = 1000.0 / font["head"].unitsPerEm
        head = font["head"]
        measures = {
            "advances": tuple(round(font["hmtx"][name][0] * per_em, 3) for name in names),
            "box": tuple(round(edge * per_em, 3) for edge in (head.xMin, head.yMin, head.xMax, head.yMax)),
            "ascent": round(font["hhea"].ascent * per_em, 3),
            "descent": round(font["hhea"].descent * per_em, 3),
        }
        order = _shapes(font, names)
        place = {name: number for number, name in enumerate(order)}
        glyphs = tuple(place[name] for name in names)
        program = _program(font, order)
    stands_for = hashlib.sha256("".join(used).encode()).digest()
    tag = "".join(chr(ord("A") + byte % 26) for byte in stands_for[:6])
    codes = {letter: code for code, letter in enumerate(used, start=1)}
    return Face(f"{tag}+{path.stem}", codes, glyphs, program=program, **measures)


def _shapes(font: TTFont, names: Iterable[str]) -> list[str]:
    """The names of the shapes that are needed, what they are put together from as well, in their order in the font."""
    shapes = font["glyf"]
    kept: set[str] = set()
    waiting = [_NO_LETTER, *names]
    while waiting:
        name = waiting.pop()
        if name not in kept:
            kept.add(name)
            parts = shapes.glyphs[name].getComponentNames(shapes)
            waiting += parts
            if parts:
                shapes[name].expand(shapes)  # now, while its parts have their old places
    return sorted(kept, key=font.getGlyphID)


def _program(font: TTFont, order: list[str]) -> bytes:
    """The font file with these shapes alone, in this order."""
    for table in font.keys():  # noqa: SIM118  (a font is no mapping)
        if table not in (*_NEEDED, "GlyphOrder"):
            del font[table]
    font["hmtx"].metrics = {name: font["hmtx"].metrics[name] for name in order}
    font["glyf"].glyphs = {name: font["glyf"].glyphs[name] for name in order}
    font.setGlyphOrder(order)
    font["glyf"].setGlyphOrder(order)
    written = BytesIO()
    font.save(written)
    return written.getvalue()
