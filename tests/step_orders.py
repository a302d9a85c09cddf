"""What sweeps over several alterations share: their order, which of them make no sense together, shuffles of them."""

from __future__ import annotations

import random
from collections.abc import Sequence
from typing import Final

from drafting.alterations import ALTERATIONS, Alteration, order_of_steps
from drafting.reading.options import Value
from tests.alteration_samples import Options

__all__ = ["asks_for_order", "in_the_engines_order", "senseless", "shuffled"]

Named = tuple[str, Options]

_ORDER: Final = ("put this step before", "put this step first", "before that step", "before that one")
"""What a sentence says that asks for another order."""


def asks_for_order(sentence: str) -> bool:
    """Whether a refusal asks for the steps in another order."""
    return any(words in sentence for words in _ORDER)


def in_the_engines_order(steps: Sequence[Alteration]) -> list[Alteration]:
    """The steps in the order in which the engine takes them."""
    return [steps[place] for place in order_of_steps(steps, ALTERATIONS)]


def shuffled(steps: Sequence[Alteration], chance: random.Random) -> list[Alteration]:
    """The steps in any order, but those of one alteration as they stand: between these the order of the file counts."""
    names = [step.name for step in steps]
    chance.shuffle(names)
    of_a_name = {name: iter([step for step in steps if step.name == name]) for name in names}
    return [next(of_a_name[name]) for name in names]


def senseless(one: Named, other: Named) -> str:
    """Why two alterations make no sense together, or not twice; "" where they do."""
    if one[0] == other[0] and one[0] in ("blend", "gather skirt", "wrap over", "put sleeve in", "fit sleeve"):
        return "each of them says the whole of it"
    if {one[0], other[0]} == {"full bust", "small bust"}:
        return "cloth is let in round the bust, or taken out"
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
