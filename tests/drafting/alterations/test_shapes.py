"""What a cutter looks for after every alteration, on the example dress and on a few real bodies, as far as it can be
measured: no bump where a line turns one way, no corner in an edge, a cutting line without spikes or loops, marks on
the cloth, the grain as it lay (common practice throughout; the limits are ours unless said)."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache
from itertools import combinations, pairwise

import pytest
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place

from drafting.alterations import apply_step
from drafting.checks import CHECKS, Verdict, check_pattern, named
from drafting.errors import StepRefused
from drafting.geometry import Cubic, Curve, distance, point_at, polyline, tangent
from drafting.pattern import Pattern, Piece, Role, place
from drafting.pattern.cutting import cutting_line
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.dress import dress
from tests.drafting.dresses import checked, dresses
from tests.drafting.sizes import sized
from tests.sampling import some

BUMP = 2.0
"""Degrees by which an armhole or a neck may turn against its own bend: what a pencil does."""

BUMPS = {
    ("armhole", 1): 4.0,  # cut in behind, where the shoulder end lies inside the width of the back already
    ("shoulder width", 0): 5.0,
    ("shoulder width", 2): 10.0,
    ("shoulder slope", 3): 10.0,
    ("dropped shoulder", 0): 5.0,
    ("dropped shoulder", 1): 7.0,
    ("dropped shoulder", 2): 10.0,
}
"""More where the shoulder end comes to lie outside the width of chest and back, or is raised: front and back making one
line over the shoulder have to turn back there, and a cutter's do. They are drawn as long as they were and as narrow, so
nothing else can give; where they would turn back by more than 10 degrees the alteration is refused."""

PEAK = 2.0
"""Degrees of corner within an edge, as where a dart was closed: two thirds of what the check of corners allows."""

UNSEEN = 0.3
"""Degrees"""

STEPS = 24


@cache
def bodies(turn: int) -> tuple[Pattern, ...]:
    """The example, and of the few real bodies another for each alteration."""
    return dress(), dresses()[turn % len(dresses())]


@cache
def altered(name: str) -> tuple[tuple[int, Pattern, Pattern], ...]:
    """Each amount of an alteration on each body, before and after; what is refused is another test's business."""
    found = []
    for number, options in enumerate(SAMPLES[name]):
        for before in [sized(92)] if name in ("blend", "put sleeve in") else bodies(list(SAMPLES).index(name)):
            try:
                found.append((number, before, apply_step(before, sample(name, options))))
            except StepRefused:
                continue
    assert found
    return tuple(found)


def changed(name: str) -> Iterator[tuple[int, Piece | None, Piece]]:
    for number, before, after in altered(name):
        was = {piece.name: piece for piece in before.pieces}
        yield from ((number, was.get(piece.name), piece) for piece in after.pieces if piece != was.get(piece.name))


def turns(run: tuple[Curve, ...]) -> list[float]:
    """How far a run turns one way and then the other, degrees, in its order; what no eye sees is passed over."""
    along = [
        tangent(curve, (i + 0.5) / STEPS) for curve in run for i in range(STEPS if isinstance(curve, Cubic) else 1)
    ]
    runs: list[float] = []
    for one, other in pairwise(along):
        turned = math.degrees(math.atan2(one.cross(other), one.dot(other)))
        if runs and runs[-1] * turned >= 0.0:
            runs[-1] += turned
        else:
            runs.append(turned)
    seen: list[float] = []
    for turned in runs:
        if seen and (abs(turned) < UNSEEN or seen[-1] * turned > 0.0):
            seen[-1] += turned
        else:
            seen.append(turned)
    return seen


@pytest.mark.parametrize("name", some(SAMPLES, every=6))
def test_armhole_and_neck_turn_one_way_and_a_cap_only_out_and_in(name: str) -> None:
    for number, _, piece in changed(name):
        for edge in piece.edges:
            kind = edge.name.split()[0]
            if kind in ("armhole", "neck", "cap"):
                bends = sorted((abs(turned) for turned in turns(edge.curves)), reverse=True)
                bumps = sum(bends[2 if kind == "cap" else 1 :])
                assert bumps <= BUMPS.get((name, number), BUMP), (number, piece.name, edge.name)


HOOKED = {
    ("shoulder slope", 2),
    ("shoulder slope", 3),
    ("shoulder width", 2),
    ("shoulder width", 3),
    ("armhole", 3),
    ("take in", 1),
}
"""The largest amounts of those that move an end of the armhole and must keep its length or its width: on bodies that
are narrow for it, the checks warn."""


OF_CURVES = named(CHECKS, ("bends-allowed", "curves-even"))


@pytest.mark.parametrize("name", some(SAMPLES, every=6, first=1))
def test_an_armhole_stays_level_and_round_and_no_cutting_line_folds(name: str) -> None:
    for number, before, after in altered(name):
        known = checked(before)
        was = {(each.code, each.where) for each in known.results if each.verdict is not Verdict.PASS}
        for each in check_pattern(after, known=known, checks=OF_CURVES).results:
            if (each.code, each.where) in was:
                continue
            assert each.verdict is not Verdict.FAIL, (number, each.where, each.remedy)
            if each.where.endswith("at the side seam"):
                assert each.verdict is Verdict.PASS, (number, each.where, each.measured)
            armhole = "armhole," in each.where or (each.code == "bends-allowed" and each.where.endswith("armhole"))
            if armhole and (name, number) not in HOOKED:
                assert each.verdict is Verdict.PASS, (number, each.where, each.measured)


LED_ON = 90.0
"""Degrees by which both legs of a waist dart together may bend at the waist where they are led on below it: the body is
hollow there, so the dart closes again, as one with two points does (that it does: common practice; the limit is ours:
88 were measured on a woman of the survey, 79 on the dress)."""


@pytest.mark.parametrize("name", some(SAMPLES, every=6, first=2))
def test_no_edge_has_a_corner_that_it_did_not_have(name: str) -> None:
    for number, was, piece in changed(name):
        had = {edge.name: corner(edge.curves) for edge in was.edges} if was else {}
        led_on = (
            set(piece.dart("waist dart").legs) if (name, piece.name) == ("pointed waist", "bodice front") else set()
        )
        assert sum(corner(piece.edge(leg).curves) for leg in led_on) <= LED_ON, (number, piece.name)
        for edge in (edge for edge in piece.edges if edge.name not in led_on):
            assert corner(edge.curves) <= max(PEAK, had.get(edge.name, 0.0) + 0.1), (number, piece.name, edge.name)


def corner(run: tuple[Curve, ...]) -> float:
    """The sharpest corner within a run, degrees."""
    ends = [(tangent(one, 1.0), tangent(other, 0.0)) for one, other in pairwise(run)]
    return max((abs(math.degrees(math.atan2(u.cross(v), u.dot(v)))) for u, v in ends), default=0.0)


@pytest.mark.parametrize("name", some(SAMPLES, every=6, first=3))
def test_the_cutting_line_goes_once_round_the_piece_and_not_over_its_fold(name: str) -> None:
    for number, _, piece in changed(name):
        cut = Polygon([(p.x, p.y) for p in polyline(cutting_line(piece), 0.05)])
        cloth = Polygon([(p.x, p.y) for p in polyline(piece.outline, 0.05)])
        assert cut.is_valid, (number, piece.name)
        assert cloth.difference(cut.buffer(0.1)).is_empty, (number, piece.name)
        for edge in piece.edges:
            if edge.role is Role.FOLD:
                out = (edge.end - edge.start).unit().right()
                beyond = max(out.dot(p - edge.start) for p in polyline(cutting_line(piece), 0.05))
                assert beyond < 0.01, (number, piece.name, edge.name)


@pytest.mark.parametrize("name", some(SAMPLES, every=6, first=4))
def test_what_is_marked_lies_on_the_cloth_and_the_grain_as_it_lay(name: str) -> None:
    for number, was, piece in changed(name):
        cloth = Polygon([(p.x, p.y) for p in polyline(piece.outline, 0.05)]).buffer(1.0)
        aims = {dart.aims_at for dart in (was or piece).darts}
        for mark in piece.points:
            # a seam over the bust is rounded at its point, so the point may lie beside it
            if mark.printed and mark.name not in aims | {"bust point"}:
                assert cloth.contains(Place(mark.at.x, mark.at.y)), (number, piece.name, mark.name)
        if piece.grain:
            ends = [(piece.grain.start.x, piece.grain.start.y), (piece.grain.end.x, piece.grain.end.y)]
            assert cloth.contains(LineString(ends)), (number, piece.name)
            if was and was.grain:
                along, lay = (piece.grain.end - piece.grain.start).unit(), (was.grain.end - was.grain.start).unit()
                assert abs(along.cross(lay)) < 1e-9, (number, piece.name)
        for dart in piece.darts:
            rest = [edge.curves for edge in piece.edges if edge.name not in dart.legs]
            nearest = min(
                distance(dart.apex, point_at(curve, t / 8)) for run in rest for curve in run for t in range(9)
            )
            assert nearest > 10.0, (number, piece.name, dart.name)


@pytest.mark.parametrize("name", some([name for name in SAMPLES if name != "opening"], every=6, first=5))
def test_no_two_notches_of_a_seam_can_be_taken_for_one(name: str) -> None:
    # a zip may end beside a notch: where it ends is what is wanted
    for number, _, piece in changed(name):
        for one, other in combinations(piece.notches, 2):
            if one.station.edge == other.station.edge:
                apart = distance(place(piece, one.station)[0], place(piece, other.station)[0])
                assert apart > 8.0, (number, piece.name, one.name, other.name)
