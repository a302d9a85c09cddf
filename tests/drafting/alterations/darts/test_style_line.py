"""A dart drawn on into a seam: two pieces whose new seam is equal, smooth and trued (common practice)."""

from __future__ import annotations

import math
import re
from contextlib import suppress
from itertools import pairwise

import pytest
from shapely.geometry import Polygon

from blocks.garment import draft, prepare
from drafting.alterations import DartIntoSeam, FullBust, MoveDart, apply_step, replay
from drafting.body.person import person
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import distance, end_tangents, polyline, run_at, tangent
from drafting.geometry.bending import tightest
from drafting.pattern import PLAIN, Pattern, Piece, dart_mouth, finished, from_start, run_total
from drafting.pattern.cutting import cutting_line
from drafting.pattern.text import to_json
from drafting.pattern.text_read import from_json
from tests.drafting.alterations.test_shapes import turns
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.sweep import dress_for

FRONT = "bodice front"

CASES = {
    "over the bust": DartIntoSeam("bodice front", "bust dart", "waist dart"),
    "to the side": DartIntoSeam("bodice front", "bust dart", "side seam"),
    "to the armhole": DartIntoSeam("bodice back", "waist dart", "armhole"),
    "down the back": DartIntoSeam("bodice back", "shoulder dart", "waist at side"),
    "front gore": DartIntoSeam("skirt front", "waist dart", "hem"),
    "back gore": DartIntoSeam("skirt back", "waist dart 2", "hem"),
}


def halves(name: str) -> tuple[Pattern, list[Piece]]:
    after = apply_step(dress(), CASES[name])
    return after, [piece for piece in after.pieces if piece.name.startswith(f"{CASES[name].piece},")]


def area(piece: Piece) -> float:
    return float(Polygon([(p.x, p.y) for p in polyline(piece.outline, 1e-3)]).area)


@pytest.mark.parametrize("name", CASES)
def test_the_two_pieces_go_together_and_measure_what_the_one_did(name: str) -> None:
    after, pieces = halves(name)
    assert [piece.name.rpartition(", ")[2] for piece in pieces] == ["centre", "side"]
    assert failed(after) == []
    assert [m.finished for m in finished(after)] == pytest.approx([m.finished for m in finished(dress())], abs=1e-6)
    seam = after.seams[0]
    assert run_total(after, seam.a) - run_total(after, seam.b) == pytest.approx(seam.ease.wanted, abs=1e-4)
    if name != "over the bust":
        assert seam.ease == PLAIN
        assert run_total(after, seam.a) == pytest.approx(run_total(after, seam.b), abs=1e-9)


@pytest.mark.parametrize(("beside", "share"), [("centre front", 0.3), ("side seam", 0.3), ("side seam", 0.6)])
def test_where_it_ends_on_the_hem_is_measured_from_the_end_that_is_named(beside: str, share: float) -> None:
    before = dress().piece("skirt front").edge("hem").length
    for step in (
        DartIntoSeam("skirt front", "waist dart", "hem", share=share, measured_from=beside),
        DartIntoSeam("skirt front", "waist dart", "hem", at=share * before, measured_from=beside),
    ):
        after = apply_step(dress(), step)
        hems = {
            name: sum(edge.length for edge in after.piece(f"skirt front, {name}").edges if edge.name.startswith("hem"))
            for name in ("centre", "side")
        }
        near, far = ("centre", "side") if beside == "centre front" else ("side", "centre")
        assert hems[near] == pytest.approx(share * before, abs=0.5)
        assert hems[far] == pytest.approx((1.0 - share) * before, abs=0.5)


@pytest.mark.parametrize(("beside", "longer"), [(1.0, 0.32), (2.0, 0.64), (3.8, 1.21)])
def test_a_seam_that_passes_beside_the_bust_point_is_longer_on_one_side_by_as_much(
    beside: float, longer: float
) -> None:
    """Plane geometry: a dart of 18.25 degrees opens an arc about its point, so much longer `beside` cm off it. Ours
    goes over the point itself, and is drawn off it only where it is smoothed: by less than 2 cm.
    """
    assert beside * math.radians(18.25) == pytest.approx(longer, abs=0.005)
    front = dress().piece("bodice front")
    bust = front.point("bust point")
    one, other = dart_mouth(front, front.dart("bust dart"))
    angle = abs((one - bust).angle_to(other - bust))
    side, centre = (halves("over the bust")[0].piece(f"bodice front, {which}") for which in ("side", "centre"))
    more = side.edge("bust dart seam").length - centre.edge("bust dart seam").length
    assert 0.0 < more < 20.0 * angle


def test_over_the_bust_the_seam_has_no_wave_and_the_side_is_eased_in_by_a_trifle() -> None:
    # common practice: the side is eased over the bust, by up to a quarter of an inch
    for pattern in (dress(), *dresses()[::2]):
        after = apply_step(pattern, CASES["over the bust"])
        seam = after.seams[0]
        centre, side = (after.piece(f"bodice front, {which}") for which in ("centre", "side"))
        more = side.edge("bust dart seam").length - centre.edge("bust dart seam").length
        assert 0.2 < more < 6.35
        assert seam.a[0].piece == side.name
        assert seam.ease.wanted == pytest.approx(more, abs=1e-3)
        # drawn along one dart and then the other it turns back by 17 degrees
        for piece in (centre, side):
            turned = turns(piece.edge("bust dart seam").curves)
            back = [each for each in turned if each * sum(turned) < 0.0]
            assert sum(map(abs, back)) < 10.0, (pattern.wearer.name, piece.name)


@pytest.mark.parametrize("share", [0.5, 0.65])
def test_into_the_armhole_the_seam_comes_at_60_to_90_degrees_and_is_notched_above_and_below_the_bust(
    share: float,
) -> None:
    """Common practice; turned from the shoulder, the dart itself runs along the armhole, at 9 to 14 degrees."""
    for pattern in (dress(), *dresses()[::2]):
        moved = apply_step(pattern, MoveDart(FRONT, "bust dart", "armhole", share=share, measured_from="shoulder"))
        for step in (CASES["over the bust"], CASES["to the armhole"]):
            after = apply_step(moved, step)
            seam = after.seams[0].a[0].edge
            for piece in (piece for piece in after.pieces if piece.name.startswith(f"{step.piece},")):
                edges = piece.edges
                for one, other in zip(edges, (*edges[1:], edges[0]), strict=True):
                    if seam in (one.name, other.name) and "armhole" in one.name + other.name:
                        turned = end_tangents(one.curves[-1])[1].angle_to(end_tangents(other.curves[0])[0])
                        assert 59.9 <= min(math.degrees(turned), 180.0 - math.degrees(turned)) <= 90.0
            assert after.seams[0].ease.wanted < 6.35
            pairs = [result for result in run_checks(after) if result.code == "notches-meet" and seam in result.where]
            assert len(pairs) >= 2
            assert {result.verdict for result in pairs} == {Verdict.PASS}


def test_between_its_notches_the_seam_lies_over_the_bust() -> None:
    after = halves("over the bust")[0]
    for name in ("centre", "side"):
        piece = after.piece(f"{FRONT}, {name}")
        edge, bust = piece.edge("bust dart seam"), after.piece(f"{FRONT}, centre").point("bust point")
        marks = [notch for notch in piece.notches if notch.station.edge == "bust dart seam"]
        heights = sorted(run_at(edge.curves, from_start(edge, notch.station)).y for notch in marks)
        assert len(heights) == 2
        assert heights[0] < bust.y < heights[1]


def to_the_armhole(pattern: Pattern, share: float) -> Pattern | None:
    """The seam over the bust to that share of the armhole; None where the dart cannot be turned to there."""
    try:
        moved = apply_step(pattern, MoveDart(FRONT, "bust dart", "armhole", share=share, measured_from="shoulder"))
    except StepRefused:
        return None
    return apply_step(moved, CASES["over the bust"])


def bodies() -> list[Pattern]:
    """The dress, two sizes of a chart, and the women of the sample; each with a full bust too, where it can be had."""
    found = [dress(), *(sized(size) for size in (88, 96)), *dresses()]
    for pattern in tuple(found):
        with suppress(StepRefused):
            found.append(apply_step(pattern, FullBust(40.0)))
    return found


def test_the_seam_over_the_bust_bends_no_tighter_than_its_allowance_and_5_mm_and_meets_in_one_round() -> None:
    """A hook of 3 to 5 mm stood at the armhole before, and 31 mm on the side panel beside the upper notch."""
    seen = 0
    for pattern in bodies():
        whole = apply_step(pattern, CASES["over the bust"])
        for after in (whole, *(to_the_armhole(pattern, share) for share in (0.4, 0.5, 0.6, 0.75))):
            if after is None:
                continue
            seen += 1
            centre, side = (after.piece(f"{FRONT}, {which}") for which in ("centre", "side"))
            bust = centre.point("bust point")
            for piece in (centre, side):
                edge = piece.edge("bust dart seam")
                least = edge.allowance + 5.0 if after is not whole else 60.0
                assert min(bend.radius for bend in tightest(edge.curves)) >= least, (pattern.wearer.name, piece.name)
                assert min(distance(bust, place) for place in polyline(edge.curves, 0.05)) < 5.0
            # an outer waist dart that stays on the side is drawn towards it, and needs it there
            marked = any(mark.name == "bust point" for mark in side.points)
            assert marked == any(dart.aims_at == "bust point" for dart in side.darts)
            assert after.seams[0].ease.wanted < 6.35
    assert seen > 55


def test_into_the_waist_it_is_notched_above_and_below_the_bust_too() -> None:
    round_waisted = {"stature": 1630.0, "bust_girth": 1040.0, "waist_girth": 1080.0, "hip_girth": 1020.0}
    garment = dress_for(person(round_waisted, name="ours", place="ours"))
    after = apply_step(
        draft(garment, prepare(garment)),
        DartIntoSeam(FRONT, "bust dart", "waist", share=0.4, measured_from="centre front"),
    )
    centre = after.piece(f"{FRONT}, centre")
    edge, bust = centre.edge("bust dart seam"), centre.point("bust point")
    heights = [
        run_at(edge.curves, from_start(edge, notch.station)).y
        for notch in centre.notches
        if notch.station.edge == edge.name
    ]
    assert min(heights) < bust.y - 10.0
    assert max(heights) > bust.y + 10.0


@pytest.mark.parametrize("name", ["front gore", "back gore"])
def test_down_to_a_hem_the_seam_falls_without_a_wave(name: str) -> None:
    # common practice: a gore is drawn straight from the point of the dart; square to the hem it would swing back there
    for pattern in (dress(), *dresses()[::2]):
        after = apply_step(pattern, CASES[name])
        side = after.piece(f"{CASES[name].piece}, side")
        below = side.edge(f"{CASES[name].dart} seam").curves
        turned = turns([min(below, key=lambda curve: min(curve.start.y, curve.end.y))])
        assert len(turned) == 1, (pattern.wearer.name, turned)


@pytest.mark.parametrize("name", CASES)
def test_the_new_seam_has_no_corner_where_the_dart_ended(name: str) -> None:
    for piece in halves(name)[1]:
        curves = piece.edge(f"{CASES[name].dart} seam").curves
        assert len(curves) > 1
        for one, other in pairwise(curves):
            assert abs(tangent(one, 1.0).cross(tangent(other, 0.0))) < 1e-9


@pytest.mark.parametrize("name", CASES)
def test_the_two_pieces_are_the_cloth_of_the_one(name: str) -> None:
    # smoothing takes as much from one side of a leg as the bend gives: a stranger's areas, within what is filled in at
    # the points of the darts, which is no more on a larger piece: 12 square centimetres at the most, over the bust
    _, pieces = halves(name)
    assert sum(area(piece) for piece in pieces) == pytest.approx(area(dress().piece(CASES[name].piece)), abs=1200.0)


@pytest.mark.parametrize("name", CASES)
def test_what_was_on_the_piece_is_on_one_of_the_two(name: str) -> None:
    old = dress().piece(CASES[name].piece)
    _, pieces = halves(name)
    assert {n.name for n in old.notches} <= {n.name for piece in pieces for n in piece.notches}
    assert {m.name for m in old.points} <= {m.name for piece in pieces for m in piece.points}
    assert {line.name for line in old.lines} <= {line.name for piece in pieces for line in piece.lines}
    for piece in pieces:
        assert piece.grain is not None
        assert piece.grain.start.x == pytest.approx(piece.grain.end.x)
        assert cutting_line(piece)


def test_the_piece_on_the_fold_is_cut_once_and_the_other_as_a_pair() -> None:
    centre, side = halves("over the bust")[1]
    assert (centre.cut.count, centre.cut.fold) == (1, True)
    assert (side.cut.count, side.cut.fold, side.cut.mirror) == (2, False, True)


def test_it_replays_is_written_and_read_and_follows_a_full_bust() -> None:
    after = apply_step(apply_step(dress(), FullBust(30.0)), CASES["over the bust"])
    assert failed(after) == []
    assert replay(dress(), after.history) == after
    assert from_json(to_json(after)).seams == after.seams


REFUSALS = [
    (DartIntoSeam("bodice front", "bust dart", "centre front"), "is no seam"),
    (DartIntoSeam("bodice front", "bst dart", "waist dart"), 'Did you mean "bust dart"'),
    (DartIntoSeam("bodice front", "waist dart", "armhole", share=0.6, measured_from="side seam"), "would cross"),
]


@pytest.mark.parametrize(("step", "reason"), REFUSALS)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: DartIntoSeam, reason: str) -> None:
    with pytest.raises(StepRefused, match=reason) as refused:
        apply_step(dress(), step)
    assert refused.value.alteration == step.name


def test_where_a_place_cannot_bear_the_seam_the_share_that_is_told_can_be_had() -> None:
    tried = 0
    for pattern in (dress(), *dresses(every=314)[::3]):
        for share in (0.8, 0.9):
            moved = apply_step(pattern, MoveDart(FRONT, "bust dart", "armhole", share=share, measured_from="shoulder"))
            step = DartIntoSeam(FRONT, "bust dart", "waist at side")
            with suppress(StepRefused):
                apply_step(moved, step)
                continue
            with pytest.raises(StepRefused) as refused:
                apply_step(moved, step)
            told = re.search(r'at (\d+) % of the armhole, measured from "(.+?)"', str(refused.value))
            if told is None:  # another dart lies in its way, wherever it begins
                assert "choose another place" in str(refused.value)
                continue
            there = MoveDart(FRONT, "bust dart", "armhole", share=0.01 * int(told[1]), measured_from=told[2])
            assert failed(apply_step(apply_step(pattern, there), step)) == []
            tried += 1
    assert tried > 3
