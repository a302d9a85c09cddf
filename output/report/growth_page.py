"""How a child grows as a page of its own: the chart, and what there is to tell, to be read and printed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape

from output.report.page_style import STYLE
from output.report.table_html import list_html, passage_html, table_html
from output.report.tables import Said, Table

__all__ = ["growth_html", "growth_page"]


def growth_figure(chart: str) -> str:
    """The chart in a page, as wide as a phone and no wider than can be taken in at a look."""
    return f'<figure class="growth">{chart}</figure>'


def growth_html(chart: str, left: Sequence[str], lasts: Table, until: str) -> Iterator[str]:
    """The part of a report on a garment that a child grows into.

    left: a sentence for each place where cloth is left; lasts: until when what of it fits; until: the day asked for
    """
    yield "<h2>Room to grow</h2>"
    yield f"<p>Cloth is left in it so that it can be let down until {escape(until)}.</p>"
    yield list_html(left)
    yield growth_figure(chart)
    yield from table_html(lasts, level=3)


def growth_page(title: str, chart: str, told: Iterable[Said]) -> str:
    """The page as HTML: no scripts, nothing fetched, the same text every time."""
    parts = [f"<h1>{escape(title)}</h1>", growth_figure(chart)]
    for each in told:
        parts += table_html(each) if isinstance(each, Table) else passage_html(each)
    body = "\n".join(parts)
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(title)}</title><style>{STYLE}</style></head>\n<body><main>\n{body}\n</main></body></html>\n"
    )
