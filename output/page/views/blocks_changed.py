"""A block put in or taken out: the edits, with those for what is in its way, what it needs, and what needs it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from output.api.order_options import PARTS, blocks_for, rival_blocks, sites_of
from output.page.views.data import Data, written_tables
from output.page.views.shown import Shown

__all__ = ["inserted", "put_in", "removed", "take_out"]


def put_in(shown: Shown, block: Any) -> list[Data]:
    """The edits that put a block in.

    Out go the blocks that clothe the same part of the body, what is drawn to those, and parts that then have no place;
    in comes the block it is drawn to; and where the garment's cloth is none that it can be made of, one that is
    """
    known = {each.name: each for each in blocks_for(shown.garment.wearer.body)}
    there = [order.block for order in shown.garment.blocks]
    rivals = rival_blocks(block, there)
    kept = [each for each in there if each not in rivals and each.after not in {rival.name for rival in rivals}]
    before = [known[block.after]] if block.after in known and known[block.after] not in kept else []
    kept = [each for each in kept if not any(each in rival_blocks(one, kept) for one in before)]
    edits = _changed_to(shown, [*kept, *before, block])
    knit = block.cloth != "woven" and not shown.garment.cloth.knit
    cloth = {"in": "garment", "do": "set", "at": ["cloth", "kind"], "value": block.cloth}
    return [*edits, cloth] if knit else edits


def take_out(shown: Shown, block: Any) -> list[Data]:
    """The edits that take a block out, with what is drawn to it; [] where nothing would be left."""
    kept = [o.block for o in shown.garment.blocks if block.name not in (o.block.name, o.block.after)]
    return _changed_to(shown, kept) if kept else []


def _changed_to(shown: Shown, blocks: Sequence[Any]) -> list[Data]:
    """The edits after which the garment has these blocks, and of its parts those that have a place on them."""
    names = [each.name for each in blocks]
    written, parts = (written_tables(shown.tables, key) for key in ("block", "part"))
    gone = [place for place, table in enumerate(written) if table.get("name") not in names]
    there = [order.block.name for order in shown.garment.blocks]
    new = [{"name": name} for name in names if name not in there]
    sites = sites_of(blocks)
    fitting = {each.name for each in PARTS if each.fits(sites) and each.in_place_of(sites) is None}
    loose = [place for place, table in enumerate(parts) if table.get("name") not in fitting]
    return [
        *removed("part", loose),
        *(inserted("block", len(written) + k, table) for k, table in enumerate(new)),
        *removed("block", gone),
    ]


def removed(kind: str, places: Iterable[int]) -> list[Data]:
    """The edits that take out the tables at these places, the last first."""
    return [{"in": "garment", "do": "remove", "at": [kind, place]} for place in sorted(places, reverse=True)]


def inserted(kind: str, place: int, table: Mapping[str, Any]) -> Data:
    """The edit that puts in a table at a place."""
    return {"in": "garment", "do": "insert", "at": [kind, place], "value": dict(table)}
