"""A sway back whose wedge is left in a shaped centre back: the line, its seam, what it leaves alone."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.alterations import Opening, SwayBack, apply_step
from drafting.checks import Verdict
from drafting.errors import InputProblems
from drafting.geometry import Cubic, Line, distance, end_tangents, run_at, run_hits, run_reversed
from drafting.pattern import Cut, Pattern, Role, finished, walk
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed_after
from tests.quick_checks import run_checks

BACK, SKIRT = "bodice back", "skirt back"


def measured(pattern: Pattern, name: str) -> float:
    return next(each.finished for each in finished(pattern) if each.name == name)


@pytest.mark.parametrize("depth", [5.0, 12.0, 25.0])
def test_every_check_passes_on_a_sample_of_bodies(depth: float) -> None:
    step = SwayBack(depth, centre_back="seam")
    assert [(p.wearer.name, r.where, r.remedy) for p in dresses() for r in failed_after(p, step)] == []


@pytest.mark.parametrize("depth", [6.0, 25.0])  # a quarter of an inch to an inch: the range sewing texts give
def test_the_centre_back_is_shorter_and_hollow_and_turns_with_the_waist(depth: float) -> None:
    before, after = dress(), apply_step(dress(), SwayBack(depth, centre_back="seam"))
    assert measured(after, "centre back") == pytest.approx(measured(before, "centre back") - depth, abs=1e-6)
    piece, was = after.piece(BACK), before.piece(BACK)
    straight, hollow = piece.edge("centre back").curves
    # straight down to the bust line, where the bust is measured, and on from there without a corner
    assert isinstance(straight, Line)
    assert straight.end.near(next(m.start for m in was.lines if m.name == "bust line"), 1e-6)
    assert end_tangents(hollow)[0].cross(end_tangents(straight)[1]) == pytest.approx(0.0, abs=1e-9)
    # hollowed into the back, and square to the waist, which rises to the centre by the wedge's angle
    assert isinstance(hollow, Cubic)
    assert all(run_at((hollow,), share * distance(hollow.start, hollow.end)).x > 0.0 for share in (0.3, 0.6, 0.9))
    square = end_tangents(piece.edge("waist at centre").curves[0])[0].dot(end_tangents(hollow)[1])
    assert square == pytest.approx(0.0, abs=1e-9)
    waist = sum(walk(before, before.seam("back waist")).sewn) / 2.0
    leaning = math.atan2(-end_tangents(hollow)[1].x, -end_tangents(hollow)[1].y)
    assert leaning == pytest.approx(2.0 * math.asin(0.5 * depth / waist), abs=math.radians(1.0))


def test_what_it_leaves_alone_it_leaves_alone() -> None:
    before, after = dress(), apply_step(dress(), SwayBack(20.0, centre_back="seam"))
    assert [p.name for p in after.pieces if p != before.piece(p.name)] == [BACK]
    for edge in ("side seam", "armhole", "neck", "shoulder at neck"):
        assert after.piece(BACK).edge(edge) == before.piece(BACK).edge(edge)
    assert walk(after, after.seam("back waist")).b == pytest.approx(walk(before, before.seam("back waist")).b, abs=1e-6)
    for name in ("bust", "waist", "across the back"):
        assert measured(after, name) == pytest.approx(measured(before, name), abs=1e-3)


def test_marked_lines_end_on_the_hollowed_centre_line() -> None:
    piece = apply_step(dress(), SwayBack(20.0, centre_back="seam")).piece(BACK)
    for mark in piece.lines:
        hits = [hit.point for _, hit in run_hits(piece.edge("centre back").curves, mark.start, mark.end - mark.start)]
        assert min(distance(hit, mark.start) for hit in hits) < 1e-3


def skirt(pattern: Pattern) -> Pattern:
    """The skirt by itself, its centre back on the fold and its side open."""
    alone = replace(
        pattern,
        pieces=tuple(p for p in pattern.pieces if p.name.startswith("skirt")),
        seams=tuple(s for s in pattern.seams if s.name == "skirt side seam"),
        measures=tuple(m for m in pattern.measures if m.name in ("waist", "hip", "skirt length")),
    )
    return apply_step(apply_step(alone, Opening("centre back", "closed")), Opening("side", length=200.0))


def test_a_fold_becomes_a_seam_with_its_allowance_cut_twice() -> None:
    before = skirt(dress())
    assert before.piece(SKIRT).edge("centre back").role is Role.FOLD
    after = apply_step(before, SwayBack(12.0, centre_back="seam"))
    seam = after.piece(SKIRT).edge("centre back")
    assert (seam.role, seam.allowance, after.piece(SKIRT).cut) == (Role.SEAM, 15.0, Cut(2, mirror=True))
    # the top of it is hollowed, from the hip line up; from there down it is what it was
    assert run_reversed(seam.curves)[0].start.x == pytest.approx(0.0, abs=1e-6)
    assert measured(after, "hip") == pytest.approx(measured(before, "hip"), abs=1e-4)
    assert [r.where for r in run_checks(after) if r.verdict not in (Verdict.PASS, Verdict.NOTHING)] == []


def test_on_the_fold_the_straight_one_stays_on_the_fold() -> None:
    after = apply_step(skirt(dress()), SwayBack(12.0))
    assert after.piece(SKIRT).edge("centre back").role is Role.FOLD


def test_another_word_is_refused_with_the_two_that_are_known() -> None:
    with pytest.raises(InputProblems, match=r"sway back, centre_back: .* expected one of straight, seam"):
        SwayBack(12.0, centre_back="fold")


def test_where_no_level_is_marked_the_hollow_begins_half_way_down() -> None:
    plain = replace(dress(), measures=(), pieces=tuple(replace(piece, lines=()) for piece in dress().pieces))
    before, after = (
        pattern.piece(BACK).edge("centre back")
        for pattern in (plain, apply_step(plain, SwayBack(12.0, centre_back="seam")))
    )
    straight, _ = after.curves
    assert straight.end.near(run_at(before.curves, 0.5 * before.length), 1e-6)
