"""Laws of the primitives an alteration is made of: fold and open, slash and spread, stretch, move a side."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drafting.alterations.techniques.pivoting.fold_darts import folds, stretch_of, unfolded, unfolds
from drafting.alterations.techniques.redrawing.redraw_run import (
    exact_length,
)
from drafting.alterations.techniques.sides.move_sides import moved_sides
from drafting.alterations.techniques.sides.side_view import sides_at
from drafting.alterations.techniques.spreading.level_cut import CutLine
from drafting.alterations.techniques.spreading.slash_and_spread import Slash, fanned, middles, of_length
from drafting.alterations.techniques.spreading.stretch import stretched
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import (
    STAY,
    Line,
    Point,
    Vec,
    area,
    distance,
    end_tangents,
)
from drafting.geometry.outline import corner_turn
from drafting.geometry.tolerance import PROMISE
from drafting.pattern import Edge, Level, Piece, Place, Role, edge_at, walk
from tests.drafting.dress import dress
from tests.property.test_alterations import furthest
from tests.property.test_techniques import Curves, runs, strays, turned_by

laws = settings(deadline=None, max_examples=12)
few = settings(deadline=None, max_examples=6)

# fold and open


STRETCHES = (
    ("bodice front", Place.SHOULDER, Place.NECK),
    ("bodice back", Place.SHOULDER, Place.NECK),
    ("bodice front", Place.WAIST, Place.CENTRE_FRONT),
    ("skirt back", Place.WAIST, Place.CENTRE_BACK),
)


@pytest.mark.parametrize(("name", "place", "start"), STRETCHES)
def test_folded_and_opened_a_stretch_is_as_it_was(name: str, place: Place, start: Place) -> None:
    stretch = stretch_of("", dress().piece(name), place, start=(start,))
    assert any(stretch.darts)
    for fold, unfold in zip(folds(stretch), unfolds(stretch), strict=True):
        for p in (Point(3.0, 4.0), Point(-50.0, 20.0)):
            assert unfold.point(fold.point(p)).near(p, 1e-9)
    assert sum(exact_length(run) for run in stretch.folded) == pytest.approx(stretch.sewn_length, abs=PROMISE)
    again = unfolded(stretch, stretch.folded)
    for edge in again.edges:
        assert strays(edge.curves, dress().piece(name).edge(edge.name).curves) < PROMISE
    # no gap where a dart is shut: the next part begins where the last one ends
    for one, other in pairwise(stretch.folded):
        assert one[-1].end.near(other[0].start, 1e-6)


@few
@given(st.sampled_from(STRETCHES), st.floats(0.2, 1.8))
def test_opened_by_another_angle_its_lengths_stay_and_the_legs_are_equal(
    which: tuple[str, Place, Place], share: float
) -> None:
    name, place, start = which
    stretch = stretch_of("", dress().piece(name), place, start=(start,))
    again = unfolded(stretch, stretch.folded, angles=[angle * share for angle in stretch.angles])
    new = {edge.name: edge for edge in again.edges}
    for edge in stretch.parts:
        assert new[edge.name].length_within(1e-8) == pytest.approx(edge.length_within(1e-8), abs=PROMISE)
    for dart in again.darts:
        first, second = (new[leg] for leg in dart.legs)
        assert first.length_within(1e-8) == pytest.approx(second.length_within(1e-8), abs=1e-5)


# slash and spread


@st.composite
def slashes(draw: st.DrawFn) -> tuple[Slash, ...]:
    count, long = draw(st.integers(1, 6)), draw(st.floats(150.0, 700.0))
    tops = [20.0 * (k + 1) for k in range(count)]
    return tuple(Slash(Point(x, 0.0), Point(x * draw(st.floats(1.0, 1.3)), -long)) for x in tops)


@laws
@given(slashes(), st.floats(0.0, 25.0), st.floats(0.0, 60.0), st.booleans())
def test_strips_stay_rigid_and_every_slash_opens_by_what_is_asked(
    cuts: tuple[Slash, ...], top: float, bottom: float, to_right: bool
) -> None:
    try:
        strips = fanned(cuts, top=top, bottom=bottom, to_right=to_right)
    except NotAPattern:
        assume(False)
    assert strips[0] == STAY
    for move in strips:  # rigid: a turn, nothing made larger, nothing mirrored
        assert move.a * move.d - move.b * move.c == pytest.approx(1.0, abs=1e-9)
        assert (move.a, move.b) == (pytest.approx(move.d, abs=1e-9), pytest.approx(-move.c, abs=1e-9))
    for slash, one, other in zip(cuts, strips[:-1], strips[1:], strict=True):
        assert distance(one.point(slash.top), other.point(slash.top)) == pytest.approx(top, abs=1e-6)
        assert distance(one.point(slash.bottom), other.point(slash.bottom)) == pytest.approx(bottom, abs=1e-6)
        gap = middles([slash.bottom], [one, other])[0]
        ends = [distance(gap, move.point(slash.bottom)) for move in (one, other)]
        assert ends[0] == pytest.approx(ends[1], abs=1e-6)
    # it opens to the side it is told to
    assume(bottom >= top)
    aside = strips[-1].point(cuts[-1].bottom).x - cuts[-1].bottom.x
    assert aside * (1.0 if to_right else -1.0) >= -1e-9


@laws
@given(slashes(), st.floats(1.0, 60.0), st.booleans())
def test_slashed_and_closed_is_the_identity(cuts: tuple[Slash, ...], bottom: float, to_right: bool) -> None:
    """One slash after the other, hinged above: what was opened by so much and is closed by so much lies as it lay."""
    for slash in cuts:
        _, there = fanned([slash], top=0.0, bottom=bottom, to_right=to_right)
        opened = Slash(there.point(slash.top), there.point(slash.bottom))
        _, back = fanned([opened], top=0.0, bottom=-bottom, to_right=to_right)
        for place in (slash.top, slash.bottom, Point(300.0, -200.0)):
            assert back.point(there.point(place)).near(place, 1e-6)
    assert all(move == STAY or move.point(Point(9.0, 9.0)).near(Point(9.0, 9.0), 1e-9)
               for move in fanned(cuts, top=0.0, bottom=0.0, to_right=to_right))  # fmt: skip


@laws
@given(runs(), st.floats(0.7, 1.4))
def test_a_run_made_of_a_length_keeps_every_direction(run: Curves, grown: float) -> None:
    new = of_length(run, grown * exact_length(run))
    assert exact_length(new) == pytest.approx(grown * exact_length(run), abs=1e-5)
    assert new[0].start == run[0].start
    for one, other in zip(new, run, strict=True):
        for now, was in zip(end_tangents(one), end_tangents(other), strict=True):
            assert turned_by(was, now) == pytest.approx(0.0, abs=1e-9)


# stretch


@few
@given(st.floats(-25.0, 80.0), st.floats(0.3, 0.7))
def test_cloth_let_in_straight_across_is_as_wide_as_the_piece(by: float, share: float) -> None:
    """A rectangle: its area grows by width times what is let in, its sides by it, its ends not; and back."""
    wide, high = 300.0, 400.0
    corners = [Point(0.0, 0.0), Point(wide, 0.0), Point(wide, high), Point(0.0, high)]
    names = ("hem", "right side", "top", "left side")
    lines = zip(names, zip(corners, (*corners[1:], corners[0]), strict=True), strict=True)
    piece = Piece("strip", tuple(Edge(name, (Line(a, b),), Role.SEAM, 10.0) for name, (a, b) in lines))
    at = CutLine(Point(0.0, share * high), Vec(0.0, -1.0))
    longer = stretched(piece, at, by)
    assert area(longer.outline) == pytest.approx(area(piece.outline) + wide * by, abs=1e-3)
    assert longer.edge("left side").length == pytest.approx(high + by, abs=PROMISE)
    assert longer.edge("hem").length == pytest.approx(wide, abs=PROMISE)
    assert longer.edge("top").curves == piece.edge("top").curves
    back = stretched(longer, CutLine(Point(0.0, share * high - max(0.0, by)), Vec(0.0, -1.0)), -by)
    for edge in piece.edges:
        assert strays(back.edge(edge.name).curves, edge.curves) < PROMISE


# move a side


@few
@given(st.floats(-14.0, 20.0), st.floats(-14.0, 20.0), st.floats(-10.0, 15.0))
def test_led_sides_widen_every_waist_alike_and_still_meet(waist: float, hip: float, bust: float) -> None:
    before = dress()
    try:
        after = moved_sides("take in", before, waist=waist, hip=hip, bust=bust)
        back = moved_sides("take in", after, waist=-waist, hip=-hip, bust=-bust)
    except (StepRefused, NotAPattern):
        assume(False)
    levels = {Level.BUST: bust, Level.HIP: hip}
    for level, more in levels.items():
        for side in sides_at("", before, level):
            name = side.piece.name
            new = next(each for each in sides_at("", after, level) if each.piece.name == name)
            assert new.waist_length - side.waist_length == pytest.approx(waist, abs=PROMISE)
            was, now = (next(line for line in each.piece.lines if line.level is level) for each in (side, new))
            assert distance(now.start, now.end) - distance(was.start, was.end) == pytest.approx(more, abs=1e-4)
            # led, not cut: smooth where the level meets the seam
            seam = edge_at(new.piece, Place.SIDE)
            assert seam is not None
            assert all(abs(corner_turn([one], [other])) < 1e-4 for one, other in pairwise(seam.curves))
    for seam_name in [seam.name for seam in before.seams if "side" in seam.name]:
        one, other = (walk(each, each.seam(seam_name)) for each in (before, after))
        assert other.a - other.b == pytest.approx(one.a - one.b, abs=1e-5)
    if max(map(abs, (waist, hip, bust))) <= 5.0:
        # how far a seam yields beyond its level is held back where it would waver: more does not come back so exactly
        assert furthest(back, before) < 0.25
