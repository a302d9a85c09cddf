"""On paper: what it is printed on, and what can be made of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from output.api.order_options import PAPER, paper_values
from output.page.views.data import Data
from output.page.views.fields import field_of
from output.page.views.shown import Shown

__all__ = ["paper"]


def paper(shown: Shown) -> Data:
    """The paper.

    fields: what `[paper]` says, each with `at`, its place in the file
    pieces: the names of the pieces
    failed: whether a check failed, so that nothing is to be cut yet
    """
    written = shown.tables.get("paper")
    table: Mapping[str, Any] = written if isinstance(written, Mapping) else {}
    values = paper_values(shown.draft)
    fields = [
        {"at": ["paper", each.name], **field_of(each, each.name, table.get(each.name), values[each.name], shown.unit)}
        for each in PAPER
    ]
    pieces = [piece.name for piece in shown.draft.pieces]
    return {"fields": fields, "pieces": pieces, "failed": shown.checks.verdict in ("fail", "error")}
