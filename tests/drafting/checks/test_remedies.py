"""What a failed check says to type does put it right: the sentence is read as a garment file would be, and applied."""

from __future__ import annotations

from dataclasses import replace
from functools import reduce

import pytest

from drafting.alterations import (
    ALTERATIONS,
    Armhole,
    FitSleeve,
    FlareSkirt,
    FullBust,
    FullSleeve,
    Lengthen,
    PutSleeveIn,
    TakeIn,
    UpperArm,
    apply_step,
)
from drafting.alterations.sleeve.other_sleeve import with_sleeve_of
from drafting.checks import CHECKS, Result, Verdict, named
from drafting.checks.wearing import ROOMS
from drafting.geometry import distance
from drafting.pattern import BodyPart, Identity, Pattern, PieceKind, Place, require_edge, with_edges, with_pieces
from tests.drafting.checks.breaks import body_grown, dart_point_aside, sewn_shut
from tests.drafting.dress import dress
from tests.drafting.sample import blouse
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.remedies import mends, typed


def failures(pattern: Pattern) -> list[Result]:
    return [each for each in run_checks(pattern) if each.verdict is Verdict.FAIL]


@pytest.mark.parametrize("place", ["bust", "waist", "hip", "across the back", "upper arm", "elbow", "wrist"])
@pytest.mark.parametrize("short", [0.4, 12.3])
def test_too_little_room_is_put_right_by_what_the_remedy_gives_to_type(place: str, short: float) -> None:
    ease = next(each for each in run_checks(dress()) if each.code == "ease-to-move" and each.where == place)
    assert ease.measured is not None
    assert ease.wanted is not None
    tight = body_grown(dress(), place, ease.measured - ease.wanted + short)
    (failed,) = failures(tight)
    assert (failed.code, failed.where) == ("ease-to-move", place)
    assert f"{short:.1f} mm too small" in failed.remedy
    assert mends(tight, failed)


@pytest.mark.parametrize("place", ROOMS)
def test_no_more_is_given_to_type_than_the_option_takes(place: str) -> None:
    room = ROOMS[place]
    (option,) = (each for each in ALTERATIONS.named(room.alter).options if each.name == room.option)
    assert room.most == (option.high if room.share > 0.0 else -option.low)
    (result,) = (each for each in run_checks(dress()) if each.code == "ease-to-move" and each.where == place)
    assert result.measured is not None
    assert result.wanted is not None
    short = room.most / abs(room.share)
    for further, given in ((-1.0, True), (1.0, False)):
        (failed,) = failures(body_grown(dress(), place, result.measured - result.wanted + short + further))
        assert (room.alter in failed.remedy) is given


def test_a_step_too_far_is_put_right_by_what_the_remedy_gives_to_type() -> None:
    far = [TakeIn(waist=55.0), TakeIn(hip=60.0), TakeIn(bust=50.0), UpperArm(by=-38.0)]
    for step in far:
        pattern = apply_step(dress(), step)
        (failed,) = failures(pattern)
        assert mends(pattern, failed), failed.remedy


def test_a_sleeve_whose_cap_dips_is_let_out_by_what_the_remedy_gives_to_type() -> None:
    steps = (FullSleeve(cap=120.0), FitSleeve(cap_ease=40.0, keep="cap height"))
    for base in (dress(), sized(84), sized(92)):
        pattern = reduce(apply_step, steps, base)
        # so dipped a cap also bends tighter than its allowance lets it, which has a remedy of its own
        (failed,) = (each for each in failures(pattern) if each.code == "ease-to-move")
        assert failed.where == "upper arm"
        assert mends(pattern, failed), failed.remedy


@pytest.mark.parametrize(("size", "other"), [(92, 76), (100, 84), (110, 80)])
def test_a_sleeve_of_a_smaller_garment_is_let_out_by_what_the_remedy_gives_to_type(size: int, other: int) -> None:
    pattern = apply_step(sized(size), with_sleeve_of(PutSleeveIn(str(other)), sized(other)))
    tight = failures(pattern)
    assert {each.where for each in tight} >= {"upper arm"}
    assert [each.remedy for each in tight if not mends(pattern, each)] == []


def test_a_back_too_narrow_to_be_made_broad_enough_gives_nothing_to_type_that_would_be_refused() -> None:
    ease = next(each for each in run_checks(dress()) if each.where == "across the back")
    assert ease.measured is not None
    (failed,) = failures(body_grown(dress(), "across the back", ease.measured + 41.0))
    assert failed.where == "across the back"
    assert typed(failed.remedy) is None


def test_no_more_is_given_to_type_than_there_is_to_be_added() -> None:
    """A whole number of millimetres, though the tape finds it a hair above."""
    tight = body_grown(dress(), "waist", 40.0 + 15.0 + 1e-6)
    (failed,) = failures(tight)
    assert 'alter = "take in", waist = "-15 mm"' in failed.remedy


def test_a_garment_that_one_cannot_get_into_is_opened_by_what_the_remedy_gives_to_type() -> None:
    shut = sewn_shut(dress())
    (failed,) = failures(shut)
    assert 'alter = "opening", at = "centre back"' in failed.remedy
    assert mends(shut, failed)


def test_a_cap_that_no_longer_fits_is_drawn_anew_by_what_the_remedy_gives_to_type() -> None:
    pattern = apply_step(dress(), Armhole(lower=25.0, only="bodice front"))
    failed = next(each for each in failures(pattern) if each.code == "seam-length" and "armhole" in each.where)
    assert mends(pattern, failed), failed.remedy


def test_a_remedy_without_an_alteration_gives_nothing_to_type() -> None:
    assert typed("Move it inside.") is None


@pytest.mark.parametrize("by", [14.0, -14.0])
def test_the_leg_that_is_named_is_the_longer_one_and_by_so_much(by: float) -> None:
    """A dart point moved towards one leg leaves the other longer: told with the lengths that a ruler finds."""
    aside = dart_point_aside(blouse(), by=by)
    piece = aside.piece("back")
    legs = {name: distance(piece.edge(name).start, piece.edge(name).end) for name in piece.dart("shoulder dart").legs}
    (warned,) = (each for each in run_checks(aside) if each.code == "dart-legs" and each.verdict is not Verdict.PASS)
    longer = max(legs, key=legs.__getitem__)
    assert f'The leg "{longer}" is {max(legs.values()) - min(legs.values()):.1f} mm longer' in warned.remedy


WIDE = [
    (FullBust(by=40.0), "bodice front: waist dart"),
    (FullBust(by=70.0), "bodice front: bust dart"),
    (TakeIn(waist=60.0, darts=1.0), "bodice back: waist dart"),
]


@pytest.mark.parametrize(("step", "where"), WIDE)
def test_a_dart_too_wide_is_divided_by_what_the_remedy_gives_to_type(step: FullBust | TakeIn, where: str) -> None:
    wide = apply_step(sized(88), step)
    (warned,) = (each for each in run_checks(wide) if each.code == "dart-wide" and each.where == where)
    assert warned.verdict is Verdict.WARN
    divide = typed(warned.remedy)
    assert divide is not None
    after = [each for each in run_checks(apply_step(wide, divide)) if each.where.startswith(where)]
    assert len([each for each in after if each.code == "dart-wide"]) >= 1
    assert {each.verdict for each in after if each.code.startswith("dart-")} == {Verdict.PASS}
    assert failures(apply_step(wide, divide)) == failures(wide)


@pytest.mark.parametrize("place", ["bust", "waist", "hip", "across the back", "upper arm", "elbow", "wrist"])
def test_tighter_than_is_usual_is_warned_of_and_let_out_by_what_the_remedy_gives_to_type(place: str) -> None:
    (measure,) = (each for each in dress().measures if each.name == place)
    assert measure.snug is not None
    assert measure.least is not None
    assert measure.least < measure.snug <= measure.ease
    (room,) = (each.measured - measure.snug for each in run_checks(dress()) if each.where == place and each.measured)
    for further, verdict in ((-0.1, Verdict.PASS), (0.1, Verdict.WARN), (5.0, Verdict.WARN)):
        tight = body_grown(dress(), place, room + further)
        (result,) = (each for each in run_checks(tight) if (each.code, each.where) == ("ease-to-move", place))
        assert result.verdict is verdict
        if verdict is Verdict.WARN:
            assert result.remedy.startswith(f"It is tighter than is usual, by {further:.1f} mm")
            assert mends(tight, result)


@pytest.mark.parametrize(("shorter", "verdict"), [(30.0, Verdict.PASS), (90.0, Verdict.WARN)])
def test_a_sleeve_that_ends_on_the_forearm_with_the_width_of_a_wrist_is_warned_of(
    shorter: float, verdict: Verdict
) -> None:
    short = apply_step(sized(88), Lengthen("sleeve", -shorter))
    (result,) = (each for each in run_checks(short) if each.where == "sleeve, where it ends on the forearm")
    body = {measure.key: measure.body or 0.0 for measure in short.measures}
    share = shorter / (body["arm_length"] - body["shoulder_to_elbow"])
    arm = body["wrist_girth"] + share * (body["elbow_girth"] - body["wrist_girth"])
    assert result.measured == pytest.approx(short.piece("sleeve").edge("wrist").length - arm, abs=0.01)
    assert result.verdict is verdict
    assert verdict is Verdict.PASS or mends(short, result)
    assert not [each for each in run_checks(sized(88)) if each.where == result.where]


def test_the_hem_of_a_lining_that_is_too_full_is_told_no_step_since_it_follows_the_garment() -> None:
    flared = apply_step(dress(), FlareSkirt(hem=500.0))
    front = flared.piece("skirt front")
    deep = with_edges(front, replace(require_edge(front, Place.HEM), allowance=60.0))
    lining = replace(deep, identity=Identity(PieceKind.LINING, BodyPart.SKIRT, of=PieceKind.FRONT))
    for piece, told in ((deep, True), (lining, False)):
        results = run_checks(with_pieces(flared, piece), checks=named(CHECKS, ["turned-in-lies"]))
        (found,) = (each for each in results if each.where == "skirt front hem")
        assert found.verdict is Verdict.WARN
        assert bool(found.remedies) is told
