"""Elastic in a casing: how thick the body is there, how long it is cut, what passes; figures worked out beside it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.geometry import Line, Point
from drafting.pattern import (
    BodyLength,
    Cut,
    Edge,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Pattern,
    Piece,
    Place,
    Role,
    Wearer,
)
from drafting.pattern.casings import body_at, casing_depth, casings, least_wrist, usual_elastic
from drafting.pattern.derived import Derived, EdgeAs
from drafting.pattern.pattern import ChildWearer

ARM = {
    "wrist_girth": 160.0,
    "elbow_girth": 260.0,
    "upper_arm_girth": 300.0,
    "arm_length": 600.0,
    "shoulder_to_elbow": 350.0,
}
BODY = ARM | {
    "waist_girth": 700.0,
    "hip_girth": 950.0,
    "neck_base_girth": 380.0,
    "head_girth": 560.0,
    "thigh_girth": 580.0,
    "ankle_girth": 220.0,
    "crotch_height": 800.0,
}


def sleeve(long: float, place: Place = Place.WRIST) -> Piece:
    """A tube 400 wide whose crown lies at 0, its biceps at 150 below, its end so far down."""
    a, b, c, d = Point(0.0, -long), Point(400.0, -long), Point(400.0, 0.0), Point(0.0, 0.0)
    edges = (("end", a, b, place), ("front", b, c, Place.INSEAM), ("top", c, d, Place.CAP), ("back", d, a, Place.SIDE))
    return Piece(
        "piece",
        tuple(Edge(name, (Line(start, end),), place=where) for name, start, end, where in edges),
        lines=(MarkLine("biceps", Point(0.0, -150.0), Point(400.0, -150.0), level=Level.BICEPS),),
        points=(MarkPoint("crown", Point(200.0, 0.0), Landmark.CROWN),),
    )


def worn(piece: Piece, body: dict[str, float] = BODY, **how: object) -> Pattern:
    lengths = tuple(BodyLength(key, mm, "measured") for key, mm in body.items())
    return replace(Pattern("Worn", Wearer("Inga", lengths), (piece,)), **how)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("long", "girth", "where", "passes"),
    [
        (100.0, 300.0, "upper arm", "bent arm"),  # above the biceps
        (150.0, 300.0, "upper arm", "bent arm"),
        (250.0, 280.0, "upper arm", "bent arm"),
        (309.0, 268.2, "upper arm", "bent arm"),
        (311.0, 267.8, "elbow", "bent arm"),
        (349.0, 260.2, "elbow", "bent arm"),
        (350.0, 260.0, "elbow", "hand"),
        (389.0, 244.4, "elbow", "hand"),
        (391.0, 243.6, "forearm", "hand"),
        (475.0, 210.0, "forearm", "hand"),
        (559.0, 176.4, "forearm", "hand"),
        (561.0, 175.6, "wrist", "hand"),
        (600.0, 160.0, "wrist", "hand"),
        (700.0, 160.0, "wrist", "hand"),
    ],
)
def test_the_arm_where_a_sleeve_ends_lies_evenly_between_what_was_measured(
    long: float, girth: float, where: str, passes: str
) -> None:
    found = body_at(worn(sleeve(long)), Place.WRIST, sleeve(long))
    assert (found.girth, found.where, found.passes) == (pytest.approx(girth), where, passes)
    assert found.through == pytest.approx(max(girth, 209.6))
    more = 15.0 if passes == "bent arm" else 5.0
    assert usual_elastic(worn(sleeve(long)), Place.WRIST, found) == pytest.approx(girth + more)


def test_an_arm_of_which_not_all_is_known_is_taken_for_its_wrist() -> None:
    bare = replace(sleeve(300.0), lines=())
    assert body_at(worn(bare), Place.WRIST, bare).girth == pytest.approx(300.0 - 40.0 * 125.0 / 175.0)
    crownless = replace(sleeve(300.0), points=())
    unknown = [{key: mm for key, mm in BODY.items() if key != left} for left in ARM if left != "wrist_girth"]
    for pattern, piece in (
        (worn(crownless), crownless),
        *((worn(sleeve(300.0), body), sleeve(300.0)) for body in unknown),
    ):
        found = body_at(pattern, Place.WRIST, piece)
        assert (found.girth, found.through, found.where) == (160.0, pytest.approx(209.6), "wrist")
    nothing = body_at(worn(sleeve(300.0), {}), Place.WRIST, sleeve(300.0))
    assert (nothing.girth, nothing.through) == (0.0, 0.0)


def test_waist_neck_and_leg_are_as_thick_as_they_were_measured() -> None:
    piece = sleeve(200.0, Place.LEG_OPENING)
    found = {place: body_at(worn(piece), place, piece) for place in (Place.WAIST, Place.NECK, Place.LEG_OPENING)}
    told = {place: (body.girth, body.through, body.passes) for place, body in found.items()}
    # a leg 200 mm down its 800 is a quarter of the way from thigh to ankle
    assert told == {
        Place.WAIST: (700.0, 950.0, "hips"),
        Place.NECK: (440.0, 560.0, "head"),
        Place.LEG_OPENING: (490.0, 490.0, "thigh"),
    }
    usual = {place: usual_elastic(worn(piece), place, body) for place, body in found.items()}
    assert usual == {
        Place.WAIST: pytest.approx(700.0 - 50.8),
        Place.NECK: pytest.approx(0.9 * 440.0),
        Place.LEG_OPENING: pytest.approx(495.0),
    }
    bare = {place: body_at(worn(piece, {}), place, piece) for place in found}
    assert [(body.girth, body.through) for body in bare.values()] == [(0.0, 0.0), (0.0, 560.0), (0.0, 0.0)]
    long = sleeve(1000.0, Place.LEG_OPENING)
    assert body_at(worn(long), Place.LEG_OPENING, long).girth == pytest.approx(220.0)
    no_ankle = worn(piece, {key: mm for key, mm in BODY.items() if key != "ankle_girth"})
    assert body_at(no_ankle, Place.LEG_OPENING, piece).girth == 580.0


def test_elastic_lets_through_what_passes_and_is_no_longer_than_the_waist() -> None:
    """It is pulled to 1.8 of its length at the most."""
    piece = sleeve(200.0)
    for waist, hips, long in ((700.0, 1200.0, 1200.0 / 1.8), (700.0, 1300.0, 700.0), (500.0, 700.0, 449.2)):
        pattern = worn(piece, BODY | {"waist_girth": waist, "hip_girth": hips})
        assert usual_elastic(pattern, Place.WAIST, body_at(pattern, Place.WAIST, piece)) == pytest.approx(long)
        child = replace(pattern, wearer=replace(pattern.wearer, child=ChildWearer("girl", 60, "")))
        usual = min(waist, max(0.93 * waist, hips / 1.8))
        assert usual_elastic(child, Place.WAIST, body_at(child, Place.WAIST, piece)) == pytest.approx(usual)
    small = worn(piece, BODY | {"neck_base_girth": 240.0, "head_girth": 558.0})
    assert usual_elastic(small, Place.NECK, body_at(small, Place.NECK, piece)) == pytest.approx(310.0)


@pytest.mark.parametrize(
    ("part", "cut", "count", "edge"),
    [
        ("wrist elastic", Cut(2, mirror=True), 2, 400.0),
        ("waist elastic", Cut(2, mirror=True), 1, 800.0),
        ("waist elastic", Cut(1, fold=True), 1, 800.0),
        ("leg elastic", Cut(4, mirror=True), 2, 800.0),
    ],
)
def test_a_casing_is_as_long_as_the_cloth_round_it_and_its_elastic_as_asked_for(
    part: str, cut: Cut, count: int, edge: float
) -> None:
    piece = replace(sleeve(600.0), cut=cut)
    options = (("width", 15.0), ("heading", 8.0), ("length", 180.0))
    derived = Derived(part, (), options, edges=(EdgeAs("piece", "end", Role.HEM, 20.0),))
    pattern = worn(piece, derived=(derived,), stretch=0.4)
    (casing,) = casings(pattern)
    assert (casing.width, casing.heading, casing.elastic, casing.count) == (15.0, 8.0, 180.0, count)
    assert casing.edge == pytest.approx(edge)
    # half of what a knit stretches is used as it is put on
    assert casing.opens == pytest.approx(1.2 * edge)
    usual = replace(derived, options=options[:2])
    (left,) = casings(replace(pattern, derived=(usual,)))
    assert left.elastic == usual_elastic(pattern, casing.place, casing.body)
    assert list(casings(replace(pattern, derived=(replace(derived, edges=()),)))) == []
    assert list(casings(replace(pattern, derived=(replace(derived, part="cuff"),)))) == []


def test_a_casing_is_called_by_where_it_lies() -> None:
    derived = Derived(
        "wrist elastic", (), (("width", 6.0), ("heading", 0.0)), edges=(EdgeAs("piece", "end", Role.HEM, 9.0),)
    )
    names = {long: next(casings(worn(sleeve(long), derived=(derived,)))).name for long in (200.0, 350.0, 450.0, 600.0)}
    assert list(names.values()) == ["upper arm elastic", "elbow elastic", "forearm elastic", "wrist elastic"]
    waist = next(casings(worn(sleeve(200.0), derived=(replace(derived, part="waist elastic"),))))
    assert waist.name == "waist elastic"


def test_a_casing_is_3_mm_wider_than_its_elastic_and_6_are_turned_in() -> None:
    assert casing_depth(20.0, 7.0) == 36.0
    assert least_wrist(160.0) == pytest.approx(229.6)
