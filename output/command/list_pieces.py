"""The pieces of every block as `list` tells them: drafted in a middle size, with what a step may name of each."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final

from blocks.block_table import blocks_for, find_block, plain_blocks
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.body.sizes import MIDDLE_SIZES, Sizes, sizes_body
from drafting.body.terms import BodyKind
from drafting.fit.cloth import Cloth
from drafting.pattern import Piece, Role

__all__ = ["ANY_SIZE", "drafted_pieces", "named_parts", "named_sentence"]

ANY_SIZE: Final[Mapping[BodyKind, Sizes]] = {body: MIDDLE_SIZES[body] for body in ("woman", "girl")}
"""A size of each kind of body that has blocks of its own."""


@cache
def drafted_pieces(body: BodyKind) -> Mapping[str, Mapping[str, Piece]]:
    """The pieces of each block for a kind of body, by its name and theirs, as they are drafted in a middle size.

    In others a wide dart may be parted in two.
    """
    plain = plain_blocks(body)
    others = [each for each in blocks_for(body) if each not in plain]
    garments = [((find_block(each.after), each) if each.after else (each,)) for each in others]
    sizes = ANY_SIZE[body]
    who = sizes_body(sizes).person
    found: dict[str, dict[str, Piece]] = {}
    for blocks in (*garments, plain):
        cloth = Cloth(blocks[-1].cloth)
        garment = Garment("names", who, tuple(map(BlockOrder, blocks)), cloth=cloth, sizes=sizes)
        pieces = {piece.name: piece for piece in draft(garment, prepare(garment)).pieces}
        found |= {each.name: {name: pieces[name] for name in each.pieces if name in pieces} for each in blocks}
    return found


def named_parts(piece: Piece) -> dict[str, object]:
    """What a step may name of a piece."""
    return {
        "piece": piece.name,
        "edges": [edge.name for edge in piece.edges if edge.role is not Role.DART_LEG],
        "darts": [dart.name for dart in piece.darts],
        "lines": [line.name for line in piece.lines],
    }


def named_sentence(named: Mapping[str, object]) -> str:
    """What a step may name of a piece, in a sentence."""
    parts = ((kind, named[kind]) for kind in ("edges", "darts", "lines"))
    quoted = ((kind, [f'"{name}"' for name in names]) for kind, names in parts if isinstance(names, list))
    told = (f"{kind} {', '.join(names)}" for kind, names in quoted if names)
    return f'piece = "{named["piece"]}": {"; ".join(told)}.'
