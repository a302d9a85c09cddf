"""Alterations on trousers of real women: those of trousers alone at every amount, and those of every garment."""

from __future__ import annotations

import math
from functools import cache

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.alterations import (
    Alteration,
    CrotchCurve,
    CrotchLength,
    FullThigh,
    Hem,
    LegLine,
    Lengthen,
    Opening,
    Seat,
    ShapedBand,
    SwayBack,
    TakeIn,
    apply_step,
)
from drafting.alterations.trousers.halves import levels_redrawn
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import Cubic, Line, Point, run_ends
from drafting.geometry.bending import turns
from drafting.pattern import Edge, Level, MarkLine, Pattern, Piece, Place, Role, edges_at, finished
from tests.alteration_samples import TROUSER_SAMPLES, sample
from tests.bodies import women
from tests.quick_checks import run_checks
from tests.sweep_trousers import GARMENTS, ends, trousers_for

FRONT, BACK = "trousers front", "trousers back"


@cache
def plain(number: int = 11) -> Pattern:
    garment = trousers_for(women()[number], "straight")
    return draft(garment, prepare(garment))


def grave(pattern: Pattern) -> list[str]:
    return [f"{r.check}: {r.where}" for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR)]


def measured(pattern: Pattern, name: str) -> float:
    return next(each.finished for each in finished(pattern) if each.name == name)


@pytest.mark.parametrize("name", TROUSER_SAMPLES)
def test_every_alteration_of_trousers_keeps_its_promises_and_passes_every_check(name: str) -> None:
    for number in (11, 300):
        for options in TROUSER_SAMPLES[name]:
            assert grave(apply_step(plain(number), sample(name, options))) == []


@pytest.mark.parametrize(
    "step",
    [
        Lengthen(FRONT, 30.0),
        Lengthen(BACK, -25.0, line="lengthen or shorten above the knee"),
        Lengthen(FRONT, 15.0, line="lengthen or shorten above the crotch"),
        TakeIn(waist=12.0),
        TakeIn(hip=-20.0),
        SwayBack(10.0),
        Hem(FRONT, 60.0),
        Opening("centre front", length=150.0),
        Opening("side", length=180.0),
    ],
    ids=lambda step: f"{step.name} {step!r}"[:40],
)
def test_the_alterations_of_every_garment_work_on_trousers(step: Alteration) -> None:
    assert grave(apply_step(plain(), step)) == []


def test_the_depth_of_the_crotch_is_lengthened_above_the_hip() -> None:
    deeper = apply_step(plain(), Lengthen(FRONT, 15.0, line="lengthen or shorten above the crotch"))
    assert measured(deeper, "crotch depth") - measured(plain(), "crotch depth") == pytest.approx(15.0, abs=1e-6)
    assert measured(deeper, "crotch length") - measured(plain(), "crotch length") == pytest.approx(30.0, abs=1.5)


def test_a_centre_of_trousers_closed_again_is_a_seam_and_no_fold() -> None:
    shut = apply_step(plain(), Opening("centre back", "closed"))
    assert not shut.piece(BACK).cut.fold


def test_the_crotch_becomes_as_much_longer_as_asked_for_in_front_and_behind() -> None:
    longer = apply_step(plain(), CrotchLength(front=8.0, back=12.0))
    for name, by in (("crotch, front part", 8.0), ("crotch, back part", 12.0), ("crotch depth", 0.0)):
        assert measured(longer, name) - measured(plain(), name) == pytest.approx(by, abs=1e-5)


def test_a_wider_thigh_leaves_knee_and_hem() -> None:
    wide = apply_step(plain(), FullThigh(20.0))
    for name, by in (("thigh", 20.0), ("knee", 0.0), ("hem, round one leg", 0.0), ("waist", 0.0)):
        assert measured(wide, name) - measured(plain(), name) == pytest.approx(by, abs=1e-5)


def test_a_leg_led_in_keeps_its_girths_and_its_seams() -> None:
    led = apply_step(plain(), LegLine(-10.0))
    for name in ("knee", "waist", "hip", "crotch length"):
        assert measured(led, name) == pytest.approx(measured(plain(), name), abs=1e-5)
    assert led.piece(FRONT).line("knee line").start.x != plain().piece(FRONT).line("knee line").start.x


@pytest.mark.parametrize("step", [CrotchLength(), Seat(0.0), FullThigh(0.0), CrotchCurve(0.0), LegLine(0.0)])
def test_nothing_asked_for_is_refused_with_what_to_write(step: Alteration) -> None:
    with pytest.raises(StepRefused, match="say") as refused:
        apply_step(plain(), step)
    assert refused.value.alteration == step.name


def test_there_has_to_be_a_pair_of_trousers() -> None:
    bare = Pattern("nothing", plain().wearer, pieces=(), seams=())
    with pytest.raises(StepRefused, match="no trousers"):
        apply_step(bare, Seat(10.0))


def test_few_real_women_of_the_sweep_all_come_out() -> None:
    for turn, name in enumerate(GARMENTS):  # for each another woman
        assert {end for end, _ in ends(women()[7 + 90 * turn :: 1000], name)} <= {"passes", "refused", "step refused"}


@pytest.mark.parametrize("step", [CrotchLength(back=25.0), Seat(25.0), FullThigh(20.0)], ids=repr)
def test_so_short_a_leg_as_that_of_shorts_follows_the_fork_in_one_line(step: Alteration) -> None:
    order = BlockOrder(find_block("trousers"), {"ends": "shorts"})
    garment = Garment("shorts", women()[11], (order,))
    results = run_checks(apply_step(draft(garment, prepare(garment)), step))
    assert not [r.where for r in results if r.verdict in (Verdict.FAIL, Verdict.ERROR, Verdict.WARN)]


def test_shorts_are_lengthened_between_crotch_and_hem_where_no_line_is_named() -> None:
    order = BlockOrder(find_block("trousers"), {"ends": "shorts"})
    garment = Garment("shorts", women()[11], (order,))
    before = draft(garment, prepare(garment))
    after = apply_step(before, Lengthen(piece="trousers front", by=30.0))
    lengths = [next(m.finished for m in finished(p) if m.name == "outside leg") for p in (before, after)]
    assert lengths[1] - lengths[0] == pytest.approx(30.0, abs=0.5)


def test_for_a_full_seat_the_whole_waist_of_the_back_rises_towards_the_centre_and_a_band_is_cut_from_it() -> None:
    raised = apply_step(plain(), Seat(25.0))
    rises = []
    for edge in edges_at(plain().piece(BACK), Place.WAIST):
        after = raised.piece(BACK).edge(edge.name)
        assert after.length == pytest.approx(edge.length, abs=1e-4)
        rises.append([after.start.y - edge.start.y, after.end.y - edge.end.y])
    levels = [round(rise, 6) for pair in rises for rise in pair]
    assert levels == sorted(levels)  # the edges run from the side to the centre
    assert levels[0] == pytest.approx(0.0, abs=1e-6)
    assert levels[1] > 1.0
    assert levels[-1] == pytest.approx(25.0 * 2.0 / 3.0, abs=1.0)
    for dart in raised.piece(BACK).darts:
        one, other = (raised.piece(BACK).edge(leg).length for leg in dart.legs)
        assert one == pytest.approx(other, abs=1e-6)
    assert grave(apply_step(raised, ShapedBand())) == []


def leg(*lines: MarkLine) -> Piece:
    """A straight leg 100 mm wide and high, its inseam at the left."""
    corners = [Point(0.0, 0.0), Point(100.0, 0.0), Point(100.0, 100.0), Point(0.0, 100.0)]
    places = (Place.HEM, Place.SIDE, Place.WAIST, Place.INSEAM)
    edges = tuple(
        Edge(place.value, (Line(one, other),), Role.SEAM, 10.0, place)
        for place, one, other in zip(places, corners, (*corners[1:], corners[0]), strict=True)
    )
    return Piece("leg", edges, lines=lines)


@pytest.mark.parametrize(("one", "other"), [(20.0, 80.0), (80.0, 20.0), (-30.0, 130.0), (2.0, 40.0)])
def test_a_level_is_led_to_the_seams_of_the_leg_the_way_it_ran(one: float, other: float) -> None:
    was = MarkLine("thigh line", Point(one, 40.0), Point(other, 60.0), level=Level.THIGH)
    (led,) = levels_redrawn(leg(was)).lines
    assert (led.start.x, led.end.x) == ((0.0, 100.0) if one < other else (100.0, 0.0))
    slope = 20.0 / (other - one)
    assert (led.start.y, led.end.y) == pytest.approx([40.0 + slope * (x - one) for x in (led.start.x, led.end.x)])


def test_a_curved_level_one_of_another_kind_and_one_that_meets_no_seam_stay() -> None:
    run = (Cubic(Point(20.0, 50.0), Point(40.0, 60.0), Point(60.0, 60.0), Point(80.0, 50.0)),)
    lines = (
        MarkLine("crotch line", run[0].start, run[0].end, run, Level.CROTCH),
        MarkLine("knee line", Point(20.0, 30.0), Point(80.0, 30.0), level=Level.KNEE),
        MarkLine("thigh line", Point(20.0, 150.0), Point(80.0, 150.0), level=Level.THIGH),
    )
    assert levels_redrawn(leg(*lines)).lines == lines
    assert levels_redrawn(leg(lines[1]), (Level.KNEE,)).lines[0].end == Point(100.0, 30.0)


@pytest.mark.parametrize("ends_", ["full length", "shorts"])
def test_an_inside_leg_stays_hollow_and_square_to_the_crotch(ends_: str) -> None:
    order = BlockOrder(find_block("trousers"), {"ends": ends_})
    garment = Garment("trousers", women()[11], (order,))
    pattern = draft(garment, prepare(garment))
    for step in (None, Seat(30.0), FullThigh(30.0)):
        pattern = pattern if step is None else apply_step(pattern, step)
        for name in (FRONT, BACK):
            piece = pattern.piece(name)
            (inseam,), (crotch,) = edges_at(piece, Place.INSEAM), edges_at(piece, Place.CROTCH)
            found = sorted(abs(math.degrees(turn.angle)) for turn in turns(inseam.curves))
            assert sum(found[:-1]) < 2.5  # of shorts that are wider at the hem than at the fork, a little
            down, over = run_ends(inseam.curves), run_ends(crotch.curves)
            leaves, comes = (down[0], over[1]) if inseam.start.near(crotch.end) else (down[1], over[0])
            assert leaves.dot(comes) == pytest.approx(0.0, abs=1e-6)
