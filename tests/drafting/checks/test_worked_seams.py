"""Checks of seams, notches and pockets, worked out on pieces of a few straight lines."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.checks import Verdict
from drafting.geometry import Point, Vec, moved_all, shift
from drafting.pattern import (
    EdgeRef,
    Identity,
    Landmark,
    MarkPoint,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    Step,
)
from drafting.pattern.places import BodyPart
from tests.drafting.checks.worked import BACK, drawn, panel, pattern, the, told, with_edge


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
    near = the("pockets-clear", pocketed((110.0, 180.5), (50.0, 180.0)), "pocket on front")
    assert (near.measured, near.verdict) == (pytest.approx(0.5), Verdict.PASS)
    off = the("pockets-clear", pocketed((110.0, 180.0), (50.0, 184.0)), "pocket on front")
    assert (off.measured, off.verdict) == (pytest.approx(4.0), Verdict.FAIL)
    bare = the("pockets-clear", pocketed(), "pocket")
    assert (bare.verdict, bare.remedy) == (Verdict.FAIL, "No piece has marks for it: ask for the pocket again.")


@pytest.mark.parametrize(
    ("off", "over"),
    [
        ((0.0, 0.0), ""),
        ((-49.0, -99.0), ""),
        ((89.0, 119.0), ""),
        ((119.0, 0.0), "a seam or an edge"),  # its middle, at 80 and 140, still lies on the piece
        ((121.0, 0.0), "the edge of the piece"),
        ((-79.0, 0.0), "a seam or an edge"),
        ((-81.0, 0.0), "the edge of the piece"),
        ((0.0, 159.0), "a seam or an edge"),
        ((0.0, 161.0), "the edge of the piece"),
        ((0.0, -139.0), "a seam or an edge"),
        ((0.0, -141.0), "the edge of the piece"),
        ((400.0, 0.0), "the edge of the piece"),  # wholly beside it, where it crosses nothing
        ((0.0, 400.0), "the edge of the piece"),
    ],
)
def test_a_patch_lies_within_its_piece(off: tuple[float, float], over: str) -> None:
    front, patch = pocketed((110.0, 180.0), (50.0, 180.0)).pieces
    moved = replace(patch, edges=tuple(replace(e, curves=moved_all(e.curves, shift(Vec(*off)))) for e in patch.edges))
    result = the("pockets-clear", pattern(front, moved), "pocket within front")
    assert result.verdict is (Verdict.FAIL if over else Verdict.PASS)
    assert result.measured == (float(off[0] + off[1] != 0.0) if over else 0.0)
    assert not over or f"It runs over {over}:" in result.remedy


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


@pytest.mark.parametrize(
    ("high", "verdict"),
    [(300.0, Verdict.PASS), (301.5, Verdict.PASS), (301.6, Verdict.WARN), (303.0, Verdict.WARN), (303.1, Verdict.FAIL)],
)
def test_a_plain_seam_is_as_long_on_both_sides(high: float, verdict: Verdict) -> None:
    for one, other, longer in ((high, 300.0, "front"), (300.0, high, "back")):
        pieces = panel("front", high=one), panel("back", high=other, identity=BACK)
        seam = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),))
        result = the("seam-length", pattern(*pieces, seams=(seam,)))
        assert (result.measured, result.verdict) == (pytest.approx(one - other), verdict)
        if verdict is not Verdict.PASS:
            assert result.remedy.startswith(f"{longer} side is {high - 300.0:.1f} mm longer than")


@pytest.mark.parametrize(
    ("more", "verdict", "change"),
    [
        (10.0, Verdict.PASS, ""),
        (20.0, Verdict.PASS, ""),
        (8.5, Verdict.WARN, "Lengthen it by 3.5 mm"),
        (8.4, Verdict.FAIL, "Lengthen it by 3.6 mm"),
        (21.5, Verdict.WARN, "Shorten it by 9.5 mm"),
        (21.6, Verdict.FAIL, "Shorten it by 9.6 mm"),
    ],
)
def test_an_eased_seam_is_longer_by_what_will_sew(more: float, verdict: Verdict, change: str) -> None:
    pieces = panel("front", high=300.0 + more), panel("back", identity=BACK)
    seam = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),), SeamEase(12.0, 10.0, 20.0))
    result = the("seam-length", pattern(*pieces, seams=(seam,)))
    assert (result.verdict, result.wanted, result.allowed) == (verdict, 12.0, (10.0, 20.0))
    assert change in result.remedy


def test_a_seam_that_is_said_to_sew_with_anything_fails() -> None:
    """A range of 45 mm may be, of a gathered one of two fifths of what is gathered."""
    for wanted, wide, verdict in (
        (0.0, 45.0, Verdict.PASS),
        (0.0, 45.1, Verdict.FAIL),
        (300.0, 120.0, Verdict.PASS),
        (300.0, 120.1, Verdict.FAIL),
    ):
        pieces = panel("front", high=300.0 + wanted), panel("back", identity=BACK)
        ease = SeamEase(wanted, wanted - wide, wanted)
        seam = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),), ease)
        assert the("seam-length", pattern(*pieces, seams=(seam,))).verdict is verdict


def test_hems_that_run_on_over_a_seam_are_as_deep_as_each_other() -> None:
    seam = Seam("side", (EdgeRef("front", "side"),), (EdgeRef("back", "side"),))
    for deep, verdict in ((40.0, Verdict.PASS), (41.0, Verdict.PASS), (41.1, Verdict.WARN), (38.9, Verdict.WARN)):
        front = with_edge(panel("front"), "hem", allowance=40.0)
        back = with_edge(panel("back", identity=BACK), "hem", allowance=deep)
        result = the("hems-alike", pattern(front, back, seams=(seam,)))
        assert (result.measured, result.verdict) == (pytest.approx(40.0 - deep), verdict)
        if verdict is Verdict.WARN:
            (remedy,) = result.remedies
            to, most = ("front", deep) if deep > 40.0 else ("back", 40.0)
            assert [each.value for each in remedy.settings] == [to, most, to]
    facing = with_edge(panel("back", identity=BACK), "hem", role=Role.SEAM)
    (none,) = told("hems-alike", pattern(panel("front"), facing, seams=(seam,)))
    assert (none.verdict, none.measured) == (Verdict.PASS, None)


def test_a_gathered_edge_is_marked_at_least_every_46_cm_of_the_plain_one() -> None:
    for wide, marks, longest, verdict in (
        (460.0, (), 460.0, Verdict.PASS),
        (461.0, (), 461.0, Verdict.WARN),
        (900.0, (430.0,), 470.0, Verdict.WARN),
        (900.0, (440.0,), 460.0, Verdict.PASS),
    ):
        long = replace(
            panel("long", 2.0 * wide),
            notches=tuple(Notch(str(k), Station("top", 2.0 * at)) for k, at in enumerate(marks)),
        )
        plain = replace(
            panel("plain", wide), notches=tuple(Notch(str(k), Station("hem", at)) for k, at in enumerate(marks))
        )
        pairs = tuple((NotchRef("long", str(k)), NotchRef("plain", str(k))) for k in range(len(marks)))
        runs = (EdgeRef("long", "top"),), (EdgeRef("plain", "hem"),)
        seam = Seam("gathers", *runs, SeamEase(wide, wide - 1.0, wide + 1.0), pairs)
        result = the("gathers-marked", pattern(long, plain, seams=(seam,)))
        assert (result.measured, result.verdict) == (pytest.approx(longest), verdict)
        if verdict is Verdict.WARN:
            assert "notch both edges in 2 equal parts" in result.remedy
    for more, gathered in ((1.19, False), (1.21, True)):
        seam = Seam("eased", (EdgeRef("long", "top"),), (EdgeRef("plain", "hem"),), SeamEase(40.0, 1.0, 90.0))
        whole = pattern(panel("long", 300.0 * more), panel("plain", 300.0), seams=(seam,))
        assert bool([each for each in told("gathers-marked", whole) if each.measured]) is gathered


def test_a_hand_goes_through_a_hemmed_sleeve_pulled_as_far_as_its_knit_goes() -> None:
    """A wrist of 160 makes a hand of 209.6, which may be 10 mm less."""
    for wide, stretch, verdict in (
        (210.0, 0.0, Verdict.PASS),
        (199.7, 0.0, Verdict.PASS),
        (199.5, 0.0, Verdict.WARN),
        (160.0, 0.0, Verdict.WARN),
        (159.9, 0.0, Verdict.FAIL),
        (180.0, 0.2, Verdict.PASS),
    ):
        sleeve = with_edge(
            panel("sleeve", wide, identity=Identity(PieceKind.SLEEVE, BodyPart.SLEEVE)), "hem", place=Place.WRIST
        )
        result = the("hand-room", replace(pattern(sleeve, wrist_girth=160.0), stretch=stretch))
        assert (result.measured, result.verdict) == (pytest.approx(wide * (1.0 + stretch) - 209.6), verdict)
        if verdict is not Verdict.PASS:
            (remedy,) = result.remedies
            assert remedy.settings[0].value == math.ceil(209.6 - wide)


def test_a_facing_is_sewn_where_two_of_them_meet_at_a_line() -> None:
    """One at the waist of bodice and skirt: facings of both meet there. One at the armhole meets none of a sleeve."""

    def part(name: str, of: BodyPart, place: Place, kind: PieceKind) -> Piece:
        return with_edge(panel(name, identity=Identity(kind, of, PieceKind.FRONT)), "top", place=place)

    shells = [
        part(str(of), of, Place.NECK, PieceKind.FRONT) for of in (BodyPart.BODICE, BodyPart.SKIRT, BodyPart.SLEEVE)
    ]
    seam = Seam("side", (EdgeRef("bodice", "side"),), (EdgeRef("skirt", "side", backward=True),))
    upper = part("upper facing", BodyPart.BODICE, Place.WAIST, PieceKind.FACING)
    lower = part("lower facing", BodyPart.SKIRT, Place.WAIST, PieceKind.FACING)
    armhole = part("upper facing", BodyPart.BODICE, Place.ARMHOLE, PieceKind.FACING)
    for facings, bare in (((upper, lower), {'"top"'}), ((upper,), set()), ((armhole, lower), set())):
        result = the("edges-sewn", pattern(*shells, *facings, seams=(seam,)), "upper facing")
        assert {word for word in ('"top"',) if word in result.remedy} == bare
