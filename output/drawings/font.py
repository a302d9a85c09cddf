"""The font that a document carries with it, cut down to the letters it uses.

DejaVu Sans and its bold face (`fonts/`): Latin, Greek, Cyrillic, Armenian and Georgian letters. A letter that it lacks
is shown as an empty box; the document still holds the letter itself, so it can be searched and copied.
"""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from output.drawings.drawing import printable
from output.drawings.true_type import NO_LETTER, TrueType

__all__ = ["Face", "face", "lacking", "shown_words"]

_FILES: Final = {False: "DejaVuSans.ttf", True: "DejaVuSans-Bold.ttf"}


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
    font = _font(bold=False)  # both faces hold the same letters
    return "".join(dict.fromkeys(letter for letter in shown_words(words) if font.shape_of(letter) == NO_LETTER))


def shown_words(words: str) -> str:
    """The words as they are written with the font: accents put together with their letters, no control characters."""
    return unicodedata.normalize("NFC", printable(words))


def _font(*, bold: bool) -> TrueType:
    return TrueType(_path(bold=bold).read_bytes())


def _path(*, bold: bool) -> Path:
    return Path(__file__).with_name("fonts") / _FILES[bold]


def face(letters: Iterable[str], *, bold: bool) -> Face:
    """The regular or the bold face with these letters; the same letters give the same bytes."""
    font, used = _font(bold=bold), sorted(set(letters))
    shapes = [font.shape_of(letter) for letter in used]
    kept = font.with_parts(shapes)
    place = {shape: number for number, shape in enumerate(kept)}

    def in_thousandths(length: int) -> float:
        return round(length * 1000.0 / font.units_per_em, 3)

    left, bottom, right, top = map(in_thousandths, font.box)
    stands_for = hashlib.sha256("".join(used).encode()).digest()
    tag = "".join(chr(ord("A") + byte % 26) for byte in stands_for[:6])
    return Face(
        name=f"{tag}+{_path(bold=bold).stem}",
        codes={letter: code for code, letter in enumerate(used, start=1)},
        glyphs=tuple(place[shape] for shape in shapes),
        advances=tuple(in_thousandths(font.advance(shape)) for shape in shapes),
        box=(left, bottom, right, top),
        ascent=in_thousandths(font.ascent),
        descent=in_thousandths(font.descent),
        program=font.cut_down(kept),
    )
