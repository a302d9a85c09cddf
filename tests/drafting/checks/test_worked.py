"""Checks on pieces of a few straight lines, where every figure they tell can be worked out beside them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import pytest

from drafting.checks import CHECKS, Result, Verdict, named, run_checks
from drafting.checks.gaping import gape
from drafting.errors import Setting
from drafting.geometry import Cubic, Line, Point, Vec, blend, polar
from drafting.pattern import (
    Across,
    Along,
    BodyLength,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Origin,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    Step,
    Wearer,
)
from drafting.pattern.derived import Derived, DrawnTo
from drafting.pattern.places import BodyPart

WAIST = MarkLine("waist", Point(0.0, 100.0), Point(200.0, 100.0), level=Level.WAIST)
UP = Grain(Point(50.0, 50.0), Point(50.0, 150.0))
FRONT, BACK = Identity(PieceKind.FRONT, BodyPart.BODICE), Identity(PieceKind.BACK, BodyPart.BODICE)

Sides = Mapping[str, tuple[tuple[float, float], Place | None, Role]]


def drawn(name: str, *sides: tuple[str, tuple[float, float], Place | None, Role], identity: Identity = FRONT) -> Piece:
    """A piece of straight edges: of each its name, where it starts, its place and its role."""
    starts = [Point(*start) for _, start, _, _ in sides]
    edges = tuple(
        Edge(edge, (Line(start, end),), role, 10.0, place)
        for (edge, _, place, role), start, end in zip(sides, starts, starts[1:] + starts[:1], strict=True)
    )
    return Piece(name, edges, grain=UP, identity=identity)


def panel(name: str = "panel", wide: float = 200.0, high: float = 300.0, *, identity: Identity = FRONT) -> Piece:
    """A rectangle: hem, side, top and centre, from the lower left."""
    return drawn(
        name,
        ("hem", (0.0, 0.0), Place.HEM, Role.HEM),
        ("side", (wide, 0.0), Place.SIDE, Role.SEAM),
        ("top", (wide, high), Place.SHOULDER, Role.SEAM),
        ("centre", (0.0, high), Place.CENTRE_FRONT, Role.SEAM),
        identity=identity,
    )


def with_edge(piece: Piece, name: str, **changes: object) -> Piece:
    edges = (replace(edge, **changes) if edge.name == name else edge for edge in piece.edges)  # type: ignore[arg-type]
    return replace(piece, edges=tuple(edges))


def pattern(*pieces: Piece, seams: tuple[Seam, ...] = (), **body: float) -> Pattern:
    lengths = tuple(BodyLength(key, mm, "measured") for key, mm in body.items())
    return Pattern("Worked", Wearer("Inga", lengths), pieces, seams)


def told(code: str, whole: Pattern) -> list[Result]:
    return list(run_checks(whole, checks=named(CHECKS, [code])))


def the(code: str, whole: Pattern, where: str = "") -> Result:
    (result,) = (each for each in told(code, whole) if where in each.where)
    return result


# ---- what is narrow, and what leans -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wide", "high", "room"), [(24.0, 300.0, 4.0), (19.95, 300.0, -0.05), (19.85, 300.0, -0.15), (60.0, 24.0, -16.0)]
)
def test_a_narrow_piece_is_as_wide_as_it_is_less_both_allowances(wide: float, high: float, room: float) -> None:
    """The hem, which is turned up, takes nothing away from what is across it: 24 - 30 of hem - 10."""
    piece = with_edge(panel(wide=wide, high=high), "hem", allowance=30.0)
    result = the("narrow-turns", pattern(piece))
    assert result.measured == pytest.approx(room)
    assert (result.verdict is Verdict.PASS) == (room >= -0.1)


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
    for wide, verdict in ((229.0, Verdict.WARN), (231.0, Verdict.PASS), (599.0, Verdict.PASS), (601.0, Verdict.WARN)):
        tier = with_edge(panel("tier", wide), "top", place=Place.TIER)
        seam = Seam("tiers", (EdgeRef("tier", "top"),), (EdgeRef("above", "hem", backward=True),))
        result = the("fullness-lies", pattern(tier, above, seams=(seam,)))
        assert (result.measured, result.verdict) == (pytest.approx(wide / 200.0), verdict)


# ---- openings ---------------------------------------------------------------------------------------------------


def opened(*roles: Role) -> Piece:
    """A front 300 high whose centre, from above, is four stretches: 40, 100, 60, 100 long."""
    ends = (300.0, 260.0, 160.0, 100.0)
    centre = (
        (f"centre {k}", (0.0, y), Place.CENTRE_FRONT, role) for k, (y, role) in enumerate(zip(ends, roles, strict=True))
    )
    piece = drawn(
        "front",
        ("hem", (0.0, 0.0), Place.HEM, Role.HEM),
        ("side", (200.0, 0.0), Place.SIDE, Role.SEAM),
        ("neck", (200.0, 300.0), Place.NECK, Role.SEAM),
        *centre,
    )
    levels = (("high", 280.0), ("middle", 200.0), ("end", 160.0), ("low", 50.0))
    return replace(piece, lines=tuple(MarkLine(name, Point(0.0, y), Point(200.0, y)) for name, y in levels))


SEWN, OPEN = Role.SEAM, Role.OPENING


@pytest.mark.parametrize(
    ("roles", "line", "mm"),
    [
        ((SEWN, SEWN, SEWN, SEWN), "middle", 0.0),
        ((SEWN, OPEN, SEWN, SEWN), "middle", 80.0),  # 60 mm above it and 40 below: as far as the nearer end, both ways
        ((SEWN, OPEN, SEWN, SEWN), "high", 0.0),  # above it
        ((SEWN, OPEN, SEWN, SEWN), "end", 0.0),  # where it is closed
        ((SEWN, OPEN, SEWN, SEWN), "low", 0.0),  # below it
        ((SEWN, OPEN, OPEN, SEWN), "middle", 120.0),  # now 100 below
        ((SEWN, OPEN, OPEN, OPEN), "low", 420.0),  # free at the hem: up to where it is closed
        ((OPEN, OPEN, SEWN, SEWN), "middle", 80.0),
        ((OPEN, OPEN, OPEN, OPEN), "middle", math.inf),
        ((OPEN, OPEN, SEWN, SEWN), "high", 240.0),  # open at the neck: down to where it is closed
    ],
)
def test_an_opening_gapes_twice_as_far_as_it_is_to_its_nearer_closed_end(
    roles: tuple[Role, ...], line: str, mm: float
) -> None:
    front = opened(*roles)
    assert gape([front], (), [Across("front", line, 2.0)]) == pytest.approx(mm)


def test_a_neckline_gapes_as_far_as_the_opening_at_its_end_is_long() -> None:
    assert gape([opened(OPEN, OPEN, SEWN, SEWN)], (), [Along("front", "neck", 2.0)]) == pytest.approx(280.0)
    assert gape([opened(SEWN, OPEN, SEWN, SEWN)], (), [Along("front", "neck", 2.0)]) == 0.0
    assert gape([opened(SEWN, SEWN, SEWN, OPEN)], (), [Along("front", "hem", 2.0)]) == pytest.approx(200.0)


def test_openings_at_two_places_count_together_and_both_sides_of_one_as_one() -> None:
    front = opened(SEWN, OPEN, SEWN, SEWN)
    back = replace(front, name="back", identity=BACK)
    behind = replace(
        back, edges=tuple(replace(e, place=Place.CENTRE_BACK) if e.name.startswith("centre") else e for e in back.edges)
    )
    tape = [Across("front", "middle", 2.0), Across("back", "middle", 2.0)]
    assert gape([front, back], (), tape) == pytest.approx(80.0)
    assert gape([front, behind], (), tape) == pytest.approx(160.0)
    facing = replace(front, identity=replace(FRONT, kind=PieceKind.FACING, of=PieceKind.FRONT))
    assert gape([facing, replace(back, edges=panel().edges, lines=back.lines)], (), tape) == 0.0


def test_two_edges_that_close_on_each_other_are_as_long_as_their_openings() -> None:
    """Each shoulder is sewn for a stretch as well, which is not looked at."""

    def half(name: str, sewn: float, identity: Identity) -> Piece:
        return drawn(
            name,
            ("hem", (0.0, 0.0), Place.HEM, Role.HEM),
            ("side", (200.0, 0.0), Place.SIDE, Role.SEAM),
            ("open", (200.0, 300.0), Place.SHOULDER, Role.OPENING),
            ("sewn", (sewn, 300.0), Place.SHOULDER, Role.SEAM),
            ("centre", (0.0, 300.0), Place.CENTRE_FRONT, Role.FOLD),
            identity=identity,
        )

    for sewn, off, verdict in ((80.0, 0.0, Verdict.PASS), (50.0, 30.0, Verdict.FAIL), (120.0, 40.0, Verdict.FAIL)):
        result = the("closings-meet", pattern(half("front", 80.0, FRONT), half("back", sewn, BACK)), "front on back")
        assert (result.measured, result.verdict) == (pytest.approx(off), verdict)
        if off:
            assert ("behind" if sewn < 80.0 else "in front") in result.remedy


# ---- necks, hands, feet -----------------------------------------------------------------------------------------


def necked(wide: float = 100.0) -> Piece:
    """A front on the fold whose neck is level and so wide."""
    piece = drawn(
        "front",
        ("hem", (0.0, 0.0), Place.HEM, Role.HEM),
        ("side", (200.0, 0.0), Place.SIDE, Role.SEAM),
        ("shoulder", (200.0, 300.0), Place.SHOULDER, Role.SEAM),
        ("neck", (wide, 300.0), Place.NECK, Role.SEAM),
        ("centre", (0.0, 300.0), Place.CENTRE_FRONT, Role.FOLD),
    )
    return replace(piece, cut=Cut(1, fold=True))


@pytest.mark.parametrize(
    ("neck", "verdict"), [(200.0, Verdict.PASS), (204.9, Verdict.PASS), (205.1, Verdict.WARN), (225.1, Verdict.FAIL)]
)
def test_a_neckline_is_twice_its_half_against_the_neck(neck: float, verdict: Verdict) -> None:
    result = the("neck-goes-round", pattern(necked(), neck_base_girth=neck), "round the neck")
    assert (result.measured, result.wanted, result.verdict) == (pytest.approx(200.0), neck, verdict)
    if verdict is not Verdict.PASS:
        assert f"{neck - 200.0:.1f} mm shorter" in result.remedy


def test_a_straight_band_lies_flat_down_to_three_quarters_of_its_edge() -> None:
    """The neck turns by nothing in this piece, so the part that was drawn says how long the band is."""
    band = replace(
        drawn(
            "neck band",
            ("seam", (0.0, 0.0), Place.BAND_EDGE, Role.SEAM),
            ("end", (140.0, 0.0), Place.BAND_END, Role.SEAM),
            ("fold", (140.0, 40.0), Place.BAND_EDGE, Role.FOLD),
            ("other end", (0.0, 40.0), Place.BAND_END, Role.SEAM),
            identity=Identity(PieceKind.BAND, BodyPart.BODICE),
        )
    )
    part = Derived("neck band", (DrawnTo(Place.NECK, FRONT),), (("width", 20.0), ("stretch", 0.8)), ("neck band",))
    whole = replace(pattern(necked(), band, head_girth=560.0), derived=(part,), stretch=0.4)
    flat = the("neck-goes-round", whole, "knit band")
    assert (flat.measured, flat.verdict) == (pytest.approx(70.0), Verdict.WARN)
    # 60 mm are drawn in: that is a quarter of 240
    assert "20.0 mm wide does not lie flat on a neck of less than 240 mm" in flat.remedy
    over = the("neck-goes-round", whole, "over the head")
    # over the head a grown woman's band may give all it can: 140 by 80 percent, less than the edge's 200 by 40
    assert (over.measured, over.wanted) == (pytest.approx(252.0), 560.0)


# ---- what was held to one side ----------------------------------------------------------------------------------


def test_a_step_held_to_one_side_is_told_until_the_other_side_has_followed() -> None:
    front, back = panel("front", high=320.0), panel("back", identity=BACK)
    seam = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),))
    whole = pattern(front, back, seams=(seam,))
    by_20 = Step("lengthen", (("by", 20.0), ("only", "front")))
    for more, held in (
        ((), True),
        ((Step("lengthen", (("by", 20.0), ("only", "back"))),), False),
        ((Step("lengthen", (("by", 10.0), ("only", "back"))),), True),
        ((Step("take in", (("by", 20.0), ("only", "back"))),), True),
        ((Step("lengthen", (("by", 20.0), ("only", "front"))),), True),
    ):
        result = the("seam-length", replace(whole, history=(by_20, *more)), "side")
        assert bool([each for each in result.one_sided if each.piece == "front"]) is held
    assert the("seam-length", replace(whole, history=(Step("lengthen", (("by", 20.0),)),)), "side").one_sided == ()


# ---- pockets ----------------------------------------------------------------------------------------------------


def pocketed(*marks: tuple[float, float]) -> Pattern:
    """A front 200 by 300, marked for a pocket of 60 by 80."""
    patch = drawn(
        "pocket",
        ("bottom", (50.0, 100.0), Place.POCKET_EDGE, Role.SEAM),
        ("right", (110.0, 100.0), Place.POCKET_EDGE, Role.SEAM),
        ("mouth", (110.0, 180.0), Place.POCKET_MOUTH, Role.HEM),
        ("left", (50.0, 180.0), Place.POCKET_EDGE, Role.SEAM),
        identity=Identity(PieceKind.POCKET, BodyPart.BODICE, of=PieceKind.FRONT),
    )
    points = tuple(MarkPoint(f"corner {k}", Point(*at), Landmark.POCKET) for k, at in enumerate(marks))
    return pattern(replace(panel("front"), points=points), patch)


def test_a_patch_lies_on_its_marks_to_half_a_millimetre_and_needs_some() -> None:
    lies = the("pockets-clear", pocketed((110.0, 180.0), (50.0, 180.0)), "pocket on front")
    assert (lies.measured, lies.verdict) == (pytest.approx(0.0), Verdict.PASS)
    off = the("pockets-clear", pocketed((110.0, 180.0), (50.0, 184.0)), "pocket on front")
    assert (off.measured, off.verdict) == (pytest.approx(4.0), Verdict.FAIL)
    bare = the("pockets-clear", pocketed(), "pocket")
    assert (bare.verdict, bare.remedy) == (Verdict.FAIL, "No piece has marks for it: ask for the pocket again.")


# ---- notches and seams ------------------------------------------------------------------------------------------


def test_notches_of_an_eased_seam_may_lie_anywhere_in_what_is_taken_up() -> None:
    """Of a side 320 on 300 the first notch is met from the start, the last from either end, one between anywhere in
    the 20 mm."""
    for ats, offs in (
        ((50.0, 150.0, 250.0), (0.0, 0.0, 0.0)),
        ((50.0, 170.0, 270.0), (0.0, 20.0, 0.0)),
        ((60.0, 190.0, 280.0), (10.0, 40.0, 10.0)),
    ):
        marks = tuple(Notch(str(k), Station("side", at)) for k, at in enumerate(ats))
        front = replace(panel("front", high=320.0), notches=marks)
        back = replace(
            panel("back", identity=BACK),
            notches=tuple(Notch(str(k), Station("side", at)) for k, at in enumerate((50.0, 150.0, 250.0))),
        )
        pairs = tuple((NotchRef("front", str(k)), NotchRef("back", str(k))) for k in range(3))
        ease = SeamEase(20.0, 0.0, 25.0)
        seam = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),), ease, pairs)
        found = told("notches-meet", pattern(front, back, seams=(seam,)))
        assert [each.measured for each in found] == pytest.approx(offs)
        assert [each.verdict for each in found] == [
            Verdict.PASS if off <= (21.0 if k == 1 else 1.0) else Verdict.FAIL for k, off in enumerate(offs)
        ]


def test_a_notch_beyond_its_line_is_told_whether_or_not_it_has_a_partner() -> None:
    for at, off in ((-0.5, True), (0.0, False), (300.0, False), (300.5, True)):
        front = replace(panel("front"), notches=(Notch("mark", Station("side", at)),))
        found = [each for each in told("notches-meet", pattern(front)) if each.verdict is Verdict.FAIL]
        assert bool(found) is off
        if off:
            assert (found[0].measured, found[0].allowed) == (at, (0.0, 300.0))


def test_a_notch_without_a_partner_is_warned_of_but_at_the_end_of_its_edge() -> None:
    seam = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),))
    back = panel("back", identity=BACK)
    for at, warned in ((0.5, False), (1.5, True), (298.5, True), (299.5, False)):
        front = replace(panel("front"), notches=(Notch("mark", Station("side", at)),))
        found = told("notches-meet", pattern(front, back, seams=(seam,)))
        assert bool([each for each in found if each.verdict is Verdict.WARN]) is warned
    folded = Notch("mark", Station("side", 150.0), marks=NotchMark.PLEAT_FOLD)
    pleated = told("notches-meet", pattern(replace(panel("front"), notches=(folded,)), back, seams=(seam,)))
    assert not [each for each in pleated if each.verdict is Verdict.WARN]


# ---- ease -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("body", "verdict", "write"),
    [
        (340.0, Verdict.PASS, None),
        (360.0, Verdict.PASS, None),
        (370.1, Verdict.WARN, 11.0),
        (380.0, Verdict.WARN, 20.0),
        (391.5, Verdict.FAIL, 12.0),
    ],
)
def test_ease_fails_below_the_least_and_is_warned_of_below_what_is_usual(
    body: float, verdict: Verdict, write: float | None
) -> None:
    """A waist of 400 mm that has to have 20 mm of ease, 40 as is usual; what is short is to be let out there."""
    front = replace(
        panel("front"), lines=(MarkLine("waist", Point(0.0, 100.0), Point(200.0, 100.0), level=Level.WAIST),)
    )
    waist = Measure("waist", (Across("front", "waist", 2.0),), "waist_girth", body, 40.0, 20.0, True, 40.0)
    result = the("ease-to-move", replace(pattern(front), measures=(waist,)), "waist")
    assert (result.verdict, result.measured, result.wanted) == (verdict, pytest.approx(400.0 - body), 20.0)
    settings = [each.settings for each in result.remedies]
    assert settings == ([] if write is None else [(Setting("waist", -write, "mm"),)])


def test_what_is_short_of_more_than_can_be_written_at_once_came_with_a_step() -> None:
    front = replace(
        panel("front"), lines=(MarkLine("waist", Point(0.0, 100.0), Point(200.0, 100.0), level=Level.WAIST),)
    )
    for body, said in ((780.0, 1), (780.5, 0)):
        waist = Measure("waist", (Across("front", "waist", 2.0),), "waist_girth", body, 40.0, 20.0, True)
        result = the("ease-to-move", replace(pattern(front), measures=(waist,)), "waist")
        assert (result.verdict, len(result.remedies)) == (Verdict.FAIL, said)


def test_the_origin_of_a_knit_band_counts_where_no_part_was_ordered() -> None:
    origin = Origin("knit top", (("opening", "knit band"), ("band_width", 20.0), ("band_stretch", 0.6)))
    whole = replace(pattern(necked(), neck_base_girth=200.0, head_girth=300.0), origin=(origin,), stretch=0.4)
    flat = the("neck-goes-round", whole, "knit band")
    assert (flat.measured, flat.verdict) == (pytest.approx(100.0), Verdict.PASS)


# ---- curves, corners, reach -------------------------------------------------------------------------------------


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
