"""Collars drawn to a neck that lies in part on a sleeve, over a saddle or a raglan."""

from __future__ import annotations

import pytest

from drafting.alterations import Neckline, Raglan, Saddle, apply_step
from drafting.alterations.alteration import Alteration
from drafting.checks import Verdict
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Half, PieceKind, Place, edges_at, finished
from drafting.sewing import sewing_order
from tests.drafting.dress import dress
from tests.drafting.parts.with_part import with_part
from tests.outside.sew_it import not_sewable
from tests.quick_checks import run_checks


@pytest.mark.parametrize(
    "step", [Saddle(), Saddle(front=20.0, back=20.0), Raglan()], ids=["saddle", "narrow", "raglan"]
)
@pytest.mark.parametrize("part", ["sailor collar", "flat collar"])
def test_no_collar_crosses_itself_where_the_neck_runs_over_a_sleeve(step: Alteration, part: str) -> None:
    pattern = with_part(apply_step(dress(), step), part_of(find_part(part), {}))
    wrong = [r.where for r in run_checks(pattern) if r.verdict is Verdict.FAIL and r.code == "outline-simple"]
    assert wrong == []


@pytest.mark.parametrize("step", [Raglan(), Saddle()])
def test_a_facing_goes_on_over_the_sleeve_to_the_shoulder(step: Alteration) -> None:
    before = apply_step(dress(), step)
    pattern = with_part(before, part_of(find_part("neck facing"), {}))
    front, back = (piece for piece in pattern.pieces if piece.identity.kind is PieceKind.FACING)
    for facing, half in ((front, Half.FRONT), (back, Half.BACK)):
        faced = sum(edge.length for edge in edges_at(facing, Place.NECK))
        own = (
            edge.length
            for piece in before.pieces
            for edge in edges_at(piece, Place.NECK)
            if (edge.half or piece.identity.half) is half
        )
        assert faced == pytest.approx(sum(own), abs=1e-6)
        (end,) = edges_at(facing, Place.SHOULDER)
        assert end.length == pytest.approx(60.0, abs=0.1)  # as deep as it is, square to the neck
    assert [r.where for r in run_checks(pattern) if r.verdict is Verdict.FAIL] == []
    assert not_sewable(pattern, sewing_order(pattern)) == []


def test_a_tape_from_a_neck_drawn_wider_is_measured_over_the_piece_it_runs_on() -> None:
    before = apply_step(dress(), Neckline(depth=60.0, width=30.0))
    told = [
        next(each.finished for each in finished(pattern) if each.name == "side neck to bust point")
        for pattern in (before, apply_step(before, Raglan()))
    ]
    assert told[1] == pytest.approx(told[0], abs=1e-6)
