"""Pockets: a mouth that takes the hand, a side seam and a waist that stay what they were, bags whose edges meet, a
patch that lies on its marks (common practice; the sizes of the hand beside `pocket_sizes.py`)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shapely.geometry import Polygon

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import DartIntoSeam, Lengthen, MoveDart, PatchPocket, SidePocket, apply_step
from drafting.alterations.finishes.pocket_sizes import by_height
from drafting.body.person import person
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.fit.cloth import Cloth
from drafting.geometry import Line, Point, Vec, distance, polyline
from drafting.pattern import (
    Landmark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    edges_at,
    finished,
    points_at,
    require_edge,
    walk,
    with_edges,
    with_pieces,
)
from drafting.pattern.pockets import pockets, sewn_behind
from drafting.sewing import Act, sewing_order
from output.drawings.piece_notes import cut_note, piece_words, short_cut_note
from tests.bodies import women
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed
from tests.outside.sew_it import not_sewable
from tests.quick_checks import run_checks
from tests.wardrobe import a_garment


def shape(piece: Piece) -> Polygon:
    return Polygon([(at.x, at.y) for at in polyline(piece.outline)])


def bags(pattern: Pattern) -> list[Piece]:
    return [piece for piece in pockets(pattern) if sewn_behind(pattern, piece)]


def test_a_side_pocket_leaves_the_side_seam_as_long_as_it_was_and_opens_it_for_the_hand() -> None:
    before, after = dress(), apply_step(dress(), SidePocket(mouth=160.0, below_waist=60.0))
    for name in ("skirt front", "skirt back"):
        sides = edges_at(after.piece(name), Place.SIDE)
        whole = sum(edge.length for edge in edges_at(before.piece(name), Place.SIDE))
        assert sum(edge.length for edge in sides) == pytest.approx(whole, abs=1e-4)
        by_depth = sorted(sides, key=lambda edge: -max(edge.start.y, edge.end.y))
        assert [edge.length for edge in by_depth[:2]] == pytest.approx([60.0, 160.0], abs=1e-3)
    assert [(m.name, m.finished) for m in finished(after)] == [
        (m.name, pytest.approx(m.finished)) for m in finished(before)
    ]
    assert {result.verdict for result in run_checks(after)} == {Verdict.PASS}


def test_both_halves_of_its_bag_are_one_to_the_other_round_their_edge_and_lie_within_the_skirt() -> None:
    for woman in dresses():
        after = apply_step(woman, SidePocket())
        assert not failed(after)
        one, other = bags(after)
        for bag in (one, other):
            behind = sewn_behind(after, bag)
            assert behind is not None
            (mouth,) = edges_at(bag, Place.POCKET_MOUTH)
            assert mouth.length >= by_height(after, 0.0487) + 20.0
            # of the open wedges of darts the bag covers some
            assert shape(bag).difference(shape(behind).buffer(1e-3)).area < 0.2 * shape(bag).area
        round_ = [edges_at(bag, Place.POCKET_EDGE)[0].length for bag in (one, other)]
        assert round_[0] == pytest.approx(round_[1], abs=1.0)
        for seam in after.seams:
            walked = walk(after, seam)
            if {ref.piece for ref in (*seam.a, *seam.b)} & {one.name, other.name}:
                assert walked.a == pytest.approx(walked.b, abs=1.0)


def test_it_can_be_sewn_and_its_bags_come_before_the_side_seam() -> None:
    after = apply_step(
        apply_step(dress(), SidePocket()),
        PatchPocket("skirt back", left_only=True, width=90.0, height=100.0),
    )
    steps = sewing_order(after)
    assert not_sewable(after, steps) == []
    places = [(step.act, step.place) for step in steps]
    assert places.index((Act.JOIN, Place.POCKET_MOUTH)) < max(
        k for k, at in enumerate(places) if at == (Act.JOIN, Place.SIDE)
    )
    assert (Act.PATCH, Place.POCKET_EDGE) in places


@pytest.mark.parametrize("pattern_shape", ["rounded", "square", "pointed"])
def test_a_patch_lies_on_its_marks_clear_of_darts_and_edges(pattern_shape: str) -> None:
    for woman in dresses():
        for name in ("skirt front", "skirt back"):
            after = apply_step(woman, PatchPocket(name, shape=pattern_shape))
            assert not failed(after)
            (patch,) = pockets(after)
            piece = after.piece(name)
            assert shape(piece).contains(shape(patch))
            marks = [mark.at for mark in points_at(piece, Landmark.POCKET)]
            assert len(marks) == 4
            for edge in edges_at(patch, Place.POCKET_MOUTH):
                for end in (edge.start, edge.end):
                    assert min(distance(end, at) for at in marks) < 1e-6
            assert patch.cut.count == 2
            assert patch.cut.mirror


def test_two_pockets_on_one_piece_are_told_apart() -> None:
    once = apply_step(dress(), PatchPocket("skirt front", from_centre=30.0))
    twice = apply_step(once, PatchPocket("skirt front", from_centre=30.0, below=300.0))
    assert len({piece.name for piece in pockets(twice)}) == 2
    assert len({mark.name for mark in points_at(twice.piece("skirt front"), Landmark.POCKET)}) == 8
    assert not failed(twice)


@pytest.mark.parametrize(
    ("step", "said"),
    [
        (SidePocket(mouth=80.0), "takes no hand"),
        (SidePocket(below_waist=400.0, mouth=300.0), "has room from"),
        (SidePocket(width=250.0, hangs=20.0), "cannot be rounded"),
        (PatchPocket("skirt front", width=60.0), "left_only = true"),
        (PatchPocket("skirt front", below=450.0), "above the hem"),
        (PatchPocket("skirt front", below=20.0, from_centre=60.0), "run over a dart"),
        (PatchPocket("sleeve"), "no centre line"),
        (PatchPocket("skirt frnt"), "skirt front"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: SidePocket | PatchPocket, said: str) -> None:
    with pytest.raises(StepRefused, match=said) as refused:
        apply_step(dress(), step)
    assert refused.value.alteration == step.name


def test_a_patch_off_its_marks_and_a_bag_below_the_hem_fail_their_check_and_no_other() -> None:
    patched = apply_step(dress(), PatchPocket("skirt front"))
    piece = patched.piece("skirt front")
    moved = tuple(
        replace(mark, at=replace(mark.at, x=mark.at.x + 3.0)) if mark.landmark is Landmark.POCKET else mark
        for mark in piece.points
    )
    assert {r.code for r in failed(with_pieces(patched, replace(piece, points=moved)))} == {"pockets-clear"}
    deep = apply_step(dress(), SidePocket(hangs=300.0, below_waist=150.0, mouth=200.0))
    assert {r.code for r in failed(deep)} == {"pockets-clear"}
    assert all(piece.identity.kind is PieceKind.POCKET for piece in bags(deep))


@pytest.mark.parametrize("step", [PatchPocket("skirt front"), PatchPocket("skirt front", left_only=True)])
def test_a_patch_lies_over_the_seam_between_two_panels_that_lie_flat_there(step: PatchPocket) -> None:
    panels = apply_step(apply_step(dress(), step), DartIntoSeam("skirt front", "waist dart", "hem"))
    assert not failed(panels)
    on, within = (r for r in run_checks(panels) if r.code == "pockets-clear")
    assert on.where == "skirt front patch pocket on skirt front, centre and skirt front, side"
    assert (on.measured, within.measured) == (0.0, 0.0)
    told = [
        each for each in sewing_order(panels) if {"skirt front, centre", "skirt front patch pocket"} & {*each.pieces}
    ]
    acts = [(each.act, each.place) for each in told]
    assert acts.index((Act.JOIN, Place.PRINCESS)) < acts.index((Act.PATCH, Place.POCKET_EDGE))
    side = panels.piece("skirt front, side")
    seam = next(edge for edge in side.edges if edge.place is Place.PRINCESS)
    bulged = replace(
        seam, curves=(Line(seam.start, seam.start + Vec(-20.0, 400.0)), Line(seam.start + Vec(-20.0, 400.0), seam.end))
    )
    apart = with_pieces(panels, with_edges(side, bulged))
    assert [r.measured for r in run_checks(apart) if r.code == "pockets-clear"] == [0.0, 2.0]


def test_left_to_itself_a_pocket_finds_a_place_among_darts_and_in_a_short_seam() -> None:
    """A front with a dart from the shoulder and one from the waist; a skirt hardly longer than the mouth."""
    for woman in dresses():
        after = apply_step(woman, PatchPocket("bodice front", width=60.0, height=70.0, left_only=True))
        assert not failed(after)
        (patch,) = pockets(after)
        assert patch.cut.count == 1
    short = apply_step(dress(), Lengthen("skirt front", -190.0))
    after = apply_step(short, SidePocket())
    assert {edge.name for edge in edges_at(after.piece("skirt front"), Place.SIDE)} > {"side seam at the pocket"}


def test_above_the_hem_of_a_knit_top_it_finds_its_place_by_itself() -> None:
    blocks = (BlockOrder(find_block("knit top")),)
    garment = Garment("top", women()[3], blocks, cloth=Cloth("jersey"), steps=(SidePocket(),))
    assert failed(finish(garment)) == []


@pytest.mark.parametrize(("gap", "enough"), [(37.0, False), (41.0, True)])
def test_a_pocket_ends_four_centimetres_above_a_hem_that_peaks_below_its_middle(gap: float, enough: bool) -> None:
    step = PatchPocket("skirt front", from_centre=60.0, below=250.0, width=120.0, height=130.0)
    low = min(mark.at.y for mark in points_at(apply_step(dress(), step).piece("skirt front"), Landmark.POCKET))
    piece, peak = dress().piece("skirt front"), Point(-120.0, low - gap)
    hem = piece.edge("hem")
    peaked = replace(hem, curves=(Line(hem.start, peak), Line(peak, hem.end)))
    edges = tuple(peaked if edge is hem else edge for edge in piece.edges)
    pattern = with_pieces(replace(dress(), measures=()), replace(piece, edges=edges, lines=()))
    if enough:
        apply_step(pattern, step)
    else:
        with pytest.raises(StepRefused, match=f"it would end {gap:.0f} mm above the hem") as refused:
            apply_step(pattern, step)
        assert refused.value.alteration == step.name


def test_a_pocket_on_one_half_says_so_on_both_pieces_and_in_the_order_of_sewing() -> None:
    shirt = finish(Garment("Shirt", women()[0], (BlockOrder(find_block("blouse"), {}),)))
    for only, note in ((True, ("cut 1, left front only",)), (False, ("cut 2: a pair, one left and one right",))):
        made = apply_step(shirt, PatchPocket("bodice front", width=100.0, height=110.0, left_only=only))
        pocket = made.pieces[-1]
        assert cut_note(pocket) == note
        assert short_cut_note(pocket) == note[0].replace(": a pair, one left and one right", ", a pair")
        said = piece_words(made.piece("bodice front"), made, "in").notes
        assert ("the pocket on the left half only" in said) is only


def test_a_pocket_of_no_size_is_as_large_as_finds_room_and_a_breast_pocket_stays_on_the_breast() -> None:
    quay = person({"height": 1680, "bust": 920, "waist": 740, "hip": 990})
    top = finish(Garment("Top", quay, (BlockOrder(find_block("knit top"), {}),), Cloth("knit", stretch=0.4)))
    made = apply_step(top, step := PatchPocket("top front"))
    assert step.came_to(top, made) == pytest.approx({"width": 0.9 * 135.0, "height": 0.9 * 155.0})
    assert "135 mm by 155 mm, as is usual, finds no room there" in made.origin[0].gave_way[-1]
    with pytest.raises(StepRefused, match="above the hem"):
        apply_step(top, PatchPocket("top front", width=135.0, height=155.0))
    with pytest.raises(StepRefused, match="or move the dart to another edge"):
        apply_step(
            finish(Garment("Bodice", quay, (BlockOrder(find_block("bodice"), {}),))),
            PatchPocket("bodice front", left_only=True),
        )


@pytest.mark.parametrize(("below", "mouth"), [(200.0, 120.0), (230.0, 120.0), (None, 150.0)])
def test_a_mouth_too_low_or_too_long_for_the_first_tier_lies_in_the_next(below: float | None, mouth: float) -> None:
    before, step = a_garment("tiered skirt"), SidePocket(below_waist=below, mouth=mouth)
    after = apply_step(before, step)
    assert {seen.name for bag in bags(after) if (seen := sewn_behind(after, bag))} == {
        "skirt front, tier 2",
        "skirt back, tier 2",
    }
    came_to = step.came_to(before, after)
    assert came_to["mouth"] == pytest.approx(mouth, abs=0.01)
    first = require_edge(before.piece("skirt front, tier 1"), Place.SIDE).length
    assert came_to["below_waist"] >= first + 20.0
    assert below is None or came_to["below_waist"] == pytest.approx(below, abs=0.01)


def test_left_to_itself_a_pocket_keeps_clear_of_the_seams_beside_it_and_is_smaller_for_that() -> None:
    wren = person({"height": 1676, "bust": 940, "waist": 750, "hip": 1010})
    bodice = finish(Garment("Bodice", wren, (BlockOrder(find_block("bodice"), {}),)))
    moved = apply_step(bodice, MoveDart("bodice front", "bust dart", "shoulder at neck"))
    (pocket,) = pockets(apply_step(moved, PatchPocket("bodice front", left_only=True)))
    front = shape(moved.piece("bodice front"))
    assert front.contains(shape(pocket))
    assert front.exterior.distance(shape(pocket)) > 8.0  # 10 mm square to the grain
    assert edges_at(pocket, Place.POCKET_MOUTH)[0].length < 100.0  # the usual one is 105 wide


@pytest.mark.parametrize(("left_only", "low"), [(True, True), (False, False)])
def test_only_a_breast_pocket_is_told_to_lie_low_on_the_breast(left_only: bool, low: bool) -> None:
    """One on both halves is meant to lie below it."""
    after = apply_step(dress(), PatchPocket("bodice front", left_only=left_only))
    said = " ".join(each for origin in after.origin for each in origin.gave_way)
    assert ("lies low on the breast" in said) is low
    assert "finds no room there" in said
