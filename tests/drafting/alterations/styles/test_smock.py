"""A smock for a child, and what is told of any: its depth in proportion, its length and its hem."""

from __future__ import annotations

import math

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.alterations import Smock, apply_step
from drafting.alterations.techniques.redrawing.fair_armhole import turned_against
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.fit.cloth import Cloth
from drafting.geometry import run_length
from drafting.pattern import BodyPart, Pattern, PieceKind, Place, Role, edges_at, finished, pieces_of, require_edge
from tests.drafting.alterations.styles.test_raglan import drafted
from tests.drafting.dress import dress
from tests.drafting.parts.test_knit_bands import top as knit_top
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.sweep_children import children


def depth_of(pattern: Pattern) -> float:
    """How far the back yoke reaches below the neck point, mm."""
    (yoke,) = [p for p in pieces_of(pattern, PieceKind.YOKE) if p.identity.of is PieceKind.BACK]
    return max(edge.start.y for edge in yoke.edges) - require_edge(yoke, Place.YOKE).start.y


@pytest.mark.parametrize("nth", [0, 40, 900, 1700])
def test_a_child_has_a_smock_with_a_yoke_in_proportion(nth: int) -> None:
    before = drafted("child's top", nth)
    after = apply_step(before, Smock())
    failed = {r.where for r in run_checks(before) if r.verdict is Verdict.FAIL}
    assert {r.where for r in run_checks(after) if r.verdict is Verdict.FAIL} <= failed
    assert 60.0 - 1.0 <= depth_of(after) <= 90.0 + 1.0  # 6 to 9 cm for a child (common practice)
    sides = [
        require_edge(p, Place.SIDE).length for p in pieces_of(after, part=BodyPart.BODICE) if edges_at(p, Place.HEM)
    ]
    assert sides[0] == pytest.approx(sides[1], abs=1e-4)


@pytest.mark.parametrize("nth", [40, 900, 1700])
def test_a_childs_back_is_open_as_far_down_as_the_head_asks_and_no_further(nth: int) -> None:
    after = apply_step(drafted("child's top", nth), Smock())
    pieces = pieces_of(after, part=BodyPart.BODICE)
    centre = [edge for piece in pieces for edge in edges_at(piece, Place.CENTRE_BACK)]
    long = sum(edge.length for edge in centre if edge.role is Role.OPENING)
    neck = 2.0 * sum(edge.length for piece in pieces for edge in edges_at(piece, Place.NECK))
    head = after.wearer.length("head_girth").mm
    assert head <= neck + 2.0 * long <= head + 60.0  # a slit of s adds 2 s to the round (plane geometry)
    assert any(edge.role is not Role.OPENING for edge in centre)


def test_its_length_from_the_neck_and_its_hem_are_told() -> None:
    after = apply_step(dress(), Smock(length=300.0))
    told = {each.name: each.finished for each in finished(after)}
    hems = [edge for piece in pieces_of(after, part=BodyPart.BODICE) for edge in edges_at(piece, Place.HEM)]
    assert told["hem"] == pytest.approx(2.0 * sum(run_length(edge.curves) for edge in hems), abs=1e-3)
    centres = [e for p in pieces_of(after, part=BodyPart.BODICE) for e in edges_at(p, Place.CENTRE_BACK)]
    assert told["neck to hem"] == pytest.approx(sum(edge.length for edge in centres), abs=1e-3)


@pytest.mark.parametrize("half", [PieceKind.FRONT, PieceKind.BACK])
def test_its_yoke_is_square_and_what_hangs_from_it_has_an_upper_edge_without_a_dip(half: PieceKind) -> None:
    # a cutter draws the seam of a square yoke with a rule, level (common practice); the edge gathered into it may rise
    # to the centre by what is let out of a dart, and turns one way only
    after = apply_step(dress(), Smock())
    (yoke,) = [p for p in pieces_of(after, PieceKind.YOKE) if p.identity.of is half]
    levels = [at.y for edge in edges_at(yoke, Place.YOKE) for curve in edge.curves for at in (curve.start, curve.end)]
    assert max(levels) == pytest.approx(min(levels), abs=1e-6)
    (lower,) = pieces_of(after, half, BodyPart.BODICE)
    top, armhole = require_edge(lower, Place.YOKE), require_edge(lower, Place.ARMHOLE)
    assert max(turned_against(top.curves), turned_against(armhole.curves)) < math.radians(1.0)
    assert max(curve.start.y for curve in top.curves) <= max(top.start.y, top.end.y) + 1e-6


def test_of_a_romper_none_is_made_and_that_is_said() -> None:
    garment = Garment("romper", children()[40], (BlockOrder(find_block("romper")),), cloth=Cloth("woven"))
    with pytest.raises(StepRefused, match="goes on through the legs"):
        apply_step(draft(garment, prepare(garment)), Smock())


def test_of_a_cardigan_none_is_made_and_one_too_short_is_answered_with_the_least_length() -> None:
    with pytest.raises(StepRefused, match=r'is open in front.*alter = "yoke", on = "both", left_over = "gathers"'):
        apply_step(knit_top(cardigan=True), Smock())
    top = drafted("child's top", 40)
    with pytest.raises(StepRefused, match="is the least length") as refused:
        apply_step(top, Smock(length=-150.0))
    (remedy,) = refused.value.remedies
    least = float(remedy.settings[0].value)
    assert least % 5.0 == 0.0
    with pytest.raises(StepRefused, match="is the least length"):
        apply_step(top, Smock(length=least - 5.0))
    after = apply_step(top, Smock(length=least))
    assert min(require_edge(p, Place.SIDE).length for p in after.pieces if edges_at(p, Place.HEM)) > 20.0


def test_a_yoke_that_runs_into_the_armhole_in_a_spike_is_warned_of_with_a_depth_that_mends() -> None:
    for depth, verdict in ((120.0, Verdict.PASS), (180.0, Verdict.WARN)):
        made = apply_step(sized(92), Smock(depth=depth))
        where = "bodice front yoke, its corner at the armhole"
        (corner,) = (each for each in run_checks(made) if each.where == where)
        assert corner.verdict is verdict
    (remedy,) = corner.remedies
    (depth_set,) = remedy.settings
    assert isinstance(depth_set.value, int)
    higher = apply_step(sized(92), Smock(depth=float(depth_set.value)))
    (corner,) = (each for each in run_checks(higher) if each.where == where)
    assert corner.verdict is Verdict.PASS
