"""A remedy that sets something of the paper is a button that writes it under [paper], in her unit."""

from __future__ import annotations

import pytest

from drafting.errors import Remedy, Setting
from output.page.views.offers import StepsInFile, offers_of


@pytest.mark.parametrize(("unit", "mm", "typed"), [("cm", 13.0, "1.3 cm"), ("in", 12.7, "1/2 in")])
def test_less_allowance_is_a_button(unit: str, mm: float, typed: str) -> None:
    remedy = Remedy("set in paper", "seam_allowance", (Setting("seam_allowance", mm, "mm"),), lead="So it passes")
    assert offers_of([remedy], StepsInFile([], [], unit)) == [
        {
            "words": f"Seam allowance {typed}",
            "edits": [{"in": "garment", "do": "set", "at": ["paper", "seam_allowance"], "value": typed}],
        }
    ]
