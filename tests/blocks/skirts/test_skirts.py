"""Skirts by flare, gore, tier and pleat: the numbers of handbooks, and what must be true on real women."""

from __future__ import annotations

import math

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from blocks.skirts.circle import CIRCLES, girth_at, least_angle
from blocks.skirts.gored import corner_lift, taken_per_seam
from blocks.skirts.tiered import tier_heights, tier_widths
from drafting.alterations.skirt.pleat_plan import deepest, folds_for, pleat_plan, width_of
from drafting.body.person import person
from drafting.checks import Verdict
from drafting.errors import CannotDraft
from drafting.fit.cloth import Cloth
from drafting.pattern import Half, Level, Notch, Pattern, Piece, Place, Role, edges_at, finished
from drafting.pattern.pleats import pleats_of
from drafting.reading.options import Value
from drafting.sewing.flared_skirt import drop_at, drops
from tests.bodies import women
from tests.quick_checks import run_checks


def made(
    name: str, options: dict[str, Value] | None = None, who: int = 0, *more: str, width: float = 1400.0
) -> Pattern:
    orders = (*(BlockOrder(find_block(each)) for each in more), BlockOrder(find_block(name), options or {}))
    garment = Garment("skirt", women()[who], orders, cloth=Cloth(width=width))
    return draft(garment, prepare(garment))


@pytest.mark.parametrize(
    ("part", "hem", "hip"),
    [
        ("full", 447.0, 195.7),
        ("three quarters", 352.7, 164.2),
        ("half", 258.5, 132.8),
        ("third", 195.7 + 0.9, 111.9),
        ("quarter", 164.2, 101.4),
    ],
)
def test_circles_of_a_waist_of_70_cm_and_60_cm_long(part: str, hem: float, hip: float) -> None:
    """Plane geometry, W 70, L 60, 20 cm down, in cm; the third's hem is 70 + 2 pi / 3 * 60 = 195.66."""
    angle = CIRCLES[part]
    expected = 195.66 if part == "third" else hem
    assert girth_at(70.0, angle, 60.0) == pytest.approx(expected, abs=0.06)
    assert girth_at(70.0, angle, 20.0) == pytest.approx(hip, abs=0.06)


def test_a_quarter_of_a_circle_just_fails_a_hip_of_98_and_a_third_passes() -> None:
    """Plane geometry: (98 + 4 - 70) / 20 = 1.6 radians."""
    least = least_angle(70.0, 102.0, 20.0)
    assert least == pytest.approx(1.6)
    assert CIRCLES["quarter"] < least < CIRCLES["third"]


def test_six_gores_take_in_483_mm_at_each_seam_and_lift_their_hem_corners() -> None:
    """Plane geometry: W 69, H 98, 6 gores: 4.83 a seam; L 70 and 3, 6, 10 of flare: 0.06, 0.26, 0.71 (cm)."""
    assert taken_per_seam(690.0, 980.0, 6) == pytest.approx(48.3, abs=0.05)
    assert [corner_lift(700.0, flare) for flare in (30.0, 60.0, 100.0)] == pytest.approx([0.64, 2.57, 7.11], abs=0.01)


def test_four_gores_are_taken_in_least_at_the_centre_front_and_a_zip_lies_straight() -> None:
    """The order of a six-gore skirt of 1916: less at the front seams than behind, most at the sides."""
    by_place, alike = (made("gored skirt", {"gores": "4", "shared": how}) for how in ("by place", "alike"))
    front, back, side = (taken_in(by_place, *at) for at in (("front", "seam"), ("back", "opening"), ("front", "side")))
    assert front < 0.5 * side
    assert front < back < side
    assert taken_in(alike, "front", "seam") == pytest.approx(taken_in(alike, "front", "side"), abs=0.5)
    assert not [r for r in run_checks(by_place) if r.verdict is not Verdict.PASS and r.code == "turned-in-lies"]


def taken_in(pattern: Pattern, half: str, edge: str) -> float:
    """How far an edge of a piece of four gores comes in from the hip line to the waist, mm."""
    piece = pattern.piece(f"skirt {half}")
    named = "side seam" if edge == "side" else f"centre {half} {edge}"
    at_hip = next(line for line in piece.lines if line.level is Level.HIP)
    top = max((at for at in (piece.edge(named).start, piece.edge(named).end)), key=lambda at: at.y)
    return min(abs(top.x - end.x) for end in (at_hip.start, at_hip.end))


def test_the_middle_gore_of_six_is_a_twelfth_of_the_hip_on_the_half_pattern() -> None:
    """A six-gore skirt of 1916: H 98 gives 8.17 cm."""
    pattern = made("gored skirt", {"gores": "6"})
    hip = sum(2.0 * span(pattern, name) for name in names(pattern))
    assert span(pattern, "skirt front, centre") == pytest.approx(hip / 12.0, abs=1e-6)


def test_tiers_grow_as_the_bulletin_has_them() -> None:
    """A home economics bulletin: hip 98 and 12, times 1.5 or 2; heights 0.75 : 1 : 1.5 of 66 cm."""
    assert tier_widths(110.0, 1.5, 3) == pytest.approx([110.0, 165.0, 247.5])
    assert tier_widths(110.0, 2.0, 3) == pytest.approx([110.0, 220.0, 440.0])
    assert tier_heights(66.0, (0.75, 1.0, 1.5)) == pytest.approx([15.23, 20.31, 30.46], abs=0.005)
    assert tier_heights(66.0, (1.0, 1.25, 1.5625)) == pytest.approx([17.31, 21.64, 27.05], abs=0.01)


def test_knife_pleats_take_three_times_the_hip_and_lap_more_at_the_waist() -> None:
    """Plane geometry: H + 4 = 102, W + 1 = 71, 20 pleats: 5.10 seen at the hip, 3.55 at the waist, cloth 306 (cm)."""
    assert width_of("knife", Half.BACK, 1020.0 / 2.0, 10) == pytest.approx(51.0)
    assert width_of("knife", Half.BACK, 710.0 / 2.0, 10) == pytest.approx(35.5)
    plan = pleat_plan("knife", Half.BACK, 10, 51.0, hip=510.0, waist=355.0)
    front = pleat_plan("knife", Half.FRONT, 10, 51.0, hip=510.0, waist=355.0)
    assert plan.wide + front.wide == pytest.approx(2.0 * 1530.0, abs=1e-9)
    takes = [mark.hip - mark.waist for mark in plan.marks if mark.level is Level.PLEAT_PLACE][1:]
    assert takes == pytest.approx([15.5] * 10)


def test_box_pleats_take_four_depths_each() -> None:
    """A sewing teacher: a finished 60 with one pleat of 12 takes 108; 66 with one of 6.5 takes 92 (cm)."""
    assert 2.0 * pleat_plan("inverted", Half.BACK, 1, 60.0, hip=300.0, waist=300.0).wide == pytest.approx(2.0 * 540.0)
    assert pleat_plan("inverted", Half.BACK, 1, 65.0, hip=660.0, waist=660.0).wide == pytest.approx(920.0)
    assert pleat_plan("inverted", Half.BACK, 1, 120.0, hip=600.0, waist=600.0).wide == pytest.approx(1080.0)
    assert deepest("box", 90.0) == 45.0
    assert folds_for("knife", Half.BACK, 250.0, 50.0) == 5


SKIRTS: tuple[tuple[str, dict[str, Value]], ...] = (
    ("circle skirt", {}),
    ("circle skirt", {"circle": "full", "length": 900.0}),
    *(("gored skirt", {"gores": str(count)}) for count in (4, 5, 6, 7, 8)),
    ("tiered skirt", {}),
    ("tiered skirt", {"tiers": "5", "ratio": 2.0, "length": 900.0}),
    *(("pleated skirt", {"pleats": kind}) for kind in ("knife", "box", "inverted")),
)


@pytest.mark.parametrize(("name", "options"), SKIRTS)
@pytest.mark.parametrize("who", [0, 500])
def test_on_real_women_every_check_passes_alone_and_below_a_bodice(
    name: str, options: dict[str, Value], who: int
) -> None:
    for more in ((), ("bodice",)):
        pattern = made(name, options, who, *more)
        assert not [r for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR)]


@pytest.mark.parametrize(("name", "options"), SKIRTS)
def test_waist_and_hip_are_as_asked_for_once_all_is_sewn(name: str, options: dict[str, Value]) -> None:
    pattern = made(name, options)
    found = {each.name: each for each in finished(pattern)}
    asked = {measure.name: measure.ease for measure in pattern.measures}
    assert found["waist"].ease == pytest.approx(asked["waist"], abs=0.05)
    if name in ("gored skirt", "pleated skirt"):
        assert found["hip"].ease == pytest.approx(asked["hip"], abs=0.05)
    assert (found["hip"].ease or 0.0) >= asked["hip"] - 0.05


@pytest.mark.parametrize("count", [4, 5, 6, 7, 8])
def test_the_two_edges_of_every_gore_seam_are_one_line(count: int) -> None:
    pattern = made("gored skirt", {"gores": str(count)})
    for seam in pattern.seams:
        lengths = [
            sum(pattern.piece(ref.piece).edge(ref.edge).length_within(1e-7) for ref in run) for run in (seam.a, seam.b)
        ]
        assert lengths[0] == pytest.approx(lengths[1], abs=1e-5), seam.name
    assert sum(piece.cut.count for piece in pattern.pieces) == count


@pytest.mark.parametrize("width", [900.0, 1150.0])
@pytest.mark.parametrize(("name", "options"), [SKIRTS[1], SKIRTS[7], SKIRTS[-3]])
def test_no_piece_is_wider_than_the_cloth_and_what_it_asked_for_is_said(
    name: str, options: dict[str, Value], width: float
) -> None:
    pattern = made(name, options, width=width)
    for piece in pattern.pieces:
        xs = [point.x for edge in piece.edges for point in (edge.start, edge.end)]
        wide = (max(xs) - min(xs)) * (2.0 if piece.cut.fold else 1.0)
        assert wide <= width
    assert any("because the cloth is" in sentence for origin in pattern.origin for sentence in origin.gave_way)


def test_what_would_lap_over_or_not_go_over_the_hip_is_refused_with_what_would_do() -> None:
    with pytest.raises(CannotDraft, match="lap over each other"):
        made("pleated skirt", {"wide": 40.0, "depth": 80.0})
    slim = person({"height": 1680.0, "bust": 900.0, "waist": 600.0, "hip": 1100.0, "waist_to_hip": 190.0}, name="Ilse")
    garment = Garment("skirt", slim, (BlockOrder(find_block("circle skirt"), {"circle": "quarter"}),))
    with pytest.raises(CannotDraft, match='circle = "'):
        draft(garment, prepare(garment))


def test_a_seam_between_panels_of_a_pleated_skirt_lies_inside_a_pleat() -> None:
    pattern = made("pleated skirt", {}, width=900.0)
    for piece in pattern.pieces:
        ends = [edge for edge in piece.edges if edge.place in (Place.GORE, Place.SIDE)]
        beside = {round(x, 3) for pleat in pleats_of(piece) for x in (pleat.fold.end.x, pleat.place.end.x)}
        assert all(round(edge.start.x, 3) in beside for edge in ends)


def names(pattern: Pattern) -> list[str]:
    return [piece.name for piece in pattern.pieces]


def span(pattern: Pattern, name: str) -> float:
    line = next(line for line in pattern.piece(name).lines if line.level is Level.HIP)
    return math.dist((line.start.x, line.start.y), (line.end.x, line.end.y))


def test_a_gored_skirt_on_a_bodice_opens_where_the_bodice_does() -> None:
    """Behind, with a seam down the middle of a gore that lies there; alone one of six gores opens at the side."""
    wearer = person({"height": 1680.0, "bust": 960.0, "waist": 760.0, "hip": 1020.0}, name="Ilse")
    gored = BlockOrder(find_block("gored skirt"), {"gores": "6"})
    for blocks, at in (((BlockOrder(find_block("bodice")), gored), Place.CENTRE_BACK), ((gored,), Place.SIDE)):
        garment = Garment("dress", wearer, blocks)
        pattern = draft(garment, prepare(garment))
        opened = {edge.place for piece in pattern.pieces for edge in piece.edges if edge.role is Role.OPENING}
        assert opened == {at}


def test_hem_drop_by_the_model_of_a_skirt_of_60_cm_in_cloth_that_gives_3_percent() -> None:
    """A model of cloth on the bias, s sin(2 phi)^2 of the length, in cm: 0, 0.45, 1.35, 1.80, 1.35 and 0."""
    angles = [math.radians(each) for each in (0, 15, 30, 45, 60, 90)]
    found = [drop_at(60.0, 0.03, angle) for angle in angles]
    assert found == pytest.approx([0.0, 0.45, 1.35, 1.80, 1.35, 0.0], abs=0.005)


def test_a_circle_skirt_drops_most_midway_between_the_grains() -> None:
    """Half a circle cut with the centres on the grain: its quarter spans a right angle, most at half of that."""
    pattern = made("circle skirt", {"circle": "full"}, width=3000.0)
    long = dict(pattern.origin[0].options)["length"]
    for drop in drops(pattern):
        hem = edges_at(pattern.piece(drop.piece), Place.HEM)[0]
        assert drop.mm == pytest.approx(0.03 * float(str(long)), abs=0.05)
        assert drop.along == pytest.approx(0.5 * hem.length, rel=0.01)
    assert len(drops(pattern)) == 2


@pytest.mark.parametrize("kind", ["knife", "box", "inverted"])
def test_every_fold_and_every_place_is_notched_above_and_below(kind: str) -> None:
    """After cutting the folds are found by them; one notch does where two meet, none where a pleat goes over a seam."""
    pattern = made("pleated skirt", {"pleats": kind}, 3, "bodice")
    for piece in (piece for piece in pattern.pieces if "skirt" in piece.name):
        hem = {at(piece, notch) for notch in piece.notches if piece.edge(notch.station.edge).place is Place.HEM}
        lines = {round(line.end.x, 1) for line in piece.lines if line.level in (Level.PLEAT_FOLD, Level.PLEAT_PLACE)}
        ends = {round(point.x, 1) for edge in piece.edges for point in (edge.start, edge.end)}
        assert hem == lines - ends
        above = [notch for notch in piece.notches if notch.name.endswith(", above")]
        assert len(above) >= len(hem) - 1  # the notch of the waist seam stands in the place of one


def test_a_knife_pleat_that_goes_over_a_seam_is_one_pleat() -> None:
    """The fold lies on one piece and its place on the next; the seam between them is called what it is."""
    pattern = made("pleated skirt", {}, 3, width=900.0)
    inside = [line for piece in pattern.pieces for line in piece.lines if line.level is Level.PLEAT_SEAM]
    seams = [seam for seam in pattern.seams if "gore" in seam.name or "side" in seam.name]
    assert len(inside) == 2 * len(seams)


def at(piece: Piece, notch: Notch) -> float:
    edge = piece.edge(notch.station.edge)
    way = 1.0 if edge.end.x > edge.start.x else -1.0
    start = edge.start.x + way * notch.station.at
    return round(start if notch.station.end == "start" else edge.end.x - way * notch.station.at, 1)


@pytest.mark.parametrize("tiers", ["2", "5"])
def test_no_stretch_of_a_gathered_tier_is_without_a_mark_for_long(tiers: str) -> None:
    found = [each for each in run_checks(made("tiered skirt", {"tiers": tiers})) if each.check == "gathers"]
    assert found
    assert {each.verdict for each in found} == {Verdict.PASS}
