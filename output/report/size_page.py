"""The choice of a size as one page to print: what to take, why, where to blend, in the looks of the report."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import Final

from drafting.sizing.choose_size import SizeChoice
from output.drawings.side_seam_picture import side_seam_picture
from output.report.page_style import STYLE
from output.report.picture_html import named_picture, without_size
from output.report.size_words import cloth_words, size_passages, take_sentence
from output.report.table_html import list_html, passage_html, table_html
from output.report.tables import Passage, Table

__all__ = ["size_html"]

_OWN: Final = """
.seam{max-width:21rem;margin:1rem 0}.seam svg{display:block;width:100%;height:auto}
.seam .as-it-was,.seam .as-it-was path{stroke-dasharray:5 3}
@media print{html{font-size:58%}main{columns:2;column-gap:9mm}h1,.whose,.verdict{column-span:all}
h2{margin-top:1.1rem;break-after:avoid}li,p{max-width:none}.seam{max-width:70mm}li{break-inside:avoid}
th,td{padding:.2rem .5rem .2rem 0}td:first-child{min-width:0}}
"""
"""The report's looks with what this page has of its own; printed in two columns, so that one sheet holds it."""


def size_html(choice: SizeChoice) -> str:
    """The page, whole in itself: an A4 sheet for most charts, and readable on a phone."""
    chart = choice.chart.title or "chart"
    title = f"{chart[0].upper()}{chart[1:]} for {choice.person.name or 'you'}"
    head = (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{STYLE}{_OWN}</style>\n</head>\n<body>\n<main>\n"
    )
    return head + "\n".join(part for part in _parts(choice, title) if part) + "\n</main>\n</body>\n</html>\n"


def _parts(choice: SizeChoice, title: str) -> Iterator[str]:
    """The page that tells a size, as HTML: what to take, why, and where to blend."""
    yield f"<h1>{escape(title)}</h1>"
    yield f'<p class="whose">{escape(choice.kind.name)}, {escape(cloth_words(choice))}</p>'
    first, *others = size_passages(choice)
    yield f'<div class="verdict"><p><strong>{escape(take_sentence(choice))}</strong></p></div>'
    if isinstance(first, Passage):
        yield "<h2>Why</h2>"
        yield list_html(first.sentences[1:])
    for said in others:
        if isinstance(said, Table):
            yield from table_html(said)
            continue
        yield from passage_html(said)
        if said.title.startswith("Blend") and choice.blends:
            name = "The side seam: dashed the size you take, firm the line you cut"
            svg = without_size(named_picture(side_seam_picture(choice), name))
            yield f'<figure class="seam">{svg}<figcaption>{escape(name)}; not to scale.</figcaption></figure>'
