"""Garments that many begin with, by the names they go by: their blocks, parts and steps, in figures to be changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from typing import Any, Final

from blocks.block_table import BLOCKS, blocks_for
from drafting.alterations import ALTERATIONS
from drafting.body.terms import BodyKind
from drafting.dataclass import dataclass
from drafting.reading.units import length_text

__all__ = ["GarmentKind", "garment_kinds", "kind_tables"]

Table = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class GarmentKind:
    """A garment to begin with.

    blocks: by name, with what is said of each; parts: by name
    steps:  as in a garment file, but lengths in mm
    cloth:  what it is made of; "" for a plain woven
    """

    name: str
    about: str
    blocks: Mapping[str, Table]
    parts: tuple[str, ...] = ()
    steps: tuple[Table, ...] = ()
    cloth: str = ""
    also: tuple[str, ...] = field(default=())


_TIERED: Final = "tiered skirt"
_CLOSED_BACK: Final[Table] = {"alter": "opening", "at": "centre back", "fasten": "closed"}
_BUTTONED: Final[Table] = {"alter": "opening", "at": "centre front", "fasten": "buttons"}

_KINDS: Final = (
    GarmentKind("dress", "fitted, with sleeves and a seam at the waist", {"bodice": {}, "sleeve": {}, "skirt": {}}),
    GarmentKind(
        "smock dress",
        "gathered to a square yoke, with a flat collar",
        {"bodice": {}, "sleeve": {}},
        ("flat collar",),
        (
            {"alter": "opening", "at": "centre back", "length": 220.0},
            {"alter": "smock", "length": 600.0},
        ),
        also=("smock",),
    ),
    GarmentKind(
        "jumpsuit", "a bodice sewn to trousers", {"bodice": {}, "trousers": {"leg": "wide"}}, also=("boiler suit",)
    ),
    GarmentKind(
        "shirt",
        "buttoned in front, with a collar on a stand and cuffs",
        {"blouse": {}, "sleeve": {}},
        ("shirt collar", "cuff"),
        (_CLOSED_BACK, _BUTTONED, {"alter": "full sleeve", "hem": 70.0}),
        also=("blouse",),
    ),
    GarmentKind(
        "T-shirt",
        "of jersey, with short sleeves and a band at the neck",
        {"knit top": {}, "knit sleeve": {}},
        ("neck band",),
        ({"alter": "lengthen", "piece": "sleeve", "by": -360.0, "hem": "as tapered"},),
        "jersey",
        also=("tee",),
    ),
    GarmentKind(
        "cardigan",
        "of a knit, open in front, with a button band",
        {"knit top": {"front": "open"}, "knit sleeve": {}},
        ("front band",),
        cloth="sweater knit",
    ),
    GarmentKind(
        "button skirt",
        "flared, buttoned in front, with a shaped band",
        {"skirt": {}},
        (),
        (
            {"alter": "flare skirt"},
            {"alter": "shaped band"},
            {"alter": "hem", "piece": "skirt front", "depth": 15.0},
            _BUTTONED,
            _CLOSED_BACK,
        ),
        also=("button-down skirt",),
    ),
    GarmentKind("wrap skirt", "laps over itself in front", {"skirt": {}}, (), ({"alter": "wrap over"}, _CLOSED_BACK)),
    GarmentKind("wide trousers", "cropped, with a zip at the side", {"trousers": {"leg": "wide", "ends": "cropped"}}),
    GarmentKind(
        "child's dress",
        "with sleeves and a gathered skirt",
        {"child's bodice": {}, "child's sleeve": {}, "child's skirt": {}},
    ),
)


def garment_kinds(body: BodyKind) -> tuple[GarmentKind, ...]:
    """Those that can be drafted for a kind of body: the named ones, then each block with what is drawn to it, alone."""
    there = blocks_for(body)
    names = {each.name for each in there}
    named = [kind for kind in _KINDS if names >= kind.blocks.keys()]
    known = {frozenset(kind.blocks) for kind in named if not kind.steps and not any(kind.blocks.values())}
    plain = []
    for each in there:
        drawn_to_it = [other for other in there if other.after == each.name]
        plain += [_plain(each.name, other.name) for other in drawn_to_it]
        plain += [] if each.after else [_plain(each.name)]
    if body != "woman":  # a short skirt in three tiers has none high enough
        plain = [_in_two_tiers(kind) if _TIERED in kind.blocks else kind for kind in plain]
    return (*named, *(kind for kind in plain if frozenset(kind.blocks) not in known))


def _in_two_tiers(kind: GarmentKind) -> GarmentKind:
    return replace(kind, blocks={**kind.blocks, _TIERED: {"tiers": "2"}})


def _plain(*blocks: str) -> GarmentKind:
    about = {each.name: each.about for each in BLOCKS}
    said = about[blocks[0]] if len(blocks) == 1 else ", ".join(blocks)
    return GarmentKind(" with ".join(blocks), said, {name: {} for name in blocks})


def kind_tables(kind: GarmentKind, unit: str) -> Mapping[str, list[dict[str, Any]]]:
    """What stands in a garment file for it: the tables of `block`, `part` and `step`, lengths as they are written."""
    blocks = {each.name: each for each in BLOCKS}

    def written(options: Any, table: Table) -> dict[str, Any]:
        lengths = {option.name for option in options if option.kind == "length"}
        return {key: length_text(value, unit) if key in lengths else value for key, value in table.items()}

    return {
        "block": [{"name": name, **written(blocks[name].options, said)} for name, said in kind.blocks.items()],
        "part": [{"name": name} for name in kind.parts],
        "step": [written(ALTERATIONS.named(step["alter"]).options, step) for step in kind.steps],
    }
