"""A knit has to give where it is pulled over the body: clear elastic at its waist, no stitches round its neck.

What is turned in on it is turned once, since it does not fray.
"""

from __future__ import annotations

from dataclasses import replace

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.fit.cloth import Cloth
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern, Place
from drafting.sewing import SupplyKind, sewing_order, supplies
from drafting.sewing.sewing_step import StayKind
from output.report.sewing_words import sewing_data
from tests.bodies import women
from tests.drafting.dress import dress


def stays(stretch: float) -> set[tuple[StayKind, Place]]:
    pattern = replace(dress(), stretch=stretch)
    return {(stay.kind, stay.place) for step in sewing_order(pattern, knit=stretch > 0.0) for stay in step.stays}


def test_the_waist_of_a_knit_gets_elastic_and_that_of_a_woven_a_tape() -> None:
    assert (StayKind.ELASTIC, Place.WAIST) in stays(0.4)
    assert (StayKind.TAPE, Place.SHOULDER) in stays(0.4)
    assert (StayKind.TAPE, Place.WAIST) in stays(0.0)
    assert not any(kind is StayKind.ELASTIC for kind, _ in stays(0.0))


def test_the_neck_of_a_knit_without_a_facing_has_no_stay_stitches() -> None:
    assert (StayKind.STITCHES, Place.NECK) in stays(0.0)
    assert (StayKind.STITCHES, Place.NECK) not in stays(0.4)


def test_the_elastic_is_bought_and_told() -> None:
    pattern = replace(dress(), stretch=0.4)
    bought = {each.kind: each for each in supplies(pattern, sewing_order(pattern, knit=True))}
    assert bought[SupplyKind.ELASTIC].length > 700.0
    assert bought[SupplyKind.ELASTIC].places == (Place.WAIST,)
    assert "clear elastic" in str(sewing_data(pattern, "cm", knit=True))


def skirt_on_elastic(cloth: Cloth) -> Pattern:
    garment = Garment(
        "x",
        women()[0],
        (BlockOrder(find_block("circle skirt"), {}),),
        parts=(part_of(find_part("waist elastic"), {}),),
        cloth=cloth,
    )
    return draft(garment, prepare(garment))


def test_the_waist_of_a_knit_that_is_pulled_on_has_no_stay_stitches_and_its_casing_is_turned_once() -> None:
    told = {}
    for cloth in (Cloth("woven"), Cloth("knit", stretch=0.5)):
        pattern = skirt_on_elastic(cloth)
        stitched = any(stay.kind is StayKind.STITCHES for step in sewing_order(pattern) for stay in step.stays)
        assert stitched is (pattern.stretch == 0.0)
        told[cloth.kind] = str(sewing_data(pattern, "cm", knit=pattern.stretch > 0.0))
    assert "then turn in 2.8 cm" in told["woven"]
    assert "Sew close to the inner fold" in told["woven"]
    assert "Turn in 3.4 cm" in told["knit"]
    assert "Sew 2.8 cm from the fold, with a stitch that gives" in told["knit"]


def test_the_free_edge_of_a_facing_in_a_knit_is_left_as_it_is() -> None:
    for stretch, said in (
        (0.0, "zigzag or a narrow turned edge"),
        (0.4, "may stay as it is cut: a knit does not fray"),
    ):
        garment = Garment(
            "x", women()[0], (BlockOrder(find_block("bodice"), {}),), parts=(part_of(find_part("neck facing"), {}),)
        )
        pattern = replace(draft(garment, prepare(garment)), stretch=stretch)
        assert said in str(sewing_data(pattern, "cm", knit=stretch > 0.0))
