"""A part that cannot be drawn, as its card shows it: why, and what may let it be drawn."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from output.api import Garment
from output.api.order_options import PARTS
from output.api.showing import CannotDraft
from output.api.wording import sentence_in
from output.page.views.data import Data, written_tables
from output.page.views.offers import offers_of, steps_in_file, without_what_buttons_do

__all__ = ["made_at", "refused_part"]


def refused_part(refused: CannotDraft, garment: Garment, tables: Mapping[str, Any]) -> Data:
    """The problem: in, at, of, sentences, offers. An offer may help or not: whoever shows it tries it first.

    at: where the part is ordered, None where it comes with a block; of: what its card is called
    """
    ordered = written_tables(tables, "part")
    place = next(
        (place for place, table in enumerate(ordered) if refused.part in (table.get("called"), table.get("name"))), None
    )
    helping = next((part.helped_by for part in PARTS if part.name == refused.part), ())
    remedies = refused.remedies or helping
    at = None if place is None else ("part", place)
    offers = offers_of(remedies, steps_in_file(garment, tables))
    return {
        "in": "garment",
        "at": None if at is None else list(at),
        "of": made_at(at, tables) or refused.part,
        "sentences": [without_what_buttons_do(sentence_in(garment.wearer.unit, refused.reason), offers)],
        "offers": offers,
    }


def made_at(at: tuple[str | int, ...] | None, tables: Mapping[str, Any]) -> str:
    """What the card of the block or the part is called that a place of the file is of; "" for none."""
    if at is None or at[0] not in ("part", "block") or at[1:] == ():
        return ""
    ordered = written_tables(tables, str(at[0]))
    table = ordered[int(at[1])] if int(at[1]) < len(ordered) else {}
    return str(table.get("called") or table.get("name") or "")
