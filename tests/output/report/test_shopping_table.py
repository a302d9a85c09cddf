"""What is bought by length is enough for what it is used for, and told as a shop sells it."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from drafting.sewing import Supply, SupplyKind, sewing_order, supplies
from output.api import draft, read_garment
from output.lay.shopping_list import supply_to_buy

GARMENTS = sorted((Path(__file__).parents[3] / "examples" / "garments").glob("*.toml"))
_SOLD = {"cm": (r"(\S+) m", 1000.0, 100.0), "in": (r"(\S+(?: \S+)?) yd", 914.4, 914.4 / 4)}

NOTHING_BY_LENGTH = {
    # the waist has a band, the neck is bound or collared with their own cloth
    "half-tide-skirt",
    "spillway-skirt",
    "towpath-skirt",
    "weir-smock",
    # knits, which have bands of knit or strips of their own cloth
    "lockside-top",
    "mooring-romper",
    "quayside-cardigan",
    "quayside-tee",
}


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
    assert bool(by_length) is (path.stem not in NOTHING_BY_LENGTH)


@pytest.mark.parametrize(
    ("used", "unit", "sold"),
    [(400.0, "cm", "0.5 m"), (400.1, "cm", "0.6 m"), (357.2, "in", "1/2 yd"), (357.3, "in", "3/4 yd")],
)
def test_the_next_step_is_taken_where_a_millimetre_is_missing(used: float, unit: str, sold: str) -> None:
    assert told(Supply(SupplyKind.BINDING, length=used, spare=100.0), unit) == sold


def test_a_band_that_has_to_stretch_more_than_the_cloth_is_bought_as_another_knit() -> None:
    """Lockside top: a jersey of 50 % with a neck band of 80 %."""
    path = next(each for each in GARMENTS if each.stem == "lockside-top")
    pattern = draft(read_garment(path)).pattern
    (band,) = (each for each in supplies(pattern, sewing_order(pattern)) if each.kind is SupplyKind.STRIPS)
    assert band.stretch == 0.8 > pattern.stretch
    bought = supply_to_buy(band, "cm")
    assert "80 %" in bought.what
    assert "what the pieces leave" not in bought.note
