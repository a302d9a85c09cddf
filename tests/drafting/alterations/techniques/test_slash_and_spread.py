"""What is fanned out: the hem that was asked for, and levels that lie in arcs where they belong."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from drafting.alterations import FlareSkirt, FullSleeve, Lengthen, apply_step
from drafting.alterations.techniques.spreading.slash_and_spread import Slash, fanned, fanned_line
from drafting.geometry import (
    Point,
    distance,
    end_tangents,
    run_at,
    run_ends,
    run_hits,
    run_length,
    run_reversed,
    tangent,
)
from drafting.pattern import MarkLine
from drafting.pattern.compare import strayed
from drafting.pattern.gathered import held_in
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed

SKIRT = ("skirt front", "skirt back")


@pytest.mark.parametrize("hem", [1.0, 160.0, 777.0, 2000.0])
@pytest.mark.parametrize("cuts", [1.0, 3.0, 8.0])
def test_slashes_give_the_hem_that_was_asked_for_and_the_darts_go_where_they_fit_in(hem: float, cuts: float) -> None:
    after = apply_step(dress(), FlareSkirt(hem=hem, how="slashes", cuts=cuts))
    gained = 2.0 * sum(after.piece(name).edge("hem").length - dress().piece(name).edge("hem").length for name in SKIRT)
    assert gained == pytest.approx(hem, abs=1e-3)
    assert [len(after.piece(name).darts) for name in SKIRT] == ([0, 0] if hem > 700.0 else [1, 2])
    assert not failed(after)


def test_a_waist_bent_tighter_than_its_allowance_by_a_single_slash_is_told() -> None:
    after = apply_step(dress(), FlareSkirt(hem=3000.0, how="slashes", cuts=1.0))
    assert {each.code for each in failed(after)} == {"bends-allowed"}
    assert not failed(apply_step(dress(), FlareSkirt(hem=3000.0, how="slashes", cuts=3.0)))


@pytest.mark.parametrize("hem", [50.0, 250.0, 500.0])
def test_closing_darts_gives_the_hem_that_was_asked_for(hem: float) -> None:
    after = apply_step(dress(), FlareSkirt(hem=hem))
    gained = 2.0 * sum(after.piece(name).edge("hem").length - dress().piece(name).edge("hem").length for name in SKIRT)
    assert gained == pytest.approx(hem, abs=1e-3)


@pytest.mark.parametrize("step", [FlareSkirt(), FlareSkirt(hem=1500.0, how="slashes", cuts=5.0), FlareSkirt(200.0)])
def test_levels_of_a_flared_skirt_are_arcs_square_to_the_centre_and_to_the_side(step: FlareSkirt) -> None:
    after = apply_step(dress(), step)
    for name in SKIRT:
        piece = after.piece(name)
        side = piece.edge("side seam").curves
        for line in piece.lines:
            run = line.drawn if line.start.x == 0.0 else run_reversed(line.drawn)
            leaving, arriving = run_ends(run)
            assert abs(leaving.unit().y) < 1e-6, line.name
            k, hit = min(run_hits(side, run[-1].end, arriving), key=lambda found: abs(found[1].along))
            assert abs(hit.along) < 0.01
            # the block's own level meets its slanting side seam at nearly a right angle too
            assert abs(math.degrees(math.asin(tangent(side[k], hit.t).dot(arriving.unit())))) < 12.0
            # one bend, no waver
            turns = [one.cross(other) for one, other in pairwise(end_tangents(c)[0] for c in run)]
            assert all(turn >= -1e-9 for turn in turns) or all(turn <= 1e-9 for turn in turns)


@pytest.mark.parametrize("step", [FullSleeve(hem=60.0), FullSleeve(hem=500.0), FullSleeve(cap=100.0, hem=200.0)])
def test_the_elbow_line_of_a_full_sleeve_runs_through_its_mark_from_notch_to_notch(step: FullSleeve) -> None:
    sleeve = apply_step(dress(), step).piece("sleeve")
    line = sleeve.line("elbow line")
    assert off(line, sleeve.point("elbow")) < 0.1  # a place is sampled each sixth of a millimetre
    for notch, end in (("back elbow notch", line.start), ("front elbow notch", line.end)):
        station = sleeve.notch(notch).station
        edge = sleeve.edge(station.edge)
        at = station.at if station.end == "start" else edge.length - station.at
        assert distance(run_at(edge.curves, at), end) < 0.5
    # as level at its mark as the strip below the crown lies, which turns a little where the grain is ruled anew
    crown, was = (piece.edge("cap front").curves[-1].end for piece in (sleeve, dress().piece("sleeve")))
    turned = (dress().piece("sleeve").point("elbow") - was).angle_to(sleeve.point("elbow") - crown)
    assert abs(turned) < math.radians(2.0)
    k, hit = run_hits(
        line.drawn, sleeve.point("elbow"), (sleeve.grain.end - sleeve.grain.start) if sleeve.grain else 0
    )[0]
    assert abs(tangent(line.drawn[k], hit.t).turned(-turned).y) < math.sin(math.radians(0.5))


@pytest.mark.parametrize("strip", [0, 1, 2, 3])
@pytest.mark.parametrize("ends", [(10.0, 90.0), (90.0, 10.0)])
def test_a_line_that_no_cut_parts_goes_with_its_strip(strip: int, ends: tuple[float, float]) -> None:
    """A strip is moved rigidly (slash and spread), so what is marked on it keeps its place on the cloth."""
    slashes = [Slash(Point(x, 600.0), Point(x, 0.0)) for x in (100.0, 200.0, 300.0)]
    moves = fanned(slashes, top=0.0, bottom=40.0, to_right=True)
    one, other = (Point(100.0 * strip + x, 200.0) for x in ends)
    now = fanned_line(MarkLine("pocket line", one, other), slashes, moves, to_right=True)
    assert now.start.near(moves[strip].point(one))
    assert now.end.near(moves[strip].point(other))
    assert not now.curves


def off(line: MarkLine, place) -> float:
    whole = run_length(line.drawn)
    return min(distance(run_at(line.drawn, whole * share / 4000), place) for share in range(4001))


@pytest.mark.parametrize(
    "flare", [FlareSkirt(), FlareSkirt(hem=200.0), FlareSkirt(hem=1500.0, how="slashes", cuts=5.0)]
)
@pytest.mark.parametrize("by", [300.0, 60.0])
def test_the_side_seams_of_a_flared_skirt_follow_each_other_when_it_is_lengthened(flare: FlareSkirt, by: float) -> None:
    for base in (dress(), *dresses()[::2]):
        flared = apply_step(base, flare)
        after = apply_step(flared, Lengthen("skirt front", by))
        sides = [after.piece(name).edge("side seam").length for name in SKIRT]
        was = [flared.piece(name).edge("side seam").length for name in SKIRT]
        assert sides[0] - sides[1] == pytest.approx(was[0] - was[1], abs=1e-3)
        assert not failed(after)
        back = apply_step(after, Lengthen("skirt front", -by))
        # the line of the cut is drawn to the side anew each time
        pairs = [[replace(each.piece(name), lines=()) for each in (flared, back)] for name in SKIRT]
        assert all(strayed(*pair) < 1e-6 for pair in pairs)


@pytest.mark.parametrize("step", [FullSleeve(cap=40.0), FullSleeve(cap=120.0), FullSleeve(cap=100.0, hem=200.0)])
def test_a_cap_is_gathered_as_closely_in_front_as_behind(step: FullSleeve) -> None:
    for base in (dress(), *dresses()[::2]):
        after = apply_step(base, step)
        held = [each for each in held_in(after) if each.longer and each.piece == "sleeve"]
        shares = {each.seam: each.length / each.to for each in held}
        assert shares["front armhole"] == pytest.approx(shares["back armhole"], abs=0.02)
