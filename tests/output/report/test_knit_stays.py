"""A knit has to give where it is pulled over the body: clear elastic at its waist, no stitches round its neck."""

from __future__ import annotations

from dataclasses import replace

from drafting.pattern import Place
from drafting.sewing import SupplyKind, sewing_order, supplies
from drafting.sewing.sewing_step import StayKind
from output.report.sewing_words import sewing_data
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
