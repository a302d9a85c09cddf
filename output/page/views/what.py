"""What it is: the blocks and parts that it is made of, and those it could be (drawn by `block_picture.py`)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import count
from typing import Any

from output.api import Garment
from output.api.order_options import PARTS, Part, blocks_for, rivals_of, sites_of
from output.page.views.blocks_changed import inserted, put_in, removed, take_out
from output.page.views.data import Data, written_tables
from output.page.views.fields import field_of, has_meaning, shown_first
from output.page.views.shown import Shown

__all__ = ["what"]


def what(shown: Shown) -> Data:
    """What it is made of: `body`, whose it is, `blocks`, then `parts`, each:

    name, about: what it is; called: the name of a part that there can be more than one of; "" for none
    there:   whether it is in the garment; at: its place in the file, None where it stands in another or is not there
    put_in, take_out: the edits that do so, with what would be in its way, is needed for it, or needs it; [] for none
    in_place: what putting it in changes beside it, as a sentence; "" for nothing
    replaced: the parts that it would take the place of, as they stand in the file; back_at: where they are put back
    fields:  what can be set, each with its place `at`
    """
    return {
        "body": shown.garment.wearer.body,
        "blocks": [_block(shown, each) for each in blocks_for(shown.garment.wearer.body)],
        "parts": [row for each in PARTS if each.fits(_sites(shown.garment)) for row in _parts(shown, each)],
    }


def _block(shown: Shown, each: Any) -> Data:
    """A block as data for the page: whether it is there, its fields, and how it is put in or taken out."""
    tables = written_tables(shown.tables, "block")
    place = next((k for k, table in enumerate(tables) if table.get("name") == each.name), None)
    order = next((order for order in shown.garment.blocks if order.block.name == each.name), None)
    table: Mapping[str, Any] = tables[place] if place is not None else {}
    used = dict(next((from_.options for from_ in shown.draft.pattern.origin if from_.block == each.name), ()))
    options = {**(order.options if order else {}), **{key: value for key, value in used.items() if value is not None}}
    fields = _fields(shown, each, table, options, ["block", place])
    return {
        "name": each.name,
        "about": each.about,
        "there": order is not None,
        "at": None if place is None else ["block", place],
        "in_place": "" if order else _beside(shown, put_in(shown, each)),
        "replaced": [],
        "put_in": [] if order else put_in(shown, each),
        "take_out": [] if place is None else take_out(shown, each),
        "fields": fields if place is not None and order is not None else [],
    }


def _parts(shown: Shown, each: Part) -> list[Data]:
    """The row of a part; of one that there can be several of, a row for each there and one for the next."""
    there = [made.called for made in shown.garment.parts if made.part == each.name]
    if not each.several:
        return [_part(shown, each, "")]
    free = next(name for k in count(1) if (name := f"{each.name} {k}") not in there)
    return [*(_part(shown, each, called) for called in there), _part(shown, each, free)]


def _part(shown: Shown, each: Part, called: str) -> Data:
    """A part as data for the page: whether it is there, its fields, and how it is put in or taken out."""
    tables = written_tables(shown.tables, "part")
    whole = {"name": each.name, **({"called": called} if called else {})}
    place = next((k for k, table in enumerate(tables) if whole.items() <= table.items()), None)
    made = next((part for part in shown.garment.parts if (part.part, part.called) == (each.name, called)), None)
    rivals = {rival.name for rival in rivals_of(each, PARTS)}
    replaces = [k for k, table in enumerate(tables) if table.get("name") in rivals]
    table: Mapping[str, Any] = tables[place] if place is not None else {}
    options = dict(made.options) if made else {}
    sets = _set_in_block(shown, each)
    fields = _fields(shown, each, table, options, ["part", place])
    return {
        **whole,
        "about": each.about,
        "there": made is not None or (bool(sets) and any(one.part == each.name for one in shown.draft.pattern.derived)),
        "at": None if place is None else ["part", place],
        "in_place": "" if made else _beside(shown, removed("part", replaces)),
        "replaced": [] if made else [dict(tables[place]) for place in replaces],
        "back_at": len(tables) - 1,
        "put_in": sets
        or ([] if made else [*removed("part", replaces), inserted("part", len(tables) - len(replaces), whole)]),
        "take_out": [*removed("part", [] if place is None else [place]), *_left_in_block(shown, sets)],
        "fields": fields if place is not None and made is not None else [],
        "instead": each.in_place_of(_sites(shown.garment)) is not None,
    }


def _set_in_block(shown: Shown, part: Part) -> list[Data]:
    """The edits that let a block bring a part, as trousers bring a fly; [] for a part that is ordered by itself."""
    tables = written_tables(shown.tables, "block")
    return [
        {"in": "garment", "do": "set", "at": ["block", place, setting.option], "value": setting.value}
        for remedy in part.helped_by
        for setting in remedy.settings
        if setting.value == part.name
        for order in shown.garment.blocks
        if any(option.name == setting.option and part.name in option.choices for option in order.block.options)
        for place, table in enumerate(tables)
        if table.get("name") == order.block.name
    ]


def _left_in_block(shown: Shown, sets: Sequence[Data]) -> list[Data]:
    """The edits that take out of the blocks what these set, where it is written."""
    tables = written_tables(shown.tables, "block")
    written = [each["at"] for each in sets if tables[each["at"][1]].get(each["at"][2]) == each["value"]]
    return [{"in": "garment", "do": "remove", "at": at} for at in written]


def _beside(shown: Shown, edits: Sequence[Data]) -> str:
    """What edits take out of the garment and what they make its cloth, as a sentence; "" for nothing."""
    taken = [(each["at"][0], each["at"][1]) for each in edits if each["do"] == "remove"]
    names = [written_tables(shown.tables, kind)[place]["name"] for kind, place in reversed(taken)]
    cloth = next((each["value"] for each in edits if each["do"] == "set"), "")
    said = f"In place of: {', '.join(names)}." if names else ""
    return f"{said} The cloth becomes {cloth}.".strip() if cloth else said


def _sites(garment: Garment) -> Any:
    return sites_of(order.block for order in garment.blocks)


def _fields(shown: Shown, of: Any, table: Mapping[str, Any], options: Mapping[str, Any], at: list[Any]) -> list[Data]:
    """The options of a block or a part that have a meaning beside each other."""
    values = {option.name: options.get(option.name, option.default) for option in of.options}
    meant = [option for option in of.options if option.name in table or has_meaning(option, values)]
    return shown_first(_field(shown, option, table, options, at) for option in meant)


def _field(shown: Shown, option: Any, table: Mapping[str, Any], options: Mapping[str, Any], at: list[Any]) -> Data:
    value = options.get(option.name, option.default)
    return {"at": [*at, option.name], **field_of(option, option.name, table.get(option.name), value, shown.unit)}
