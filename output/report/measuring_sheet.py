"""A sheet to print and to measure by: each measurement drawn, how it is taken, and a blank for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from html import escape
from typing import Final

from drafting.body.terms import Measurement
from output.figure.figure_svg import figure_svg
from output.figure.silhouette import Silhouette

__all__ = ["measuring_sheet"]

_STYLE: Final = """
@page{margin:12mm}
*{box-sizing:border-box}
body{margin:0 auto;max-width:184mm;color:#23262b;background:#fff;font:10pt/1.35 system-ui,"DejaVu Sans",sans-serif}
h1{font-size:16pt;line-height:1.2;margin:0 0 2mm}
p{margin:0 0 2mm}
.top{display:flex;gap:8mm;margin:0 0 4mm}
.top span{flex:1;border-bottom:.3mm solid #23262b;padding-bottom:.5mm;min-height:8mm;display:flex;align-items:flex-end}
ol{list-style:none;margin:0;padding:0;display:grid;grid-template-columns:1fr 1fr;gap:3mm 5mm}
li{break-inside:avoid;display:flex;gap:3mm;border:.2mm solid #b9bec4;border-radius:1.5mm;padding:2mm;min-height:43mm}
li svg{flex:none;width:26mm;height:38mm}
li div{flex:1;display:flex;flex-direction:column}
h2{font-size:10.5pt;margin:0 0 .8mm}
.how{font-size:8.5pt;line-height:1.3;margin:0 0 1mm}
.last{font-size:8pt;color:#5d636b;margin:auto 0 0}
.blank{display:flex;align-items:flex-end;gap:1.5mm;margin:auto 0 0;padding-top:3.5mm;font-size:9pt}
.last+.blank{margin-top:0}
.blank b{flex:1;border-bottom:.3mm solid #23262b}
@media screen{body{padding:6mm}}
"""


def measuring_sheet(
    title: str, taken: Sequence[Measurement], body: Silhouette, unit: str, last: Mapping[str, str]
) -> str:
    """The sheet as one HTML document, for A4 and Letter alike: it takes the paper that the printer has.

    taken: the measurements in their order; unit: what they are to be written in; last: what each was the last time, by
    key, as she reads it
    """
    parts = [
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<title>{escape(title)}</title><style>{_STYLE}</style></head><body><main>",
        f"<h1>{escape(title)}</h1>",
        "<p>Over close clothes, barefoot. Tie a string round the waist first: much is measured to it. "
        "The order saves turning round. Take each twice; if the two differ by more than "
        f"{'3/8 in' if unit == 'in' else '1 cm'}, take it a third time.</p>",
        '<div class="top"><span>Name</span><span>Day</span><span>Measured by</span></div>',
        "<ol>",
        *_cards(taken, body, unit, last),
        "</ol></main></body></html>",
    ]
    return "\n".join(parts) + "\n"


def _cards(taken: Sequence[Measurement], body: Silhouette, unit: str, last: Mapping[str, str]) -> Iterator[str]:
    for count, each in enumerate(taken, start=1):
        before = f'<p class="last">last time {escape(last[each.key])}</p>' if each.key in last else ""
        yield (
            f"<li>{figure_svg(each.key, body)}<div><h2>{count}. {escape(each.name)}</h2>"
            f'<p class="how">{escape(each.how)} {escape(each.again)}</p>{before}'
            f'<p class="blank"><b></b>{escape(unit)}<b></b>{escape(unit)}</p></div></li>'
        )
