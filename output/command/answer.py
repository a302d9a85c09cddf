"""What a command answers: an exit status, what is told to a person, and the same as data for a program."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from drafting.checks import Verdict
from output.tables import Passage, Said, Table

if TYPE_CHECKING:
    from rich.console import Console
    from rich.table import Table as RichTable

__all__ = ["Answer", "Untold", "as_text", "give"]


@dataclass(frozen=True, slots=True)
class Answer:
    """An exit status, what is told in tables and passages, and what `--json` writes."""

    status: int
    said: tuple[Said, ...]
    data: Mapping[str, object]


_WIDEST: Final = 98
"""Letters: in a wider table a name and its number lie too far apart to be read together."""

_STYLES: Final = {
    Verdict.WARN: "yellow",
    Verdict.FAIL: "bold red",
    Verdict.ERROR: "bold red",
    Verdict.NOTHING: "yellow",
}


class Untold(Exception):
    """The answer could not be written to standard output. status: that of the answer; reason: why not"""

    def __init__(self, status: int, reason: OSError) -> None:
        self.status = status
        self.reason = reason
        super().__init__(status, reason)


def give(answer: Answer, *, as_json: bool) -> int:
    """Write the answer to standard output; its exit status. Raises Untold where it cannot be written."""
    try:
        sys.stdout.write(as_text(answer.data) + "\n" if as_json else _told(answer.said))
        sys.stdout.flush()
    except OSError as reason:
        raise Untold(answer.status, reason) from reason
    return answer.status


def as_text(data: Mapping[str, object]) -> str:
    """Data as JSON; where standard output has not every letter in it, all but ASCII is escaped."""
    text = json.dumps(data, ensure_ascii=False, indent=1)
    try:
        text.encode(sys.stdout.encoding or "utf-8")
    except UnicodeEncodeError:
        return json.dumps(data, indent=1)
    return text


def _told(said: Iterable[Said]) -> str:
    from rich.console import Console

    # what is told holds names that people chose: nothing in them may be taken for markup
    console = Console(markup=False, emoji=False, highlight=False)
    with console.capture() as told:
        for part in said:
            console.print()
            if isinstance(part, Passage):
                _tell_passage(console, part)
            else:
                _tell_table(console, part)
    return told.get()


def _tell_passage(console: Console, passage: Passage) -> None:
    console.print(passage.title, style="bold")
    _tell_sentences(console, passage.sentences, _STYLES.get(passage.verdict or Verdict.PASS, ""))


def _tell_table(console: Console, table: Table) -> None:
    from rich.padding import Padding

    console.print(table.title, style="bold")
    if table.above:
        _tell_sentences(console, [table.above], "dim")
    if table.rows:
        console.print(Padding(_rich_table(table, min(console.width - 2, _WIDEST)), (0, 0, 0, 2), expand=False))
    _tell_sentences(console, table.below, "dim")


def _tell_sentences(console: Console, sentences: Iterable[str], style: str) -> None:
    """Each sentence set in by two letters; a path stays in one piece, however long."""
    for sentence in sentences:
        lines = wrap(
            sentence,
            min(console.width, _WIDEST),
            initial_indent="  ",
            subsequent_indent="  ",
            break_long_words=False,
            break_on_hyphens=False,
        )
        for line in lines:
            console.print(line, style=style, soft_wrap=True)


def _rich_table(table: Table, width: int) -> RichTable:
    from rich.table import Table as RichTable
    from rich.text import Text

    drawn = RichTable(box=None, width=width, padding=(0, 2, 0, 0), pad_edge=False, header_style="dim")
    one_text = all(column.numbers for column in table.columns[1:])
    for count, column in enumerate(table.columns):
        if column.numbers:
            drawn.add_column(column.name, justify="right", no_wrap=True)
        elif one_text:
            drawn.add_column(column.name, ratio=1, overflow="fold")
        else:
            # names are short and stay whole; what is said about them wraps
            drawn.add_column(column.name, no_wrap=count == 0, overflow="fold")
    for row in table.rows:
        style = _STYLES.get(row.verdict or Verdict.PASS, "")
        drawn.add_row(*(Text(cell) for cell in row.cells), style=style)
    return drawn
