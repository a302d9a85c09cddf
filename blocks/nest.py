"""A garment ordered in several sizes of a chart: drafted once in each, and laid one over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from blocks.garment import BlockOrder, Garment, draft, finish, prepare
from drafting.body.sizes import each_size, sizes_body
from drafting.errors import InputProblems, Problem, TrueseamError
from drafting.pattern import Nest, Pattern, Place, Sized, darts_at

__all__ = ["draft_nest", "nest_members"]


def nest_members(garment: Garment) -> tuple[tuple[str, Garment], ...]:
    """The garment once in each size of its nest, with what the size is called; nothing where none is ordered.

    Where one size needs more waist darts than another, every size has as many.
    """
    return tuple((size, member) for size, member, _ in _members(garment))


def _members(garment: Garment) -> list[tuple[str, Garment, Pattern | None]]:
    """The members, each with its pattern before any step where it has been drafted."""
    if garment.sizes is None or not garment.sizes.nest:
        return []
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
        return [(*member, None) for member in members]  # whoever drafts that size tells what is wrong with it
    blocks = tuple(_as_many_darts(order, drafted) for order in garment.blocks)
    if blocks == garment.blocks:
        return [(*member, pattern) for member, pattern in zip(members, drafted, strict=True)]
    return [(size, replace(member, blocks=blocks), None) for size, member in members]


def _as_many_darts(order: BlockOrder, drafted: Sequence[Pattern]) -> BlockOrder:
    """The order of a block with as many waist darts in every size as the one that needs most of them."""
    options = dict(order.options)
    for name, piece in zip(("front_darts", "back_darts"), order.block.pieces, strict=False):
        option = next((each for each in order.block.options if each.name == name), None)
        counts = {len(darts_at(pattern.piece(piece), Place.WAIST)) for pattern in drafted}
        if option is not None and len(counts) > 1 and options.get(name) in (None, option.default):
            options[name] = option.choices[max(counts)]
    return replace(order, options=options)


def draft_nest(garment: Garment) -> Nest:
    """The garment in each size of its nest, every step taken in each.

    Raises InputProblems for a garment that is not ordered in sizes, NotAPattern where two sizes have not the same
    edges, and whatever drafting or altering one of them raises.
    """
    members = _members(garment)
    if not members:
        where = f"{garment.title}, [sizes] nest"
        raise InputProblems([Problem(where, "nothing", "the sizes that are to be drafted together")])
    patterns = ((size, finish(member, drafted=pattern)) for size, member, pattern in members)
    return Nest(garment.title, tuple(Sized(size, pattern) for size, pattern in patterns))
