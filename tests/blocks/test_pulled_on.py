"""Elastic at the waist: straight up from the hip, no darts, no opening, over the hips of everybody."""

from __future__ import annotations

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.body.person import Person, person
from drafting.checks import Verdict
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern, Place, Role, edges_at
from drafting.pattern.casings import casings
from drafting.sewing import sewing_order
from output.drawings.piece_notes import allowance_note
from tests.bodies import women
from tests.outside.sew_it import not_sewable
from tests.quick_checks import run_checks

PEAR = {"stature": 1650.0, "bust_girth": 880.0, "waist_girth": 600.0, "hip_girth": 1060.0}


def pulled_on(block: str, who: Person) -> Pattern:
    parts = (part_of(find_part("waist elastic"), {}),)
    return finish(Garment("pull-on", who, (BlockOrder(find_block(block)),), parts=parts))


@pytest.mark.parametrize("block", ["trousers", "skirt", "circle skirt", "gored skirt", "tiered skirt"])
def test_it_goes_over_the_hips_without_darts_or_an_opening(block: str) -> None:
    for who in (women()[11], person(PEAR, name="pear")):
        pattern = pulled_on(block, who)
        assert not [r.remedy for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.WARN, Verdict.ERROR)]
        assert not any(piece.darts for piece in pattern.pieces)
        assert not any(edge.role is Role.OPENING for piece in pattern.pieces for edge in piece.edges)
        (casing,) = casings(pattern)
        hip = next(length.mm for length in pattern.wearer.lengths if length.key == "hip_girth")
        assert casing.edge >= hip + 20.0
        assert not list(not_sewable(pattern, sewing_order(pattern)))


def test_the_sides_of_trousers_go_straight_up_from_the_hip() -> None:
    front = pulled_on("trousers", women()[11]).piece("trousers front")
    (side,) = edges_at(front, Place.SIDE)
    top = max((side.start, side.end), key=lambda at: at.y)
    hip = next(line for line in front.lines if line.name == "hip line")
    assert top.x == pytest.approx(min(hip.start.x, hip.end.x), abs=1.5)


def test_a_casing_is_called_one() -> None:
    front = pulled_on("trousers", women()[11]).piece("trousers front")
    assert "3.4 cm for the casing," in allowance_note(front, "cm")
