"""A table for the first sheet: what is cut of each piece from which cloth, the pages it stands on, what is bought."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.geometry import Point
from drafting.pattern import BodyPart, Cut, Piece
from output.drawings.drawing import Box, Text
from output.drawings.lettering import LEADING, fitted, text_width, wrapped
from output.sheets.papers import page_ranges

__all__ = ["cut_list"]

_SIZES: Final = (3.1, 2.8, 2.5, 2.2)
_LEAST: Final = 1.8
_CLOTH, _PAGES = 6.0, 7.0  # how wide a column is, in sizes of the writing; that of the pages at the least
_MOST_PAGES: Final = 0.45  # of the room, for the column of pages
_BELOW: Final = "see below"  # in place of pages that do not go into their column
_BETWEEN: Final = 1.0  # mm, at the least, between two columns
_ABOVE: Final = 0.78  # of the size: from the top of a line to its base
_HEAD: Final = ("piece", "shell", "lining", "interfacing", "print pages")
_TO_BUY: Final = "To buy"

_Row = tuple[str, ...]


def cut_list(
    room: Box,
    pieces: Sequence[Piece],
    pages: Mapping[str, Sequence[int]],
    to_buy: Sequence[str],
    by_measure: Sequence[str] = (),
) -> tuple[Text, ...]:
    """The table and the list in a room of the first sheet, the writing as large as it lets it be.

    pages: the sheets of paper of each piece, where there is more than one sheet
    by_measure: what is told of pieces that are not printed
    What does not go in even in the smallest writing is left to the report, and that is said.
    """
    rows = [_row(piece, pages) for piece in pieces]
    too_long = [row for row in rows if text_width(row[-1], _LEAST) > _MOST_PAGES * room.width - _BETWEEN]
    rows = [(*row[:-1], _BELOW) if row in too_long else row for row in rows]
    alone = [*(f"{row[0]}: print pages {row[-1]}" for row in too_long), *_only(pieces, pages), *by_measure]
    for size in _SIZES:
        most = int(room.height / (size * LEADING))
        parts = [line for words in alone for line in _hanging(words, size, room.width)]
        bought = [line for words in to_buy for line in _hanging(words, size, room.width)]
        below = [*(["", *parts] if parts else []), *(["", _TO_BUY, *bought] if bought else [])]
        if 1 + len(rows) + len(below) <= most:
            break
    room_for = max(1, most - 1 - len(below))
    shown = rows if len(rows) <= room_for else rows[: room_for - 1]
    more = [f"and {len(rows) - len(shown)} more: see the report"] if len(shown) < len(rows) else []
    items = list(_table(room, size, shown))
    base = room.top - _ABOVE * size
    for n, line in enumerate([*more, *below][: most - 1 - len(shown)], start=1 + len(shown)):
        if line:
            items.append(Text(line, Point(room.left, base - n * size * LEADING), size, bold=line == _TO_BUY))
    return tuple(items)


def _row(piece: Piece, pages: Mapping[str, Sequence[int]]) -> _Row:
    cut = piece.cut
    cloths = (_count_words(replace(cut, count=count)) for count in (cut.count, cut.lining, cut.interfacing))
    return (piece.name, *cloths, page_ranges(pages.get(piece.name, ())))


def _only(pieces: Sequence[Piece], pages: Mapping[str, Sequence[int]]) -> Iterator[str]:
    """The pages of the bodice alone, or the skirt: for each part of several pieces, where there are others."""
    parts: dict[BodyPart | None, list[Piece]] = {}
    for piece in pieces:
        parts.setdefault(piece.identity.part, []).append(piece)
    for part, own in parts.items():
        numbers = {number for piece in own for number in pages.get(piece.name, ())}
        if part is not None and len(parts) > 1 and len(own) > 1 and numbers:
            yield f"only the {part}: print pages {page_ranges(sorted(numbers))}"


def _count_words(cut: Cut) -> str:
    """How many are cut of one cloth: "1 on fold", "1 pair", "2"; "" for none."""
    if not cut.count:
        return ""
    if cut.fold:
        return f"{cut.count} on fold"
    if cut.mirror and cut.count % 2 == 0:
        return "1 pair" if cut.count == 2 else f"{cut.count // 2} pairs"
    return str(cut.count)


def _table(room: Box, size: float, rows: Sequence[_Row]) -> Iterator[Text]:
    """The rows below their heads; a cloth that nothing is cut of has no column."""
    base = room.top - _ABOVE * size
    columns = list(_columns(room, size, rows))
    for row in (_HEAD, *rows):
        for n, left, right in columns:
            words, fits = fitted(row[n], size, right - left - _BETWEEN, least=_LEAST, bold=row is _HEAD)
            if words:
                yield Text(words, Point(left, base), fits, bold=row is _HEAD)
        base -= size * LEADING


def _columns(room: Box, size: float, rows: Sequence[_Row]) -> Iterator[tuple[int, float, float]]:
    """Each column that holds anything, with its left and right ends; the first takes what the others leave."""
    right = room.right
    longest = max((text_width(row[-1], size) for row in rows), default=0.0) + _BETWEEN
    wide = max(_PAGES * size, min(longest, _MOST_PAGES * room.width))
    for n in range(len(_HEAD) - 1, 0, -1):
        if any(row[n] for row in rows):
            left = right - (wide if n == len(_HEAD) - 1 else _CLOTH * size)
            yield n, left, right
            right = left
    yield 0, room.left, right


def _hanging(words: str, size: float, width: float) -> list[str]:
    """A line of the list, what does not go into it set in below it."""
    first, *more = wrapped(words, size, width - 2.0 * size)
    return [first, *(f"   {line}" for line in more)]
