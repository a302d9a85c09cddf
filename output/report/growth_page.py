"""How a child grows as a page of its own: the chart, and what there is to tell, to be read and printed."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from output.report.page_style import STYLE
from output.report.table_html import passage_html, table_html
from output.report.tables import Said, Table

__all__ = ["growth_figure", "growth_page"]


def growth_figure(chart: str) -> str:
    """The chart in a page, as wide as a phone and no wider than can be taken in at a look."""
    return f'<figure class="growth">{chart}</figure>'


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
