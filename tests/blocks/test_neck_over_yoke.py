"""The neck of a knit top counts whole where it runs over a yoke, and so does its band."""

from __future__ import annotations

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.alterations import Alteration, Yoke, apply_step
from drafting.body.person import person
from drafting.fit.cloth import Cloth
from drafting.pattern.neck_band import neck_band


@pytest.mark.parametrize("step", [Yoke("back", 80.0), Yoke("both", 100.0)])
def test_a_neck_on_a_yoke_is_as_long_as_before_the_cut(step: Alteration) -> None:
    wearer = person({"height": 1680.0, "bust": 960.0, "waist": 760.0, "hip": 1020.0}, name="Ilse")
    garment = Garment("top", wearer, (BlockOrder(find_block("knit top")),), cloth=Cloth("knit", stretch=0.5))
    top = draft(garment, prepare(garment))
    before, after = neck_band(top), neck_band(apply_step(top, step))
    assert before is not None
    assert after is not None
    assert after.edge == pytest.approx(before.edge, abs=0.01)
