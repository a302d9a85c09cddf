"""A garment ordered in several sizes of a chart: drafted once in each, and laid one over another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from blocks.garment import BlockOrder, Garment, Prepared, draft, plan_block, prepare
from blocks.handover import Drafted, Planned
from blocks.shared.waist_darts import DARTS
from drafting.body.sizes import Sizes, each_size, sizes_body
from drafting.dataclass import dataclass
from drafting.errors import TrueseamError
from drafting.pattern import Pattern

__all__ = ["nest_members"]

_DARTS: Final = ("front_darts", "back_darts")
"""The options of a block that ask for waist darts, in the order in which it counts its darts."""


@dataclass(frozen=True, slots=True)
class _Size:
    """One size of a nest while its blocks are drafted one after the other. drafted: what each block gave so far"""

    garment: Garment
    prepared: Prepared
    drafted: tuple[Drafted, ...] = ()

    def plan(self, order: BlockOrder) -> Planned:
        """How the next block would be drafted in this size."""
        return plan_block(self.garment, self.prepared, order, self.drafted)


def nest_members(garment: Garment) -> tuple[tuple[str, Garment, Pattern | None], ...]:
    """What each size of a nest is called, the garment in it, its pattern before any step; nothing where there is none.

    Where one size needs more waist darts than another, every size has as many. Where a size cannot be drafted, there is
    no pattern of any.
    """
    if garment.sizes is None or not garment.sizes.nest:
        return ()
    frames = each_size(garment.sizes)
    garments = [_in_size(garment, frame) for frame in frames]
    names = [str(frame.frame) for frame in frames]
    try:
        sizes = [_Size(each, prepare(each)) for each in garments]
        blocks, sizes = _drafted_evenly(garment, sizes)
        even = [replace(each, blocks=blocks) for each in garments]
        patterns = [draft(each, size.prepared, made=size.drafted) for each, size in zip(even, sizes, strict=True)]
    except TrueseamError:
        # whoever drafts that size tells what is wrong with it
        return tuple((name, each, None) for name, each in zip(names, garments, strict=True))
    return tuple(zip(names, even, patterns, strict=True))


def _in_size(garment: Garment, size: Sizes) -> Garment:
    """The garment for a body of that size, each of its steps marked with it."""
    return replace(
        garment,
        sizes=size,
        wearer=replace(sizes_body(size).person, unit=garment.wearer.unit),
        sources=tuple(f"{source}, size {size.frame}" for source in garment.sources),
    )


def _drafted_evenly(garment: Garment, sizes: Sequence[_Size]) -> tuple[tuple[BlockOrder, ...], list[_Size]]:
    """The orders that give every size as many waist darts, and the sizes drafted by them, block by block."""
    blocks: list[BlockOrder] = []
    drafted = list(sizes)
    for order in garment.blocks:
        even, drafted = _with_block(order, drafted)
        blocks.append(even)
    return tuple(blocks), drafted


def _with_block(order: BlockOrder, sizes: Sequence[_Size]) -> tuple[BlockOrder, list[_Size]]:
    """The order that gives every size as many waist darts in a block, and the sizes with that block drafted.

    Of a block of which the sizes do not agree only those are planned again that have fewer darts. Where a size is drawn
    with more than it was planned with, all others follow.
    """
    planned = [size.plan(order) for size in sizes]
    most = _most_darts(order, [plan.waist_darts for plan in planned])
    while True:
        asked = {name: DARTS[count] for name, count in most.items()}
        even = replace(order, options={**order.options, **asked})
        drafted = [
            (size.plan(even) if _has_fewer(plan.waist_darts, most) else plan).draft()
            for size, plan in zip(sizes, planned, strict=True)
        ]
        drawn = _most_darts(order, [block.waist_darts for block in drafted])
        if drawn.items() <= most.items():
            break
        most |= drawn
    return even, [_followed_by(size, block, asked) for size, block in zip(sizes, drafted, strict=True)]


def _followed_by(size: _Size, block: Drafted, asked: Mapping[str, str]) -> _Size:
    """The size with one block more; asked: what the options for waist darts are told as."""
    told = tuple((name, asked.get(name, value)) for name, value in block.options)
    return replace(size, drafted=(*size.drafted, replace(block, options=told)))


def _most_darts(order: BlockOrder, counts: Sequence[tuple[int, ...]]) -> dict[str, int]:
    """By the option of a block that asks for them: the most waist darts of any size, where the sizes differ.

    counts: of each size, how many waist darts its first pieces have
    """
    most: dict[str, int] = {}
    for place, name in enumerate(_DARTS):
        of_sizes = {count[place] for count in counts if place < len(count)}
        option = next((option for option in order.block.options if option.name == name), None)
        if option is not None and order.options.get(name) in (None, option.default) and len(of_sizes) > 1:
            most[name] = max(of_sizes)
    return most


def _has_fewer(counts: Sequence[int], most: Mapping[str, int]) -> bool:
    """Whether a size with so many darts has fewer than it is to have."""
    return any(count < most.get(name, 0) for name, count in zip(_DARTS, counts, strict=False))
