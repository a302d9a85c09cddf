"""One garment for several people side by side: how large it comes out for each, and what is wrong."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from typing import Final
from urllib.parse import quote

from drafting.checks import Verdict
from drafting.dataclass import dataclass
from drafting.pattern import Finished
from drafting.reading.units import length_text
from output.report.page_style import STYLE
from output.report.table_html import VERDICT_CLASSES, list_html
from output.report.tables import Column, Row, Table

__all__ = ["OURS", "SideBySide", "side_by_side_page", "side_by_side_table", "verdict_word"]

OURS: Final = "trueseam, side by side"
"""What the page says it was made by: such a page may be written over."""

_STYLE: Final = """
main{max-width:100rem}
thead th,.number{white-space:normal}
tbody th{white-space:nowrap;color:inherit;font-size:inherit}
td.number{white-space:nowrap}
@media (max-width:40rem){tbody th{display:block}}
"""

_WORDS: Final = {Verdict.PASS: "pass", Verdict.WARN: "warnings"}


@dataclass(frozen=True, slots=True)
class SideBySide:
    """One person and her garment, beside others.

    folder:   the name of the folder its files are in, "" for none
    verdict:  None where it could not be drafted
    told:     what is wrong, in sentences
    finished: mm; unit: what she works in
    """

    name: str
    folder: str
    verdict: Verdict | None
    told: tuple[str, ...]
    finished: tuple[Finished, ...]
    unit: str


def verdict_word(verdict: Verdict | None) -> str:
    """How the checks went, in a word or two."""
    return "not drafted" if verdict is None else _WORDS.get(verdict, "FAILED")


def side_by_side_table(people: Sequence[SideBySide], unit: str | None = None) -> Table:
    """The finished measurements, a column to each person.

    unit: what all are shown in; None for each person's own
    """
    found = [{each.name: length_text(each.finished, unit or one.unit) for each in one.finished} for one in people]
    rows = [Row(("checks", *(verdict_word(one.verdict) for one in people)))]
    rows += [Row((name, *(each.get(name, "") for each in found))) for name in _names(people)]
    columns = (Column(""), *(Column(one.name, True) for one in people))
    return Table("Finished measurements, side by side", columns, tuple(rows))


def side_by_side_page(title: str, people: Sequence[SideBySide]) -> str:
    """The same as one HTML document, a row to each person, which leads to what was written for each."""
    drafted = sum(one.verdict is not None for one in people)
    parts = [
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f'<meta name="generator" content="{OURS}">',
        f"<title>{escape(title)}: side by side</title><style>{STYLE}{_STYLE}</style></head><body><main>",
        f"<h1>{escape(title)}</h1>",
        f'<p class="whose">for {len(people)} people, {drafted} of them drafted</p>',
        *_table(people),
        *_faults(people),
        "</main></body></html>",
    ]
    return "\n".join(parts) + "\n"


def _names(people: Sequence[SideBySide]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.name for one in people for each in one.finished))


def _table(people: Sequence[SideBySide]) -> Iterator[str]:
    """The finished measurements of several people side by side, as HTML."""
    names = _names(people)
    yield "<h2>Finished measurements, side by side</h2>"
    yield '<div class="wide" role="group" tabindex="0" aria-label="Finished measurements, side by side">'
    heads = "".join(f'<th scope="col" class="number">{escape(name)}</th>' for name in names)
    yield f'<table class="prose"><thead><tr><th scope="col">for</th><th scope="col">checks</th>{heads}</tr></thead>'
    yield "<tbody>"
    for one in people:
        sizes = {each.name: length_text(each.finished, one.unit) for each in one.finished}
        cells = "".join(
            f'<td class="number" data-is="{escape(name, quote=True)}">{escape(sizes.get(name, ""))}</td>'
            for name in names
        )
        kind = "fail" if one.verdict is None else VERDICT_CLASSES.get(one.verdict)
        row = f'<tr class="{kind}">' if kind else "<tr>"
        yield f'{row}<th scope="row">{_link(one)}</th><td>{verdict_word(one.verdict)}</td>{cells}</tr>'
    yield "</tbody></table></div>"


def _link(one: SideBySide) -> str:
    return f'<a href="{quote(one.folder)}/report.html">{escape(one.name)}</a>' if one.folder else escape(one.name)


def _faults(people: Sequence[SideBySide]) -> Iterator[str]:
    for one in people:
        if one.told:
            yield f"<h3>{escape(one.name)}</h3>{list_html(one.told)}"
