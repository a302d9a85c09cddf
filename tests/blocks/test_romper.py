"""Rompers for babies and children: the loop through the crotch, legs, snaps, and how they are sewn."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, finish, prepare
from blocks.room_for_growth import Grow, with_room_to_grow
from blocks.shared.childs_leg import fork, legs_for, limb_girth
from drafting.alterations import Yoke, apply_step
from drafting.body.complete import complete
from drafting.body.person import Person, person
from drafting.checks import CHECKS, Verdict, named
from drafting.fit.cloth import Cloth
from drafting.geometry import Line, Point, Vec, distance, run_at
from drafting.growth.measured_growth import growth_of
from drafting.growth.to_leave import to_leave
from drafting.pattern import Landmark, Pattern, Place, finished, points_at, require_edge, with_edges, with_pieces
from drafting.pattern.let_down import tuck_by
from drafting.reading.options import Value
from drafting.sewing import Act, SupplyKind, sewing_order, supplies
from tests.outside.sew_it import not_sewable
from tests.quick_checks import run_checks

WOVEN, KNIT = Cloth("woven"), Cloth("knit", stretch=0.5)
BABY = {"stature": 760, "bust_girth": 480, "waist_girth": 460, "hip_girth": 480}
SCHOOL = {"stature": 1280, "bust_girth": 640, "waist_girth": 580, "hip_girth": 680}


def child(sizes: dict[str, float], **more: float) -> Person:
    return person({**sizes, **more}, body="boy")


def measured_at(pattern: Pattern, name: str) -> float:
    return next(each.finished for each in finished(pattern) if each.name == name)


def romper(who: Person, cloth: Cloth = WOVEN, *, sleeve: bool = False, **options: Value) -> Pattern:
    blocks = [BlockOrder(find_block("romper"), options)]
    if sleeve:
        blocks.append(BlockOrder(find_block("child's sleeve")))
    garment = Garment("Romper", who, tuple(blocks), cloth)
    return draft(garment, prepare(garment))


@pytest.mark.parametrize("cloth", [WOVEN, KNIT])
@pytest.mark.parametrize("sizes", [BABY, SCHOOL])
@pytest.mark.parametrize("leg", [40.0, 300.0])
def test_a_romper_passes_every_check_and_can_be_sewn(sizes: dict[str, float], cloth: Cloth, leg: float) -> None:
    pattern = romper(child(sizes), cloth, sleeve=True, leg_length=leg)
    assert [each for each in run_checks(pattern) if each.verdict is Verdict.FAIL] == []
    assert not_sewable(pattern, sewing_order(pattern, knit=cloth.knit)) == []


def test_the_way_through_the_crotch_is_as_long_as_measured_and_its_ease() -> None:
    # 6 to 8 cm of ease on the loop, 4 to 6 more over a nappy (common practice)
    measured = romper(child(BABY, crotch_length=400.0), loop_ease=80.0, nappy="nappy")
    assert measured_at(measured, "through the crotch") == pytest.approx(400.0 + 80.0 + 50.0, abs=1e-6)
    assert measured_at(romper(child(SCHOOL, crotch_length=520.0)), "through the crotch") == pytest.approx(590.0)
    cloth = romper(child(BABY, crotch_length=400.0), nappy="cloth nappy")
    assert measured_at(cloth, "through the crotch") == pytest.approx(400.0 + 70.0 + 60.0, abs=1e-6)


def test_a_fork_is_a_twelfth_of_the_hip_and_its_curve_lies_as_in_bloomers_of_1918() -> None:
    """Children's bloomers of 1918: hip 54, fork 4.5, and 1.91 cm from the corner to the curve."""
    assert fork(540.0, front=True) == pytest.approx(45.0)
    assert fork(540.0, front=False) == pytest.approx(60.0)
    pattern = romper(child({**BABY, "hip_girth": 540.0}), nappy="none")
    crotch = pattern.piece("romper front").edge("front crotch seam")  # mirrored: it comes up from between the legs
    ends = crotch.curves[1]  # after the lap
    corner = Point(ends.end.x, ends.start.y)
    nearest = min(distance(corner, run_at([ends], k * 0.5)) for k in range(200))
    assert nearest == pytest.approx(19.1, abs=0.2)


@pytest.mark.parametrize("leg", [40.0, 250.0])
def test_front_and_back_meet_along_inseam_and_side_snap_on_snap(leg: float) -> None:
    pattern = romper(child(SCHOOL), leg_length=leg, leg_end="plain")
    front, back = pattern.piece("romper front"), pattern.piece("romper back")
    assert require_edge(front, Place.INSEAM).length == pytest.approx(require_edge(back, Place.INSEAM).length, abs=1e-6)
    assert require_edge(front, Place.SIDE).length == pytest.approx(require_edge(back, Place.SIDE).length, abs=1e-6)
    spaced = []
    for piece in (front, back):
        line = piece.line("inseam").drawn
        assert line[0].start.y - line[-1].end.y == pytest.approx(leg)
        snaps = [mark.at for mark in points_at(piece, Landmark.SNAP)]
        assert all(30.0 <= distance(one, other) <= 55.0 for one, other in pairwise(snaps))  # 4 to 5 cm
        spaced.append([distance(one, other) for one, other in pairwise(snaps)])
        assert snaps[0] == line[0].start
    assert spaced[0] == pytest.approx(spaced[1])


def test_a_leg_that_elastic_draws_in_is_wide_enough_for_it() -> None:
    """A leg edge of at least 1.4 times the thigh (common practice)."""
    for sizes in (BABY, SCHOOL):
        body = complete(child(sizes))
        pattern = romper(child(sizes))
        assert measured_at(pattern, "leg opening, laps and all") >= 1.4 * limb_girth(body, 40.0) + 14.0


def test_the_crotch_lies_lower_the_more_ease_there_is() -> None:
    body = complete(child(BABY))
    lower = legs_for(body, 500.0, 40.0).crotch - legs_for(body, 520.0, 40.0).crotch
    assert lower == pytest.approx(10.0)


def test_snaps_are_bought_and_set_last_with_a_word_on_small_children() -> None:
    pattern = romper(child(BABY))
    steps = sewing_order(pattern)
    assert steps[-1].act is Act.SNAPS
    (snaps,) = [each for each in supplies(pattern, steps) if each.kind is SupplyKind.SNAPS]
    assert snaps.count == 3
    assert {strip.count for strip in steps[-1].strips} == {2}


def dungarees(who: Person, cloth: Cloth = WOVEN, **options: Value) -> Pattern:
    garment = Garment("Dungarees", who, (BlockOrder(find_block("dungarees"), options),), cloth)
    return draft(garment, prepare(garment))


@pytest.mark.parametrize("cloth", [WOVEN, KNIT])
@pytest.mark.parametrize("sizes", [BABY, SCHOOL])
def test_dungarees_pass_every_check_and_can_be_sewn(sizes: dict[str, float], cloth: Cloth) -> None:
    pattern = dungarees(child(sizes), cloth)
    assert [each for each in run_checks(pattern) if each.verdict is Verdict.FAIL] == []
    steps = sewing_order(pattern, knit=cloth.knit)
    assert not_sewable(pattern, steps) == []
    assert [each.act for each in steps[-2:]] == [Act.SNAPS, Act.STRAPS]


def test_straps_are_longer_by_what_they_let_out_and_lie_over_the_shoulder() -> None:
    """Shoulder to waist in front and behind, less both bibs, and 8 to 10 cm to let out (common practice)."""
    body = complete(child(BABY))
    short, long = (measured_at(dungarees(child(BABY), let_out=mm), "strap") for mm in (0.0, 90.0))
    assert long - short == pytest.approx(90.0)
    pattern = dungarees(child(BABY))
    bibs = sum(max(edge.start.y for edge in pattern.piece(f"dungarees {half}").edges) for half in ("front", "back"))
    straight = body.mm("front_waist_length_from_neck_pit") + body.mm("back_waist_length") + 50.0 - bibs
    assert straight - 20.0 < short - 40.0 < straight + 30.0
    (buttons,) = [each for each in supplies(pattern, sewing_order(pattern)) if each.kind is SupplyKind.BUTTONS]
    assert buttons.count == 2


@pytest.mark.parametrize("block", ["romper", "dungarees"])
def test_growth_lets_out_the_way_over_the_shoulders_and_through_the_crotch(block: str) -> None:
    """For two sizes 8 cm on the loop: 6 in the straps and 2 in a tuck (common practice)."""
    baby = person(BABY, body="boy", born=date(2025, 12, 1), measured=date(2026, 11, 1))
    garment = Garment(block, baby, (BlockOrder(find_block(block)),), date=date(2026, 11, 20))
    plain, grown = finish(garment), finish(with_room_to_grow(garment, Grow(date(2027, 5, 1))))
    left = next(each.leave for each in to_leave(growth_of(baby), date(2027, 5, 1)) if each.place.name == "straps")
    tucked = 2.0 * tuck_by(grown.piece(f"{block} front"))
    assert tuck_by(grown.piece(f"{block} back")) == pytest.approx(0.5 * tucked)
    if block == "romper":
        assert tucked == pytest.approx(left)
    else:
        assert tucked == pytest.approx(0.25 * left)
        asked = Grow(date(2027, 5, 1), {"straps": 140.0})
        longer = measured_at(finish(with_room_to_grow(garment, asked)), "strap") - measured_at(plain, "strap")
        assert longer == pytest.approx(140.0 - 90.0)  # 9 cm are let out anyway
    assert [each for each in run_checks(grown) if each.verdict is Verdict.FAIL] == []


@pytest.mark.parametrize("way", ["longer behind", "snap moved", "snap lost"])
def test_a_closing_whose_edges_or_snaps_do_not_meet_fails(way: str) -> None:
    sound = romper(child(BABY))
    (check,) = named(CHECKS, ["closings-meet"])
    assert all(each.verdict is Verdict.PASS for each in run_checks(sound, checks=[check]))
    back = sound.piece("romper back")
    if way == "longer behind":
        inseam, hem = require_edge(back, Place.INSEAM), require_edge(back, Place.LEG_OPENING)
        end = inseam.end + Vec(0.0, -4.0)
        longer = replace(inseam, curves=(Line(inseam.start, end),))
        back = with_edges(back, longer, replace(hem, curves=(Line(end, hem.curves[0].end), *hem.curves[1:])))
    else:
        moved = [mark.placed(mark.at + Vec(0.0, 5.0)) if mark.name == "snap 2" else mark for mark in back.points]
        kept = [mark for mark in moved if way == "snap moved" or mark.name != "snap 2"]
        back = replace(back, points=tuple(kept))
    assert Verdict.FAIL in {each.verdict for each in run_checks(with_pieces(sound, back), checks=[check])}


def test_a_shoulder_that_opens_beside_a_yoke_is_not_looked_at_for_snaps() -> None:
    yoked = apply_step(romper(child(BABY), Cloth("knit", stretch=0.25)), Yoke())
    (check,) = named(CHECKS, ["closings-meet"])
    found = run_checks(yoked, checks=[check])
    assert {"shoulder, front on back", "snaps, front on back"} <= {each.where for each in found}
    assert all(each.verdict is Verdict.PASS for each in found)


@pytest.mark.parametrize(("word", "told"), [("snaps", "there already"), ("legs", "leg_length")])
def test_a_word_that_is_no_option_of_a_romper_is_answered_with_what_to_write(word: str, told: str) -> None:
    (explained,) = (answer for each, answer in find_block("romper").explained if each == word)
    assert told in explained
