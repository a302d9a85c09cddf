"""Bands of knit and elastic: against the numbers of the trade, measured by numpy, broken so that the check sees it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, finish, prepare
from drafting.alterations import ALTERATIONS, Raglan, apply_step
from drafting.body.person import Person
from drafting.checks import Verdict
from drafting.errors import CannotDraft, NotAPattern
from drafting.fit.cloth import Cloth
from drafting.geometry import Line, length, polyline
from drafting.parts.part_table import find_part, part_of
from drafting.parts.undraw import without_derived
from drafting.pattern import (
    BodyLength,
    ChildWearer,
    NotchMark,
    Pattern,
    Piece,
    Place,
    Role,
    edges_at,
    from_start,
    require_edge,
    walk,
)
from drafting.pattern.casings import casing_depth, casings
from drafting.pattern.gathered import held_in
from drafting.pattern.neck_band import band_rest, banded_edge, neck_band
from drafting.pattern.pattern import finished
from drafting.pattern.text import from_json, to_json
from drafting.sewing import Act, SupplyKind, sewing_order, supplies
from tests.bodies import women
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.sweep_children import children
from tests.sweep_knits import top_for

TURNING = 4.887


@cache
def top(*, cardigan: bool = False) -> Pattern:
    garment = replace(top_for(women()[30], 0.5, cardigan=cardigan), parts=())
    return draft(garment, prepare(garment))


def banded(name: str, pattern: Pattern | None = None, **options: float | None) -> Pattern:
    return with_part(pattern or top(), part_of(find_part(name), options))


def failed(pattern: Pattern) -> set[str]:
    return {result.code for result in run_checks(pattern) if result.verdict is Verdict.FAIL}


def turned(piece: Piece, place: Place) -> tuple[float, float]:
    """How long an edge is and how far it turns, by numpy from a fine polyline."""
    (edge,) = edges_at(piece, place)
    points = np.array([(p.x, p.y) for p in polyline(edge.curves, 0.0005)])
    steps = np.diff(points, axis=0)
    angles = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
    return float(np.hypot(*steps.T).sum()), float(np.abs(np.diff(angles)).sum())


@pytest.mark.parametrize(
    ("edge", "width", "share"),
    [
        (440.0, 15.0, 0.833),
        (480.0, 15.0, 0.847),
        (480.0, 20.0, 0.796),
        (520.0, 20.0, 0.812),
        (600.0, 20.0, 0.837),
        (480.0, 25.0, 0.745),
        (480.0, 30.0, 0.695),
    ],
)
def test_a_straight_band_rests_at_its_free_edge(edge: float, width: float, share: float) -> None:
    """1 - width times turning by edge, on a neck that turns 4.887 (plane geometry)."""
    assert band_rest(edge, width, TURNING) / edge == pytest.approx(share, abs=6e-4)


def test_over_a_head_of_56_a_band_at_48_stretches_38_and_one_that_gives_25_wants_52_9() -> None:
    """By arithmetic: 40.7 to 56; 56 / (1.25 * 0.847). The neck that is drawn uses half of the stretch, so is longer."""
    rest = band_rest(480.0, 15.0, TURNING)
    assert 560.0 / rest - 1.0 == pytest.approx(0.38, abs=0.005)
    assert 560.0 / (1.25 * rest / 480.0) == pytest.approx(529.0, abs=0.6)
    assert banded_edge(0.0, 560.0, 15.0, 0.5, 0.5) == pytest.approx(560.0 / 1.25 + 15.0 * TURNING)
    assert banded_edge(0.0, 560.0, 15.0, 0.5, 0.5) > 52.1


def test_the_band_follows_the_turning_of_the_neck_it_is_sewn_to() -> None:
    pattern = banded("neck band", width=15.0)
    lower = [
        edge for edge in edges_at(pattern.piece("neck band"), Place.BAND_EDGE) if edge.start.y == edge.end.y == 0.0
    ]
    found = {edge.name: edge.length for edge in lower}
    halves = {half: turned(pattern.piece(f"top {half}"), Place.NECK) for half in ("front", "back")}
    long, turning = (sum(each) for each in zip(*halves.values(), strict=True))
    for half, (edge, _) in halves.items():
        for side in ("left", "right"):  # evenly; the end steps of the polyline lie off the tangents
            assert found[f"{side} {half} neck"] == pytest.approx(edge * (1.0 - 15.0 * turning / long), abs=0.3)
    assert failed(pattern) == set()
    assert not list(held_in(pattern)) or all(each.seam.endswith("armhole") for each in held_in(pattern))


def test_its_quarters_lie_at_the_centres_and_half_way_not_at_the_shoulders() -> None:
    pattern = banded("neck band")
    front, back = (turned(pattern.piece(name), Place.NECK)[0] for name in ("top front", "top back"))
    seam = pattern.seam("neck band to right front neck")
    (pair, centre) = sorted(walk(pattern, seam).notches, key=lambda each: each.along_a or 0.0)
    assert pair.along_a == pytest.approx(0.5 * (front + back) - back, abs=0.01)
    assert centre.along_a == pytest.approx(front, abs=0.01)


def test_a_v_neck_takes_a_band_as_long_as_its_straight_sides_with_slanting_ends() -> None:
    step = next(each for each in ALTERATIONS if each.name == "neckline")(depth=60.0, shape="V")  # type: ignore[call-arg]
    pattern = apply_step(banded("neck band"), step)
    band = pattern.piece("neck band")
    front = pattern.seam("neck band to left front neck")
    walked = walk(pattern, front)
    assert walked.a - walked.b < 15.0
    ends = edges_at(band, Place.BAND_END)
    assert all(len(edge.curves) == 2 for edge in ends)
    assert failed(pattern) == set()


def test_a_band_at_a_wrist_or_hem_turns_the_hem_into_a_seam_and_back() -> None:
    for name, piece, place in (("wrist band", "sleeve", Place.WRIST), ("hem band", "top front", Place.HEM)):
        pattern = banded(name, width=50.0)
        edge = require_edge(pattern.piece(piece), place)
        assert (edge.role, edge.allowance) == (Role.SEAM, 15.0)
        was = require_edge(without_derived(pattern).piece(piece), place)
        assert (was.role, was.allowance) == (Role.HEM, require_edge(top().piece(piece), place).allowance)
        assert failed(pattern) == set()
        again = from_json(to_json(pattern))
        assert again.derived == pattern.derived


def test_the_band_of_a_cardigan_is_straight_up_the_front_and_drawn_in_round_the_neck() -> None:
    pattern = banded("front band", top(cardigan=True))
    front = walk(pattern, pattern.seam("front band to right front edge"))
    neck = walk(pattern, pattern.seam("front band to right back neck"))
    assert front.a == pytest.approx(front.b, abs=1e-6)
    assert 1.05 < neck.a / neck.b <= 1.25 + 1e-9
    assert failed(pattern) == set()
    (buttons,) = [
        each for each in supplies(pattern, sewing_order(pattern, knit=True)) if each.kind is SupplyKind.BUTTONS
    ]
    marks = [mark.name for mark in pattern.piece("front band").points]
    assert len(marks) == 2 * buttons.count


def test_a_band_that_its_knit_cannot_be_stretched_to_fails() -> None:
    assert "stretch-enough" in failed(banded("neck band", width=15.0, share=0.7))


def test_a_t_shirt_neck_is_close_and_still_goes_over_the_head() -> None:
    """46 to 48 cm are usual of a T-shirt in jersey; a head of 56 passes what rests at 40.7 cm at 38 % (worked)."""
    assert pytest.approx(560.0, abs=2.0) == 407.0 * 1.38
    for who in women()[::220]:
        garment = top_for(who, 0.35)
        pattern = draft(garment, prepare(garment))
        band = neck_band(pattern)
        assert band is not None
        assert 455.0 <= band.edge <= 495.0
        assert band.rest * 1.35 >= 559.0
        assert any("so that a head of 560 mm" in said for origin in pattern.origin for said in origin.gave_way)


def test_a_narrow_band_has_no_wider_an_allowance() -> None:
    garment = top_for(women()[30], 0.35)
    pattern = draft(garment, prepare(garment))
    band = pattern.piece("neck band")
    assert all(edge.allowance <= 0.5 * max(each.start.y for each in band.edges) for edge in band.edges)
    necks = [edge for piece in pattern.pieces for edge in edges_at(piece, Place.NECK)]
    assert {edge.allowance for edge in necks} == {band.edges[0].allowance}


def test_a_woven_takes_no_band_of_knit() -> None:
    for name in ("neck band", "wrist band"):
        with pytest.raises(NotAPattern, match="for a knit"):
            with_part(sized(92), part_of(find_part(name), {}))


@cache
def puffed() -> Pattern:
    step = next(each for each in ALTERATIONS if each.name == "full sleeve")
    return apply_step(sized(92), step(hem=120.0))  # type: ignore[call-arg]


def test_elastic_at_the_wrist_is_as_long_as_the_arm_and_five_millimetres() -> None:
    pattern = with_part(puffed(), part_of(find_part("wrist elastic"), {"width": 6.0, "heading": 10.0}))
    (casing,) = casings(pattern)
    wrist = pattern.wearer.length("wrist_girth").mm
    assert casing.elastic == pytest.approx(casing.body.girth + 5.0)
    assert wrist <= casing.body.girth <= wrist + 6.0  # the gathered sleeve ends a little higher
    edge = require_edge(pattern.piece("sleeve"), Place.WRIST)
    assert (edge.role, edge.allowance) == (Role.HEM, casing_depth(6.0, 10.0)) == (Role.HEM, 25.0)
    bought = [each for each in supplies(pattern, sewing_order(pattern)) if each.kind is SupplyKind.CASED_ELASTIC]
    assert [(each.count, each.size) for each in bought] == [(2, 6.0)]
    assert "stretch-enough" not in failed(pattern)


def test_elastic_that_presses_or_lets_nothing_through_fails() -> None:
    for long in (120.0, 90.0):
        pattern = with_part(puffed(), part_of(find_part("wrist elastic"), {"length": long}))
        assert "stretch-enough" in failed(pattern)


def skirt_of(waist: float, hip: float, *, child: bool = False) -> Pattern:
    """A straight skirt let be as wide at the waist as it is to be pulled over the hips."""
    who = women()[0]
    mm = {**dict(who.measurements), "waist_girth": waist, "hip_girth": hip}
    who = replace(who, measurements=tuple(mm.items()))
    garment = Garment("skirt", who, (BlockOrder(find_block("skirt")),), cloth=Cloth("cotton"))
    pattern = draft(garment, prepare(garment))
    lengths = (BodyLength("waist_girth", waist, "measured"), BodyLength("hip_girth", hip, "measured"))
    wearer = replace(pattern.wearer, lengths=lengths, child=ChildWearer("girl", 60, "") if child else None)
    return with_part(replace(pattern, wearer=wearer), part_of(find_part("waist elastic"), {}))


@pytest.mark.parametrize(
    ("waist", "hip", "child", "long", "stretched"),
    [(680.0, 940.0, False, 629.2, 0.49), (520.0, 600.0, True, 483.6, 0.24)],
)
def test_the_elastic_of_a_waist(waist: float, hip: float, child: bool, long: float, stretched: float) -> None:
    """68 less 2 in (a sewing teacher) must stretch by 49 % over hips of 94; 0.93 of a child's 52 by 24 % over 60."""
    (casing,) = casings(skirt_of(max(waist, 600.0), hip + 60.0))
    body = replace(casing.body, girth=waist, through=hip)
    from drafting.pattern.casings import usual_elastic

    pattern = skirt_of(680.0, 940.0, child=child)
    elastic = usual_elastic(pattern, Place.WAIST, body)
    assert elastic == pytest.approx(long, abs=0.5)
    assert hip / elastic - 1.0 == pytest.approx(stretched, abs=0.005)


def test_a_waist_that_does_not_pass_the_hips_fails_with_elastic() -> None:
    assert "stretch-enough" in failed(skirt_of(680.0, 940.0))


def test_no_elastic_goes_round_a_childs_neck() -> None:
    dress = sized(92)
    child = replace(dress, wearer=replace(dress.wearer, child=ChildWearer("girl", 60, "")))
    with pytest.raises(NotAPattern, match="no elastic goes round a child's neck"):
        with_part(child, part_of(find_part("neck elastic"), {}))


def test_the_part_takes_the_width_the_block_was_drawn_for() -> None:
    pattern = banded("neck band")
    band = neck_band(pattern)
    assert band is not None
    assert band.width == dict(pattern.origin[0].options)["band_width"]
    assert 0.75 <= band.share <= 0.95


@pytest.mark.parametrize("cloth", ["jersey", "fleece", "sweatshirt fleece", "ponte"])
@pytest.mark.parametrize("part", ["hem band", "wrist band", "neck band"])
def test_a_band_is_cut_as_its_knit_gives(part: str, cloth: str) -> None:
    """0.85 of its edge (common practice), or as long as half of its stretch asks for: 1 / (1 + 0.5 * stretch)."""
    garment = replace(top_for(women()[30], 0.5), cloth=Cloth(cloth), parts=(part_of(find_part(part), {}),))
    pattern = draft(garment, prepare(garment))
    assert [each.where for each in run_checks(pattern) if each.verdict is Verdict.FAIL] == []
    for seam in (seam for seam in pattern.seams if seam.b[0].piece == part):
        walked = walk(pattern, seam)
        assert walked.a / walked.b - 1.0 <= 0.5 * Cloth(cloth).stretch + 1e-9


def test_a_remedy_of_a_band_can_be_typed() -> None:
    garment = replace(
        top_for(women()[30], 0.5), cloth=Cloth("jersey"), parts=(part_of(find_part("hem band"), {"share": 0.7}),)
    )
    told = [each for each in run_checks(draft(garment, prepare(garment))) if each.verdict is Verdict.FAIL]
    assert told
    assert 'share = "87 %"' in told[0].remedy
    mended = replace(garment, parts=(part_of(find_part("hem band"), {"share": 0.87}),))
    assert all(each.verdict is not Verdict.FAIL for each in run_checks(draft(mended, prepare(mended))))


@pytest.mark.parametrize("child", [False, True])
def test_what_has_bands_is_as_long_as_it_was_asked_to_be(child: bool) -> None:
    """The sleeve ends the band's width above the wrist and is drawn in by it; the top above its hem as well."""
    if child:
        blocks = (BlockOrder(find_block("child's bodice"), {"below_waist": 180.0}),)
        blocks = (*blocks, BlockOrder(find_block("child's sleeve")))
        garment = Garment("Top", children()[20], blocks, Cloth("jersey"))
    else:
        garment = replace(top_for(women()[30], 0.5), parts=())
    bands = tuple(part_of(find_part(name), {"width": 50.0}) for name in ("wrist band", "hem band"))
    alone, banded_ = (draft(each, prepare(each)) for each in (garment, replace(garment, parts=bands)))
    told = [{each.name: each.finished for each in finished(pattern)} for pattern in (alone, banded_)]
    for name in ("shoulder to wrist", "centre back, neck to hem", "centre front, neck to hem"):
        assert told[1][name] == pytest.approx(told[0][name], abs=0.5)
    high = [p.point("crown").y - p.point("wrist").y for p in (each.piece("sleeve") for each in (alone, banded_))]
    assert high[0] - high[1] == pytest.approx(50.0, abs=1e-6)
    wrist = next(each.mm for each in banded_.wearer.lengths if each.key == "wrist_girth")
    (edge,) = edges_at(banded_.piece("sleeve"), Place.WRIST)
    rest = banded_.piece("wrist band").edge("wrist").length
    assert wrist + 9.9 <= rest <= 0.95 * edge.length
    assert [each.beyond for each in from_json(to_json(banded_)).measures] == [each.beyond for each in banded_.measures]
    assert not failed(banded_)


def test_a_band_that_leaves_nothing_of_the_garment_is_refused_with_what_can_be_had() -> None:
    top, arm = (BlockOrder(find_block(name)) for name in ("knit top", "knit sleeve"))
    short = replace(top, options={"below_waist": 40.0})
    for block, part, said in ((short, "hem band", "below_waist = "), (top, "wrist band", "shorter = false")):
        wide = (part_of(find_part(part), {"width": 150.0}),)
        garment = Garment("Top", women()[30], (block, arm), Cloth("jersey"), parts=wide)
        little = replace(garment, wearer=small_arm(garment.wearer)) if part == "wrist band" else garment
        with pytest.raises(CannotDraft, match=said):
            draft(little, prepare(little))


def small_arm(who: Person) -> Person:
    """The same with a forearm of 15 cm."""
    lengths = dict(who.measurements)
    return replace(who, measurements=tuple({**lengths, "arm_length": 450.0, "shoulder_to_elbow": 300.0}.items()))


def test_the_front_band_of_a_cardigan_goes_over_the_end_of_its_hem_band() -> None:
    garment = top_for(women()[30], 0.5, cardigan=True)
    alone = draft(garment, prepare(garment))
    hem = part_of(find_part("hem band"), {"width": 50.0, "shorter": False})
    both = replace(garment, parts=(*garment.parts, hem))
    banded = draft(both, prepare(both))
    longs = [max(edge.length for edge in pattern.piece("front band").edges) for pattern in (alone, banded)]
    assert longs[1] - longs[0] == pytest.approx(100.0)
    acts = [(step.act, step.place) for step in sewing_order(banded)]
    assert acts.index((Act.STRETCH_ON, Place.HEM)) < acts.index((Act.STRETCH_ON, Place.CENTRE_FRONT))


def test_a_childs_sweatshirt_has_a_band_at_its_hem() -> None:
    block = find_block("child's bodice")
    who = children()[400]
    order = BlockOrder(block, {"opening": "back slit", "below_waist": 180.0})
    garment = Garment("top", who, (order,), cloth=Cloth("stretch jersey"), parts=(part_of(find_part("hem band"), {}),))
    made = draft(garment, prepare(garment))
    assert "hem band" in {piece.name for piece in made.pieces}
    assert find_part("hem band").fits(block.sites)


def test_a_band_of_a_drawing_that_says_nothing_of_its_cloth_is_not_judged() -> None:
    drawing = replace(banded("wrist band"), stretch=0.0, derived=())
    assert {r.verdict for r in run_checks(drawing) if r.code == "stretch-enough"} == {Verdict.NOTHING}


def test_a_front_band_is_marked_where_a_hand_needs_it() -> None:
    """At the V, the lowest button and the shoulders on each side, and at the centre back (common practice)."""
    garment = top_for(women()[30], 0.5, cardigan=True)
    both = replace(garment, parts=(*garment.parts, part_of(find_part("hem band"), {})))
    pattern = draft(both, prepare(both))
    band, front = pattern.piece("front band"), pattern.piece("top front")
    names = {notch.name for notch in band.notches}
    for side in ("right", "left"):
        wanted = {f"beginning of the V in the {side} front edge", f"lowest button in the {side} front edge"}
        assert wanted <= names
        assert f"{side} shoulder" in names
    assert "centre back" in names
    (at,) = (from_start(front.edge(n.station.edge), n.station) for n in front.notches if n.name == "beginning of the V")
    straight = sum(length(each) for each in front.edge("centre front").curves if isinstance(each, Line))
    assert at == pytest.approx(straight, abs=1e-6)
    side = pattern.seam("side seam")
    assert side.notches  # half a metre without a mark before
    hem = [n for n in pattern.piece("top back").notches if n.marks is NotchMark.QUARTER]
    edge = pattern.piece("top back").edge("hem")
    assert all(20.0 <= from_start(edge, n.station) <= edge.length - 20.0 for n in hem if n.station.edge == "hem")


def test_a_neck_band_is_judged_by_the_knit_that_its_block_was_drawn_for() -> None:
    """Rib that stretches by 80 % on a jersey of 30 %, said of the block alone: the check stretches it by the rib's."""
    block = BlockOrder(
        find_block("child's bodice"), {"opening": "knit band", "band_stretch": 0.8, "below_waist": 180.0}
    )
    sleeve = BlockOrder(find_block("child's sleeve"))
    garment = Garment("Tee", children()[400], (block, sleeve), Cloth("jersey"), steps=(Raglan(),))
    assert "stretch-enough" not in failed(finish(garment))
