"""What is turned in, on hems that are arcs of circles: turned up by d, an arc of t radians is d * t longer there."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.checks import Verdict
from drafting.checks.allowances import lies_flat
from drafting.errors import Setting
from drafting.geometry import Cubic, Curve, Line, Point, Vec
from drafting.pattern import Edge, Identity, Piece, PieceKind, Place, Role
from drafting.pattern.places import BodyPart
from tests.drafting.checks.worked import FRONT, UP, panel, pattern, the, told


def arc(radius: float, angle: float, *, out: bool) -> tuple[Curve, ...]:
    """An arc of a hem about (0, 0) below (or above, where it is hollow), in steps of an eighth of a turn at most."""
    count = math.ceil(angle / 0.5)
    step = angle / count
    handle = radius * 4.0 / 3.0 * math.tan(step / 4.0)
    sign = 1.0 if out else -1.0

    def place(k: float) -> tuple[Point, Vec]:
        t = -math.pi / 2 - angle / 2 + k * step
        return Point(radius * math.cos(t), sign * radius * math.sin(t)), Vec(-math.sin(t), sign * math.cos(t))

    curves: list[Curve] = []
    for k in range(count):
        (start, leaves), (end, comes) = place(k), place(k + 1)
        curves.append(Cubic(start, start + leaves * handle, end - comes * handle, end))
    return tuple(curves)


def hemmed(
    radius: float,
    angle: float,
    deep: float,
    *,
    out: bool = True,
    role: Role = Role.HEM,
    kind: PieceKind = PieceKind.FRONT,
) -> Piece:
    curves = arc(radius, angle, out=out)
    start, end = curves[0].start, curves[-1].end
    high = max(start.y, end.y) + 500.0
    upper = Point(end.x, high), Point(start.x, high)
    return Piece(
        "front",
        (
            Edge("hem", curves, role, deep, Place.HEM),
            Edge("side", (Line(end, upper[0]),), place=Place.SIDE),
            Edge("waist", (Line(*upper),), place=Place.WAIST),
            Edge("centre", (Line(upper[1], start),), place=Place.CENTRE_FRONT),
        ),
        grain=UP,
        identity=Identity(kind, BodyPart.SKIRT),
    )


@pytest.mark.parametrize(
    ("deep", "out", "verdict", "most"),
    [
        # 500 mm bent by half a radian: 15 mm in a thousand are 7.5, so it may be 15 deep
        (14.9, True, Verdict.PASS, 7.5),
        (15.1, True, Verdict.WARN, 7.5),
        (14.9, False, Verdict.PASS, 7.5),
        (15.1, False, Verdict.WARN, 7.5),
    ],
)
def test_a_hem_turned_up_is_fuller_or_tighter_than_it_may_be(
    deep: float, out: bool, verdict: Verdict, most: float
) -> None:
    result = the("turned-in-lies", pattern(hemmed(1000.0, 0.5, deep, out=out)), "hem")
    assert result.measured == pytest.approx((0.5 if out else -0.5) * deep, rel=1e-3)
    assert (result.allowed, result.verdict) == (pytest.approx(most, rel=1e-3), verdict)
    if verdict is Verdict.WARN:
        assert ("full" if out else "tight") in result.remedy
        depth, facing = result.remedies
        # 15 less the 0.8 that an amount in inches may be more, in whole millimetres
        assert [(each.option, each.value) for each in depth.settings] == [("piece", "front"), ("depth", 14.0)]
        assert [(each.option, each.value) for each in facing.settings] == [("piece", "front"), ("finish", "facing")]


def test_a_narrow_hem_lies_on_a_tighter_curve_where_that_bulges_out() -> None:
    """An arc of 200 mm bent by 2 radians: 1.5 deep by the rule, 10 as a narrow hem; hollow it takes no narrow one."""
    assert lies_flat(200.0, 2.0) == pytest.approx(10.0)
    assert lies_flat(200.0, -2.0) == pytest.approx(1.5)
    assert lies_flat(50.0, 2.0) == pytest.approx(0.11 * 25.0)
    assert lies_flat(1000.0, 0.5) == pytest.approx(30.0)
    assert math.isinf(lies_flat(200.0, 0.0))
    assert math.isinf(lies_flat(200.0, -5e-7))
    shallow = the("turned-in-lies", pattern(hemmed(100.0, 2.0, 12.0, out=False)), "hem")
    assert [each.settings[-1].value for each in shallow.remedies] == ["facing"]  # 0.7 mm is no hem


def test_an_opening_is_told_to_be_snipped_and_a_lining_to_be_laid_in_folds() -> None:
    opening = the("turned-in-lies", pattern(hemmed(1000.0, 0.5, 20.0, role=Role.OPENING)), "hem")
    less = Setting("seam_allowance", 14.0, "mm")
    assert (opening.verdict, [each.settings for each in opening.remedies]) == (Verdict.WARN, [(less,)])
    tight = the("turned-in-lies", pattern(hemmed(200.0, 2.5, 20.0, role=Role.OPENING)), "hem")
    assert (tight.verdict, tight.remedies) == (Verdict.WARN, ())  # so little is no allowance
    assert "Turn in only 14 mm of it, or snip" in opening.remedy
    lining = the("turned-in-lies", pattern(hemmed(1000.0, 0.5, 20.0, kind=PieceKind.LINING)), "hem")
    assert (lining.verdict, lining.remedies) == (Verdict.WARN, ())
    assert "lay what is too full in small folds" in lining.remedy


def test_what_is_no_hem_or_lies_straight_is_not_turned_in() -> None:
    assert the("turned-in-lies", pattern(panel("front")), "hem").measured == 0.0
    seam = hemmed(1000.0, 0.5, 20.0, role=Role.SEAM)
    assert not [each for each in told("turned-in-lies", pattern(seam)) if each.measured is not None]
    bare = replace(seam, edges=(replace(seam.edges[0], role=Role.HEM, allowance=0.0), *seam.edges[1:]))
    assert not [each for each in told("turned-in-lies", pattern(bare)) if each.measured is not None]


def test_a_hem_that_wavers_is_as_full_as_at_its_fullest() -> None:
    """Out by 0.5 radians and in again by 0.3: it is full by 0.5 somewhere."""
    one, other = arc(1000.0, 0.5, out=True), arc(1000.0, 0.3, out=False)
    turn = math.atan2(one[-1].end.y - one[-1].c2.y, one[-1].end.x - one[-1].c2.x)  # type: ignore[union-attr]
    was = math.atan2(other[0].c1.y - other[0].start.y, other[0].c1.x - other[0].start.x)  # type: ignore[union-attr]
    cos, sin = math.cos(turn - was), math.sin(turn - was)

    def laid(p: Point) -> Point:
        x, y = p.x - other[0].start.x, p.y - other[0].start.y
        return one[-1].end + Vec(cos * x - sin * y, sin * x + cos * y)

    run: list[Curve] = list(one)
    for c in other:
        assert isinstance(c, Cubic)
        run.append(Cubic(run[-1].end, laid(c.c1), laid(c.c2), laid(c.end)))
    whole = hemmed(1000.0, 0.5, 10.0)
    end = run[-1].end
    upper = Point(end.x, 600.0), Point(run[0].start.x, 600.0)
    edges = (
        replace(whole.edges[0], curves=tuple(run)),
        replace(whole.edges[1], curves=(Line(end, upper[0]),)),
        replace(whole.edges[2], curves=(Line(*upper),)),
        replace(whole.edges[3], curves=(Line(upper[1], run[0].start),)),
    )
    result = the("turned-in-lies", pattern(Piece("front", edges, grain=UP, identity=FRONT)), "hem")
    assert result.measured == pytest.approx(5.0, rel=1e-3)


def test_a_hem_of_less_than_3_mm_is_none_that_could_be_asked_for() -> None:
    """Hollow by a circle of R mm it lies 0.015 R deep, less the 0.8 that an amount in inches may be more."""
    for radius, asked in ((250.0, ["facing"]), (270.0, [3.0, "facing"]), (320.0, [4.0, "facing"])):
        result = the("turned-in-lies", pattern(hemmed(radius, 0.5, 12.0, out=False)), "hem")
        assert [each.settings[-1].value for each in result.remedies] == asked
