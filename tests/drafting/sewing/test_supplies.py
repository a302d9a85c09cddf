"""What is bought for the openings: the right zip, one hook or two for a waistband."""

from __future__ import annotations

import pytest

from drafting.alterations import Opening, apply_step
from drafting.pattern import Cut
from drafting.sewing.sewing_order import sewing_order
from drafting.sewing.supplies import Supply, SupplyKind, supplies
from output.api import Garment, block, draft, part, person
from tests.drafting.dress import dress


def bought(height: float) -> list[Supply]:
    """What a skirt with a waistband of this height, mm, needs."""
    who = person({"height": 1680, "bust": 920, "waist": 740, "hip": 990}, name="Oda")
    pattern = draft(Garment("Quay skirt", who, [block("skirt")], parts=[part("waistband", height=height)])).pattern
    return list(supplies(pattern, sewing_order(pattern, knit=False)))


@pytest.mark.parametrize(("height", "hooks"), [(30.0, 1), (80.0, 2)])
def test_a_high_waistband_takes_a_second_hook(height: float, hooks: int) -> None:
    at_band = [each for each in bought(height) if each.kind is SupplyKind.HOOK and each.pieces]
    assert [each.count for each in at_band] == [hooks]


def test_a_zip_comes_apart_only_where_it_is_open_at_both_ends() -> None:
    pattern = apply_step(dress(), Opening("centre back", length=400.0))
    kinds = {each.kind for each in supplies(pattern, sewing_order(pattern, knit=False))}
    assert SupplyKind.ZIP in kinds
    assert SupplyKind.SEPARATING_ZIP not in kinds


@pytest.mark.parametrize(
    ("cut", "layers"), [(Cut(1, fold=True), 1), (Cut(2, mirror=True), 1), (Cut(4, mirror=True), 2), (Cut(1), 1)]
)
def test_a_piece_is_cut_whole_so_many_times(cut: Cut, layers: int) -> None:
    assert cut.layers == layers
    assert cut.as_pair().layers == cut.on_fold().layers == layers
    assert cut.as_pair().drawn_times == cut.on_fold().drawn_times == 2 * layers
