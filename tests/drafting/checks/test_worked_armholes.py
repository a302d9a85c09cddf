"""Armholes of a few straight lines, where every figure that is told of them can be worked out."""

from __future__ import annotations

import math

import pytest

from drafting.checks import Result, Verdict
from drafting.geometry import Line, Point, Vec, polar
from drafting.pattern import Edge, EdgeRef, Identity, Pattern, Piece, Place, Role, Seam
from tests.drafting.checks.worked import BACK, FRONT, UP, pattern, told

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
