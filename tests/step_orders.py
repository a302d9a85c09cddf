"""What sweeps over several alterations share: their order, which of them make no sense together, shuffles of them."""

from __future__ import annotations

import random
import re
from collections.abc import Sequence
from typing import Final

from drafting.alterations import ALTERATIONS, Alteration, order_of_steps
from drafting.errors import StepRefused, TrueseamError
from drafting.reading.options import Value
from tests.alteration_samples import Options

__all__ = ["asks_for_order", "in_the_engines_order", "senseless", "shuffled"]

Named = tuple[str, Options]

_ORDER: Final = re.compile(
    r"\b(?:put|move|open|take|lay|close|do|make|cut)\b[^;:]*\b(?:first|before)\b|\bbefore that (?:step|one)\b"
)
"""What a sentence says that asks for another order: to do something first, or before something else."""


def asks_for_order(refused: TrueseamError) -> bool:
    """Whether a refusal asks for the steps in another order: by what it offers, or in words."""
    remedies = refused.remedies if isinstance(refused, StepRefused) else ()
    said = " ".join((str(refused), *refused.sentences()))
    return any(each.act == "put before" for each in remedies) or _ORDER.search(said) is not None


def in_the_engines_order(steps: Sequence[Alteration]) -> list[Alteration]:
    """The steps in the order in which the engine takes them."""
    return [steps[place] for place in order_of_steps(steps, ALTERATIONS)]


def shuffled(steps: Sequence[Alteration], chance: random.Random) -> list[Alteration]:
    """The steps in any order, but those of one alteration as they stand: between these the order of the file counts."""
    names = [step.name for step in steps]
    chance.shuffle(names)
    of_a_name = {name: iter([step for step in steps if step.name == name]) for name in names}
    return [next(of_a_name[name]) for name in names]


_SAID_ONCE: Final = frozenset({"blend", "gather skirt", "pleat skirt", "wrap over", "shaped band", "skirt yoke"}) | {
    *("put sleeve in", "fit sleeve", "side pocket", "slanted pocket", "pointed waist"),
    *("empire seam", "smock", "raglan", "saddle shoulder", "kimono"),
}
"""What says the whole of something: taken again it asks for the same, or for another in its place."""

_ONE_OF: Final = (
    (frozenset({"full bust", "small bust"}), "cloth is let in round the bust, or taken out"),
    (frozenset({"yoke", "smock", "raglan", "saddle shoulder", "kimono"}), "each of them cuts the same shoulder"),
    (frozenset({"empire seam", "smock"}), "a smock hangs from its yokes to the hem"),
    (frozenset({"pleat skirt", "gather skirt"}), "each of them says how the skirt is full"),
    (frozenset({"pleat skirt", "flare skirt"}), "each of them says how the skirt is full"),
)
"""Of these alterations a garment takes one, and why."""

_OPENED_BY: Final = {"wrap over": "centre front", "side pocket": "side", "slanted pocket": "side"}
"""Where an alteration takes up the seam that an opening would be cut in."""


def _not_twice(name: str, options: Options, others: Options) -> str:
    """Why an alteration makes no sense twice; "" where it does."""
    if name in _SAID_ONCE or dict(options) == dict(others):
        return "each of them says the whole of it"
    if name == "opening" and options["at"] == others["at"]:
        return "each of them opens it there"
    if name == "hem" and "facing" in (options.get("finish"), others.get("finish")):
        return "a hem is turned up or faced"
    both = _darts_used_up(name, options) & _darts_used_up(name, others)
    return "each of them uses up the same dart" if both else ""


def senseless(one: Named, other: Named) -> str:
    """Why two alterations make no sense together, or not twice; "" where they do."""
    if one[0] == other[0]:
        return _not_twice(*one, other[1])
    names = {one[0], other[0]}
    for group, why in _ONE_OF:
        if names <= group:
            return why
    told = {one[0]: one[1], other[0]: other[1]}
    if "opening" in told and told["opening"]["at"] == _OPENED_BY.get(min(names - {"opening"})):
        return "each of them opens it there"
    if names == {"hem", "room to grow"} and told["hem"].get("finish") == "facing" and "at" not in told["room to grow"]:
        return "a hem is turned up or faced"
    if _darts_used_up(*one) & _darts_used_up(*other):
        return "each of them uses up the same dart"
    return ""


def _darts_used_up(name: str, options: Options) -> frozenset[tuple[Value, Value]]:
    """The darts that are no longer there after a step, as piece and dart."""
    if name == "gather skirt" or (name == "flare skirt" and options.get("how") != "slashes"):
        return frozenset({("skirt front", "waist dart"), ("skirt back", "waist dart")})
    if name in ("dart into seam", "dart into gathers") or (name == "move a dart" and "part" not in options):
        return frozenset({(options["piece"], options["dart"])})
    return frozenset()
