"""A garment ordered in several sizes of a chart: drafted once in each, and laid one over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.body.sizes import each_size, sizes_body
from drafting.errors import TrueseamError
from drafting.pattern import Pattern, Place, darts_at

__all__ = ["nest_members"]


def nest_members(garment: Garment) -> tuple[tuple[str, Garment], ...]:
    """The garment once in each size of its nest, with what the size is called; nothing where none is ordered.

    Where one size needs more waist darts than another, every size has as many.
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
    try:
        drafted = [draft(member, prepare(member)) for _, member in members]
    except TrueseamError:
        return members  # whoever drafts that size tells what is wrong with it
    blocks = tuple(_as_many_darts(order, drafted) for order in garment.blocks)
    return tuple((size, replace(member, blocks=blocks)) for size, member in members)


def _as_many_darts(order: BlockOrder, drafted: Sequence[Pattern]) -> BlockOrder:
    """The order of a block with as many waist darts in every size as the one that needs most of them."""
    options = dict(order.options)
    for name, piece in zip(("front_darts", "back_darts"), order.block.pieces, strict=False):
        option = next((each for each in order.block.options if each.name == name), None)
        counts = {len(darts_at(pattern.piece(piece), Place.WAIST)) for pattern in drafted}
        if option is not None and len(counts) > 1 and options.get(name) in (None, option.default):
            options[name] = option.choices[max(counts)]
    return replace(order, options=options)
