"""Law: what a refused part is told with can be done as it stands, and the part is drawn then."""

from __future__ import annotations

from dataclasses import replace

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, finish, prepare
from blocks.take_steps import alter
from drafting.alterations import ALTERATIONS
from drafting.errors import CannotDraft, Remedy, offered
from drafting.fit.cloth import Cloth
from drafting.parts.part_amounts import with_part_set
from drafting.parts.part_table import PARTS, part_of
from drafting.pattern import Pattern
from drafting.reading.options import Value
from tests.bodies import women
from tests.sweep_children import children

_DRESS = ("bodice", "sleeve", "skirt")
_CHILDS = ("child's bodice", "child's skirt")

CASES: dict[str, tuple[tuple[str, ...], str, dict[str, Value], set[str]]] = {
    "more loops than there is room for": (("bodice",), "button loops", {"count": 40.0}, {"set in part"}),
    "a collar on a closed front": (_DRESS, "shirt collar", {}, {"add"}),
    "elastic at a close neck": (_DRESS, "neck elastic", {}, {"add"}),
    "a knit's band on a woven": (_DRESS, "neck band", {}, {"set in part"}),
    "a child's long tie": (_CHILDS, "ties", {"length": 600.0}, {"set in part"}),
    "a child's tie at the neck": (_CHILDS, "ties", {"at": "neck"}, {"set in part"}),
    "a child's long sash": (_CHILDS, "sash", {"ends": 900.0}, {"set in part"}),
    "a band on a knit with a whole front": (("knit top",), "front band", {}, {"set in block"}),
    "a fly on trousers that close at the side": (("trousers",), "fly", {}, {"set in block"}),
}


NONE_HELPS = {
    "a fly where no block is of trousers": (_DRESS, "fly", "there are no trousers to close with it"),
    "a front band on a block with a whole front": (
        _DRESS,
        "front band",
        'no front opens from the hem to the neck, as that of a "knit top" with front = "open" does',
    ),
}


def _garment(blocks: tuple[str, ...], part: str, options: dict[str, Value]) -> Garment:
    who = children()[600] if blocks == _CHILDS else women()[300]
    row = next(each for each in PARTS if each.name == part)
    orders = tuple(BlockOrder(find_block(name)) for name in blocks)
    cloth = Cloth("jersey") if "knit" in blocks[0] else Cloth()
    return Garment("refused", who, orders, cloth=cloth, parts=(part_of(row, options),))


def _done(garment: Garment, remedy: Remedy) -> Pattern:
    """The garment with what the remedy says."""
    given = {each.option: each.value for each in remedy.settings}
    if remedy.act == "add":
        return finish(replace(garment, steps=(ALTERATIONS.named(remedy.alteration)(**given),)))
    if remedy.act == "set in block":
        orders = tuple(BlockOrder(order.block, {**order.options, **given}) for order in garment.blocks)
        return finish(replace(garment, blocks=orders))
    bare = replace(garment, parts=())
    asked = replace(draft(bare, prepare(bare)), derived=garment.parts)
    return alter(with_part_set(asked, remedy.alteration, given), ())


@pytest.mark.parametrize("case", CASES)
def test_what_a_refused_part_is_told_with_lets_it_be_drawn(case: str) -> None:
    blocks, part, options, acts = CASES[case]
    garment = _garment(blocks, part, options)
    with pytest.raises(CannotDraft) as refused:
        finish(garment)
    remedies = refused.value.remedies
    assert {each.act for each in remedies} == acts
    assert refused.value.reason.endswith(f"{offered(remedies)}.")
    for remedy in remedies:
        drawn = _done(garment, remedy)
        assert any(each.pieces or each.edges or each.lines for each in drawn.derived)


@pytest.mark.parametrize("case", NONE_HELPS)
def test_no_option_is_offered_that_no_block_has(case: str) -> None:
    blocks, part, reason = NONE_HELPS[case]
    with pytest.raises(CannotDraft) as refused:
        finish(_garment(blocks, part, {}))
    assert (refused.value.reason, refused.value.remedies) == (f'The "{part}" cannot be drawn: {reason}.', ())
