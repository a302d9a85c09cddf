"""Godets: the handbook's numbers, edges as long as the seam is left open, a hem that runs round."""

from __future__ import annotations

import math

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import ALTERATIONS, Hem, apply_step
from drafting.alterations.skirt.godet import godet_hem
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.pattern import Pattern, Place, Role, edges_at
from drafting.pattern.cutting import cutting_line
from drafting.reading.options import Value
from drafting.sewing import sewing_order
from output.report.sewing_words import step_words
from tests.bodies import women
from tests.quick_checks import run_checks


def made(block: str, *blocks: str, **options: Value) -> Pattern:
    orders = tuple(BlockOrder(find_block(each)) for each in (*blocks, block))
    garment = Garment("skirt", women()[3], orders, steps=(ALTERATIONS.named("godet")(**options),))
    return finish(garment)


@pytest.mark.parametrize(
    ("long", "degrees", "hem"), [(25.0, 90.0, 39.27), (25.0, 60.0, 26.18), (30.0, 45.0, 23.56), (25.0, 180.0, 78.54)]
)
def test_the_hem_of_a_part_of_a_circle(long: float, degrees: float, hem: float) -> None:
    """Plane geometry, in cm: a radius times an angle."""
    assert godet_hem(long, math.radians(degrees)) == pytest.approx(hem, abs=0.005)


@pytest.mark.parametrize(("block", "at", "count"), [("skirt", "side seam", 1), ("gored skirt", "gore seam", 2)])
@pytest.mark.parametrize("with_", [(), ("bodice",)])
def test_a_godet_fits_the_seam_it_is_set_into(block: str, at: str, count: int, with_: tuple[str, ...]) -> None:
    pattern = made(block, *with_, at=at, long=300.0, hem=235.6)
    assert not [r.where for r in run_checks(pattern) if r.verdict not in (Verdict.PASS, Verdict.NOTHING)]
    godets = [piece for piece in pattern.pieces if "godet" in piece.name]
    assert len(godets) == count
    for godet in godets:
        sides = edges_at(godet, Place.GODET)
        assert [edge.length for edge in sides] == pytest.approx([300.0, 300.0], abs=1e-6)
        (hem,) = edges_at(godet, Place.HEM)
        assert hem.length_within(1e-9) == pytest.approx(235.6, abs=1e-6)
        away = [math.hypot(curve.end.x, curve.end.y) for curve in hem.curves]
        assert away == pytest.approx([300.0] * len(away), abs=1e-9)
        sewn = [seam for seam in pattern.seams if godet.name in (ref.piece for ref in (*seam.a, *seam.b))]
        lengths = [
            [sum(pattern.piece(r.piece).edge(r.edge).length_within(1e-7) for r in run) for run in (s.a, s.b)]
            for s in sewn
        ]
        assert all(one == pytest.approx(other, abs=1e-5) for one, other in lengths)
        assert len(lengths) == 2


@pytest.mark.parametrize(("block", "at"), [("skirt", "side seam"), ("gored skirt", "gore seam")])
def test_the_seam_above_a_godet_is_said_to_stop_at_its_point(block: str, at: str) -> None:
    pattern = made(block, at=at)
    told = {step.place: " ".join(step_words(pattern, step, "cm").sentences) for step in sewing_order(pattern)}
    above = told[Place.SIDE if at == "side seam" else Place.PRINCESS]
    assert "Stop at the point of the godet" in above
    assert "Neaten the edges" in above
    assert "Neaten" in told[Place.GODET]


def test_at_the_centre_back_half_a_godet_lies_on_the_fold() -> None:
    pattern = made("skirt", at="centre back", long=250.0, hem=200.0)
    godet = pattern.piece("skirt back centre back godet")
    assert godet.cut.fold
    assert sum(edge.length_within(1e-9) for edge in edges_at(godet, Place.HEM)) == pytest.approx(100.0, abs=1e-6)
    assert [edge.role for edge in godet.edges].count(Role.FOLD) == 1


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ({"at": "centre front"}, "no centre front of a skirt runs down to its hem"),
        ({"long": 900.0}, "has room for a godet"),
        ({"long": 100.0, "hem": 400.0}, "widens the hem by at most"),
    ],
)
def test_what_cannot_be_drawn_is_refused_with_what_can(options: dict[str, Value], said: str) -> None:
    with pytest.raises(StepRefused, match=said):
        made("skirt", **options)


@pytest.mark.parametrize("long", [100.0, 180.0, 250.0])
def test_its_hem_is_no_narrower_than_can_be_turned_twice_and_lies(long: float) -> None:
    pattern = made("skirt", long=long)
    assert {edge.allowance for piece in pattern.pieces for edge in edges_at(piece, Place.HEM)} == {10.0}
    assert {each.verdict for each in run_checks(pattern) if each.check == "turned in"} == {Verdict.PASS}


def test_a_godet_in_a_slit_fits_it_and_the_cloth_stays_whole_until_it_is_sewn_in() -> None:
    """Both sides of the slit are as long as the godet, 6 mm of allowance between each and its middle at the hem."""
    pattern = made("skirt", at="slits", long=250.0, hem=200.0)
    assert not [r.where for r in run_checks(pattern) if r.verdict not in (Verdict.PASS, Verdict.NOTHING)]
    for name in ("skirt front", "skirt back"):
        piece, godet = pattern.piece(name), pattern.piece(f"{name} godet")
        sides = edges_at(piece, Place.GODET)
        assert [edge.length for edge in (*sides, *edges_at(godet, Place.GODET))] == pytest.approx([250.0] * 4, abs=1e-6)
        assert (sides[0].start - sides[1].end).norm() == pytest.approx(12.0, abs=1e-6)
        low = min(at.y for curve in cutting_line(piece) for at in (curve.start, curve.end))
        across = [curve for curve in cutting_line(piece) if max(curve.start.y, curve.end.y) < low + 1.0]
        assert sum((curve.end - curve.start).norm() for curve in across) > piece.outline[0].start.x - sides[0].start.x
    (step,) = [step for step in sewing_order(pattern) if step.place is Place.GODET]
    assert "cut the slit open down its middle" in " ".join(step_words(pattern, step, "cm").sentences)


def test_a_hem_that_slits_part_is_turned_up_all_round_and_not_faced() -> None:
    slit = made("skirt", at="slits")
    deep = apply_step(slit, Hem("skirt front", depth=12.0))
    assert {edge.allowance for piece in deep.pieces for edge in edges_at(piece, Place.HEM)} == {12.0}
    with pytest.raises(StepRefused, match="parted by a slit"):
        apply_step(slit, Hem("skirt front", finish="facing"))


def test_a_slit_longer_than_its_piece_is_answered_with_what_there_is_room_for() -> None:
    with pytest.raises(StepRefused, match="room for a slit"):
        made("skirt", at="slits", long=800.0)


def test_a_slit_in_a_gore_leaves_its_grain_line_on_the_cloth() -> None:
    pattern = made("gored skirt", at="slits")
    assert not [r.where for r in run_checks(pattern) if r.check == "grain line" and r.verdict is not Verdict.PASS]
