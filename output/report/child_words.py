"""What is said in the report of clothes that a child may wear: the rules once in its head, elsewhere a short word."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.pattern import Pattern, Place
from drafting.sewing import Act, SewingStep, cautions, possible_cautions, sewing_order
from output.report.tables import Passage

__all__ = ["caution_passage", "cautions_before_sewing", "child_caution"]

_IN_STEPS = {
    Act.BUTTONS: ("small parts",),
    Act.SNAPS: ("small parts",),
    Act.LAP_SHOULDERS: ("elastic", "cords"),
    Act.STRAPS: ("small parts", "cords"),
    Act.ATTACH: ("cords", "small parts"),
    Act.LAP: ("small parts", "cords"),
    Act.BIND: ("elastic", "cords"),
    Act.FACE: ("elastic", "cords"),
}
"""The cautions that a step is the place for."""


_WHERE: Final = "For a child"


def caution_passage(pattern: Pattern) -> tuple[Passage, ...]:
    """All that is to be told of a garment for a child, in one passage, the rules in force last; none for the grown."""
    told = cautions(pattern)
    rules = tuple(dict.fromkeys(each.sentences[-1] for each in told))
    sentences = (*(" ".join(each.sentences[:-1]) for each in told), *rules)
    return (Passage(_WHERE, sentences),) if told else ()


def cautions_before_sewing(pattern: Pattern) -> str:
    """What stands before the first step: where the cautions are, or all of them where nobody said whom it is for."""
    if cautions(pattern):
        return f"What to beware of stands under “{_WHERE}”, in the head of this report."
    told = possible_cautions(pattern)
    return " ".join((*(each.short for each in told), *dict.fromkeys(each.sentences[-1] for each in told)))


def child_caution(pattern: Pattern, step: SewingStep) -> Iterator[str]:
    """What to beware of in a step where the wearer is or may be a child, in one short sentence after another; of small
    parts once, where the snaps are set, or else in the first step that has any.
    """
    kinds = _IN_STEPS.get(step.act, ())
    if step.act in (Act.BIND, Act.FACE) and step.place is not Place.NECK:
        return
    kinds = tuple(kind for kind in kinds if kind != "small parts" or _is_told_here(pattern, step))
    told = [each.short for each in possible_cautions(pattern) if each.kind in kinds]
    if told:
        yield f"{_WHERE}: {told[0][:1].lower()}{' '.join(told)[1:]}"


def _is_told_here(pattern: Pattern, step: SewingStep) -> bool:
    """Whether no step before this one has small parts, nor any later one snaps."""
    acts = [(each.act, each.place) for each in sewing_order(pattern) if "small parts" in _IN_STEPS.get(each.act, ())]
    first = min(acts, key=lambda act: act[0] is not Act.SNAPS, default=None)
    return first in (None, (step.act, step.place))
