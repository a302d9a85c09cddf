"""Tables and passages as lines of text, as wide as a terminal is: words stay whole, numbers stand in columns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from textwrap import wrap
from typing import Final

from drafting.checks import Verdict
from drafting.dataclass import dataclass
from output.report.tables import Passage, Row, Said, Table

__all__ = ["WIDEST", "Line", "lines_of"]

WIDEST: Final = 98
"""Letters: in a wider table a name and its number lie too far apart to be read together."""

_GAP: Final = 2
_LEAST: Final = 24
"""Letters: a column of words narrower than this is hard to read, and the table is written row by row instead."""

_SET_IN: Final = "  "


@dataclass(frozen=True, slots=True)
class Line:
    """A line; how much it stands out: a title, something said softly, a verdict, or None for plain."""

    text: str
    style: str | Verdict | None = None


def lines_of(said: Iterable[Said], width: int) -> tuple[Line, ...]:
    """What is said, line by line, at most `width` letters wide but for what cannot be broken (a path)."""
    width = min(width, WIDEST)
    found: list[Line] = []
    for part in said:
        found.append(Line(""))
        found.extend(_passage(part, width) if isinstance(part, Passage) else _table(part, width))
    return tuple(found[1:])  # none stands above the first


def _passage(passage: Passage, width: int) -> Iterator[Line]:
    yield from (Line(line, "title") for line in _wrapped(passage.title, width, ""))
    for sentence in passage.sentences:
        yield from (Line(line, passage.verdict) for line in _wrapped(sentence, width, _SET_IN))


def _table(table: Table, width: int) -> Iterator[Line]:
    yield from (Line(line, "title") for line in _wrapped(table.title, width, ""))
    if table.above:
        yield from (Line(line, "soft") for line in _wrapped(table.above, width, _SET_IN))
    if table.rows:
        widths = _widths(table, width - len(_SET_IN))
        yield from _rows(table, widths) if widths else _one_by_one(table, width)
    for sentence in table.below:
        yield from (Line(line, "soft") for line in _wrapped(sentence, width, _SET_IN))


def _widths(table: Table, room: int) -> tuple[int, ...]:
    """How wide each column becomes; none where a column of words would be too narrow to read."""
    wanted = [
        max(_longest(cell) for cell in (column.name, *(row.cells[count] for row in table.rows)))
        for count, column in enumerate(table.columns)
    ]
    words = [count for count, column in enumerate(table.columns) if not column.numbers]
    left = room - _GAP * (len(wanted) - 1) - sum(wanted)
    if left >= 0:
        return tuple(wanted)
    for count in sorted(words, key=lambda count: -wanted[count]):
        longest_word = max((len(word) for row in table.rows for word in row.cells[count].split()), default=0)
        least = min(wanted[count], max(_LEAST, longest_word))
        narrower = max(least, wanted[count] + left)
        left += wanted[count] - narrower
        wanted[count] = narrower
        if left >= 0:
            return tuple(wanted)
    return ()


def _longest(cell: str) -> int:
    return max(map(len, cell.split("\n")))


def _rows(table: Table, widths: Sequence[int]) -> Iterator[Line]:
    if any(column.name for column in table.columns):
        yield Line(_side_by_side(table, [[column.name] for column in table.columns], widths, 0), "soft")
    for row in table.rows:
        cells = [_in_lines(cell, wide) for cell, wide in zip(row.cells, widths, strict=True)]
        for count in range(max(map(len, cells))):
            yield Line(_side_by_side(table, cells, widths, count), row.verdict)


def _side_by_side(table: Table, cells: Sequence[Sequence[str]], widths: Sequence[int], count: int) -> str:
    parts = (lines[count] if count < len(lines) else "" for lines in cells)
    placed = (
        part.rjust(wide) if column.numbers else part.ljust(wide)
        for part, wide, column in zip(parts, widths, table.columns, strict=True)
    )
    return (_SET_IN + (" " * _GAP).join(placed)).rstrip()


def _one_by_one(table: Table, width: int) -> Iterator[Line]:
    """Each row below the other: what it is about, and set in below it what each column says of it."""
    for row in table.rows:
        yield from (Line(line, row.verdict) for line in _wrapped(row.cells[0].replace("\n", " "), width, _SET_IN))
        yield from (Line(line, row.verdict) for line in _cell_lines(table, row, width))


def _cell_lines(table: Table, row: Row, width: int) -> Iterator[str]:
    """What the columns but the first say, several in a line where they go in."""
    line = ""
    for column, cell in zip(table.columns[1:], row.cells[1:], strict=True):
        if cell:
            said = (f"{column.name}: {cell}" if column.name else cell).replace("\n", " ")
            together = f"{line}; {said}" if line else said
            if line and len(_SET_IN * 2 + together) > width:
                yield from _wrapped(line, width, _SET_IN * 2)
                together = said
            line = together
    yield from _wrapped(line, width, _SET_IN * 2)


def _in_lines(cell: str, width: int) -> list[str]:
    return [line for part in cell.split("\n") for line in _wrapped(part, width, "")] or [""]


def _wrapped(sentence: str, width: int, indent: str) -> list[str]:
    return wrap(
        sentence,
        max(width, 20),
        initial_indent=indent,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )
