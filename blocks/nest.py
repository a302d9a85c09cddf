"""A garment ordered in several sizes of a chart: drafted once in each, and laid one over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from blocks.garment import BlockOrder, Garment, Prepared, draft, draft_block, prepare
from blocks.handover import Drafted
from drafting.body.sizes import each_size, sizes_body
from drafting.errors import TrueseamError
from drafting.pattern import Pattern, Place, darts_at

__all__ = ["nest_members"]


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

    Block by block: only a block of which the sizes do not agree is drafted twice, and what follows it once.
    """
    blocks: list[BlockOrder] = []
    made: list[list[Drafted]] = [[] for _ in sizes]

    def drafted(order: BlockOrder) -> list[Drafted]:
        every = zip(sizes, prepared, made, strict=True)
        return [draft_block(member, ready, order, before) for member, ready, before in every]

    for order in garment.blocks:
        found = drafted(order)
        even = _as_many_darts(order, found)
        for before, each in zip(made, found if even == order else drafted(even), strict=True):
            before.append(each)
        blocks.append(even)
    return tuple(blocks), made


def _as_many_darts(order: BlockOrder, drafted: Sequence[Drafted]) -> BlockOrder:
    """The order of a block with as many waist darts in every size as the one that needs most of them."""
    options = dict(order.options)
    for name, place in zip(("front_darts", "back_darts"), range(len(order.block.pieces)), strict=False):
        option = next((each for each in order.block.options if each.name == name), None)
        if option is not None and options.get(name) in (None, option.default):
            counts = {len(darts_at(each.pieces[place], Place.WAIST)) for each in drafted}
            if len(counts) > 1:
                options[name] = option.choices[max(counts)]
    return replace(order, options=options)
