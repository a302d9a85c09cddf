"""A garment ordered in several sizes of a chart: drafted once in each, and laid one over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from blocks.garment import BlockOrder, Garment, Prepared, draft, plan_block, prepare
from blocks.handover import Drafted, Planned
from drafting.body.sizes import each_size, sizes_body
from drafting.errors import TrueseamError
from drafting.pattern import Pattern
from drafting.reading.options import Value

__all__ = ["nest_members"]

_DARTS: Final = ("front_darts", "back_darts")


def nest_members(garment: Garment) -> tuple[tuple[str, Garment, Pattern | None], ...]:
    """What each size of a nest is called, the garment in it, its pattern before any step; nothing where there is none.

    Where one size needs more waist darts than another, every size has as many. Where a size cannot be drafted, there is
    no pattern of any.
    """
    if garment.sizes is None or not garment.sizes.nest:
        return ()
    members = tuple(
        (
            str(size.frame),
            replace(
                garment,
                sizes=size,
                wearer=replace(sizes_body(size).person, unit=garment.wearer.unit),
                sources=tuple(f"{source}, size {size.frame}" for source in garment.sources),
            ),
        )
        for size in each_size(garment.sizes)
    )
    sizes = [member for _, member in members]
    try:
        prepared = [prepare(member) for member in sizes]
        blocks, made = _drafted_evenly(garment, prepared, sizes)
        even = [replace(member, blocks=blocks) for member in sizes]
        patterns = [draft(member, ready, made=each) for member, ready, each in zip(even, prepared, made, strict=True)]
    except TrueseamError:
        # whoever drafts that size tells what is wrong with it
        return tuple((*member, None) for member in members)
    return tuple((size, member, pattern) for (size, _), member, pattern in zip(members, even, patterns, strict=True))


def _drafted_evenly(
    garment: Garment, prepared: Sequence[Prepared], sizes: Sequence[Garment]
) -> tuple[tuple[BlockOrder, ...], list[list[Drafted]]]:
    """The orders that give every size as many waist darts, and what each of them gives in each size.

    Block by block: of a block of which the sizes do not agree only those are planned again that have fewer darts.
    """
    blocks: list[BlockOrder] = []
    made: list[list[Drafted]] = [[] for _ in sizes]
    for order in garment.blocks:
        every = list(zip(sizes, prepared, made, strict=True))
        planned = [plan_block(member, ready, order, before) for member, ready, before in every]
        most = [max(counts) for counts in zip(*(each.waist_darts for each in planned), strict=False)]
        asked = _as_many_darts(order, planned)
        even = replace(order, options={**order.options, **asked})
        for (member, ready, before), each in zip(every, planned, strict=True):
            again = asked and list(each.waist_darts[: len(_DARTS)]) != most[: len(_DARTS)]
            drafted = plan_block(member, ready, even, before).draft() if again else each.draft()
            said = tuple((name, asked.get(name, value)) for name, value in drafted.options)
            before.append(replace(drafted, options=said))
        blocks.append(even)
    return tuple(blocks), made


def _as_many_darts(order: BlockOrder, planned: Sequence[Planned]) -> dict[str, Value]:
    """The options of a block by which every size has as many waist darts as the one that needs most; none if all do."""
    asked: dict[str, Value] = {}
    for name, counts in zip(_DARTS, zip(*(each.waist_darts for each in planned), strict=False), strict=False):
        option = next((each for each in order.block.options if each.name == name), None)
        if option is not None and order.options.get(name) in (None, option.default) and len(set(counts)) > 1:
            asked[name] = option.choices[max(counts)]
    return asked
