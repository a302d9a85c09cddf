"""A kimono with its gusset: the figures of the trade, and that the slits and the gusset are of one length."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import reduce

import pytest
from shapely.geometry import Polygon

from drafting.alterations import (
    ALTERATIONS,
    Alteration,
    BackWidth,
    DroppedShoulder,
    FullSleeve,
    Kimono,
    Lengthen,
    MoveDart,
    Opening,
    Raglan,
    Saddle,
    Smock,
    TakeIn,
    apply_step,
)
from drafting.alterations.styles.kimono import gusset_side, lift_of
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import polyline
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import (
    Landmark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    darts_at,
    edges_at,
    finished,
    pieces_of,
    run_total,
    with_pieces,
)
from drafting.pattern.cutting import cutting_line
from drafting.pattern.seam_ends import sewn
from drafting.sewing import sewing_order
from tests.blocks.child.test_child_block import drafted as drafted_child
from tests.drafting.alterations.styles.test_raglan import drafted
from tests.drafting.dress import dress
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.sweep_children import children

BODIES = (dress, lambda: sized(84), lambda: sized(100))


@pytest.mark.parametrize(("degrees", "more"), [(30.0, 94.2), (45.0, 141.4), (60.0, 188.5)])
def test_an_arm_lifted_asks_for_as_much_length_under_it_as_plane_geometry_says(degrees: float, more: float) -> None:
    # 18 cm below the shoulder: 9.4, 14.1 and 18.8 cm (the arc of a circle, derived); a square gives its diagonal
    assert gusset_side(180.0, math.radians(degrees)) * math.sqrt(2.0) == pytest.approx(more, abs=0.1)


def test_a_square_of_four_inches_lets_an_arm_be_lifted_by_forty_five_degrees() -> None:
    # its diagonal is 14.37 cm (a gown of 1916 has a gusset of 4 inches in slits of 4 inches)
    assert 101.6 * math.sqrt(2.0) == pytest.approx(143.7, abs=0.05)
    assert math.degrees(lift_of(101.6, 180.0)) == pytest.approx(45.7, abs=0.05)


def gusset_of(pattern: Pattern) -> Piece:
    (gusset,) = pieces_of(pattern, PieceKind.GUSSET)
    return gusset


@pytest.mark.parametrize("body", BODIES)
def test_each_side_of_the_gusset_is_as_long_as_its_slit_and_all_four_are_equal(body) -> None:  # type: ignore[no-untyped-def]
    after = apply_step(body(), Kimono())
    gusset = gusset_of(after)
    sides = [edge.length for edge in gusset.edges]
    assert max(sides) - min(sides) < 1e-6
    seams = [seam for seam in after.seams if any(ref.piece == gusset.name for ref in seam.b)]
    assert len(seams) == 4
    for seam in seams:
        assert run_total(after, seam.a) == pytest.approx(run_total(after, seam.b), abs=1e-3)


@pytest.mark.parametrize("body", BODIES)
def test_neck_waist_and_reach_stay_and_both_sides_of_the_sleeve_meet(body) -> None:  # type: ignore[no-untyped-def]
    before, after = body(), apply_step(body(), Kimono())
    was, now = ({m.name: m.finished for m in finished(each)} for each in (before, after))
    for name in ("neck", "waist", "bust", "shoulder to wrist", "shoulder"):
        assert now[name] == pytest.approx(was[name], abs=1e-4), name
    wrists = [edge.length for piece in after.pieces for edge in edges_at(piece, Place.WRIST)]
    assert sum(wrists) == pytest.approx(sum(e.length for e in edges_at(before.piece("sleeve"), Place.WRIST)), abs=1e-4)
    for place in (Place.UNDERARM, Place.OVERARM):
        one, other = (e.length for p in after.pieces for e in edges_at(p, place))
        assert one == pytest.approx(other, abs=1e-3)
    assert not [r for r in run_checks(after) if r.verdict is Verdict.FAIL]


def test_more_lift_makes_a_larger_gusset_and_too_much_is_refused_with_the_most() -> None:
    sides = [gusset_of(apply_step(dress(), Kimono(lift=by))).edges[0].length for by in (20, 30, 40)]
    assert sides == sorted(sides)
    assert sides[0] < sides[-1]
    with pytest.raises(StepRefused, match=r"degrees is the most the arm can be lifted"):
        apply_step(dress(), Kimono(lift=75.0))


def test_a_puff_is_refused_and_fullness_at_the_wrist_is_not() -> None:
    with pytest.raises(StepRefused, match="is gathered, and a sleeve cut in one with the bodice has no cap"):
        apply_step(apply_step(dress(), FullSleeve(cap=76.0)), Kimono())
    assert apply_step(apply_step(dress(), FullSleeve(hem=60.0)), Kimono()).history[-1].alter == "kimono"


def test_every_angle_of_a_step_is_in_whole_degrees() -> None:
    angles = [option for step in ALTERATIONS for option in step.options if option.kind == "angle"]
    bounds = [bound for each in angles for bound in (each.low, each.high, each.default) if isinstance(bound, float)]
    assert {"bend", "lift"} <= {each.name for each in angles}
    assert [bound for bound in bounds if bound % 1.0] == []


def test_a_lining_has_a_gusset_of_its_own_sewn_into_its_slits() -> None:
    lined = with_part(apply_step(dress(), Kimono()), part_of(find_part("lining"), {}))
    (gusset,) = (p for p in pieces_of(lined, PieceKind.LINING) if p.identity.of is PieceKind.GUSSET)
    assert len([seam for seam in lined.seams if any(ref.piece == gusset.name for ref in seam.b)]) == 4
    assert not [r for r in run_checks(lined) if r.verdict is not Verdict.PASS]


@pytest.mark.parametrize("body", BODIES)
def test_of_a_sleeve_made_longer_and_a_bodice_taken_in_a_kimono_is_made_with_cloth_beyond_every_seam(body) -> None:  # type: ignore[no-untyped-def]
    for step in (Lengthen("sleeve", 30.0), TakeIn(bust=20.0)):
        after = apply_step(apply_step(body(), step), Kimono())
        for piece in pieces_of(after, PieceKind.FRONT, PieceKind.BACK):
            sewing, cut = (
                Polygon([(p.x, p.y) for p in polyline(line, 0.05)])
                for line in (piece.outline, cutting_line(piece, sewn(after)[piece.name]))
            )
            assert sewing.difference(cut.buffer(0.1)).area == pytest.approx(0.0, abs=1.0), (piece.name, step)


def test_the_notches_down_the_arm_meet_beyond_an_eased_shoulder_and_on_a_short_sleeve() -> None:
    for step in (BackWidth(amount=10.0, into="ease"), Lengthen("sleeve", -350.0, hem="as tapered")):
        after = apply_step(apply_step(dress(), step), Kimono())
        assert {r.verdict for r in run_checks(after) if r.check == "notches"} == {Verdict.PASS}, step


@pytest.mark.parametrize("opening", ["lapped shoulder", "button shoulder"])
@pytest.mark.parametrize("step", [Kimono(), Raglan(), Saddle(), DroppedShoulder(by=10.0)])
def test_with_an_open_shoulder_a_sleeve_is_not_cut_in_one_and_that_is_said(opening: str, step: Alteration) -> None:
    baby = drafted_child(children()[0], "child's bodice", "child's sleeve", opening=opening)
    with pytest.raises(StepRefused, match=r"(is open, and the sleeve|shoulder)") as refused:
        apply_step(baby, step)
    assert refused.value.alteration == step.name


def test_with_a_bust_dart_moved_to_the_waist_the_bust_is_as_wide_as_without_a_kimono() -> None:
    before = apply_step(dress(), MoveDart("bodice front", "bust dart", "waist dart"))
    widths = [
        next(each.finished for each in finished(pattern) if each.name == "bust")
        for pattern in (before, apply_step(before, Kimono()))
    ]
    assert widths[1] == pytest.approx(widths[0], abs=1e-3)


@pytest.mark.parametrize("style", [Kimono(), Smock()])
@pytest.mark.parametrize("dart", ["bust dart", "waist dart"])
def test_a_dart_in_the_side_seam_is_laid_into_the_waist_and_that_is_said(style: Alteration, dart: str) -> None:
    moved = apply_step(dress(), MoveDart("bodice front", dart, "side seam"))
    after = apply_step(moved, style)
    assert not darts_at(after.piece("bodice front"), Place.SIDE)
    assert any("goes to the waist" in sentence for sentence in after.origin[0].gave_way)
    failed = {r.where for r in run_checks(moved) if r.verdict is Verdict.FAIL}
    assert {r.where for r in run_checks(after) if r.verdict is Verdict.FAIL} <= failed


def test_a_zip_in_the_side_seam_ends_below_the_gusset_whichever_is_asked_for_first() -> None:
    zipped = Opening("side", length=350.0)
    one, other = (reduce(apply_step, steps, dress()) for steps in ((zipped, Kimono()), (Kimono(), zipped)))
    assert (one.pieces, one.seams, one.measures) == (other.pieces, other.seams, other.measures)
    assert any(edge.role is Role.OPENING for edge in edges_at(one.piece("bodice front"), Place.SIDE))
    assert not [r.where for r in run_checks(one) if r.verdict is Verdict.FAIL]


def test_side_and_underarm_are_sewn_in_one_and_the_gusset_has_its_steps() -> None:
    steps = sewing_order(apply_step(dress(), Kimono()))
    (side,) = [step for step in steps if step.place is Place.SIDE and "bodice front" in step.pieces]
    assert "underarm seam" in side.seams
    assert sum(len(step.seams) for step in steps if step.place is Place.GUSSET) == 4


@pytest.mark.parametrize(("name", "nth"), [("knit top", 10), ("child's dress", 40)])
def test_a_child_and_a_knit_top_can_have_it(name: str, nth: int) -> None:
    before = drafted(name, nth)
    failed = {r.where for r in run_checks(before) if r.verdict is Verdict.FAIL}
    assert {r.where for r in run_checks(apply_step(before, Kimono())) if r.verdict is Verdict.FAIL} <= failed


def test_a_sleeve_whose_wrist_is_not_marked_is_measured_to_the_middle_of_its_hem() -> None:
    sleeve = dress().piece("sleeve")
    bare = replace(sleeve, points=tuple(mark for mark in sleeve.points if mark.landmark is not Landmark.WRIST))
    for pattern in (dress(), with_pieces(dress(), bare)):
        halves = [edges_at(piece, Place.OVERARM) for piece in apply_step(pattern, Kimono()).pieces]
        assert [edge.length for run in halves for edge in run] == pytest.approx([580.0] * 2, abs=0.1)


def test_a_short_side_seam_below_the_gusset_is_warned_of() -> None:
    for size, verdict in ((92, Verdict.PASS), (116, Verdict.WARN)):
        made = apply_step(sized(size), Kimono())
        (left,) = (each for each in run_checks(made) if each.where == "bodice front, side seam below the sleeve")
        long = sum(edge.length for edge in edges_at(made.piece("bodice front"), Place.SIDE))
        assert (left.measured, left.verdict) == (pytest.approx(long), verdict)
        assert bool(left.remedies) is (verdict is Verdict.WARN)
