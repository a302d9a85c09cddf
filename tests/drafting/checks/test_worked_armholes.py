"""Armholes of a few straight lines, where every figure that is told of them can be worked out."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.checks import Result, Verdict
from drafting.checks.half_armhole import holes
from drafting.geometry import Cubic, Line, Point, Vec, mirror, moved_all, polar, run_reversed
from drafting.pattern import Edge, EdgeRef, Grain, Identity, Pattern, Piece, PieceKind, Place, Role, Seam
from tests.drafting.checks.worked import BACK, FRONT, UP, pattern, told, with_edge

FOOT = Point(200.0, 100.0)


def half(name: str, *steps: Vec, identity: Identity = FRONT) -> Piece:
    """A half of a bodice, its side upright, its armhole these steps from the underarm up."""
    at, lines = FOOT, []
    for step in steps:
        lines.append(Line(at, at + step))
        at = at + step
    neck = Point(40.0, at.y)
    return Piece(
        name,
        (
            Edge("hem", (Line(Point(0.0, 0.0), Point(200.0, 0.0)),), Role.HEM, 10.0, Place.HEM),
            Edge("side", (Line(Point(200.0, 0.0), FOOT),), place=Place.SIDE),
            Edge("armhole", tuple(lines), place=Place.ARMHOLE),
            Edge("shoulder", (Line(at, neck),), place=Place.SHOULDER),
            Edge("neck", (Line(neck, Point(0.0, neck.y)),), place=Place.NECK),
            Edge("centre", (Line(Point(0.0, neck.y), Point(0.0, 0.0)),), Role.FOLD, place=Place.CENTRE_FRONT),
        ),
        grain=UP,
        identity=identity,
    )


def the(whole: Pattern, piece: str, where: str) -> Result:
    (result,) = (each for each in told("curves-even", whole) if f"{piece} armhole, {where}" in each.where)
    return result


def sewn(front: Piece, back: Piece) -> Pattern:
    return pattern(front, back, seams=(Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),)),))


def leaves(name: str, degrees: float, identity: Identity = FRONT) -> Piece:
    """An armhole that leaves its side so far above level for 40 mm, then goes straight up."""
    way = polar(math.radians(180.0 - degrees), 40.0)
    return half(name, way, Vec(0.0, 160.0), identity=identity)


@pytest.mark.parametrize("degrees", [0.0, 1.04, 1.06, -1.04, -1.06, 5.0])
def test_an_armhole_leaves_the_side_level_to_a_degree(degrees: float) -> None:
    result = the(sewn(leaves("front", degrees), leaves("back", 0.0, BACK)), "front", "at the side seam")
    # what counts is the nearer to level: as the piece lies, or as the line of the other carried on
    assert (result.measured, result.allowed) == (pytest.approx(degrees), 1.0)
    assert result.verdict is (Verdict.PASS if abs(degrees) <= 1.05 else Verdict.WARN)
    way = "rises" if degrees > 0.0 else "dips"
    assert result.verdict is Verdict.PASS or result.remedy.startswith(f"It {way} {abs(degrees):.1f} degrees from level")


@pytest.mark.parametrize(("wide", "most"), [(39.9, 15.0), (40.1, 12.0)])
def test_an_armhole_stays_low_over_its_first_millimetres(wide: float, most: float) -> None:
    """It goes level for 5 of the first 15 mm, and rises over the other 10 so that they end at the angle told."""
    for off, verdict in ((0.04, Verdict.PASS), (0.06, Verdict.WARN)):
        # 5 mm on and 10 up at an angle a: tan(angle) = 10 sin a / (5 + 10 cos a); by the sine rule
        angle = math.radians(most + off)
        rises = angle + math.asin(0.5 * math.sin(angle))
        slant = Vec(-math.cos(rises), math.sin(rises))
        steps = (Vec(-5.0, 0.0), slant * 12.0, Vec(-(wide - 5.0 - 12.0 * math.cos(rises)), 0.0), Vec(0.0, 170.0))
        result = the(sewn(half("front", *steps), leaves("back", 0.0, BACK)), "front", "its first 15 mm")
        assert (result.measured, result.allowed) == (pytest.approx(most + off), (None, most))
        assert result.verdict is verdict


@pytest.mark.parametrize(
    ("clear", "wide", "verdict"),
    [
        (13.96, 60.0, Verdict.PASS),
        (13.94, 60.0, Verdict.WARN),
        (20.0, 60.0, Verdict.PASS),
        (11.96, 30.0, Verdict.PASS),  # two fifths of its width are enough where it is narrow
        (11.94, 30.0, Verdict.WARN),
    ],
)
def test_an_armhole_clears_its_corner_by_14_mm(clear: float, wide: float, verdict: Verdict) -> None:
    """Level to so far short of its narrowest, upright from there, and in to its narrowest above."""
    piece = half("front", Vec(clear - wide, 0.0), Vec(0.0, 60.0), Vec(-clear, 60.0))
    result = the(pattern(piece), "front", "from its corner")
    assert (result.measured, result.wanted) == (pytest.approx(clear), pytest.approx(min(14.0, 0.4 * wide)))
    assert result.verdict is verdict


def test_an_armhole_is_nearest_its_corner_within_a_line_as_well() -> None:
    slant = the(pattern(half("front", Vec(-60.0, 60.0), Vec(0.0, 60.0))), "front", "from its corner")
    assert slant.measured == pytest.approx(60.0 * math.sqrt(0.5))


@pytest.mark.parametrize(("turned", "verdict"), [(60.04, Verdict.PASS), (60.06, Verdict.WARN)])
def test_an_armhole_turns_by_no_more_than_60_percent_in_40_mm(turned: float, verdict: Verdict) -> None:
    """Three corners: of the 90 degrees in all, the first two, 30 mm apart, are the share that is told."""
    share = math.radians(0.9 * turned)
    steps = (Vec(-60.0, 0.0), Vec(-math.cos(share / 2), math.sin(share / 2)) * 30.0)
    steps = (*steps, Vec(-math.cos(share), math.sin(share)) * 80.0, Vec(0.0, 60.0))
    result = the(pattern(half("front", *steps)), "front", "its turning in 40 mm")
    assert (result.measured, result.verdict) == (pytest.approx(turned), verdict)


def test_a_raglan_is_looked_at_where_its_figure_says() -> None:
    """Of its first 40 mm the tenth of a millimetre about each of those places turns back by 20 degrees."""
    for share, seen in ((0.125, True), (0.1375, False), (0.25, True), (0.5, True), (0.75, True), (1.0, True)):
        at, lines = FOOT + Vec(-40.0, 0.0), []
        for way, long in ((100.0, 40.0 * share - 0.05), (70.0, 0.1), (100.0, 80.0)):
            lines.append(Line(at, at + polar(math.radians(way), long)))
            at = lines[-1].end
        sides = {edge.name: edge for edge in half("front", Vec(-40.0, 0.0)).edges}
        edges = (
            *(sides[name] for name in ("hem", "side")),
            Edge("armhole", (Line(FOOT, FOOT + Vec(-40.0, 0.0)),), place=Place.ARMHOLE),
            Edge("raglan", tuple(lines), place=Place.RAGLAN),
            Edge("neck", (Line(at, Point(0.0, at.y)),), place=Place.NECK),
            Edge("centre", (Line(Point(0.0, at.y), Point(0.0, 0.0)),), Role.FOLD, place=Place.CENTRE_FRONT),
        )
        found = told("curves-even", pattern(Piece("front", edges, grain=UP, identity=FRONT)))
        (result,) = (each for each in found if "where it leaves" in each.where)
        assert result.measured is not None
        assert (result.measured, seen) in ((pytest.approx(110.0), True), (pytest.approx(80.0), False)), share


def mirrored(piece: Piece) -> Piece:
    """The same piece with left and right exchanged, its outline anticlockwise again."""
    over = mirror(Point(0.0, 0.0), Vec(0.0, 1.0))
    edges = tuple(replace(e, curves=run_reversed(moved_all(e.curves, over))) for e in reversed(piece.edges))
    grain = None if piece.grain is None else Grain(over.point(piece.grain.start), over.point(piece.grain.end))
    return replace(piece, edges=edges, grain=grain)


def test_a_half_of_an_armhole_is_the_same_mirrored_upside_down_in_two_edges_and_without_a_grain_line() -> None:
    whole = half("front", Vec(-40.0, 3.0), Vec(-20.0, 60.0), Vec(5.0, 70.0))
    (one,) = holes(whole)
    assert one.rise == pytest.approx(math.atan2(3.0, 40.0))
    assert one.cloth == pytest.approx(0.5 * math.pi + one.rise)
    assert (one.width, one.whole, one.below, one.edge) == (pytest.approx(60.0), True, "side", "armhole")
    assert (one.level, one.up) == (Vec(-1.0, 0.0), Vec(0.0, 1.0))
    assert whole.grain is not None
    upside = replace(whole, grain=Grain(whole.grain.end, whole.grain.start))
    k = whole.index("armhole")
    low, *high = whole.edges[k].curves
    parted = (replace(whole.edges[k], curves=(low,)), replace(whole.edges[k], name="armhole above", curves=tuple(high)))
    others = (
        mirrored(whole),
        upside,
        replace(whole, grain=None),
        replace(whole, edges=(*whole.edges[:k], *parted, *whole.edges[k + 1 :])),
        mirrored(replace(whole, edges=(*whole.edges[:k], *parted, *whole.edges[k + 1 :]))),
    )
    for piece in others:
        (hole,) = holes(piece)
        assert (hole.rise, hole.cloth, hole.width) == pytest.approx((one.rise, one.cloth, one.width))
        assert (hole.piece, hole.edge, hole.below, hole.whole) == ("front", "armhole", "side", True)
        assert [curve.start.y for curve in hole.run] == pytest.approx([curve.start.y for curve in one.run])
        assert hole.up.y == pytest.approx(1.0)
    for change, many, reaches in (
        ({"place": Place.WAIST}, 1, False),  # not all the way to the shoulder
        ({"role": Role.DART_LEG}, 1, False),
        ({}, 1, True),
    ):
        found = holes(with_edge(whole, "shoulder", **change))
        assert [hole.whole for hole in found] == [reaches] * many
    assert holes(with_edge(whole, "side", place=Place.WAIST)) == ()
    assert holes(with_edge(whole, "side", role=Role.DART_LEG)) == ()
    assert holes(with_edge(whole, "armhole", place=Place.NECK)) == ()
    assert holes(with_edge(replace(whole, grain=None), "centre", place=Place.HEM)) == ()


def test_an_armhole_reaches_in_as_far_as_its_line_bulges() -> None:
    """The handles of a cubic reach 80 mm in from both its ends: three quarters of it does the line."""
    piece = half("front", Vec(0.0, 100.0))
    line = piece.edge("armhole").curves[0]
    bow = Cubic(line.start, line.start + Vec(-80.0, 20.0), line.end + Vec(-80.0, -20.0), line.end)
    (hole,) = holes(with_edge(piece, "armhole", curves=(bow,)))
    assert hole.width == pytest.approx(60.0)


def test_only_the_two_halves_that_meet_at_a_seam_are_held_to_each_other() -> None:
    front, back = leaves("front", 2.0), leaves("back", -2.0, BACK)
    for piece in ("front", "back"):  # 2 up and 2 down run on over the seam: what lies further off is the other's
        result = the(sewn(front, back), piece, "at the side seam")
        assert abs(result.measured or 0.0) == pytest.approx(2.0)
    facing = replace(back, identity=replace(back.identity, kind=PieceKind.FACING, of=PieceKind.BACK))
    assert not [each for each in told("curves-even", sewn(front, facing)) if "at the side seam" in each.where]
    alone = pattern(front, back)
    assert not [each for each in told("curves-even", alone) if "at the side seam" in each.where]
