"""What it is: the blocks and parts that it is made of, and those it could be, each drawn by the engine."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from output.api import Draft, Garment, TrueseamError, block, draft
from output.api.drawn import garment_lines
from output.api.order_options import PARTS, blocks_for
from output.page.views.data import Data, written_tables
from output.page.views.fields import field_of
from output.page.views.shown import Shown

__all__ = ["what"]


def what(shown: Shown) -> Data:
    """What it is made of: `blocks`, then `parts`, each:

    name, about: what it is
    there:   whether it is in the garment; at: its place in the file, None where it stands in another or is not there
    add:     where it is written when it is put in
    fields:  what can be set, each with its place `at`
    picture: it alone, from the front: {box, lines by weight}; None for a part
    """
    return {
        "blocks": [_block(shown, each) for each in blocks_for(shown.garment.wearer.body)],
        "parts": [
            _part(shown, each) for each in PARTS if each.fits(order.block.name for order in shown.garment.blocks)
        ],
    }


def _block(shown: Shown, each: Any) -> Data:
    tables = written_tables(shown.tables, "block")
    place = next((count for count, table in enumerate(tables) if table.get("name") == each.name), None)
    order = next((order for order in shown.garment.blocks if order.block.name == each.name), None)
    table: Mapping[str, Any] = tables[place] if place is not None else {}
    fields = [_field(shown, option, table, order.options if order else {}, ["block", place]) for option in each.options]
    return {
        "name": each.name,
        "about": each.about,
        "there": order is not None,
        "at": None if place is None else ["block", place],
        "add": ["block", len(tables)],
        "fields": fields if place is not None and order is not None else [],
        "picture": _picture(shown.garment, each),
    }


def _part(shown: Shown, each: Any) -> Data:
    tables = written_tables(shown.tables, "part")
    place = next((count for count, table in enumerate(tables) if table.get("name") == each.name), None)
    made = next((part for part in shown.garment.parts if part.part == each.name), None)
    table: Mapping[str, Any] = tables[place] if place is not None else {}
    options = dict(made.options) if made else {}
    fields = [_field(shown, option, table, options, ["part", place]) for option in each.options]
    return {
        "name": each.name,
        "about": each.about,
        "there": made is not None,
        "at": None if place is None else ["part", place],
        "add": ["part", len(tables)],
        "fields": fields if place is not None and made is not None else [],
        "picture": None,
        "instead": each.in_place_of(order.block.name for order in shown.garment.blocks),
    }


def _field(shown: Shown, option: Any, table: Mapping[str, Any], options: Mapping[str, Any], at: list[Any]) -> Data:
    value = options.get(option.name, option.default)
    return {"at": [*at, option.name], **field_of(option, option.name, table.get(option.name), value, shown.unit)}


def _picture(garment: Garment, each: Any) -> Data | None:
    """A block alone for this wearer, from the front; with what it is drawn to, where it is drawn to another."""
    names = (each.after, each.name) if each.after else (each.name,)
    return _alone(garment.wearer, garment.cloth, garment.fit, names)


@lru_cache(maxsize=32)
def _alone(wearer: Any, cloth: Any, fit: Any, names: tuple[str, ...]) -> Data | None:
    try:
        made: Draft = draft(Garment(names[-1], wearer, tuple(block(each) for each in names), cloth=cloth, fit=fit))
    except TrueseamError:
        return None
    view = next(iter(garment_lines(made)), None)
    return None if view is None else {"box": view.box, "lines": dict(view.lines)}
