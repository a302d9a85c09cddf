"""The legs of a dart are led on over a pointed waist, straight or in one slight curve."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import PointedWaist, SkirtYoke, SlantedPocket, apply_step
from drafting.alterations.skirt.pointed_bodice import drop_between
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import Curve, Vec, distance, polyline, run_length, run_reversed, run_tangent, shift
from drafting.geometry.bending import kinks, tightest
from drafting.pattern import EdgeRef, Level, Pattern, Place, edges_at, finished_length, line_at, move_piece, with_pieces
from tests.bodies import women
from tests.chains import bases
from tests.drafting.alterations.styles.test_raglan import drafted
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks


@pytest.mark.parametrize("depth", [30.0, 40.0, 60.0, 80.0])
def test_no_leg_has_a_corner_and_both_are_equally_long(depth: float) -> None:
    for before in (dress(), sized(84, "bodice", "sleeve", "skirt"), sized(100, "bodice", "sleeve", "skirt")):
        front = apply_step(before, PointedWaist(depth=depth)).piece("bodice front")
        legs = [front.edge(name) for name in front.dart("waist dart").legs]
        assert legs[0].length == pytest.approx(legs[1].length, abs=1e-3)
        for leg in legs:
            assert max((abs(math.degrees(angle)) for angle, _ in kinks(leg.curves)), default=0.0) < 0.5
            assert min(bend.radius for bend in tightest(leg.curves)) > 20.0
            # a cutter draws it straight or with one slight curve: 3 mm in a decimetre (common practice)
            places = polyline(leg.curves, 0.05)
            way = (places[-1] - places[0]).unit()
            strays = max(abs((at - places[0]).cross(way)) for at in places)
            assert strays <= 0.0301 * distance(places[0], places[-1])


@pytest.mark.parametrize(("depth", "apart"), [(40.0, 1.6), (60.0, 4.0)])
def test_the_bodice_gains_at_each_place_what_the_skirt_loses(depth: float, apart: float) -> None:
    """Apart by what the curve of the bodice, which is straight when it is sewn over a dart that closes again and fills
    the round at the point, strays from the line below; both edges turn one way."""
    for before in (dress(), sized(84, "bodice", "sleeve", "skirt"), sized(100, "bodice", "sleeve", "skirt")):
        after = apply_step(before, PointedWaist(depth=depth))
        seam = next(
            each for each in after.seams if {ref.piece for ref in (*each.a, *each.b)} == {"skirt front", "bodice front"}
        )
        for lower, upper in zip(seam.a, seam.b, strict=True):
            runs = [[from_centre(each, ref) for each in (before, after)] for ref in (lower, upper)]
            lost, gained = (drop_between(*each) for each in runs)
            strays = [gained(0.1 * k) - lost(0.1 * k) for k in range(11)]
            assert max(map(abs, strays)) <= apart
            for _, new in runs:
                ways = [run_tangent(new, 0.05 * k * run_length(new)) for k in range(21)]
                turns = [math.degrees(one.angle_to(other)) for one, other in pairwise(ways)]
                assert min(turns) > -0.05 or max(turns) < 0.05


def from_centre(pattern: Pattern, ref: EdgeRef) -> tuple[Curve, ...]:
    """An edge of the waist, from the centre to the side."""
    curves = pattern.piece(ref.piece).edge(ref.edge).curves
    return run_reversed(curves) if ref.backward else curves


def test_below_a_skirt_without_darts_it_is_refused_in_words_of_that_skirt() -> None:
    with pytest.raises(StepRefused) as refused:
        apply_step(drafted("child's dress", 40), PointedWaist())
    assert "front_darts" not in str(refused.value)


def ordered(woman: int, lower: str, depth: float = 60.0, **asked: str) -> Pattern:
    """A bodice and what hangs from it for a woman of the survey, ordered with a pointed waist."""
    blocks = (*(BlockOrder(find_block(name)) for name in ("bodice", "sleeve")), BlockOrder(find_block(lower), asked))
    return finish(Garment("dress", women()[woman], blocks, steps=(PointedWaist(depth),)))


def test_a_point_that_is_too_deep_is_refused_with_the_depth_that_passes() -> None:
    with pytest.raises(StepRefused) as refused:
        ordered(144, "trousers")  # 3 mm too deep for her, at the default
    depth = float(str(refused.value.remedies[0].settings[0].value))
    assert depth == 57.0
    assert Verdict.FAIL not in {found.verdict for found in run_checks(ordered(144, "trousers", depth))}


@pytest.mark.parametrize(
    ("woman", "lower"),  # two darts in front as needed; 10 mm too long below; 17 mm
    [(0, "skirt"), (0, "trousers"), (24, "skirt"), (24, "trousers"), (144, "skirt")],
)
def test_ordered_as_it_comes_it_passes_every_check(woman: int, lower: str) -> None:
    failed = [found for found in run_checks(ordered(woman, lower)) if found.verdict is Verdict.FAIL]
    assert failed == []


def test_a_yoke_below_it_ends_above_the_hip_line_or_is_refused_with_the_deepest_that_does() -> None:
    before = apply_step(bases()[2], PointedWaist(depth=80.0))  # a dress whose hip line lies high
    with pytest.raises(StepRefused, match="below the hip line") as refused:
        apply_step(before, SkirtYoke(depth=120.0))
    deepest = float(str(refused.value.remedies[0].settings[0].value))
    after = apply_step(before, SkirtYoke(depth=deepest))
    edges = edges_at(after.piece("skirt front"), Place.YOKE)
    hip = line_at(before.piece("skirt front"), Level.HIP)
    assert hip is not None
    assert min(at.y for edge in edges for at in polyline(edge.curves, 0.1)) > hip.start.y


def test_a_slanted_pocket_below_it_keeps_the_corner_at_the_side_that_is_meant() -> None:
    after = apply_step(apply_step(dress(), PointedWaist()), SlantedPocket())
    assert not [found for found in run_checks(after) if found.verdict is Verdict.FAIL]


def test_it_asks_for_one_dart_only_where_the_person_asked_for_none() -> None:
    with pytest.raises(StepRefused, match="one dart in front"):
        ordered(24, "skirt", front_darts="two")


def test_the_crotch_of_a_jumpsuit_is_as_long_as_without_it() -> None:
    plain = (BlockOrder(find_block(name)) for name in ("bodice", "sleeve", "trousers"))
    garments = (ordered(24, "trousers"), finish(Garment("jumpsuit", women()[24], tuple(plain))))
    through, before = (
        next(finished_length(each, measure) for measure in each.measures if measure.name == "crotch length")
        for each in garments
    )
    assert through == pytest.approx(before, abs=1.0)


@pytest.mark.parametrize("by", [Vec(900.0, 0.0), Vec(-900.0, 100.0)])
def test_it_is_drawn_alike_wherever_the_bodice_lies(by: Vec) -> None:
    here = apply_step(dress(), PointedWaist())
    moved = with_pieces(dress(), *(move_piece(piece, shift(by)) for piece in dress().pieces))
    there = apply_step(moved, PointedWaist())
    for one, other in zip(here.piece("bodice front").edges, there.piece("bodice front").edges, strict=True):
        assert distance(one.start + by, other.start) < 1e-6
        assert other.length == pytest.approx(one.length, abs=1e-6)
