"""Collars, stands and cuffs, worked out on strips of straight lines."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.checks import Verdict
from drafting.geometry import Line, Point
from drafting.pattern import (
    Edge,
    EdgeRef,
    Identity,
    Level,
    MarkLine,
    MarkPoint,
    Notch,
    NotchMark,
    Piece,
    PieceKind,
    Place,
    Seam,
    Station,
)
from drafting.pattern.places import BodyPart
from tests.drafting.checks.worked import drawn, panel, pattern, the, told

COLLAR = Identity(PieceKind.COLLAR, BodyPart.BODICE)
STAND = replace(COLLAR, of=PieceKind.BAND)


def collar(
    name: str = "collar", high: float = 40.0, *, long: float = 180.0, rise: float = 0.0, who: Identity = COLLAR
) -> Piece:
    """Half a collar from its centre at the left: so high there, its lower edge so long and rising at its end by so many
    degrees."""
    turn, out = math.radians(rise), 60.0
    knee = Point(long - out, 0.0)
    end = Point(knee.x + out * math.cos(turn), out * math.sin(turn))
    top = Point(end.x, end.y + high)
    return Piece(
        name,
        (
            Edge("neck", (Line(Point(0.0, 0.0), knee), Line(knee, end)), place=Place.NECK),
            Edge("end", (Line(end, top),), place=Place.COLLAR_END),
            Edge("outer", (Line(top, Point(0.0, high)),), place=Place.COLLAR_EDGE),
            Edge("centre", (Line(Point(0.0, high), Point(0.0, 0.0)),), place=Place.CENTRE_BACK),
        ),
        identity=who,
    )


@pytest.mark.parametrize(("rise", "neck"), [(0.0, 391.0), (0.0, 392.0), (10.0, 376.0), (10.0, 377.0)])
def test_the_upper_edge_of_a_stand_goes_round_the_neck_above_its_base(rise: float, neck: float) -> None:
    """Below it is 2 * 180 round; above it is less by twice its height for each radian that it turns. The neck is 0.92
    of its base there."""
    top = 2.0 * (180.0 - 40.0 * math.radians(rise))
    result = the("collar-sits", pattern(collar(rise=rise), neck_base_girth=neck), "its upper edge")
    assert (result.measured, result.wanted) == (pytest.approx(top), pytest.approx(0.92 * neck))
    assert result.verdict is (Verdict.PASS if top >= 0.92 * neck else Verdict.WARN)
    assert (top >= 0.92 * neck) == (neck in (391.0, 376.0))


def test_a_collar_that_lies_flat_has_no_upper_edge_round_the_neck() -> None:
    flat = replace(
        collar(),
        edges=tuple(
            replace(
                edge,
                curves=tuple(
                    Line(Point(c.start.x, c.start.y - 100.0), Point(c.end.x, c.end.y - 100.0)) for c in edge.curves
                ),
            )
            for edge in collar().edges
        ),
    )
    turned = replace(
        flat,
        edges=tuple(
            replace(e, place=Place.COLLAR_EDGE if e.name == "neck" else Place.NECK if e.name == "outer" else e.place)
            for e in flat.edges
        ),
    )
    for piece in (
        turned,
        replace(collar(), edges=tuple(replace(e, place=None) if e.name == "centre" else e for e in collar().edges)),
    ):
        assert not [
            each for each in told("collar-sits", pattern(piece, neck_base_girth=380.0)) if "upper edge" in each.where
        ]


def test_a_stand_goes_round_as_far_as_the_centre_is_marked() -> None:
    seam = replace(collar(), notches=(Notch("centre front", Station("neck", 150.0), marks=NotchMark.CENTRE),))
    parts = tuple(
        e
        for edge in seam.edges
        for e in (
            (replace(edge, name="neck", curves=edge.curves[:1]), replace(edge, name="lap", curves=edge.curves[1:]))
            if edge.name == "neck"
            else (edge,)
        )
    )
    marked = replace(
        seam, edges=parts, notches=(Notch("centre front", Station("neck", 120.0), marks=NotchMark.CENTRE),)
    )
    assert the("collar-sits", pattern(marked, neck_base_girth=300.0), "its upper edge").measured == pytest.approx(240.0)
    bare = replace(marked, notches=())
    assert the("collar-sits", pattern(bare, neck_base_girth=300.0), "its upper edge").measured == pytest.approx(360.0)


def test_a_fall_is_5_mm_wider_than_its_stand_at_the_least() -> None:
    stand = collar("stand", 30.0, who=STAND)
    for high, verdict in ((35.0, Verdict.PASS), (34.9, Verdict.WARN)):
        fall = collar("fall", high)
        fall = replace(
            fall, edges=tuple(replace(e, place=Place.COLLAR_SEAM) if e.name == "neck" else e for e in fall.edges)
        )
        result = the("collar-sits", pattern(fall, stand), "fall over stand")
        assert (result.measured, result.verdict) == (pytest.approx(high - 30.0), verdict)
        if verdict is Verdict.WARN:
            assert 'fall = "35 mm"' in result.remedy
    for alone in (fall, stand):
        assert not [each for each in told("collar-sits", pattern(alone)) if each.measured is not None]


def test_an_upper_collar_is_no_smaller_than_the_under_one() -> None:
    def seam(place: Place) -> tuple[Piece, Piece, Seam]:
        one, other = (
            replace(
                collar(name, long=long),
                edges=tuple(replace(e, place=place) if e.name == "outer" else e for e in collar(name, long=long).edges),
            )
            for name, long in (("upper", 180.0), ("under", 182.0))
        )
        return one, other, Seam("edge", (EdgeRef("upper", "outer"),), (EdgeRef("under", "outer"),))

    one, other, edge = seam(Place.COLLAR_EDGE)
    result = the("collar-sits", pattern(one, other, seams=(edge,)), "upper over under")
    assert (result.measured, result.verdict) == (pytest.approx(-2.0), Verdict.WARN)
    turned = replace(edge, a=edge.b, b=edge.a)
    assert the("collar-sits", pattern(one, other, seams=(turned,)), "under over upper").verdict is Verdict.PASS
    one, other, edge = seam(Place.COLLAR_SEAM)
    assert not [each for each in told("collar-sits", pattern(one, other, seams=(edge,))) if " over " in each.where]


def test_a_cuff_closes_over_the_wrist_and_opens_for_the_hand() -> None:
    """A wrist of 160: 170 closed, 209.6 open; the cuff is 200 long, its button 25 mm in, and its slit opens twice."""
    cuff = drawn(
        "cuff",
        ("seam", (0.0, 0.0), Place.WRIST, panel().edge("side").role),
        ("end", (200.0, 0.0), Place.BAND_END, panel().edge("side").role),
        ("fold", (200.0, 50.0), Place.BAND_EDGE, panel().edge("side").role),
        ("other end", (0.0, 50.0), Place.BAND_END, panel().edge("side").role),
        identity=Identity(PieceKind.CUFF, BodyPart.SLEEVE),
    )
    for apart, slit, closed, opens in (
        (170.0, 4.9, Verdict.PASS, Verdict.PASS),
        (169.9, 4.7, Verdict.WARN, Verdict.WARN),
        (159.9, 0.0, Verdict.FAIL, Verdict.WARN),
    ):
        points = (MarkPoint("button", Point(10.0, 25.0)), MarkPoint("hole", Point(10.0 + apart, 25.0)))
        lines = (MarkLine("slit", Point(50.0, 50.0), Point(50.0, 50.0 + slit), level=Level.SLIT),)
        whole = pattern(replace(cuff, points=points), replace(panel("sleeve"), lines=lines), wrist_girth=160.0)
        told_closed, told_open = (the("collar-sits", whole, what) for what in ("closed over", "open for"))
        assert (told_closed.measured, told_closed.wanted, told_closed.verdict) == (pytest.approx(apart), 170.0, closed)
        assert (told_open.measured, told_open.wanted) == (pytest.approx(200.0 + 2.0 * slit), pytest.approx(209.6))
        assert told_open.verdict is opens
    bare = the("collar-sits", pattern(cuff, wrist_girth=160.0), "closed over")
    assert bare.measured == pytest.approx(200.0)
