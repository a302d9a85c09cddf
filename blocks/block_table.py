"""The blocks there are, as a table: how each is drafted stands in its room, what it is asked for in `rows/`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations
from typing import Final

from blocks.block import Block
from blocks.rows.blouse import BLOUSE
from blocks.rows.child import CHILDS
from blocks.rows.fitted import FITTED
from blocks.rows.knit import KNITS
from blocks.rows.romper import ROMPERS
from blocks.rows.skirts import SKIRTS
from blocks.rows.trousers import TROUSERS
from drafting.body.terms import BodyKind
from drafting.errors import InputProblems, Problem, UnknownName
from drafting.pattern import BodyPart, Place, Site

__all__ = [
    "BLOCKS",
    "Block",
    "accept_body",
    "blocks_for",
    "drafted_as",
    "find_block",
    "lacks_armhole",
    "plain_blocks",
    "rival_blocks",
    "rival_pairs",
]

_ARMHOLE: Final = Site(Place.ARMHOLE, BodyPart.BODICE)

BLOCKS: tuple[Block, ...] = (FITTED[0], *BLOUSE, *FITTED[1:], *KNITS, *ROMPERS, *CHILDS, *SKIRTS, *TROUSERS)
"""Every block, in the order in which the blocks of a garment are drafted: a bodice or a blouse before its sleeve."""


def blocks_for(body: BodyKind, table: tuple[Block, ...] = BLOCKS) -> tuple[Block, ...]:
    """The blocks that are drawn for this kind of body."""
    return tuple(block for block in table if body in block.bodies)


def plain_blocks(body: BodyKind) -> tuple[Block, ...]:
    """What a plain dress for this kind of body is made of: its bodice, sleeve and skirt."""
    return blocks_for(body, (*FITTED, *CHILDS))


def accept_body(blocks: Iterable[Block], body: BodyKind, whose: str) -> None:
    """Raise InputProblems where a block is not drawn for this kind of body, with the one that is."""
    wrong = [block for block in blocks if body not in block.bodies]
    if wrong:
        names = _quoted(block.name for block in wrong)
        there = _quoted(dict.fromkeys(block.instead for block in wrong if block.instead))
        none = _quoted(block.name for block in wrong if not block.instead)
        mend = " ".join(
            (
                *([f"For a {body} name {there} instead."] if there else ()),
                *([f"There is no {none} for a {body} yet: {_can_have(body)}."] if none else ()),
            )
        )
        raise InputProblems([Problem(whose, f'body = "{body}"', f"a body that {names} can be drafted for", mend)])


def _quoted(names: Iterable[str]) -> str:
    return " and ".join(f'"{name}"' for name in names)


def _can_have(body: BodyKind) -> str:
    return "there is " + ", ".join(f'"{block.name}"' for block in blocks_for(body))


def lacks_armhole(block: Block, among: Iterable[Block]) -> bool:
    """Whether a block is drawn to an armhole, and none among these has one."""
    return bool(block.after) and not any(_ARMHOLE in each.sites for each in among)


def rival_blocks(block: Block, others: Iterable[Block]) -> tuple[Block, ...]:
    """Those of the others that clothe the same part of the body, so that no garment has both."""
    own = _clothes(block)
    return tuple(each for each in others if each.name != block.name and not own.isdisjoint(_clothes(each)))


def rival_pairs(blocks: Sequence[Block]) -> list[str]:
    """Each two of these that clothe the same part of the body, in words: '"skirt" and "trousers"'."""
    pairs = combinations(blocks, 2)
    return [f'"{one.name}" and "{other.name}"' for one, other in pairs if rival_blocks(one, [other])]


def _clothes(block: Block) -> frozenset[BodyPart]:
    """The parts of the body that it clothes: above the waist, the arms, below the waist."""
    if any(site.place is Place.LEG_OPENING for site in block.sites):
        return frozenset((BodyPart.BODICE, BodyPart.SKIRT))
    ends = {site.place for site in block.sites if site.part is BodyPart.BODICE}
    if Place.HEM in ends and Place.WAIST not in ends and block.cloth == "woven":
        return frozenset((BodyPart.BODICE, BodyPart.SKIRT))  # always to the hip; one of a knit may hang over a skirt
    lower = {BodyPart.TROUSERS: BodyPart.SKIRT}
    return frozenset(lower.get(site.part, site.part) for site in block.sites)


def find_block(name: str, table: tuple[Block, ...] = BLOCKS) -> Block:
    """The block of that name. Raises UnknownName, with the nearest."""
    for block in table:
        if block.name == name:
            return block
    raise UnknownName("block", name, [block.name for block in table])


def drafted_as(block: Block) -> int:
    """Which block it is of those drafted one after another, from 0; one that is in no table comes last."""
    names = [each.name for each in BLOCKS]
    return names.index(block.name) if block.name in names else len(names)
