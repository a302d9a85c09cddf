"""Checks of shapes on pieces of a few straight lines, where every figure they tell can be worked out beside them."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.checks import Verdict, curves
from drafting.errors import Setting
from drafting.geometry import Cubic, Line, Point, Vec, blend, polar
from drafting.pattern import (
    Dart,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Level,
    MarkLine,
    MarkPoint,
    Notch,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Station,
)
from drafting.pattern.places import BodyPart
from tests.drafting.checks.worked import BACK, FRONT, UP, drawn, panel, pattern, the, told, with_edge


@pytest.mark.parametrize(
    ("wide", "high", "room"), [(24.0, 300.0, 4.0), (19.95, 300.0, -0.05), (19.85, 300.0, -0.15), (60.0, 24.0, -16.0)]
)
def test_a_narrow_piece_is_as_wide_as_it_is_less_both_allowances(wide: float, high: float, room: float) -> None:
    """The hem, which is turned up, takes nothing away from what is across it: 24 - 30 of hem - 10."""
    piece = with_edge(panel(wide=wide, high=high), "hem", allowance=30.0)
    result = the("narrow-turns", pattern(piece))
    assert result.measured == pytest.approx(room)
    assert (result.verdict is Verdict.PASS) == (room >= -0.1)


@pytest.mark.parametrize(("wide", "high", "narrow"), [(90.0, 300.0, True), (90.1, 300.0, False), (300.0, 90.0, True)])
def test_a_piece_is_narrow_to_90_mm_either_way(wide: float, high: float, narrow: bool) -> None:
    (result,) = told("narrow-turns", pattern(panel(wide=wide, high=high)))
    assert (result.measured is not None) is narrow


def test_a_side_is_looked_at_from_25_mm_on() -> None:
    """Of a strip 20 mm wide and 25 long the ends are looked at too, of one 24.9 long only nothing is."""
    for high, room in ((25.0, 0.0), (24.9, 90.0)):
        piece = with_edge(with_edge(panel(wide=20.0, high=high), "hem", role=Role.FOLD), "top", role=Role.FOLD)
        assert the("narrow-turns", pattern(piece)).measured == pytest.approx(room)


def test_a_free_edge_across_from_an_edge_takes_nothing_of_its_room() -> None:
    piece = with_edge(panel(wide=50.0), "side", role=Role.FOLD)
    assert the("narrow-turns", pattern(piece)).measured == pytest.approx(40.0)


@pytest.mark.parametrize(("one", "other"), [(0.0, 0.0), (0.05, 0.05), (0.05, 0.03), (0.02, 0.08)])
def test_two_gores_hang_apart_by_how_far_their_lower_ends_lean_differently(one: float, other: float) -> None:
    """The edges are bowed: upright above, and leaning by so many radians below, one drawn down and one drawn up."""

    def gore(name: str, lean: float, *, down: bool) -> Piece:
        piece = panel(name, identity=Identity(PieceKind.FRONT, BodyPart.SKIRT))
        edge = piece.edge("centre" if down else "side")
        tilt = -math.pi / 2 - lean if down else math.pi / 2 + lean
        ends = (-math.pi / 2, tilt) if down else (tilt, math.pi / 2)
        curve = blend(edge.start, polar(ends[0]), edge.end, polar(ends[1]))
        return with_edge(piece, edge.name, curves=(curve,), place=Place.GORE)

    first, second = gore("first", one, down=True), gore("second", other, down=False)
    seam = Seam("gore", (EdgeRef("first", "centre"),), (EdgeRef("second", "side", backward=True),))
    result = the("fullness-lies", pattern(first, second, seams=(seam,)))
    apart = 400.0 * abs(math.tan(one) - math.tan(other))
    assert result.measured == pytest.approx(apart, abs=1e-6)
    assert result.verdict is (Verdict.PASS if apart <= 5.0 else Verdict.WARN)
    bare = replace(pattern(first, replace(second, grain=None), seams=(seam,)))
    assert not [each for each in told("fullness-lies", bare) if each.measured is not None]


def test_a_tier_is_told_by_how_many_times_it_is_as_wide_as_the_one_above() -> None:
    above = with_edge(panel("above"), "hem", place=Place.TIER)
    for wide, verdict in ((229.0, Verdict.WARN), (230.0, Verdict.PASS), (600.0, Verdict.PASS), (601.0, Verdict.WARN)):
        tier = with_edge(panel("tier", wide), "top", place=Place.TIER)
        seam = Seam("tiers", (EdgeRef("tier", "top"),), (EdgeRef("above", "hem", backward=True),))
        result = the("fullness-lies", pattern(tier, above, seams=(seam,)))
        assert (result.measured, result.verdict) == (pytest.approx(wide / 200.0), verdict)


@pytest.mark.parametrize(
    ("turn", "verdict"), [(15.9, Verdict.PASS), (16.1, Verdict.WARN), (23.9, Verdict.WARN), (24.1, Verdict.FAIL)]
)
def test_a_raglan_seam_leaves_the_armhole_without_turning_back(turn: float, verdict: Verdict) -> None:
    """The armhole goes in level and bends up; the seam leaves it so many degrees off the way it had."""
    foot, leaves = Point(200.0, 100.0), Point(150.0, 140.0)
    way = polar(math.radians(90.0 + turn))
    end = leaves + way * 150.0
    piece = Piece(
        "front",
        (
            Edge("hem", (Line(Point(0.0, 0.0), Point(200.0, 0.0)),), Role.HEM, 10.0, Place.HEM),
            Edge("side", (Line(Point(200.0, 0.0), foot),), place=Place.SIDE),
            Edge("armhole", (blend(foot, polar(math.pi), leaves, polar(math.pi / 2)),), place=Place.ARMHOLE),
            Edge("raglan", (Line(leaves, end),), place=Place.RAGLAN),
            Edge("neck", (Line(end, Point(0.0, end.y)),), place=Place.NECK),
            Edge("centre", (Line(Point(0.0, end.y), Point(0.0, 0.0)),), Role.FOLD, place=Place.CENTRE_FRONT),
        ),
        grain=UP,
        identity=FRONT,
    )
    result = the("curves-even", pattern(piece), "where it leaves the armhole")
    assert (result.measured, result.verdict) == (pytest.approx(turn), verdict)


def test_a_body_whose_hips_lie_at_its_waist_is_held_to_no_step() -> None:
    skirt = replace(
        panel("skirt", identity=Identity(PieceKind.FRONT, BodyPart.SKIRT)),
        lines=(MarkLine("hip", Point(0.0, 250.0), Point(200.0, 250.0), level=Level.HIP),),
    )
    body = {"stature": 1700.0, "hip_girth": 1000.0, "waist_height": 1050.0}
    step = told("ease-to-move", pattern(skirt, waist_to_hip=200.0, **body))
    # 250 mm below the hip of 850 down to the floor: so much of a step of 697 mm, three quarters of it, and the legs
    assert step[0].wanted == pytest.approx(2.0 * 0.75 * 697.0 * 250.0 / 850.0 + 360.0)
    assert (step[0].measured, step[0].verdict) == (pytest.approx(200.0), Verdict.FAIL)
    assert [each.settings for each in step[0].remedies] == [(Setting("hem", 365.0, "mm"),)]
    for drop in (1050.0, 1100.0):
        assert not [each for each in told("ease-to-move", pattern(skirt, waist_to_hip=drop, **body)) if each.measured]


def test_a_line_folds_where_its_allowance_is_wider_than_it_is_hollow() -> None:
    """A quarter of a circle of 30 mm is hollowed in a corner of a panel; it may be cut with 30 mm and no more."""
    r, k = 30.0, 30.0 * 0.5522847
    corner = Point(200.0, 300.0)
    hollow = Cubic(corner + Vec(0.0, -r), corner + Vec(-k, -r), corner + Vec(-r, -k), corner + Vec(-r, 0.0))
    for allowance, verdict in ((29.0, Verdict.PASS), (31.0, Verdict.FAIL)):
        sides = {edge.name: edge for edge in panel().edges}
        edges = (
            sides["hem"],
            replace(sides["side"], curves=(Line(sides["side"].start, hollow.start),)),
            Edge("hollow", (hollow,), Role.SEAM, allowance, Place.YOKE),
            replace(sides["top"], curves=(Line(hollow.end, sides["top"].end),)),
            sides["centre"],
        )
        result = the("bends-allowed", pattern(Piece("front", edges, grain=UP, identity=FRONT)), "hollow")
        assert (result.measured, result.verdict) == (pytest.approx(r, rel=0.01), verdict)
        if verdict is Verdict.FAIL:
            assert "a circle of 29." in result.remedy or "a circle of 30." in result.remedy
            assert "31.0 mm" in result.remedy


def test_a_place_on_an_edge_is_told_from_its_nearer_end() -> None:
    piece = panel("front")
    for at, told_as in (
        (0.0, "At the hem"),
        (0.99, "At the hem"),
        (1.01, "1 mm from the hem"),
        (150.0, "150 mm from the hem"),
        (151.0, "149 mm from the top"),
        (298.9, "1 mm from the top"),
        (300.0, "At the top"),
    ):
        assert curves._place_words(piece, piece.edge("side"), at) == told_as
    assert curves._place_words(piece, piece.edge("centre"), 290.0) == "10 mm from the hem"
    assert curves._place_words(piece, piece.edge("hem"), 3.0) == "3 mm from the centre"


@pytest.mark.parametrize("allowance", [0.0, 6.0, 10.0, 25.0, 60.0])
def test_the_tightest_bend_allowed_grows_with_the_allowance(allowance: float) -> None:
    def least(place: Place, *, narrow: float | None = None, behind: bool = False) -> float:
        piece = with_edge(panel("front"), "side", place=place, allowance=allowance)
        if behind:
            piece = with_edge(piece, "centre", place=Place.CENTRE_BACK)
        return curves._least(piece, piece.edge("side"), narrow)

    assert least(Place.ARMHOLE) == max(curves._ARMHOLE, allowance + curves._ARMHOLE_MORE)
    assert least(Place.ARMHOLE, narrow=30.0) == least(Place.YOKE) == allowance
    assert least(Place.NECK) == max(curves._NECK, allowance)
    assert least(Place.NECK, behind=True) == max(curves._NECK, allowance + curves._BACK_NECK_MORE)


def test_a_seam_sewn_the_wrong_way_round_and_one_that_bends_a_hem_are_told() -> None:
    """Two panels that lean out below by 4 degrees each: their hem bends by 8 where they are sewn, which a hem may."""

    def leaning(name: str, degrees: float, identity: Identity) -> Piece:
        out = 300.0 * math.tan(math.radians(degrees))
        return drawn(
            name,
            ("hem", (0.0, 0.0), Place.HEM, Role.HEM),
            ("side", (200.0 + out, 0.0), Place.SIDE, Role.SEAM),
            ("top", (200.0, 300.0), Place.WAIST, Role.SEAM),
            ("centre", (0.0, 300.0), Place.CENTRE_FRONT, Role.FOLD),
            identity=identity,
        )

    for degrees, verdict in ((0.0, Verdict.PASS), (6.9, Verdict.PASS), (7.1, Verdict.FAIL)):
        pair = leaning("front", degrees, FRONT), leaning("back", degrees, BACK)
        seam = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),))
        start = the("corners-true", pattern(*pair, seams=(seam,)), "side, start")
        assert (start.measured, start.verdict) == (pytest.approx(180.0 - 2.0 * degrees), verdict)
    one = leaning("front", 2.0, FRONT), leaning("back", -2.0, BACK)
    straight = the("corners-true", pattern(*one, seams=(seam,)), "side, start")
    assert (straight.measured, straight.verdict) == (pytest.approx(180.0), Verdict.PASS)


@pytest.mark.parametrize(
    ("first", "second", "mm", "seen"),
    [
        (("side", 100.0), ("side", 108.0), 8.0, True),
        (("side", 100.0), ("side", 107.9), 7.9, False),
        (("side", 297.0), ("top", 4.0), 5.0, False),  # round the corner, straight across
        (("hem", 2.0), ("centre", 297.0), math.hypot(2.0, 3.0), False),  # and where the outline begins
        (("side", 50.0), ("centre", 50.0), 500.0, True),
    ],
)
def test_two_notches_stand_8_mm_apart_or_are_taken_for_one(
    first: tuple[str, float], second: tuple[str, float], mm: float, seen: bool
) -> None:
    marks = (Notch("one", Station(*first)), Notch("other", Station(*second)))
    for each in marks:
        result = the("notch-marks", pattern(replace(panel("front"), notches=marks)), f"/ {each.name}")
        assert (result.measured, result.allowed) == (pytest.approx(mm), (8.0, None))
        assert (result.verdict is Verdict.PASS) is seen


@pytest.mark.parametrize("end", [False, True])
def test_a_notch_is_not_seen_where_the_line_beside_its_edge_crosses_it_before_half_of_its_allowance(end: bool) -> None:
    """The edge beside it folds back over the allowance of the side, at 45 degrees: at 3 mm from the corner it crosses
    the notch 3 mm out, where 5 of the 10 are wanted. One that folds back closer is looked for in the first 10 mm."""
    for at, out, seen in (
        (3.0, 40.0, False),
        (4.9, 40.0, False),
        (5.1, 40.0, True),
        (9.9, 8.0, False),
        (10.1, 8.0, True),
    ):
        corner = Point(200.0, 300.0) if end else Point(200.0, 0.0)
        tip = Point(200.0 + out, 260.0) if end else Point(200.0 + out, 40.0)
        sides = {edge.name: edge for edge in panel().edges}
        beside = Edge("beside", (Line(corner, tip), Line(tip, Point(240.0, 400.0))) if end else (Line(tip, corner),))
        if end:
            edges = (
                sides["hem"],
                sides["side"],
                beside,
                Edge("over", (Line(Point(240.0, 400.0), sides["centre"].start),)),
                sides["centre"],
            )
        else:
            low = Point(240.0, -50.0)
            edges = (
                Edge("under", (Line(sides["hem"].start, low), Line(low, tip))),
                beside,
                *(sides[name] for name in ("side", "top", "centre")),
            )
        notch = Notch("mark", Station("side", at, "end" if end else "start"))
        result = the("notch-marks", pattern(Piece("front", edges, grain=UP, identity=FRONT, notches=(notch,))), "mark")
        assert (result.verdict is Verdict.PASS) is seen


def test_a_grain_line_lies_inside_to_a_hair_and_within_half_a_degree_of_the_fold() -> None:
    piece = with_edge(panel("front"), "centre", role=Role.FOLD)
    for lean, verdict in ((0.0, Verdict.PASS), (0.49, Verdict.PASS), (0.51, Verdict.FAIL)):
        out = Vec(math.sin(math.radians(lean)), math.cos(math.radians(lean))) * 150.0
        result = the("grain-line", pattern(replace(piece, grain=Grain(UP.start, UP.start + out))))
        assert (result.measured, result.verdict) == (pytest.approx(lean), verdict)
    for start, inside in (((0.5, 50.0), True), ((199.5, 50.0), True), ((-0.5, 50.0), False), ((200.5, 50.0), False)):
        grain = Grain(Point(*start), Point(start[0], 299.5))
        result = the("grain-line", pattern(replace(piece, grain=grain)))
        assert result.verdict is (Verdict.PASS if inside else Verdict.FAIL)
    over = Grain(Point(100.0, 100.0), Point(100.0, 300.5))
    assert the("grain-line", pattern(replace(piece, grain=over))).remedy == (
        "The grain line runs out of the piece: move it inside."
    )
    bare = the("grain-line", pattern(replace(piece, grain=None)))
    assert (bare.verdict, bare.measured) == (Verdict.FAIL, None)


def darted(wide: float, long: float, *, slant: float = 0.0, place: Place = Place.WAIST, aims_at: str = "") -> Piece:
    """A panel 300 high with a dart in the middle of its upper edge, its point so far to the left."""
    right, left, apex = (
        Point(100.0 + wide / 2, 300.0),
        Point(100.0 - wide / 2, 300.0),
        Point(100.0 - slant, 300.0 - long),
    )
    sides = {edge.name: edge for edge in panel().edges}
    edges = (
        sides["hem"],
        sides["side"],
        Edge("before", (Line(sides["top"].start, right),), place=place),
        Edge("in", (Line(right, apex),), Role.DART_LEG),
        Edge("out", (Line(apex, left),), Role.DART_LEG),
        Edge("after", (Line(left, sides["top"].end),), place=place),
        sides["centre"],
    )
    return Piece("front", edges, grain=UP, darts=(Dart("dart", ("in", "out"), apex, aims_at),), identity=FRONT)


def test_the_legs_of_a_dart_are_equal_to_half_a_millimetre() -> None:
    for slant, verdict in ((0.0, Verdict.PASS), (2.4, Verdict.PASS), (2.6, Verdict.WARN), (7.6, Verdict.FAIL)):
        piece = darted(20.0, 100.0, slant=slant)
        one, other = (math.hypot(10.0 + off, 100.0) for off in (slant, -slant))
        result = the("dart-legs", pattern(piece))
        assert (result.measured, result.wanted) == (pytest.approx(one), pytest.approx(other))
        assert result.verdict is verdict


def test_a_dart_is_longer_than_it_is_wide_and_no_peak() -> None:
    for wide, verdict in ((59.9, Verdict.PASS), (60.0, Verdict.WARN), (60.1, Verdict.WARN)):
        result = the("dart-long", pattern(darted(wide, 60.0)))
        assert (result.measured, result.allowed, result.verdict) == (60.0, (pytest.approx(wide), None), verdict)
    (most,) = {the("dart-wide", pattern(darted(20.0, 300.0 - 150.0))).allowed}
    assert isinstance(most, tuple)
    assert most[1] is not None
    for over, verdict in ((0.04, Verdict.PASS), (0.06, Verdict.WARN)):
        assert the("dart-wide", pattern(darted(most[1] + over, 150.0))).verdict is verdict


def test_a_wide_waist_dart_is_divided_where_there_is_room_beside_it() -> None:
    """Between dart and side 100 - 25 mm are left of the upper edge: 60 are wanted, of a dart not twice as wide."""
    wide = the("dart-wide", pattern(darted(60.0, 150.0)))
    (divide,) = wide.remedies
    assert [(each.option, each.value) for each in divide.settings] == [
        *(("piece", "front"), ("dart", "dart"), ("to", "before"), ("at", 25.0), ("measured_from", "dart")),
        *(("part", 0.45), ("beyond", 38.0)),
    ]
    aimed = replace(darted(60.0, 150.0, aims_at="bust"), points=(MarkPoint("bust", Point(100.0, 100.0)),))
    assert "beyond" not in {each.option for each in the("dart-wide", pattern(aimed)).remedies[0].settings}
    assert isinstance(wide.allowed, tuple)
    most = wide.allowed[1] or 0.0
    assert the("dart-wide", pattern(darted(1.89 * most, 150.0))).remedies
    for too_much in (darted(1.91 * most, 150.0), darted(90.0, 200.0)):  # the second leaves 55 mm beside it
        assert not the("dart-wide", pattern(too_much)).remedies


@pytest.mark.parametrize(("half", "wider"), [(30.0, 10.0), (39.94, 1.0), (39.96, None), (40.0, None), (70.0, None)])
def test_a_neck_narrower_than_a_slot_is_to_be_widened(half: float, wider: float | None) -> None:
    least = curves._HALF_NECK
    half = half - 40.0 + least
    piece = drawn(
        "front",
        ("hem", (0.0, 0.0), Place.HEM, Role.HEM),
        ("side", (200.0, 0.0), Place.SIDE, Role.SEAM),
        ("shoulder", (200.0, 300.0), Place.SHOULDER, Role.SEAM),
        ("neck", (half, 320.0), Place.NECK, Role.SEAM),
        ("centre", (0.0, 280.0), Place.CENTRE_FRONT, Role.FOLD),
    )
    result = the("curves-even", pattern(piece), "half its width")
    assert (result.measured, result.wanted) == (pytest.approx(half), least)
    assert result.verdict is (Verdict.PASS if wider is None else Verdict.WARN)
    if wider is not None:
        (remedy,) = result.remedies
        assert (remedy.alteration, remedy.settings) == ("neckline", (Setting("width", wider, "mm"),))
        assert f"only {half:.0f} mm wide" in result.remedy


def test_a_piece_wider_than_any_cloth_gets_a_seam_at_its_fold() -> None:
    room = the("goes-on-cloth", pattern(panel("front"))).allowed
    assert isinstance(room, tuple)
    assert room[1] is not None
    for wide, verdict in ((room[1] / 2 - 11.0, Verdict.PASS), (room[1] / 2 - 9.0, Verdict.FAIL)):  # allowances of 10
        folded = with_edge(panel("front", wide), "centre", role=Role.FOLD, allowance=0.0)
        result = the("goes-on-cloth", pattern(replace(folded, cut=replace(folded.cut, count=1, fold=True))))
        assert (result.measured, result.verdict) == (pytest.approx(2.0 * wide + 20.0), verdict)
        settings = [setting for remedy in result.remedies for setting in remedy.settings]
        seam = [Setting("at", "centre front"), Setting("fasten", "closed"), Setting("only", "front")]
        assert settings == (seam if verdict is Verdict.FAIL else [])


@pytest.mark.parametrize(("other", "verdict"), [(11.0, Verdict.PASS), (9.0, Verdict.PASS), (11.1, Verdict.WARN)])
def test_two_allowances_laid_together_differ_by_a_millimetre_at_the_most(other: float, verdict: Verdict) -> None:
    pair = panel("front"), with_edge(panel("back", identity=BACK), "side", allowance=other)
    seam = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),))
    for result in told("allowance-ends", pattern(*pair, seams=(seam,))):
        assert (result.measured, result.verdict) == (pytest.approx(abs(other - 10.0)), verdict)
        assert verdict is Verdict.PASS or "10.0 mm wide" in result.remedy
