"""What a wardrobe is made of, for chains and pairs: a garment of every kind, its parts, what makes sense on it.

A kind tells blocks and cloth; parts are chosen by what the blocks offer a place for. The samples of the alterations
(`tests/alteration_samples.py`) are told for a dress: `links_of` names the pieces of another garment in their place.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.body.person import Person
from drafting.fit.cloth import Cloth
from drafting.parts.part import Part
from drafting.parts.part_table import PARTS, part_of
from drafting.pattern import Pattern
from tests.alteration_samples import SAMPLES, TROUSER_SAMPLES, Options, sample
from tests.bodies import women
from tests.sweep_children import babies, children

__all__ = [
    "BUTTONED",
    "KINDS",
    "OPENED",
    "Kind",
    "Link",
    "a_garment",
    "begun",
    "garment_of",
    "jumpsuit_for",
    "links_of",
    "parts_for",
    "told_for_jumpsuit",
    "wearers",
]

Blocks = Mapping[str, Options]

Link = tuple[str, Options, float]
"""An alteration, its options, and which share of its amount is taken."""

OPENED: Final[Link] = ("opening", {"at": "centre back", "length": 300.0}, 1.0)
BUTTONED: Final[Link] = ("opening", {"at": "centre front", "fasten": "buttons"}, 1.0)

_WOVEN, _KNIT = Cloth("woven"), Cloth("knit", stretch=0.5, stretch_along=0.25)
_UPPER: Final = (
    *("lengthen", "take in", "armhole", "rounded back", "back width", "shoulder slope", "forward shoulder"),
    *("shoulder width", "neckline", "neck gape", "sway back", "opening", "hem", "room to grow"),
)
_DARTS: Final = ("full bust", "small bust", "move a dart", "dart into gathers", "dart into seam")
_SLEEVE: Final = ("upper arm", "fit sleeve", "full sleeve")
_STYLES: Final = ("yoke", "empire seam", "smock", "raglan", "saddle shoulder", "kimono", "dropped shoulder")
_SKIRT: Final = (
    *("lengthen", "take in", "flare skirt", "gather skirt", "pleat skirt", "opening", "side pocket", "patch pocket"),
    *("hem", "room to grow", "wrap over", "shaped band", "skirt yoke"),
)
_TROUSERS: Final = (
    *(*TROUSER_SAMPLES, "lengthen", "take in", "opening", "side pocket", "patch pocket", "hem", "room to grow"),
    *("shaped band", "skirt yoke"),
)
_JOINED: Final = ("pointed waist", "shaped band")
_KNIT_BANDS: Final = ("neck band", "front band", "wrist band", "hem band")
_CHILDS_BODICE: Final = {"below_waist": 250.0, "flare": 60.0}


@dataclass(frozen=True, slots=True, eq=False)
class Kind:
    """A kind of garment: its blocks with their options, its cloth, the alterations that make sense on it.

    instead: by the name of a piece in the samples, what its place is taken by here
    """

    name: str
    blocks: Blocks
    alterations: tuple[str, ...]
    instead: Mapping[str, str]
    cloth: Cloth = _WOVEN
    young: bool = False


def _kind(
    name: str, blocks: Blocks, *alterations: tuple[str, ...], cloth: Cloth = _WOVEN, young: bool = False, **instead: str
) -> Kind:
    names = {key.replace("_", " "): value for key, value in instead.items()}
    return Kind(
        name, blocks, tuple(dict.fromkeys(each for group in alterations for each in group)), names, cloth, young
    )


_DRESS: Final = {"bodice": {}, "sleeve": {}}
_TOP: Final = {"bodice_front": "top front", "bodice_back": "top back"}
_LEGS: Final = {"skirt_front": "trousers front", "skirt_back": "trousers back"}
_GORES: Final = {"skirt_front": "skirt front, centre", "skirt_back": "skirt back, side"}
_TIERS: Final = {"skirt_front": "skirt front, tier 3", "skirt_back": "skirt back, tier 3"}
_FITTED: Final = (*_UPPER, *_DARTS, *_SLEEVE, *_STYLES)
_CHILDS: Final = {"child's bodice": {}, "child's sleeve": {}}

KINDS: Final = (
    _kind("dress", {**_DRESS, "skirt": {}}, _FITTED, _SKIRT, _JOINED),
    _kind("bodice and sleeve", _DRESS, _FITTED),
    _kind("shirt", {"blouse": {}, "sleeve": {}}, _FITTED),
    _kind("skirt", {"skirt": {}}, _SKIRT),
    _kind("trousers", {"trousers": {}}, _TROUSERS, **_LEGS),
    _kind("fly trousers", {"trousers": {"fastening": "fly", "leg": "wide"}}, _TROUSERS, **_LEGS),
    _kind("shorts", {"trousers": {"ends": "shorts", "fastening": "side"}}, _TROUSERS, **_LEGS),
    _kind(
        "jumpsuit",
        {**_DRESS, "trousers": {"leg": "wide"}},
        _UPPER,
        _DARTS,
        _SLEEVE,
        _STYLES,
        _TROUSERS,
        _JOINED,
        **_LEGS,
    ),
    _kind("circle dress", {**_DRESS, "circle skirt": {}}, _FITTED, _SKIRT, _JOINED),
    _kind("circle skirt", {"circle skirt": {"circle": "third"}}, _SKIRT),
    _kind("gored skirt", {"gored skirt": {}}, _SKIRT, **_GORES),
    _kind(
        "tiered skirt", {"tiered skirt": {}}, _SKIRT, skirt_front="skirt front, tier 3", skirt_back="skirt back, tier 3"
    ),
    _kind("pleated skirt", {"pleated skirt": {"pleats": "box"}}, _SKIRT),
    _kind("knit top", {"knit top": {}, "knit sleeve": {}}, _UPPER, _SLEEVE, _STYLES, cloth=_KNIT, **_TOP),
    _kind(
        "cardigan",
        {"knit top": {"front": "open", "sides": "straight"}, "knit sleeve": {}},
        *(_UPPER, _SLEEVE, _STYLES),
        cloth=_KNIT,
        **_TOP,
    ),
    _kind("child's dress", {**_CHILDS, "child's skirt": {}}, _UPPER, _SLEEVE, _STYLES, _SKIRT, young=True),
    _kind("child's tunic", {**_CHILDS, "child's bodice": _CHILDS_BODICE}, _UPPER, _SLEEVE, _STYLES, young=True),
    _kind("child's circle dress", {**_CHILDS, "circle skirt": {}}, _UPPER, _SLEEVE, _STYLES, _SKIRT, young=True),
    _kind(
        *("romper", {"romper": {}, "child's sleeve": {}}, _UPPER, _SLEEVE, _STYLES, _TROUSERS),
        young=True,
        bodice_front="romper front",
        bodice_back="romper back",
        skirt_front="romper front",
        skirt_back="romper back",
    ),
    _kind(
        *("dungarees", {"dungarees": {}}, _TROUSERS),
        young=True,
        skirt_front="dungarees front",
        skirt_back="dungarees back",
    ),
)
"""The garments that chains begin on."""


@cache
def links_of(kind: Kind) -> tuple[tuple[str, Options], ...]:
    """Every alteration of a kind at every amount, told for its pieces; none that asks for a piece it has not."""
    samples = {**SAMPLES, **TROUSER_SAMPLES}
    told = ((name, _told_for(kind, options)) for name in kind.alterations for options in samples[name])
    pieces = {piece for name in kind.blocks for piece in find_block(name).pieces}
    return tuple((name, options) for name, options in told if "piece" not in options or options["piece"] in pieces)


def _told_for(kind: Kind, options: Options) -> Options:
    named = {key: kind.instead.get(value, value) if isinstance(value, str) else value for key, value in options.items()}
    return named if "armhole" in kind.alterations else {key: value for key, value in named.items() if key != "bust"}


def told_for_jumpsuit(options: Options) -> Options:
    """Options of a sample, told for the pieces of a jumpsuit."""
    return _told_for(_named("jumpsuit"), options)


@cache
def a_garment(kind: str) -> Pattern:
    """A garment of a kind for one woman or child of the survey, before any step."""
    found = _named(kind)
    return _drafted(found, wearers(found)[400 if found.young else 40])


def jumpsuit_for(who: Person) -> Pattern:
    """The jumpsuit for somebody, before any step."""
    return _drafted(_named("jumpsuit"), who)


def garment_of(kind: str, who: Person, parts: Sequence[Part] = (), steps: Sequence[Link] = ()) -> Pattern:
    """A garment of a kind for somebody, before any step; a part may wait for one of the steps.

    Raises CannotDraft where it is refused.
    """
    return _drafted(_named(kind), who, parts, steps)


def _named(name: str) -> Kind:
    return next(kind for kind in KINDS if kind.name == name)


def _drafted(kind: Kind, who: Person, parts: Sequence[Part] = (), steps: Sequence[Link] = ()) -> Pattern:
    garment = Garment(
        kind.name,
        who,
        tuple(BlockOrder(find_block(name), options) for name, options in kind.blocks.items()),
        cloth=kind.cloth,
        parts=tuple(part_of(part, {}) for part in parts),
        steps=tuple(sample(name, options) for name, options, _ in steps),
    )
    return draft(garment, prepare(garment))


def wearers(kind: Kind) -> tuple[Person, ...]:
    """Whom a kind is drafted for: the women, or the children and babies, of the open surveys."""
    return (*children(), *babies()) if kind.young else women()


@cache
def parts_for(kind: Kind) -> tuple[Part, ...]:
    """The parts that can be sewn somewhere on a kind of garment, in its cloth, and be of use there."""
    sites = {site for name in kind.blocks for site in find_block(name).sites}
    open_front = any(options.get("front") == "open" for options in kind.blocks.values())
    return tuple(
        part
        for part in PARTS
        if part.fits(sites)
        and part.in_place_of(sites) is None
        and (kind.cloth.knit or part.name not in _KNIT_BANDS)
        and (open_front or part.name != "front band")
    )


def _chosen(kind: Kind, chance: random.Random) -> Iterator[Part]:
    """None to three parts of a kind, no two for the same place."""
    filled: set[str] = set()
    for part in chance.sample(parts_for(kind), min(chance.randint(0, 3), len(parts_for(kind)))):
        if filled.isdisjoint(part.fills):
            filled |= set(part.fills)
            yield part


def begun(kind: Kind, chance: random.Random) -> tuple[Pattern, list[Link]]:
    """A garment of a kind for somebody of the survey, with parts or without, and the steps that its parts ask for.

    A collar waits for an opening: it is drawn when one has been cut. Raises CannotDraft where the garment is refused.
    """
    parts = tuple(_chosen(kind, chance))
    collar = next((part.name for part in parts if "collar" in part.fills and not _drawn_on(part)), "")
    at_front = (BUTTONED[0], {**BUTTONED[1], "only": "bodice front"}, 1.0) if "trousers" in kind.blocks else BUTTONED
    steps = [at_front if collar == "shirt collar" else OPENED] if collar else []
    return _drafted(kind, chance.choice(wearers(kind)), parts, steps), steps


def _drawn_on(part: Part) -> bool:
    """Whether a part at the neck is stretched over the head, so that nothing has to open."""
    return part.name in _KNIT_BANDS or part.name == "neck elastic"
