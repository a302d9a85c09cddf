"""Openings and necks, worked out on pieces of a few straight lines."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.checks import Verdict
from drafting.checks.gaping import gape
from drafting.geometry import Point
from drafting.pattern import (
    Across,
    Along,
    BodyLength,
    Cut,
    EdgeRef,
    Identity,
    Landmark,
    MarkLine,
    MarkPoint,
    Origin,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Wearer,
)
from drafting.pattern.derived import Derived, DrawnTo
from drafting.pattern.places import BodyPart
from tests.drafting.checks.worked import BACK, FRONT, drawn, panel, pattern, the, with_edge


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


@pytest.mark.parametrize("centre_first", [False, True])
@pytest.mark.parametrize(("roles", "mm"), [((OPEN, SEWN), 880.0), ((OPEN, OPEN), math.inf), ((SEWN, OPEN), 600.0)])
def test_an_opening_runs_on_over_the_seam_to_the_piece_below(
    centre_first: bool, roles: tuple[Role, Role], mm: float
) -> None:
    """From the neck 300 mm down a front that is open all along, and on in the skirt, 140 mm and 160."""

    def half(name: str, *centre: Role) -> Piece:
        ends = (0.0, 160.0) if len(centre) > 1 else (0.0,)
        if centre_first:  # the centre lies at the right, and is drawn upward
            line = (
                (f"centre {k}", (200.0, y), Place.CENTRE_FRONT, role)
                for k, (y, role) in enumerate(zip(ends, reversed(centre), strict=True))
            )
            lower, upper, outer = ("low", (0.0, 0.0)), ("high", (200.0, 300.0)), ("side", (0.0, 300.0))
            edges = [(*lower, Place.WAIST, SEWN), *line, (*upper, Place.WAIST, SEWN), (*outer, Place.SIDE, SEWN)]
        else:
            tops = (300.0, 160.0) if len(centre) > 1 else (300.0,)
            line = (
                (f"centre {k}", (0.0, y), Place.CENTRE_FRONT, role)
                for k, (y, role) in enumerate(zip(tops, centre, strict=True))
            )
            lower, outer, upper = ("low", (0.0, 0.0)), ("side", (200.0, 0.0)), ("high", (200.0, 300.0))
            edges = [(*lower, Place.WAIST, SEWN), (*outer, Place.SIDE, SEWN), (*upper, Place.WAIST, SEWN), *line]
        return drawn(name, *edges)

    bodice = with_edge(half("bodice", OPEN), "high", place=Place.NECK)
    skirt = with_edge(half("skirt", *roles), "low", place=Place.HEM, role=Role.HEM)
    seam = Seam("waist", (EdgeRef("bodice", "low"),), (EdgeRef("skirt", "high", backward=True),))
    assert gape([bodice, skirt], (seam,), [Along("bodice", "high", 2.0)]) == pytest.approx(mm)


@pytest.mark.parametrize(("lap", "mm"), [(0.0, 240.0), (25.0, 100.0), (80.0, 240.0)])
def test_both_shoulders_gape_as_far_as_they_are_open_or_their_laps_let_them(lap: float, mm: float) -> None:
    """Each is open for 60 mm from the neck, both lips of two shoulders; laps lie over the other half so far."""
    lapped = (("lap", (100.0, 300.0 + lap), Place.LAP_END, Role.SEAM),) if lap else ()
    piece = drawn(
        "front",
        ("hem", (0.0, 0.0), Place.HEM, Role.HEM),
        ("side", (200.0, 0.0), Place.SIDE, Role.SEAM),
        ("sewn", (200.0, 300.0 + lap), Place.SHOULDER, Role.SEAM),
        ("open", (160.0, 300.0 + lap), Place.SHOULDER, Role.OPENING),
        *lapped,
        ("neck", (100.0, 300.0), Place.NECK, Role.SEAM),
        ("centre", (0.0, 300.0), Place.CENTRE_FRONT, Role.FOLD),
    )
    assert gape([piece], (), [Along("front", "neck", 2.0)]) == pytest.approx(mm)


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

    for sewn, off, verdict in (
        (80.0, 0.0, Verdict.PASS),
        (80.5, 0.5, Verdict.PASS),
        (50.0, 30.0, Verdict.FAIL),
        (120.0, 40.0, Verdict.FAIL),
    ):
        result = the("closings-meet", pattern(half("front", 80.0, FRONT), half("back", sewn, BACK)), "front on back")
        assert (result.measured, result.verdict) == (pytest.approx(off), verdict)
        if verdict is Verdict.FAIL:
            assert ("behind" if sewn < 80.0 else "in front") in result.remedy


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
    ("neck", "verdict"),
    [(200.0, Verdict.PASS), (205.0, Verdict.PASS), (205.1, Verdict.WARN), (225.0, Verdict.WARN), (225.1, Verdict.FAIL)],
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


def test_the_origin_of_a_knit_band_counts_where_no_part_was_ordered() -> None:
    origin = Origin("knit top", (("opening", "knit band"), ("band_width", 20.0), ("band_stretch", 0.6)))
    whole = replace(pattern(necked(), neck_base_girth=200.0, head_girth=300.0), origin=(origin,), stretch=0.4)
    flat = the("neck-goes-round", whole, "knit band")
    assert (flat.measured, flat.verdict) == (pytest.approx(100.0), Verdict.PASS)


def test_snaps_of_front_and_back_lie_on_each_other_to_half_a_millimetre() -> None:
    def leg(name: str, identity: Identity, *ats: float) -> Piece:
        points = tuple(MarkPoint(f"snap {k}", Point(190.0, at), Landmark.SNAP) for k, at in enumerate(ats))
        piece = with_edge(panel(name, identity=identity), "side", place=Place.INSEAM, role=Role.OPENING)
        return replace(piece, points=points)

    for ats, apart, verdict in (
        ((20.0, 60.0, 100.0), 0.0, Verdict.PASS),
        ((25.0, 65.0, 105.0), 0.0, Verdict.PASS),  # from the first one on
        ((20.0, 60.0, 100.5), 0.5, Verdict.PASS),
        ((20.0, 60.0, 101.0), 1.0, Verdict.FAIL),
        ((20.0, 60.0), 0.0, Verdict.FAIL),
    ):
        whole = pattern(leg("front", FRONT, 20.0, 60.0, 100.0), leg("back", BACK, *ats))
        result = the("closings-meet", whole, "snaps")
        assert (result.measured, result.verdict) == (pytest.approx(apart), verdict)


@pytest.mark.parametrize(
    ("head", "guessed", "verdict"),
    [
        (200.0, None, Verdict.PASS),
        (200.1, None, Verdict.FAIL),
        (180.0, 20.0, Verdict.PASS),
        (180.1, 20.0, Verdict.WARN),  # an estimate may be larger by so much
        (200.0, 20.0, Verdict.WARN),
        (200.1, 20.0, Verdict.FAIL),
        (None, None, Verdict.WARN),  # 540 of a small head
    ],
)
def test_a_neck_of_200_mm_goes_over_a_head_that_is_known_estimated_or_neither(
    head: float | None, guessed: float | None, verdict: Verdict
) -> None:
    known = (
        () if head is None else (BodyLength("head_girth", head, "estimated" if guessed else "measured", sd=guessed),)
    )
    whole = replace(pattern(necked()), wearer=Wearer("Inga", known))
    result = the("neck-goes-round", whole, "over the head")
    wanted = 540.0 if head is None else head + (guessed or 0.0)
    assert (result.measured, result.wanted, result.verdict) == (pytest.approx(200.0), pytest.approx(wanted), verdict)
    if verdict is not Verdict.PASS:
        told = "yours is not measured" if head is None else "only estimated" if guessed else "the head is round"
        assert told in result.remedy
        assert f"{wanted - 200.0:.1f} mm shorter" in result.remedy
