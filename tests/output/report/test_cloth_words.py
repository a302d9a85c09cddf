"""What is said of the cloth: every sentence with its numbers, nothing of a plain woven, the same as data."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.body.person import person
from drafting.fit.cloth import Cloth
from drafting.fit.ease import Fit
from drafting.pattern import Pattern
from output.report.cloth_words import cloth_data, cloth_passages
from output.report.tables import finished_table


@cache
def skirt_and_bodice(cloth: Cloth, fit: Fit = "close") -> Pattern:
    blocks = tuple(BlockOrder(find_block(name)) for name in ("bodice", "skirt"))
    wearer = person({"stature": 1680.0, "bust_girth": 920.0, "waist_girth": 760.0, "hip_girth": 960.0}, name="Oda")
    return finish(Garment("knit dress", wearer, blocks, cloth=cloth, fit=fit))


def said(cloth: Cloth, unit: str = "cm", fit: Fit = "close") -> str:
    return " ".join(
        line for each in cloth_passages(cloth, skirt_and_bodice(cloth, fit), unit) for line in each.sentences
    )


def test_nothing_is_said_of_a_plain_woven() -> None:
    assert cloth_passages(Cloth(), skirt_and_bodice(Cloth()), "cm") == ()


def test_a_cloth_is_told_with_its_figures_and_whose_they_are() -> None:
    told = said(Cloth("denim", over=("shirt",)))
    assert "Denim: heavy, 0.9 mm thick (common practice, from memory" in told
    assert "Over shirt, and in a cloth 0.9 mm thick, there is 3.1 mm more ease at the bust, waist, hip, neck" in told
    assert "6 % of its length may go" in told
    assert "from memory" not in said(Cloth("denim", thickness=1.3))


def test_a_knit_is_told_how_far_it_is_stretched_and_that_it_gets_shorter() -> None:
    told = said(Cloth("swim knit"))
    assert "It gives 90 %, and a third of that, 30 %, may be used" in told
    assert "at the waist" in told
    assert "it gets 2 to 3 % shorter" in told
    assert "cm from the nape to the waist" in told
    assert "in from the nape to the waist" in said(Cloth("swim knit"), "in")
    assert "shorter" not in said(Cloth("jersey"))


def test_a_knit_that_hardly_gives_along_the_grain_is_told_of() -> None:
    assert "it needs to stretch both ways" in said(Cloth("rib"))
    assert "it needs to stretch both ways" not in said(Cloth("swim knit"))


def test_the_same_stands_in_the_data() -> None:
    cloth = Cloth("rib", over=("shirt",))
    data = cloth_data(cloth, skirt_and_bodice(cloth))
    assert (data["kind"], data["structure"], data["over"]) == ("rib", "knit", ["shirt"])
    worn = data["worn_stretched"]
    assert isinstance(worn, dict)
    assert 0.0 < worn["waist"] < 0.8 / 3.0
    assert data["may_be_stretched"] == round(0.8 / 3.0, 6)


def test_worn_stretched_stands_beside_the_finished_measurements_of_a_knit_only() -> None:
    rib = finished_table(skirt_and_bodice(Cloth("rib")), ["cm"])
    assert [column.name for column in rib.columns][-1] == "worn stretched"
    waist = next(row for row in rib.rows if row.cells[0] == "waist")
    assert waist.cells[-1].endswith(" %")
    plain = finished_table(replace(skirt_and_bodice(Cloth("rib")), stretch=0.0), ["cm"])
    assert len(plain.columns) == 4


def test_wool_is_steamed_and_a_knit_has_its_needle() -> None:
    for kind in ("wool coating", "tweed", "wool suiting"):
        assert "Steam it, do not wash it" in said(Cloth(kind))
    assert "Wash it before it is cut" in said(Cloth("denim"))
    assert "ballpoint needle" in said(Cloth("jersey"))
    assert "ballpoint needle" not in said(Cloth("denim"))
