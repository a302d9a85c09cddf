"""Tables and passages as HTML: the report, a notebook and a page show the same ones."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from html import escape
from typing import Final

from drafting.checks import Verdict
from output.report.tables import Column, Passage, Table

__all__ = ["VERDICT_CLASSES", "list_html", "passage_html", "table_html"]

VERDICT_CLASSES: Final[Mapping[Verdict, str]] = {
    Verdict.WARN: "warn",
    Verdict.FAIL: "fail",
    Verdict.ERROR: "fail",
    Verdict.NOTHING: "warn",
}
"""The class of a row by its verdict; a row that passes has none."""


def table_html(table: Table, *, level: int = 2) -> Iterator[str]:
    """The lines of a table with its title, a heading of that level, and what is said above and below it."""
    yield f"<h{level}>{escape(table.title)}</h{level}>"
    if table.above:
        yield f'<p class="soft">{escape(table.above)}</p>'
    if table.rows:
        numbers = all(column.numbers for column in table.columns[1:])
        # it scrolls sideways on a small screen, also for whoever has only a keyboard
        name = escape(table.title, quote=True)
        yield f'<div class="wide" role="group" tabindex="0" aria-label="{name}">'
        yield f'<table class="{"numbers" if numbers else "prose"}">'
        if any(column.name for column in table.columns):
            cells = "".join(map(_head, table.columns))
            yield f"<thead><tr>{cells}</tr></thead>"
        yield "<tbody>"
        for row in table.rows:
            cells = "".join(
                f"<td{_class(column)}{_label(column)}>{_cell(cell)}</td>"
                for column, cell in zip(table.columns, row.cells, strict=True)
            )
            kind = VERDICT_CLASSES.get(row.verdict or Verdict.PASS)
            yield f'<tr class="{kind}">{cells}</tr>' if kind else f"<tr>{cells}</tr>"
        yield "</tbody></table></div>"
    for sentence in table.below:
        yield f'<p class="small">{escape(sentence)}</p>'


def passage_html(passage: Passage, *, level: int = 2) -> Iterator[str]:
    """The lines of a passage: its title, and its one sentence or its points."""
    yield f"<h{level}>{escape(passage.title)}</h{level}>"
    if len(passage.sentences) == 1:
        yield f"<p>{escape(passage.sentences[0])}</p>"
    else:
        yield list_html(passage.sentences)


def list_html(sentences: Iterable[str], kind: str = "ul") -> str:
    """Sentences as the points of a list; "" for none."""
    items = "".join(f"<li>{escape(sentence)}</li>" for sentence in sentences)
    return f"<{kind}>{items}</{kind}>" if items else ""


def _cell(cell: str) -> str:
    """The first line of a cell, the others small below it."""
    first, *rest = cell.split("\n")
    return escape(first) + "".join(f"<small>{escape(line)}</small>" for line in rest)


def _head(column: Column) -> str:
    """The head of a column; a plain cell over one that needs none."""
    if not column.name:
        return "<td></td>"
    return f'<th scope="col"{_class(column)}>{escape(column.name)}</th>'


def _class(column: Column) -> str:
    return ' class="number"' if column.numbers else ""


def _label(column: Column) -> str:
    """What a number is, kept on it for small screens, where the head of the table is left out."""
    return f' data-is="{escape(column.name)}"' if column.numbers and column.name else ""
