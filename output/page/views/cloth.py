"""Of what cloth, and how close: the cloth, the fit, and the ease place by place."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from output.api.order_options import CLOTH, FIT, EaseHad, cloth_values, ease_had
from output.api.wording import cloth_sentences, length_text, sentence_in
from output.page.views.data import Data, written_tables
from output.page.views.fields import asked_text, field_of
from output.page.views.shown import Shown

__all__ = ["cloth"]


def cloth(shown: Shown) -> Data:
    """The cloth.

    fields: what `[cloth]` says, each with `at`, its place in the file; fit: how close, the same
    knit:   whether it is one; said: what is to be known of it, in sentences
    ease:   at each place: a field with `at`, None where the block stands in a file that this one follows; and where,
            given (whether she asked for it), usual (a range in words, "" for none), note, finished
    """
    written = shown.tables.get("cloth")
    table: Mapping[str, Any] = written if isinstance(written, Mapping) else {}
    values = cloth_values(shown.draft)
    fields = [
        {
            "at": ["cloth", each.name],
            **field_of(each, each.name, _in_words(table.get(each.name)), values[each.name], shown.unit),
            "asked": asked_text(shown, "garment", "cloth", each.name),
        }
        for each in CLOTH
    ]
    fit = {"at": ["fit"], **field_of(FIT, "fit", shown.tables.get("fit"), values["fit"], shown.unit)}
    return {
        "fields": fields,
        "fit": fit,
        "knit": shown.garment.cloth.knit,
        "said": list(cloth_sentences(shown.draft)),
        "ease": [_ease(each, shown) for each in ease_had(shown.draft)],
    }


def _in_words(written: object) -> object:
    """What stands in the file; a list of words as one text."""
    return ", ".join(map(str, written)) if isinstance(written, list) else written


def _ease(had: EaseHad, shown: Shown) -> Data:
    """The ease at one place as data for the page: what was asked, what is had, what is usual."""
    unit, blocks = shown.unit, written_tables(shown.tables, "block")
    place = next((count for count, each in enumerate(blocks) if each.get("name") == had.block), None)
    at: list[str | int] | None = None
    written = None
    if place is not None:
        table: Any = blocks[place].get(had.within, {}) if had.within else blocks[place]
        at = ["block", place, *([had.within] if had.within else []), had.option.name]
        written = table.get(had.option.name) if isinstance(table, Mapping) else None
    low, high = had.usual or (None, None)
    return {
        "at": at,
        **field_of(had.option, had.option.name, written, had.mm, unit),
        "where": had.where,
        "given": had.asked,
        "asked": None if at is None else asked_text(shown, "garment", *at),
        "usual": f"{length_text(low, unit)} to {length_text(high, unit)}"
        if low is not None and high is not None
        else "",
        "note": sentence_in(unit, had.note),
        "finished": "" if had.finished is None else length_text(had.finished, unit),
    }
