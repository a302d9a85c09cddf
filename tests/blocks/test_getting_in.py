"""Whether she gets in through the openings there are: with the usual ones every woman does, with shorter ones none."""

from __future__ import annotations

import math

import pytest

from blocks.garment import BlockOrder, Garment, finish
from blocks.rows.fitted import FITTED
from drafting.alterations import Alteration, Opening
from drafting.body.person import Person
from drafting.checks import CHECKS, Result, Verdict
from drafting.checks.base import named
from drafting.pattern import Pattern
from drafting.pattern.measure import finished_of
from tests.bodies import women
from tests.quick_checks import run_checks

CLOSED = Opening("centre back", "closed")
DRESS, SKIRT, BODICE = ("bodice", "skirt"), ("skirt",), ("bodice",)

USUAL: tuple[tuple[tuple[str, ...], tuple[Alteration, ...]], ...] = (
    (DRESS, ()),
    (DRESS, (Opening("centre back"),)),
    (DRESS, (CLOSED, Opening("centre front"))),
    (DRESS, (CLOSED, Opening("centre front", "buttons"))),
    (SKIRT, ()),
    (SKIRT, (CLOSED, Opening("side"))),
    (SKIRT, (CLOSED, Opening("centre front"))),
    (BODICE, ()),
    (BODICE, (CLOSED, Opening("centre front"))),
)


@pytest.mark.parametrize(("blocks", "steps"), USUAL)
def test_with_the_usual_openings_real_women_get_in(blocks: tuple[str, ...], steps: tuple[Alteration, ...]) -> None:
    for woman in women()[::150]:
        assert {found.verdict for found in ways_in(garment(woman, blocks, *steps))} <= {Verdict.PASS, Verdict.NOTHING}


def test_a_side_zip_and_a_slit_at_the_nape_let_in_whose_bust_goes_through_the_hips_of_the_dress() -> None:
    for woman in women()[::150]:
        pattern = garment(woman, DRESS, Opening("centre back", length=250.0), Opening("side"))
        (hip,) = finished_of(pattern.pieces, [measure for measure in pattern.measures if measure.name == "hip"])
        bust = next(length.mm for length in pattern.wearer.lengths if length.key == "bust_girth")
        (found,) = ways_in(pattern, "room-to-get-in")
        assert (found.verdict is Verdict.PASS) == (bust <= hip.finished)
        assert found.verdict is Verdict.PASS or "past the hip line" in found.remedy


def test_the_lips_of_a_zip_lengthen_the_waist_by_twice_its_length() -> None:
    woman = women()[0]
    for long in (50.0, 60.0):
        pattern = garment(woman, SKIRT, Opening("centre back", length=long))
        (found,) = ways_in(pattern, "room-to-get-in")
        waist = 2.0 * sum(
            pattern.piece(piece).edge(edge.name).length
            for piece in ("skirt front", "skirt back")
            for edge in pattern.piece(piece).edges
            if edge.place == "waist"
        )
        body = {length.key: length.mm for length in pattern.wearer.lengths}
        over = min(max(body["bust_girth"], body["waist_girth"]), max(body["waist_girth"], body["hip_girth"]))
        assert found.measured == pytest.approx(waist + 2.0 * long - over, abs=0.01)


def test_buttons_that_end_at_the_waist_seam_do_not_open_the_waist() -> None:
    woman = women()[0]
    (whole,) = ways_in(garment(woman, DRESS, CLOSED, Opening("centre front", "buttons")), "room-to-get-in")
    steps = (CLOSED, Opening("centre front", "buttons", only="bodice front"))
    (half,) = ways_in(garment(woman, DRESS, *steps), "room-to-get-in")
    assert (whole.verdict, whole.measured) == (Verdict.PASS, None)
    assert half.verdict is Verdict.FAIL
    assert half.measured is not None
    assert math.isfinite(half.measured)


def garment(woman: Person, blocks: tuple[str, ...], *steps: Alteration) -> Pattern:
    orders = tuple(BlockOrder(block) for block in FITTED if block.name in blocks)
    return finish(Garment("a way in", woman, orders, steps=steps))


def ways_in(pattern: Pattern, *codes: str) -> tuple[Result, ...]:
    return run_checks(pattern, checks=named(CHECKS, codes or ("room-to-get-in", "neck-goes-round")))
