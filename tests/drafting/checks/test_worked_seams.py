"""Checks of seams, notches and pockets, worked out on pieces of a few straight lines."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.checks import Verdict
from drafting.geometry import Point
from drafting.pattern import (
    EdgeRef,
    Identity,
    Landmark,
    MarkPoint,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    Step,
)
from drafting.pattern.places import BodyPart
from tests.drafting.checks.worked import BACK, drawn, panel, pattern, the, told


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
    off = the("pockets-clear", pocketed((110.0, 180.0), (50.0, 184.0)), "pocket on front")
    assert (off.measured, off.verdict) == (pytest.approx(4.0), Verdict.FAIL)
    bare = the("pockets-clear", pocketed(), "pocket")
    assert (bare.verdict, bare.remedy) == (Verdict.FAIL, "No piece has marks for it: ask for the pocket again.")


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
