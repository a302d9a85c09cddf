"""What is bought by length is enough for what it is used for, and told as a shop sells it."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from drafting.sewing import Act, StayKind, Supply, SupplyKind, sewing_order, supplies
from output.api import draft, read_garment
from output.lay.shopping_list import supply_to_buy

GARMENTS = sorted((Path(__file__).parents[3] / "examples" / "garments").glob("*.toml"))
_SOLD = {"cm": (r"(\S+) m", 1000.0, 100.0), "in": (r"(\S+(?: \S+)?) yd", 914.4, 914.4 / 4)}


def told(bought: Supply, unit: str) -> str:
    return supply_to_buy(bought, unit).how_much


def in_mm(text: str, unit: str) -> float:
    pattern, whole, _ = _SOLD[unit]
    found = re.fullmatch(pattern, text)
    assert found is not None, text
    return float(sum(Fraction(part) for part in found[1].split())) * whole


@pytest.mark.parametrize("unit", ["cm", "in"])
@pytest.mark.parametrize("path", GARMENTS, ids=lambda path: path.stem)
def test_binding_and_tape_are_sold_in_whole_steps_and_longer_than_the_edge(path: Path, unit: str) -> None:
    pattern = draft(read_garment(path)).pattern
    by_length = [
        each
        for each in supplies(pattern, sewing_order(pattern, knit=False))
        if each.kind in (SupplyKind.BINDING, SupplyKind.TAPE)
    ]
    step = _SOLD[unit][2]
    for each in by_length:
        mm = in_mm(told(each, unit), unit)
        assert mm / step == pytest.approx(round(mm / step), abs=1e-9)
        # 2 cm at the least to hold a tape by, 5 cm at each end of a binding (common practice)
        least = each.length + (100.0 if each.kind is SupplyKind.BINDING else 20.0)
        assert least <= mm + 1e-6
        assert each.kind is SupplyKind.TAPE or mm < least + step
    steps = sewing_order(pattern, knit=False)
    bound = any(step.act in (Act.BIND, Act.LAP_SHOULDERS) and not step.strips for step in steps)
    taped = any(stay.kind is StayKind.TAPE for step in steps for stay in step.stays)
    assert bool(by_length) == (bound or taped)
