"""Cloth that no piece goes on stands in the list of what to buy, with what is too wide for it."""

from __future__ import annotations

import pytest

from drafting.alterations import GatherSkirt, Opening
from drafting.alterations.finishes import opening
from drafting.alterations.techniques.cutting import seam_for_fold
from output.api import Garment, block, draft, person, to_buy


def test_a_material_that_goes_on_no_cloth_is_listed_with_the_piece_that_is_too_wide(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for module in (opening, seam_for_fold):  # or the centre would keep a seam, and the piece go on the cloth
        monkeypatch.setattr(module, "goes_on_cloth", lambda *_: True)
    who = person({"height": 1680, "bust": 1140, "waist": 960, "hip": 1180}, name="Oda")
    wide = Garment("Wide skirt", who, [block("skirt")], steps=[Opening("centre back", "closed"), GatherSkirt(3.0)])
    (shell,) = (each for each in to_buy(draft(wide)) if each.kind == "shell")
    assert shell.length == 0.0
    assert "too wide" in shell.note
    assert "skirt" in shell.note
