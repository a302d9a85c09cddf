"""Taking in and blending along a side seam with a dart in it: the dart is closed, the work done, the dart opened again.

Common practice: the seam is trued with its dart folded. So front and back go on meeting, and the dart keeps its angle.
"""

from __future__ import annotations

import math

import pytest

from drafting.alterations import Alteration, Blend, MoveDart, TakeIn, apply_step, replay
from drafting.alterations.techniques.pivoting.pivot import angle_about, turning_of
from drafting.pattern import Pattern, dart_mouth, finished
from tests.drafting.dresses import dresses, failed
from tests.drafting.sizes import sized
from tests.renaming import in_another_script, names_for, renamed

FRONT = "bodice front"
PLACES = {
    "above the bust": MoveDart(FRONT, "bust dart", "side seam", at=25.0, measured_from="armhole"),
    "at the bust": MoveDart(FRONT, "bust dart", "side seam", at=60.0, measured_from="armhole"),
    "below the bust": MoveDart(FRONT, "bust dart", "side seam", at=110.0, measured_from="armhole"),
    "a part of it": MoveDart(FRONT, "bust dart", "side seam", share=0.4, measured_from="armhole", part=0.5),
}
STEPS = (
    TakeIn(waist=20.0),
    TakeIn(waist=-40.0, bust=-30.0, hip=-20.0),
    TakeIn(waist=24.0, darts=0.5, centre_back=0.2),
)


def with_dart(place: str, pattern: Pattern) -> Pattern:
    return apply_step(pattern, PLACES[place])


def angle(pattern: Pattern, name: str) -> float:
    piece = pattern.piece(FRONT)
    dart = piece.dart(name)
    return angle_about(*dart_mouth(piece, dart), turning_of(piece, dart).pivot)


def girths(pattern: Pattern) -> dict[str, float]:
    return {each.name: each.finished for each in finished(pattern)}


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("step", STEPS, ids=str)
def test_a_dress_with_its_dart_in_the_side_seam_is_taken_in_and_goes_together(place: str, step: TakeIn) -> None:
    before = with_dart(place, sized(92))
    after = apply_step(before, step)
    assert not failed(after)
    grown = {name: girths(before)[name] - mm for name, mm in girths(after).items()}
    assert (grown["waist"], grown["hip"], grown["bust"]) == pytest.approx((step.waist, step.hip, step.bust), abs=1e-6)


@pytest.mark.parametrize("place", PLACES)
def test_the_dart_keeps_its_angle_its_name_and_its_distance_from_the_armhole(place: str) -> None:
    before = with_dart(place, sized(92))
    after = apply_step(before, TakeIn(waist=30.0))
    there, now = before.piece(FRONT), after.piece(FRONT)
    assert [edge.name for edge in now.edges] == [edge.name for edge in there.edges]
    assert [(d.name, d.legs, d.aims_at) for d in now.darts] == [(d.name, d.legs, d.aims_at) for d in there.darts]
    for name in {dart.name for dart in there.darts} - {"waist dart"}:
        assert math.degrees(angle(after, name)) == pytest.approx(math.degrees(angle(before, name)), abs=1e-9)
    part = "side seam at armhole"
    assert now.edge(part).length == pytest.approx(there.edge(part).length, abs=1e-6)


def test_names_that_are_not_those_of_the_blocks_are_kept() -> None:
    before = with_dart("at the bust", sized(92))
    before = renamed(before, names_for(before, in_another_script))
    after = apply_step(before, TakeIn(waist=20.0))
    assert not failed(after)
    for was, now in zip(before.pieces, after.pieces, strict=True):
        assert now.name == was.name
        for part in ("edges", "darts", "lines", "notches"):
            assert [each.name for each in getattr(now, part)] == [each.name for each in getattr(was, part)]
    assert [seam.name for seam in after.seams] == [seam.name for seam in before.seams]


def test_what_the_work_does_not_touch_is_the_very_thing_it_was() -> None:
    before = with_dart("at the bust", sized(92))
    after = apply_step(before, TakeIn(waist=30.0))
    there, now = before.piece(FRONT), after.piece(FRONT)
    kept = ("neck", "shoulder", "armhole", "centre front", "waist at centre", "waist dart leg, side")
    assert [now.edge(name) for name in kept] == [there.edge(name) for name in kept]
    assert (now.points, now.grain) == (there.points, there.grain)
    hip = apply_step(before, TakeIn(hip=20.0))
    assert hip.piece(FRONT) is before.piece(FRONT)


def test_taking_in_and_letting_out_again_brings_the_seam_back() -> None:
    before = with_dart("below the bust", sized(92))
    back = apply_step(apply_step(before, TakeIn(waist=20.0)), TakeIn(waist=-20.0))
    for edge, was in zip(back.piece(FRONT).edges, before.piece(FRONT).edges, strict=True):
        assert edge.length == pytest.approx(was.length, abs=0.02), edge.name


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("step", [Blend(waist=96, hip=100), Blend(waist=84)], ids=str)
def test_sizes_are_blended_past_the_dart(place: str, step: Blend) -> None:
    before = with_dart(place, sized(92))
    after = apply_step(before, step)
    assert not failed(after)
    assert girths(after)["waist"] == pytest.approx(girths(apply_step(sized(92), step))["waist"], abs=1e-6)


@pytest.mark.parametrize("step", [TakeIn(waist=20.0), TakeIn(waist=-20.0, bust=-20.0, only=FRONT)], ids=str)
def test_every_woman_of_the_sample_can_have_it(step: Alteration) -> None:
    for pattern in dresses():
        before = with_dart("at the bust", pattern)
        after = apply_step(before, step)
        if isinstance(step, TakeIn) and step.only:
            assert [piece.name for piece in after.pieces if piece not in before.pieces] == [FRONT]
        else:
            assert not failed(after)


def test_its_history_replays() -> None:
    base = sized(92)
    pattern = apply_step(with_dart("a part of it", base), TakeIn(waist=20.0))
    assert replay(base, pattern.history) == pattern


@pytest.mark.parametrize("second", ["side seam at armhole", "side seam at waist"])
@pytest.mark.parametrize("step", [TakeIn(waist=20.0, bust=10.0, hip=10.0), TakeIn(waist=-30.0)], ids=str)
def test_a_side_seam_with_two_darts_in_it_is_taken_in_and_both_stay(second: str, step: TakeIn) -> None:
    before = with_dart("a part of it", sized(92))
    before = apply_step(before, MoveDart(FRONT, "waist dart", second, part=1.0))
    after = apply_step(before, step)
    assert not failed(after)
    there, now = before.piece(FRONT), after.piece(FRONT)
    assert [edge.name for edge in now.edges] == [edge.name for edge in there.edges]
    assert [(d.name, d.legs, d.aims_at) for d in now.darts] == [(d.name, d.legs, d.aims_at) for d in there.darts]
    for dart in there.darts:
        assert angle(after, dart.name) == pytest.approx(angle(before, dart.name), abs=1e-9)
    assert girths(before)["waist"] - girths(after)["waist"] == pytest.approx(step.waist, abs=1e-6)
