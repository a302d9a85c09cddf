"""The part of the report that is sewn from: every step with its sentences and its drawing."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import Final

from drafting.pattern import Pattern
from drafting.sewing import sewing_order
from output.drawings.step_picture import step_pictures
from output.report.child_words import cautions_before_sewing
from output.report.picture_html import picture_html
from output.report.sewing_words import step_words
from output.report.table_html import list_html

__all__ = ["sewing_html"]

_ABOVE: Final = (
    "In this order nothing is in the way of what comes after it. Heavy lines are what is sewn; a number is that of a "
    "notch, the same on both pieces. How it is sewn is common practice; what, where and how much is from this pattern."
)
_BEFORE: Final = (
    "Wash, dry and press the cloth before you cut it; wool is steamed, as it would felt. "
    "Mark notches, darts and points on every piece, "
    "on what is fused once that is done. “Right sides "
    "together” means that the sides that will be seen face each other while you sew."
)


def sewing_html(pattern: Pattern, unit: str, *, knit: bool) -> Iterator[str]:
    """The lines of the order of sewing; none for a pattern without seams."""
    steps = sewing_order(pattern, knit=knit)
    if not steps:
        return
    yield "<h2>The order of sewing</h2>"
    yield f'<p class="soft">{escape(_ABOVE)}</p>'
    yield f"<p>{escape(_BEFORE)}</p>"
    if beware := cautions_before_sewing(pattern):
        yield f"<p>{escape(beware)}</p>"
    for count, step in enumerate(steps, start=1):
        words = step_words(pattern, step, unit)
        pictures = "".join(
            f"<figure>{picture_html(each.items, each.page, each.title)}</figure>"
            for each in step_pictures(pattern, step)
        )
        yield f'<section class="step"><div><h3>{count}. {escape(words.title)}</h3>{list_html(words.sentences)}</div>'
        yield f'<div class="shown">{pictures}</div></section>'
