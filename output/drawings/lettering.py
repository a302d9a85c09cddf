"""How much room writing takes.

A PDF carries DejaVu Sans; for an SVG no font is known when it is laid out. So widths are judged on the wide side.
"""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Sequence
from functools import lru_cache

from drafting.geometry import Point, Vec, polar
from output.drawings.drawing import Text

__all__ = ["block", "block_size", "corners", "fitted", "readable", "text_width", "wrapped"]

LEADING = 1.35
"""From one base line to the next, in sizes of the type."""

_ABOVE, _BELOW = 0.78, 0.24  # what rises above the base line and hangs below it, in sizes

# Widths in sizes: those of DejaVu Sans, which is wider than most sans-serif faces, rounded up.
_NARROW, _MIDDLE, _WIDE, _USUAL, _CAPITAL, _WIDEST = 0.42, 0.55, 1.0, 0.65, 0.79, 1.15
_BOLD = 1.12


def text_width(words: str, size: float, *, bold: bool = False) -> float:
    """How long a line of writing may become, mm."""
    return _in_sizes(words) * size * (_BOLD if bold else 1.0)


@lru_cache(maxsize=10_000)
def _in_sizes(words: str) -> float:
    """The same in sizes of the type: the same words are asked for at many places."""
    return sum(_letter(letter) for letter in words)


def fitted(words: str, size: float, width: float, *, least: float, bold: bool = False) -> tuple[str, float]:
    """The words and the size, no larger than `size`, at which they keep within `width` mm.

    Words that are too long even at the size `least` lose their end, for three dots.
    """
    natural = text_width(words, size, bold=bold)
    if natural <= width:
        return words, size
    smaller = max(least, size * width / natural)
    while words and text_width(words, smaller, bold=bold) > width + 1e-9:
        words = words.removesuffix("...")[:-1].rstrip() + "..." if words != "..." else ""
    return words, smaller


def wrapped(words: str, size: float, width: float) -> tuple[str, ...]:
    """The words in lines no longer than `width` mm; a single word that is longer is broken."""
    lines: list[str] = []
    line = ""
    for word in words.split():
        longer = f"{line} {word}" if line else word
        if text_width(longer, size) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while len(line) > 1 and text_width(line, size) > width:
            fits = max(1, next(n for n in range(len(line), 0, -1) if n == 1 or text_width(line[:n], size) <= width))
            lines.append(line[:fits])
            line = line[fits:]
    return (*lines, line) if line else tuple(lines)


def corners(text: Text) -> tuple[Point, Point, Point, Point]:
    """The four corners of the room a text takes, anticlockwise from the start of its base line."""
    width = text_width(text.words, text.size, bold=text.bold)
    back = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * width
    along = polar(math.radians(text.angle))
    up = along.left()
    low = text.at - along * back - up * (_BELOW * text.size)
    rise: Vec = up * ((_ABOVE + _BELOW) * text.size)
    return low, low + along * width, low + along * width + rise, low + rise


def block_size(lines: Sequence[tuple[str, float, bool]]) -> tuple[float, float]:
    """The width and height of lines of writing (words, size, bold) one below the other, mm."""
    width = max(text_width(words, size, bold=bold) for words, size, bold in lines)
    return width, sum(size * LEADING for _, size, _ in lines)


def block(lines: Sequence[tuple[str, float, bool]], centre: Point, *, angle: float = 0.0) -> tuple[Text, ...]:
    """The lines of writing set about a centre, each in the middle of its line."""
    along = polar(math.radians(angle))
    down = along.right()
    at = centre - down * (0.5 * block_size(lines)[1])
    texts = []
    for words, size, bold in lines:
        base = at + down * (size * (0.5 * (LEADING - 1.0) + _ABOVE))
        texts.append(Text(words, base, size, "middle", angle, bold))
        at = at + down * (size * LEADING)
    return tuple(texts)


def readable(angle: float) -> float:
    """The direction of writing along a line of that direction, degrees, never upside down."""
    angle = (angle + 180.0) % 360.0 - 180.0
    if angle > 90.0 + 1e-6:
        return angle - 180.0
    return angle + 180.0 if angle <= -90.0 + 1e-6 else angle


def _letter(letter: str) -> float:
    if not letter.isascii():
        letter = unicodedata.normalize("NFD", letter)[0]  # as wide as without its accents
        if not letter.isascii():
            return _WIDEST if letter.isupper() else _WIDE
    if letter in "iljtfrIJ.,:;'|!()[]/\\- ":
        return _NARROW
    if letter in 'csz/"*':
        return _MIDDLE
    if letter in "mwMW@%#+<=>&":
        return _WIDE
    return _CAPITAL if letter.isupper() else _USUAL
