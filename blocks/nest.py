"""A garment ordered in several sizes of a chart: drafted once in each, and laid one over another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from blocks.garment import BlockOrder, Garment, Prepared, draft, plan_block, prepare
from blocks.handover import Drafted
from blocks.shared.waist_darts import DARTS
from drafting.body.sizes import each_size, sizes_body
from drafting.errors import TrueseamError
from drafting.pattern import Pattern

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

    Block by block: of a block of which the sizes do not agree only those are planned again that have fewer darts. Where
    a size is drawn with more than it was planned with, all others follow.
    """
    blocks: list[BlockOrder] = []
    made: list[list[Drafted]] = [[] for _ in sizes]
    for order in garment.blocks:
        every = list(zip(sizes, prepared, made, strict=True))
        planned = [plan_block(member, ready, order, before) for member, ready, before in every]
        most = _most_darts(order, [each.waist_darts for each in planned])
        while True:
            asked = {name: DARTS[count] for name, count in most.items()}
            even = replace(order, options={**order.options, **asked})
            drafted = [
                (plan_block(member, ready, even, before) if _fewer(each.waist_darts, most) else each).draft()
                for (member, ready, before), each in zip(every, planned, strict=True)
            ]
            drawn = _most_darts(order, [each.waist_darts for each in drafted])
            if drawn.items() <= most.items():
                break
            most |= drawn
        for before, each in zip(made, drafted, strict=True):
            said = tuple((name, asked.get(name, value)) for name, value in each.options)
            before.append(replace(each, options=said))
        blocks.append(even)
    return tuple(blocks), made


def _most_darts(order: BlockOrder, counts: Sequence[tuple[int, ...]]) -> dict[str, int]:
    """By the option of a block that asks for them: the most waist darts of any size, where the sizes differ.

    counts: how many darts the first pieces of each size have
    """
    most: dict[str, int] = {}
    for name, each in zip(_DARTS, zip(*counts, strict=False), strict=False):
        option = next((option for option in order.block.options if option.name == name), None)
        if option is not None and order.options.get(name) in (None, option.default) and len(set(each)) > 1:
            most[name] = max(each)
    return most


def _fewer(counts: Sequence[int], most: Mapping[str, int]) -> bool:
    """Whether a size with so many darts has fewer than it is to have."""
    return any(count < most.get(name, 0) for name, count in zip(_DARTS, counts, strict=False))
