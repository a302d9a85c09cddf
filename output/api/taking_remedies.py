"""What is offered for a refused step or a failed check, taken: the garment ordered as the remedy says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from blocks.garment import Garment, in_order, order_taken, with_options
from drafting.alterations import Alteration
from drafting.body.sizes import Sizes, sizes_body
from drafting.errors import InputProblems, Problem, Remedy
from drafting.parts.part_amounts import part_with
from drafting.reading.options import Value
from output.api.making import accept, alteration

__all__ = ["with_remedy"]


def with_remedy(garment: Garment, remedy: Remedy) -> Garment:
    """The garment ordered as a remedy says, to be drafted again.

    garment: the one that was refused, the refused step among its steps; or the one whose check failed
    remedy:  one of the `remedies` of a refusal of `draft` or `alter`, or of a result of `check`

    Raises InputProblems for a remedy of another garment, and for one of a fault nobody knows the step of.
    """
    accept("with_remedy", garment, Garment, "a garment, as `draft` takes it")
    accept("with_remedy", remedy, Remedy, "one of the remedies of a refusal or of a failed check")
    given: dict[str, Value] = {each.option: each.value for each in remedy.settings}
    if remedy.act == "set in block":
        known = {option.name for order in garment.blocks for option in order.block.options}
        if known.isdisjoint(given):
            raise _not_of(garment, remedy)
        return with_options(garment, given)
    if remedy.act == "set in part":
        if remedy.alteration not in [each.name for each in garment.parts]:
            raise _not_of(garment, remedy)
        plain = {name: value for name, value in given.items() if value is not None}
        parts = [part_with(each, plain) if each.name == remedy.alteration else each for each in garment.parts]
        return replace(garment, parts=tuple(parts))
    if remedy.act == "set in paper":
        return replace(garment, paper=replace(garment.paper, **given))  # type: ignore[arg-type]
    if remedy.act == "add":
        return replace(garment, steps=(*garment.steps, alteration(remedy.alteration, **given)), sources=())
    number = given.get("step")
    if not 0 < remedy.step <= len(garment.steps) or (remedy.act == "put before" and not isinstance(number, float)):
        raise _not_of(garment, remedy)
    if remedy.act == "put before":
        return _put_before(garment, remedy.step - 1, int(float(str(number))) - 1)
    meant = order_taken(garment)[remedy.step - 1 : None if remedy.onward else remedy.step]
    steps: dict[int, Alteration] = {k: step for k, step in enumerate(garment.steps) if k not in meant}
    if remedy.act == "change":
        steps[meant[0]] = replace(garment.steps[meant[0]], **given)
    if remedy.act == "instead":
        steps[meant[0]] = alteration(remedy.alteration, **given)
    less = replace(garment, steps=tuple(steps[k] for k in sorted(steps)), sources=())
    return _in_one_size(less, given) if remedy.act == "set in sizes" else less


def _put_before(garment: Garment, place: int, to: int) -> Garment:
    """The garment with the step taken at a place, from 0, taken before another; its steps are then as written."""
    written = in_order(garment)
    others = [step for k, step in enumerate(written.steps) if k != place]
    return replace(written, steps=(*others[:to], written.steps[place], *others[to:]), sources=())


def _in_one_size(garment: Garment, given: Mapping[str, Value]) -> Garment:
    """The garment in one size of its chart."""
    if garment.sizes is None:
        return garment
    sizes = Sizes(bust=int(float(str(given["bust"]))), chart=garment.sizes.chart, height=garment.sizes.height)
    wearer = replace(sizes_body(sizes).person, unit=garment.wearer.unit)
    return replace(garment, sizes=sizes, wearer=wearer)


def _not_of(garment: Garment, remedy: Remedy) -> InputProblems:
    expected = f'a remedy for "{garment.title}" as it was drafted, with the step that was refused'
    return InputProblems([Problem("with_remedy", f"{remedy.act}: {remedy.typed()}", expected)])
