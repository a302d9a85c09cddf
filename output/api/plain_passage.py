"""Passages and tables as plain values, for whoever shows them in another way."""

from __future__ import annotations

from output.report.tables import Passage, Table

__all__ = ["plain_passage"]


def plain_passage(said: Passage | Table) -> dict[str, object]:
    """A passage: title, sentences. A table: title, columns, rows of texts, below."""
    if isinstance(said, Passage):
        return {"title": said.title, "sentences": list(said.sentences)}
    return {
        "title": said.title,
        "columns": [column.name for column in said.columns],
        "rows": [list(row.cells) for row in said.rows],
        "below": list(said.below),
    }
