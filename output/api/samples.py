"""A block or a part by itself, on a plain garment in a middle size: what it looks like, whoever wears it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import product
from typing import Final

from blocks.block_table import Block, blocks_for, find_block
from blocks.from_file.part_file import sites_of
from blocks.garment import BlockOrder, Garment
from drafting.alterations import ALTERATIONS, Alteration, make_step
from drafting.body.sizes import MIDDLE_SIZES, sizes_body
from drafting.body.terms import BodyKind
from drafting.dataclass import dataclass
from drafting.errors import Remedy, TrueseamError
from drafting.fit.cloth import Cloth
from drafting.parts.part_table import PARTS, Part
from drafting.pattern import PieceKind, Step
from output.api.kinds_to_begin import GarmentKind
from output.api.making import Draft, alteration, draft, part

__all__ = ["Sample", "sample_block", "sample_kind", "sample_part"]


_KNIT: Final = "jersey"
"""What is tried where a part is for a knit."""

_STRIPS: Final = frozenset({PieceKind.BAND, PieceKind.CUFF, PieceKind.BINDING, PieceKind.CASING})
"""What looks like any other strip by itself."""


@dataclass(frozen=True, slots=True)
class Sample:
    """A plain garment with a block or a part.

    pieces: the ones that are it, or that it lies along the edges of
    along:  these edges, the piece and the edge by name; nothing where its own pieces show what it is
    """

    draft: Draft
    pieces: tuple[str, ...]
    along: tuple[tuple[str, str], ...] = ()


@lru_cache(maxsize=64)
def sample_block(name: str, body: BodyKind) -> Sample | None:
    """The garment of a block, and of the one it is drawn to. None where there is no such block for this body."""
    known = next((each for each in blocks_for(body) if each.name == name), None)
    if known is None:
        return None
    made = _drafted(_orders(known), body, known.cloth)
    return None if made is None else Sample(made, known.pieces)


@lru_cache(maxsize=64)
def sample_part(name: str, body: BodyKind) -> Sample | None:
    """A part on the first plain garment that it can be drawn to, with what helps it where it needs help.

    None where it can be drawn to none for this body.
    """
    listed = next((each for each in PARTS if each.name == name), None)
    for known in blocks_for(body) if listed else ():
        blocks = _orders(known)
        sites = sites_of(order.block for order in blocks)
        if listed and listed.fits(sites) and listed.in_place_of(sites) is None:
            for cloth, (orders, steps) in product((known.cloth, _KNIT), _ways(blocks, listed)):
                made = _drafted(orders, body, cloth, (name,), steps)
                if made is not None:
                    return _sewn_into(made, name)
    return None


def sample_kind(kind: GarmentKind, body: BodyKind) -> Draft | None:
    """A kind of garment in a middle size; None where it cannot be drafted so."""
    steps = [alteration(step["alter"], **{k: v for k, v in step.items() if k != "alter"}) for step in kind.steps]
    orders = [BlockOrder(find_block(name), dict(said)) for name, said in kind.blocks.items()]
    cloth = kind.cloth or next((o.block.cloth for o in orders if o.block.cloth != "woven"), "woven")
    return _drafted(orders, body, cloth, kind.parts, steps)


def _orders(known: Block) -> tuple[BlockOrder, ...]:
    return tuple(BlockOrder(find_block(name)) for name in (known.after, known.name) if name)


def _ways(
    blocks: tuple[BlockOrder, ...], listed: Part
) -> Iterator[tuple[tuple[BlockOrder, ...], tuple[Alteration, ...]]]:
    """The garment as it is, and with each of what may help the part."""
    yield blocks, ()
    for remedy in listed.helped_by:
        if remedy.act == "add":
            yield blocks, (_step(remedy),)
        else:
            yield tuple(_set(order, remedy) for order in blocks), ()


def _step(remedy: Remedy) -> Alteration:
    return make_step(Step(remedy.alteration, tuple((each.option, each.value) for each in remedy.settings)), ALTERATIONS)


def _set(order: BlockOrder, remedy: Remedy) -> BlockOrder:
    own = {option.name for option in order.block.options}
    return BlockOrder(order.block, {each.option: each.value for each in remedy.settings if each.option in own})


def _drafted(
    blocks: Sequence[BlockOrder],
    body: BodyKind,
    cloth: str,
    parts: Sequence[str] = (),
    steps: Sequence[Alteration] = (),
) -> Draft | None:
    """These blocks, parts and steps drafted in the middle size of the chart; None where they cannot be."""
    sizes = MIDDLE_SIZES[body]
    who = sizes_body(sizes).person
    try:
        made = tuple(map(part, parts))
        return draft(Garment("sample", who, tuple(blocks), Cloth(cloth), steps=tuple(steps), parts=made, sizes=sizes))
    except TrueseamError:
        return None


def _sewn_into(made: Draft, name: str) -> Sample:
    """A part as its pieces; one that is a strip, or has no piece as an elastic has none, as the edges it lies along."""
    pattern = made.pattern
    found = next(each for each in pattern.derived if each.part == name)
    if any(pattern.piece(piece).identity.kind not in _STRIPS for piece in found.pieces):
        return Sample(made, found.pieces)
    sewn = [ref for seam in pattern.seams if seam.name in found.seams for ref in (*seam.a, *seam.b)]
    along = [(ref.piece, ref.edge) for ref in sewn if ref.piece not in found.pieces]
    along += [(edge.piece, edge.edge) for edge in found.edges]
    return Sample(made, tuple(dict.fromkeys(piece for piece, _ in along)), tuple(dict.fromkeys(along)))
