"""A sound pattern passes every check; broken in one way, the right check fails, and no other."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

import pytest

from blocks.garment import draft, prepare
from drafting.alterations import Lengthen, Opening, apply_step
from drafting.body.sizes import Sizes, sizes_body
from drafting.checks import CHECKS, Check, Verdict, check_table, named, run_checks, worst
from drafting.checks.corners import look_at_corners
from drafting.errors import UnknownName
from drafting.geometry import Point, Vec, shift, turn
from drafting.pattern import (
    BodyLength,
    Edge,
    Measure,
    Notch,
    Pattern,
    Piece,
    Role,
    SeamEase,
    Station,
    move_piece,
    with_edges,
    with_pieces,
)
from tests.drafting.checks import breaks as broken
from tests.drafting.checks import hand_breaks, hem_breaks
from tests.drafting.dress import dress
from tests.drafting.sample import blouse
from tests.drafting.sizes import order

Break = Callable[[Pattern], Pattern]


@pytest.mark.parametrize("pattern", [blouse(), dress()], ids=["blouse", "dress"])
def test_a_sound_pattern_passes_every_check_and_every_check_has_looked(pattern: Pattern) -> None:
    results = run_checks(pattern)
    assert {result.code for result in results} == {check.code for check in CHECKS}
    assert {result.verdict for result in results} == {Verdict.PASS}
    assert worst(results) is Verdict.PASS
    assert not any(result.remedy for result in results)


def test_passing_results_keep_their_numbers() -> None:
    by_where = {(result.code, result.where): result for result in run_checks(blouse())}
    seam = by_where["seam-length", "front armhole"]
    assert seam.measured == pytest.approx(5.0, abs=1e-4)
    assert (seam.wanted, seam.allowed, seam.unit) == (5.0, (2.0, 15.0), "mm")
    assert by_where["seam-length", "side"].allowed == 1.5


def slit_too_short(pattern: Pattern) -> Pattern:
    """A way in at the left side, and at the nape a slit of 5 cm, too short for the head, which is measured."""
    slit = apply_step(apply_step(pattern, Opening(at="side")), Opening(at="centre back", length=50.0))
    lengths = (*slit.wearer.lengths, BodyLength("head_girth", 560.0, "measured"))
    return replace(slit, wearer=replace(slit.wearer, lengths=lengths))


BREAKS: tuple[tuple[str, Break], ...] = (
    ("seam-length", lambda pattern: broken.longer_side(pattern, 3.2)),
    ("seam-length", lambda pattern: broken.with_ease(pattern, "front armhole", SeamEase(-5.0, -8.0, -2.0))),
    ("neck-goes-round", broken.neck_too_small),
    ("edges-sewn", lambda pattern: broken.seam_taken_out(pattern, "underarm")),
    ("notches-meet", broken.notch_missed),
    ("notches-meet", broken.notch_missed_on_an_eased_seam),
    ("notches-meet", broken.notch_on_another_edge),
    ("notches-meet", broken.notch_beyond_its_edge),
    ("dart-legs", broken.dart_point_aside),
    ("corners-true", hem_breaks.hem_peaked_at_the_side),
    ("corners-true", broken.hem_peaked_at_the_dart),
    ("corners-true", broken.neck_peaked_at_the_fold),
    ("corners-true", broken.wrist_peaked),
    ("bends-allowed", lambda pattern: broken.neck_hooked(pattern, 6.0)),
    ("outline-simple", broken.wrist_loop),
    ("outline-simple", broken.edges_crossing),
    ("grain-line", broken.no_grain),
    ("grain-line", broken.grain_aslant),
    ("grain-line", broken.grain_outside),
    ("ease-to-move", broken.too_tight),
    ("room-to-get-in", broken.no_way_in),
)


@pytest.mark.parametrize(("code", "way"), BREAKS)
def test_each_break_fails_its_own_check_and_no_other(code: str, way: Break) -> None:
    results = [result for result in run_checks(way(blouse())) if result.verdict not in (Verdict.PASS, Verdict.WARN)]
    assert {result.code for result in results} == {code}, [r.where for r in results]
    assert {result.verdict for result in results} == {Verdict.FAIL}
    assert all(result.remedy.endswith(".") for result in results)


def test_a_shoulder_sewn_neck_end_to_armhole_end_fails() -> None:
    pattern = dress()
    turned = tuple(
        replace(seam, a=tuple(replace(ref, backward=not ref.backward) for ref in reversed(seam.a)))
        if seam.name == "shoulder"
        else seam
        for seam in pattern.seams
    )
    failed = [r for r in run_checks(replace(pattern, seams=turned)) if r.verdict is Verdict.FAIL]
    assert ("corners-true", "shoulder: way round") in {(r.code, r.where) for r in failed}


DRESS_BREAKS: tuple[tuple[str, Break], ...] = (
    ("seam-length", lambda pattern: apply_step(pattern, Lengthen("skirt front", 4.0, only="skirt front"))),
    ("seam-length", lambda pattern: broken.with_ease(pattern, "back armhole", SeamEase(20.0, 15.0, 25.0))),
    ("seam-length", lambda pattern: broken.with_ease(pattern, "back armhole", SeamEase(10.0, -400.0, 400.0))),
    ("edges-sewn", lambda pattern: broken.seam_taken_out(pattern, "shoulder")),
    ("edges-sewn", lambda pattern: broken.seam_taken_out(pattern, "front waist")),
    ("edges-sewn", lambda pattern: broken.seam_taken_out(pattern, "back armhole")),
    ("edges-sewn", lambda pattern: broken.seam_named_again(pattern, "underarm seam")),
    ("edges-sewn", lambda pattern: broken.fold_forgotten(pattern, "bodice front")),
    ("edges-sewn", lambda pattern: broken.fold_forgotten(pattern, "skirt back")),
    ("dart-legs", lambda pattern: broken.dart_dropped(pattern, "skirt front")),
    ("notches-meet", lambda pattern: broken.notch_pushed(pattern, "skirt back", "back hip notch", 1.5)),
    ("notches-meet", lambda pattern: broken.notch_pushed(pattern, "sleeve", "front cap notch", 2.0)),
    ("notches-meet", lambda pattern: broken.notch_pushed(pattern, "bodice front", "front waist notch", -1.5)),
    ("dart-legs", lambda pattern: broken.dart_point_aside(pattern, "skirt front", "waist dart")),
    ("corners-true", lambda pattern: broken.turned(pattern, "skirt front", "hem", 4.0)),
    ("corners-true", lambda pattern: broken.turned(pattern, "bodice front", "neck", 4.0)),
    ("corners-true", lambda pattern: broken.turned(pattern, "bodice back", "waist at side", 4.0)),
    ("grain-line", lambda pattern: broken.grain(pattern, "bodice back", None)),
    ("grain-line", lambda pattern: broken.grain_turned(pattern, "skirt back", 0.6)),
    ("ease-to-move", lambda pattern: broken.body_grown(pattern, "hip", 36.0)),
    ("ease-to-move", lambda pattern: broken.wearer_length(pattern, "scye_depth", 25.0)),
    ("ease-to-move", lambda pattern: broken.wearer_length(pattern, "stature", 2500.0)),
    ("room-to-get-in", broken.sewn_shut),
    ("room-to-get-in", lambda pattern: apply_step(pattern, Opening("centre back", length=50.0))),
    ("room-to-get-in", lambda pattern: apply_step(pattern, Opening("centre back", length=300.0))),
    ("neck-goes-round", slit_too_short),
)


WARNINGS: tuple[tuple[str, str, Break], ...] = (
    ("turned-in-lies", "sleeve wrist", lambda pattern: broken.allowed(pattern, "sleeve", "wrist", 40.0)),
    ("allowance-ends", "back side seam", lambda pattern: broken.allowed(pattern, "front", "side seam", 10.0)),
    ("allowance-ends", "inner part", lambda pattern: broken.allowed(pattern, "front", "shoulder", 16.5)),
    ("notch-marks", "back / side", lambda pattern: broken.notched_again(pattern, 5.0)),
    ("bends-allowed", "neck", lambda pattern: broken.neck_hooked(pattern, 11.5)),
    ("bends-allowed", "neck", lambda pattern: broken.neck_cornered(pattern, 0.8)),
    ("curves-even", "hem", broken.hem_wavering),
    ("hems-alike", "back", hem_breaks.hem_deeper),
    ("hems-alike", "let down: front and back", hem_breaks.let_down_in_front_only),
    ("curves-even", "at the side seam", lambda pattern: broken.armhole_off_level(pattern, 2.0)),
    ("curves-even", "its first 15 mm", broken.armhole_steep),
    ("curves-even", "its turning in 40 mm", broken.armhole_hooked),
    ("curves-even", "from its corner", broken.armhole_hooked),
    ("hand-room", "sleeve, over the hand", lambda pattern: hand_breaks.wrist_of(pattern, 185.0)),
    ("curves-even", "half its width", lambda pattern: broken.neck_narrowed(pattern, 38.0)),
)


@pytest.mark.parametrize(("code", "where", "way"), WARNINGS)
def test_a_line_that_no_cutter_would_cut_is_warned_of_by_its_own_check_and_no_other(
    code: str, where: str, way: Break
) -> None:
    results = [result for result in run_checks(way(blouse())) if result.verdict is not Verdict.PASS]
    assert {result.code for result in results} == {code}, [r.where for r in results]
    assert {result.verdict for result in results} == {Verdict.WARN}
    assert any(result.where.endswith(where) for result in results), [r.where for r in results]
    assert all(result.remedy.endswith(".") for result in results)


@pytest.mark.parametrize(("button", "by"), [("button 1", 5.0), ("button 6", -5.0)])
def test_a_button_near_an_edge_or_a_seam_is_warned_of_by_its_own_check_and_no_other(button: str, by: float) -> None:
    name = "bodice front"
    buttoned = apply_step(apply_step(dress(), Opening("centre front", "buttons")), Opening("centre back", "closed"))
    assert {result.verdict for result in run_checks(buttoned)} == {Verdict.PASS}
    results = run_checks(broken.button_moved(buttoned, name, button, by))
    found = [result for result in results if result.verdict is not Verdict.PASS]
    assert [(each.code, each.where) for each in found] == [("buttons-clear", f"{name}, {button}")]
    assert "from there, or take smaller buttons." in found[0].remedy


@pytest.mark.parametrize(("code", "way"), DRESS_BREAKS)
def test_each_break_of_the_dress_fails_its_own_check_and_no_other(code: str, way: Break) -> None:
    results = [result for result in run_checks(way(dress())) if result.verdict not in (Verdict.PASS, Verdict.WARN)]
    assert {result.code for result in results} == {code}, [r.where for r in results]
    assert {result.verdict for result in results} == {Verdict.FAIL}


def in_one_dart(*_: Pattern) -> Pattern:
    """The dress in a size for which one dart in front is too wide, with one dart as asked for."""
    garment = order()
    sizes = Sizes(bust=122)
    one = tuple(
        replace(each, options={**each.options, "front_darts": "one"}) if each.block.name == "bodice" else each
        for each in garment.blocks
    )
    garment = replace(garment, sizes=sizes, wearer=sizes_body(sizes).person, blocks=one)
    return draft(garment, prepare(garment))


DART_BREAKS: tuple[tuple[frozenset[str], Break], ...] = (
    (frozenset({"dart-wide"}), in_one_dart),
    (frozenset({"dart-wide"}), lambda pattern: broken.dart_shortened(pattern, "bodice front", "waist dart", 44.0)),
    (
        frozenset({"dart-wide", "dart-long"}),
        lambda pattern: broken.dart_shortened(pattern, "bodice front", "waist dart", 20.0),
    ),
)


@pytest.mark.parametrize(("codes", "way"), DART_BREAKS)
def test_a_dart_that_cannot_be_sewn_well_is_warned_of(codes: frozenset[str], way: Break) -> None:
    sound = {(result.code, result.where) for result in run_checks(dress()) if result.verdict is not Verdict.PASS}
    results = [result for result in run_checks(way(dress())) if result.verdict is not Verdict.PASS]
    of_darts = [result for result in results if result.code.startswith("dart-")]
    assert {result.code for result in of_darts} == codes
    assert {result.verdict for result in of_darts} == {Verdict.WARN}
    assert not [each for each in results if each.verdict is Verdict.FAIL and (each.code, each.where) not in sound]


def test_a_seam_a_little_off_is_a_warning_and_the_remedy_has_the_number() -> None:
    results = [result for result in run_checks(broken.longer_side(blouse(), 2.0)) if result.verdict is not Verdict.PASS]
    assert [(result.code, result.verdict) for result in results] == [("seam-length", Verdict.WARN)]
    assert "back side seam is 2.0 mm longer than front side seam" in results[0].remedy


def test_the_remedy_of_an_eased_seam_says_both_what_was_asked_and_what_will_sew() -> None:
    failed = next(
        r
        for r in run_checks(broken.with_ease(blouse(), "front armhole", SeamEase(-5.0, -8.0, -2.0)))
        if r.verdict is Verdict.FAIL
    )
    assert "-5.0 mm longer" in failed.remedy
    assert "-8.0 to -2.0 mm will sew" in failed.remedy
    assert "Shorten it by 10.0 mm" in failed.remedy


def test_a_notch_on_a_seam_that_nothing_meets_is_a_warning() -> None:
    pattern = blouse()
    piece = pattern.piece("front")
    stray = Notch("stray", Station("side seam", 150.0))
    results = run_checks(with_pieces(pattern, replace(piece, notches=(*piece.notches, stray))))
    assert [(r.code, r.verdict) for r in results if r.verdict is not Verdict.PASS] == [("notches-meet", Verdict.WARN)]


def test_a_point_that_is_meant_can_be_named() -> None:
    peaked = broken.neck_peaked_at_the_fold(blouse())
    where = next(r.where for r in run_checks(peaked) if r.verdict is Verdict.FAIL)
    corners = named(CHECKS, ["corners-true"])[0]
    results = run_checks(peaked, checks=[replace(corners, looks=partial(look_at_corners, points=frozenset([where])))])
    assert results
    assert worst(results) is Verdict.PASS


def test_nothing_to_look_at_is_said_and_is_no_pass() -> None:
    pattern = blouse()
    bare = replace(pattern, seams=(), measures=(), pieces=(replace(pattern.piece("sleeve"), notches=()),))
    verdicts = {result.code: result.verdict for result in run_checks(bare)}
    for code in ("seam-length", "notches-meet", "dart-legs", "corners-true", "ease-to-move", "room-to-get-in"):
        assert verdicts[code] is Verdict.NOTHING, code
    assert worst(run_checks(bare, checks=named(CHECKS, ["seam-length"]))) is Verdict.NOTHING


def test_a_check_that_breaks_off_is_an_error_and_hides_no_other() -> None:
    def breaks(_check: Check, _pattern: Pattern) -> list[object]:
        raise ZeroDivisionError("a length of zero")

    table = check_table(Check("broken", "broken", "Breaks off.", breaks), *CHECKS)  # type: ignore[arg-type]
    results = run_checks(blouse(), checks=table)
    assert results[0].verdict is Verdict.ERROR
    assert "a length of zero" in results[0].remedy
    assert worst(results) is Verdict.ERROR
    assert results[1:] == run_checks(blouse())


def test_two_checks_of_one_code_are_refused() -> None:
    with pytest.raises(ValueError, match="seam-length"):
        check_table(*CHECKS, CHECKS[0])


def test_an_unknown_code_names_the_nearest() -> None:
    with pytest.raises(UnknownName, match="seam-length"):
        named(CHECKS, ["seam-lenght"])


def test_an_opening_lets_the_wearer_in() -> None:
    pattern = broken.no_way_in(blouse())
    piece = pattern.piece("back")
    edge: Edge = replace(piece.edge("centre back"), role=Role.OPENING)
    results = run_checks(with_pieces(pattern, with_edges(piece, edge)), checks=named(CHECKS, ["room-to-get-in"]))
    assert [(r.verdict, r.where) for r in results] == [(Verdict.PASS, "through the centre back of the back")]


def test_a_waist_smaller_than_bust_and_hip_has_no_way_in_over_either() -> None:
    pattern = blouse()
    lengths = (BodyLength("bust_girth", 980.0, "measured"), BodyLength("hip_girth", 1050.0, "measured"))
    results = run_checks(
        replace(pattern, wearer=replace(pattern.wearer, lengths=lengths)), checks=named(CHECKS, ["room-to-get-in"])
    )
    # the waist of the sample is 970.1 mm round: over the head it meets the bust first, the smaller of the two
    assert results[0].measured == pytest.approx(970.1 - 980.0, abs=0.1)


@pytest.mark.parametrize("move", [shift(Vec(300.0, -80.0)), turn(Point(0.0, 0.0), 2.0)])
def test_where_a_piece_lies_on_the_paper_changes_nothing(move: object) -> None:
    pattern = blouse()
    moved: tuple[Piece, ...] = tuple(move_piece(piece, move) for piece in pattern.pieces)  # type: ignore[arg-type]
    before, after = run_checks(pattern), run_checks(replace(pattern, pieces=moved))
    assert [(r.code, r.where, r.verdict) for r in before] == [(r.code, r.where, r.verdict) for r in after]


def test_a_measure_without_a_body_is_not_judged() -> None:
    pattern = replace(blouse(), measures=(Measure("hem", blouse().measures[0].tape, least=10.0),))
    assert worst(run_checks(pattern, checks=named(CHECKS, ["ease-to-move"]))) is Verdict.NOTHING


def test_the_longer_leg_of_a_dart_is_the_one_that_is_named() -> None:
    for push in (14.0, -14.0):
        pattern = broken.dart_point_aside(blouse(), by=push)
        piece = pattern.piece("back")
        dart = piece.dart("shoulder dart")
        longer, shorter = sorted(dart.legs, key=lambda leg: -piece.edge(leg).length)
        (failed,) = (each for each in run_checks(pattern) if each.code == "dart-legs" and each.verdict is Verdict.FAIL)
        assert f'The leg "{longer}" is ' in failed.remedy
        assert shorter not in failed.remedy
