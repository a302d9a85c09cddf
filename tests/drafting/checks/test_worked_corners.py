"""Which lines have to run on over a seam, and which need not, on two panels sewn along their sides."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.checks import Result, Verdict
from drafting.geometry import Point
from drafting.pattern import EdgeRef, Grain, Identity, Pattern, Piece, PieceKind, Place, Role, Seam
from drafting.pattern.places import BodyPart
from tests.drafting.checks.worked import BACK, drawn, panel, pattern, told, with_edge

SIDE = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),))


def halves(**front: object) -> tuple[Piece, Piece]:
    """Front and back; of the front the lower edge is changed."""
    return with_edge(panel("front"), "hem", **front), panel("back", identity=BACK)


def lower(whole: Pattern) -> list[Result]:
    """What is told of the lower end of the side seam."""
    return [each for each in told("corners-true", whole) if each.where.startswith("side, start")]


@pytest.mark.parametrize(
    ("change", "runs_on"),
    [
        ({}, True),
        ({"role": Role.SEAM}, True),
        ({"role": Role.FOLD}, False),
        ({"role": Role.OPENING}, False),
        ({"place": Place.STAND}, False),
    ],
)
def test_a_fold_an_opening_and_a_button_stand_stop_at_a_seam(change: dict[str, object], runs_on: bool) -> None:
    whole = pattern(*halves(**change), seams=(SIDE,))
    assert bool(lower(whole)) is runs_on
    both = tuple(with_edge(piece, "hem", **change) for piece in (panel("front"), panel("back", identity=BACK)))
    stops = change.get("role") in (Role.FOLD, Role.OPENING)
    assert bool(lower(pattern(*both, seams=(SIDE,)))) is not stops


def test_lines_are_trued_in_the_order_of_sewing() -> None:
    """What is sewn to the lower edges later has to find one line; what was sewn to them before, or to one only, not."""
    below = drawn(
        "below",
        ("bottom", (0.0, 0.0), Place.HEM, Role.HEM),
        ("end", (400.0, 0.0), Place.SIDE, Role.SEAM),
        ("top", (400.0, 50.0), Place.WAIST, Role.SEAM),
        ("other end", (0.0, 50.0), Place.SIDE, Role.SEAM),
        identity=Identity(PieceKind.FRONT, BodyPart.SKIRT),
    )
    both = Seam("waist", (EdgeRef("front", "hem"), EdgeRef("back", "hem", backward=True)), (EdgeRef("below", "top"),))
    one = replace(both, a=both.a[:1])
    for seams, runs_on in (((SIDE, both), True), ((both, SIDE), False), ((SIDE, one), False), ((one, SIDE), False)):
        assert bool(lower(pattern(*halves(), below, seams=seams))) is runs_on
    together = Seam("hems", (EdgeRef("front", "hem"),), (EdgeRef("back", "hem"),))
    assert not lower(pattern(*halves(), seams=(SIDE, together)))


def leaning(name: str, degrees: float, identity: Identity, place: Place = Place.HEM, role: Role = Role.HEM) -> Piece:
    """A panel whose side leans out below by so much, and so its lower corner is that much short of square."""
    out = 300.0 * math.tan(math.radians(degrees))
    return drawn(
        name,
        ("lower", (0.0, 0.0), place, role),
        ("side", (200.0 + out, 0.0), Place.SIDE, Role.SEAM),
        ("top", (200.0, 300.0), Place.NECK, Role.SEAM),
        ("centre", (0.0, 300.0), Place.CENTRE_FRONT, Role.FOLD),
        identity=identity,
    )


@pytest.mark.parametrize(
    ("one", "other", "role", "place", "verdict"),
    [
        (1.4, 1.4, Role.SEAM, Place.WAIST, Verdict.PASS),
        (1.6, 1.6, Role.SEAM, Place.WAIST, Verdict.FAIL),
        (-1.6, -1.6, Role.SEAM, Place.WAIST, Verdict.FAIL),
        (8.0, -8.0, Role.SEAM, Place.WAIST, Verdict.PASS),
        # a hem may bend as a whole by 14 degrees where both sides lean alike, to 3
        (6.9, 6.9, Role.HEM, Place.HEM, Verdict.PASS),
        (6.9, 4.0, Role.HEM, Place.HEM, Verdict.PASS),
        (6.9, 3.8, Role.HEM, Place.HEM, Verdict.FAIL),
        (7.1, 6.8, Role.HEM, Place.HEM, Verdict.FAIL),
        (-6.9, -6.9, Role.HEM, Place.HEM, Verdict.PASS),
        # and so may a wrist that is sewn to a cuff
        (6.9, 6.9, Role.SEAM, Place.WRIST, Verdict.PASS),
    ],
)
def test_a_line_runs_straight_on_over_a_seam_to_3_degrees_and_a_hem_to_14(
    one: float, other: float, role: Role, place: Place, verdict: Verdict
) -> None:
    front, back = leaning("front", one, panel().identity, place, role), leaning("back", other, BACK, place, role)
    (result,) = lower(pattern(front, back, seams=(SIDE,)))
    assert (result.measured, result.verdict) == (pytest.approx(180.0 - one - other), verdict)
    if verdict is Verdict.FAIL:
        bend = one + other
        assert f"{abs(bend):.1f}" in result.remedy


def crossed(upper_front: Place, lower_front: Place, upper_back: Place, lower_back: Place) -> Pattern:
    def piece(name: str, upper: Place, low: Place, identity: Identity) -> Piece:
        whole = with_edge(
            with_edge(panel(name, identity=identity), "top", place=upper), "hem", place=low, role=Role.SEAM
        )
        return with_edge(whole, "centre", role=Role.FOLD)

    return pattern(
        piece("front", upper_front, lower_front, panel().identity),
        piece("back", upper_back, lower_back, BACK),
        seams=(SIDE,),
    )


def test_a_seam_that_joins_the_upper_end_to_the_lower_one_is_told_to_be_walked_backward() -> None:
    """The lines beside it lie at other places at both ends, and at the same ones were a side walked backward."""
    neck, waist = Place.NECK, Place.WAIST
    for places, wrong in (
        ((neck, waist, neck, waist), False),
        ((neck, waist, waist, neck), True),
        ((neck, neck, waist, waist), False),
        ((neck, waist, waist, waist), False),
        ((neck, neck, neck, neck), False),
    ):
        found = [each for each in told("corners-true", crossed(*places)) if each.where.startswith("side")]
        assert [(each.where, each.verdict) for each in found if each.verdict is Verdict.FAIL] == (
            [("side: way round", Verdict.FAIL)] if wrong else []
        )
        assert len(found) == (1 if wrong else 2)


def test_a_centre_line_meets_the_edges_beside_it_square() -> None:
    for degrees, verdict in ((0.0, Verdict.PASS), (1.4, Verdict.PASS), (1.6, Verdict.FAIL)):
        rise = 200.0 * math.tan(math.radians(degrees))
        piece = drawn(
            "front",
            ("hem", (0.0, 0.0), Place.HEM, Role.HEM),
            ("side", (200.0, rise), Place.SIDE, Role.SEAM),
            ("neck", (200.0, 300.0), Place.NECK, Role.SEAM),
            ("centre", (0.0, 300.0), Place.CENTRE_FRONT, Role.FOLD),
        )
        piece = replace(piece, grain=Grain(Point(50.0, 50.0), Point(50.0, 150.0)))
        found = [each for each in told("corners-true", pattern(piece)) if each.measured != pytest.approx(180.0)]
        if degrees:
            (result,) = found
            assert (result.measured, result.verdict) == (pytest.approx(180.0 - 2.0 * degrees), verdict)
        else:
            assert not found
