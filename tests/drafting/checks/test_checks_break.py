"""A sound pattern passes every check; broken in one way, the right check fails, and no other."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.checks import CHECKS, Check, Verdict, check_table, corners_look, named, run_checks, worst
from drafting.errors import UnknownName
from drafting.geometry import Cubic, Line, Point, Vec, blend, lerp, shift, turn
from drafting.pattern import (
    BodyLength,
    Edge,
    Grain,
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
from tests.drafting.sample import blouse

Break = Callable[[Pattern], Pattern]


def test_a_sound_pattern_passes_every_check_and_every_check_has_looked() -> None:
    results = run_checks(blouse())
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


def longer_side(pattern: Pattern, by: float) -> Pattern:
    """The back longer at the hem by a straight strip, its corners still square to the side."""
    piece = pattern.piece("back")
    side, hem = piece.edge("side seam"), piece.edge("hem")
    assert isinstance(hem.curves[0], Cubic)
    step = (side.end - side.start).unit() * by
    side = replace(side, curves=(Line(side.start, side.end + step),))
    first = hem.curves[0]
    hem = replace(hem, curves=(Cubic(first.start + step, first.c1 + step, first.c2, first.end),))
    longer = with_pieces(pattern, with_edges(piece, side, hem))
    # the notch is measured from the hem: leave it where it lies
    return shifted_notch(longer, "back", "side", Station("side seam", 60.0 + by, "end"))


def shifted_notch(pattern: Pattern, piece: str, name: str, station: Station) -> Pattern:
    old = pattern.piece(piece)
    notches = tuple(replace(n, station=station) if n.name == name else n for n in old.notches)
    return with_pieces(pattern, replace(old, notches=notches))


def notch_missed(pattern: Pattern) -> Pattern:
    return shifted_notch(pattern, "front", "side", Station("side seam", 62.0))


def notch_missed_on_an_eased_seam(pattern: Pattern) -> Pattern:
    return shifted_notch(pattern, "sleeve", "back armhole", Station("cap, back", 93.0, "end"))


def notch_on_another_edge(pattern: Pattern) -> Pattern:
    return shifted_notch(pattern, "front", "side", Station("neck", 20.0))


def notch_beyond_its_edge(pattern: Pattern) -> Pattern:
    both = shifted_notch(pattern, "front", "side", Station("side seam", 260.0))
    return shifted_notch(both, "back", "side", Station("side seam", 260.0, "end"))


def cap_too_long(pattern: Pattern) -> Pattern:
    return with_ease(pattern, "front armhole", SeamEase(-5.0, -8.0, -2.0))


def with_ease(pattern: Pattern, name: str, ease: SeamEase) -> Pattern:
    return replace(pattern, seams=tuple(replace(s, ease=ease) if s.name == name else s for s in pattern.seams))


def dart_point_aside(pattern: Pattern) -> Pattern:
    piece = pattern.piece("back")
    dart = piece.darts[0]
    out, into = piece.edge(dart.legs[0]), piece.edge(dart.legs[1])
    # sideways by 1.6 mm: the legs then differ by more than 1.5 mm only if the move is along the mouth, so go further
    apex = dart.apex + (into.end - out.start).unit() * 14.0
    edges = tuple(
        replace(edge, curves=(Line(out.start, apex),))
        if edge is out
        else replace(edge, curves=(Line(apex, into.end),))
        if edge is into
        else edge
        for edge in piece.edges
    )
    return with_pieces(pattern, replace(piece, edges=edges, darts=(replace(dart, apex=apex),)))


def redrawn(pattern: Pattern, piece: str, edge: str, leaving: Vec, arriving: Vec) -> Pattern:
    old = pattern.piece(piece)
    was = old.edge(edge)
    return with_pieces(
        pattern, with_edges(old, replace(was, curves=(blend(was.start, leaving, was.end, arriving),)))
    )  # fmt: skip


def hem_peaked_at_the_side(pattern: Pattern) -> Pattern:
    return redrawn(pattern, "front", "hem, side part", Vec(170.0, 10.0), Vec(200.0, 30.0))


def hem_peaked_at_the_dart(pattern: Pattern) -> Pattern:
    return redrawn(pattern, "front", "hem, centre part", Vec(1.0, 0.0), Vec(1.0, 0.1))


def neck_peaked_at_the_fold(pattern: Pattern) -> Pattern:
    return redrawn(pattern, "front", "neck", Vec(-40.0, -120.0), Vec(-1.0, -0.2))


def wrist_peaked(pattern: Pattern) -> Pattern:
    return redrawn(pattern, "sleeve", "wrist", Vec(1.0, 0.0), Vec(1.0, 0.0))


def hem_loop(pattern: Pattern) -> Pattern:
    """The wrist crosses itself: the ends and their directions stay."""
    piece = pattern.piece("sleeve")
    edge = piece.edge("wrist")
    only = edge.curves[0]
    assert isinstance(only, Cubic)
    far = Cubic(only.start, lerp(only.start, only.c1, 14.0), lerp(only.end, only.c2, 14.0), only.end)
    looped = with_pieces(pattern, with_edges(piece, replace(edge, curves=(far,))))
    return grain(looped, "sleeve", Grain(Point(0.0, 200.0), Point(0.0, 450.0)))


def edges_crossing(pattern: Pattern) -> Pattern:
    """The hem rises above the dart point, beside it, and comes down on the other side of the leg."""
    piece = pattern.piece("front")
    edge = piece.edge("hem, side part")
    only = edge.curves[0]
    assert isinstance(only, Cubic)
    high = Point(60.0, 150.0)
    back_in = Point(200.0, 60.0)
    leaving, arriving = (only.c1 - only.start).unit(), (only.end - only.c2).unit()
    first = blend(only.start, leaving, back_in, Vec(0.0, 1.0))
    return with_pieces(
        pattern,
        with_edges(
            piece,
            replace(
                edge,
                curves=(
                    first,
                    blend(back_in, Vec(0.0, 1.0), high, Vec(-1.0, 0.0)),
                    blend(high, Vec(-1.0, 0.0), only.end, arriving),
                ),
            ),
        ),
    )


def grain(pattern: Pattern, piece: str, line: Grain | None) -> Pattern:
    return with_pieces(pattern, replace(pattern.piece(piece), grain=line))


def no_grain(pattern: Pattern) -> Pattern:
    return grain(pattern, "sleeve", None)


def grain_aslant(pattern: Pattern) -> Pattern:
    return grain(pattern, "front", Grain(Point(40.0, 40.0), Point(44.0, 300.0)))


def grain_outside(pattern: Pattern) -> Pattern:
    return grain(pattern, "sleeve", Grain(Point(0.0, 60.0), Point(0.0, 600.0)))


def too_tight(pattern: Pattern) -> Pattern:
    return measured(pattern, "bust", body=985.0)


def measured(pattern: Pattern, name: str, *, body: float) -> Pattern:
    measures = tuple(replace(m, body=body) if m.name == name else m for m in pattern.measures)
    return replace(pattern, measures=measures)


def no_way_in(pattern: Pattern) -> Pattern:
    lengths = (BodyLength("bust_girth", 1020.0, "measured"), BodyLength("hip_girth", 1010.0, "measured"))
    return replace(pattern, wearer=replace(pattern.wearer, lengths=lengths))


BREAKS: tuple[tuple[str, Break], ...] = (
    ("seam-length", lambda pattern: longer_side(pattern, 3.2)),
    ("seam-length", cap_too_long),
    ("notches-meet", notch_missed),
    ("notches-meet", notch_missed_on_an_eased_seam),
    ("notches-meet", notch_on_another_edge),
    ("notches-meet", notch_beyond_its_edge),
    ("dart-legs", dart_point_aside),
    ("corners-true", hem_peaked_at_the_side),
    ("corners-true", hem_peaked_at_the_dart),
    ("corners-true", neck_peaked_at_the_fold),
    ("corners-true", wrist_peaked),
    ("outline-simple", hem_loop),
    ("outline-simple", edges_crossing),
    ("grain-line", no_grain),
    ("grain-line", grain_aslant),
    ("grain-line", grain_outside),
    ("ease-to-move", too_tight),
    ("room-to-get-in", no_way_in),
)


@pytest.mark.parametrize(("code", "broken"), BREAKS)
def test_each_break_fails_its_own_check_and_no_other(code: str, broken: Break) -> None:
    results = [result for result in run_checks(broken(blouse())) if result.verdict is not Verdict.PASS]
    assert {result.code for result in results} == {code}, [r.where for r in results]
    assert {result.verdict for result in results} == {Verdict.FAIL}
    assert all(result.remedy.endswith(".") for result in results)


def test_a_seam_a_little_off_is_a_warning_and_the_remedy_has_the_number() -> None:
    results = [result for result in run_checks(longer_side(blouse(), 2.0)) if result.verdict is not Verdict.PASS]
    assert [(result.code, result.verdict) for result in results] == [("seam-length", Verdict.WARN)]
    assert "back side seam is 2.0 mm longer than front side seam" in results[0].remedy


def test_the_remedy_of_an_eased_seam_says_both_what_was_asked_and_what_will_sew() -> None:
    failed = next(r for r in run_checks(cap_too_long(blouse())) if r.verdict is Verdict.FAIL)
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
    broken = neck_peaked_at_the_fold(blouse())
    where = next(r.where for r in run_checks(broken) if r.verdict is Verdict.FAIL)
    corners = named(CHECKS, ["corners-true"])[0]
    results = run_checks(broken, checks=[replace(corners, look=corners_look(where))])
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
        raise ZeroDivisionError("a length of nought")

    table = check_table(Check("broken", "broken", "Breaks off.", breaks), *CHECKS)  # type: ignore[arg-type]
    results = run_checks(blouse(), checks=table)
    assert results[0].verdict is Verdict.ERROR
    assert "a length of nought" in results[0].remedy
    assert worst(results) is Verdict.ERROR
    assert results[1:] == run_checks(blouse())


def test_two_checks_of_one_code_are_refused() -> None:
    with pytest.raises(ValueError, match="seam-length"):
        check_table(*CHECKS, CHECKS[0])


def test_an_unknown_code_names_the_nearest() -> None:
    with pytest.raises(UnknownName, match="seam-length"):
        named(CHECKS, ["seam-lenght"])


def test_an_opening_lets_the_wearer_in() -> None:
    pattern = no_way_in(blouse())
    piece = pattern.piece("back")
    edge: Edge = replace(piece.edge("centre back"), role=Role.OPENING)
    results = run_checks(with_pieces(pattern, with_edges(piece, edge)), checks=named(CHECKS, ["room-to-get-in"]))
    assert [(r.verdict, r.where) for r in results] == [(Verdict.PASS, "through back centre back")]


def test_a_waist_smaller_than_bust_and_hip_has_no_way_in_over_either() -> None:
    pattern = blouse()
    lengths = (BodyLength("bust_girth", 980.0, "measured"), BodyLength("hip_girth", 1050.0, "measured"))
    results = run_checks(
        replace(pattern, wearer=replace(pattern.wearer, lengths=lengths)), checks=named(CHECKS, ["room-to-get-in"])
    )
    # the waist of the sample is 937.4 mm round: over the head it meets the bust first, the smaller of the two
    assert results[0].measured == pytest.approx(937.4 - 980.0, abs=0.1)


@pytest.mark.parametrize("move", [shift(Vec(300.0, -80.0)), turn(Point(0.0, 0.0), 2.0)])
def test_where_a_piece_lies_on_the_paper_changes_nothing(move: object) -> None:
    pattern = blouse()
    moved: tuple[Piece, ...] = tuple(move_piece(piece, move) for piece in pattern.pieces)  # type: ignore[arg-type]
    before, after = run_checks(pattern), run_checks(replace(pattern, pieces=moved))
    assert [(r.code, r.where, r.verdict) for r in before] == [(r.code, r.where, r.verdict) for r in after]


def test_a_measure_without_a_body_is_not_judged() -> None:
    pattern = replace(blouse(), measures=(Measure("hem", blouse().measures[0].tape, least=10.0),))
    assert worst(run_checks(pattern, checks=named(CHECKS, ["ease-to-move"]))) is Verdict.NOTHING
