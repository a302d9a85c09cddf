"""Lengthen or shorten, against what the trade asks of it (common practice: the cut square to the grain, the lower part
moved along the grain, widths and dart intakes kept, the matching piece alike) and against shapely as a stranger."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as ShapelyPoint

from drafting.alterations import Lengthen, apply_step
from drafting.checks import CHECKS, Verdict, named
from drafting.errors import StepRefused
from drafting.geometry import Cubic, Line, Move, Point, Vec, distance, polyline, run_bounds, shift, turn
from drafting.pattern import (
    Edge,
    Grain,
    MarkLine,
    Notch,
    Pattern,
    Piece,
    Role,
    Station,
    dart_width,
    move_piece,
    place,
    with_edges,
    with_pieces,
)
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed
from tests.drafting.sample import LENGTHEN_HERE, blouse
from tests.property.test_alterations import furthest
from tests.quick_checks import run_checks

AMOUNTS = [50.0, 12.5, -30.0]


def width_at(piece: Piece, line: str) -> float:
    """The width from outline to outline at a marked line, as shapely sees it."""
    mark = piece.line(line)
    reach = (mark.end - mark.start).unit() * 1000.0
    ends = [((p := mark.start - reach).x, p.y), ((q := mark.end + reach).x, q.y)]
    cloth = Polygon([(p.x, p.y) for p in polyline(piece.outline, 1e-6)]).intersection(LineString(ends))
    left, bottom, right, top = cloth.bounds
    return math.hypot(right - left, top - bottom)


@pytest.mark.parametrize("by", AMOUNTS)
def test_the_piece_grows_by_the_amount_and_its_widths_elsewhere_stay(by: float) -> None:
    before = blouse()
    after = apply_step(before, Lengthen("sleeve", by))
    _, low, _, high = run_bounds(before.piece("sleeve").outline)
    _, new_low, _, new_high = run_bounds(after.piece("sleeve").outline)
    assert new_high - new_low == pytest.approx(high - low + by, abs=1e-9)
    for line in ("biceps line", "elbow line"):
        assert width_at(after.piece("sleeve"), line) == pytest.approx(width_at(before.piece("sleeve"), line), abs=1e-5)
    assert after.piece("sleeve").edge("wrist").length == pytest.approx(before.piece("sleeve").edge("wrist").length)


@pytest.mark.parametrize("by", AMOUNTS)
@pytest.mark.parametrize("name", ["sleeve", "bodice front", "bodice back"])
def test_the_line_that_was_cut_still_runs_from_side_to_side(name: str, by: float) -> None:
    piece = apply_step(dress(), Lengthen(name, by)).piece(name)
    line = piece.line("lengthen or shorten line")
    border = LineString([(p.x, p.y) for p in polyline((*piece.outline, piece.outline[0]), 1e-4)])
    assert all(border.distance(ShapelyPoint(end.x, end.y)) < 1e-3 for end in (line.start, line.end))


@pytest.mark.parametrize("by", AMOUNTS)
def test_the_matching_piece_gets_the_same_and_every_check_still_passes(by: float) -> None:
    before = blouse()
    after = apply_step(before, Lengthen("front", by))
    for piece, edge in (("front", "centre front"), ("back", "centre back")):
        assert after.piece(piece).edge(edge).length == pytest.approx(before.piece(piece).edge(edge).length + by)
    assert {result.verdict for result in run_checks(after)} <= {Verdict.PASS, Verdict.WARN}


@pytest.mark.parametrize("by", AMOUNTS)
def test_a_dart_that_crosses_keeps_its_intake_and_its_legs_stay_equal(by: float) -> None:
    before, after = (p.piece("front") for p in (blouse(), apply_step(blouse(), Lengthen("front", by))))
    dart = after.dart("waist dart")
    assert dart_width(after, dart) == pytest.approx(dart_width(before, before.dart("waist dart")), abs=1e-9)
    assert after.edge(dart.legs[0]).length == pytest.approx(after.edge(dart.legs[1]).length, abs=1e-4)
    assert dart.apex == before.dart("waist dart").apex


def test_a_slanting_dart_that_crosses_stays_on_its_own_axis_with_equal_legs() -> None:
    before = dress()
    after = apply_step(before, Lengthen("bodice front", 20.0, line="underarm line"))
    old, new = before.piece("bodice front"), after.piece("bodice front")
    mouth = new.edge(new.dart("bust dart").legs[0]).start, new.edge(new.dart("bust dart").legs[1]).end
    assert distance(mouth[0], new.dart("bust dart").apex) == pytest.approx(
        distance(mouth[1], new.dart("bust dart").apex), abs=1e-9
    )
    assert new.dart("bust dart").apex.y < old.dart("bust dart").apex.y - 15.0
    assert {result.verdict for result in run_checks(after)} <= {Verdict.PASS, Verdict.WARN}


@pytest.mark.parametrize("by", AMOUNTS)
def test_notches_and_lines_below_move_by_the_amount_and_those_above_not_at_all(by: float) -> None:
    before, after = (
        blouse().piece("sleeve"),
        apply_step(blouse(), Lengthen("sleeve", by, line="biceps line")).piece("sleeve"),
    )
    for notch in before.notches:
        was, now = (place(p, p.notch(notch.name).station)[0] for p in (before, after))
        moved = by if was.y < 400.0 else 0.0
        assert now.x == pytest.approx(was.x, abs=1e-6)
        assert now.y == pytest.approx(was.y - moved, abs=1e-6)
    assert after.line(LENGTHEN_HERE).start.y == pytest.approx(96.0 - by)
    assert after.line("elbow line").end.y == pytest.approx(200.0 - by)
    assert after.line("biceps line") == before.line("biceps line")


def test_the_grain_stays_one_straight_line() -> None:
    grain = apply_step(blouse(), Lengthen("front", 40.0)).piece("front").grain
    assert grain == Grain(Point(40.0, 0.0), Point(40.0, 300.0))


@pytest.mark.parametrize("by", AMOUNTS)
@pytest.mark.parametrize("piece", ["front", "sleeve"])
def test_corners_and_the_joins_along_an_edge_stay_as_true_as_they_were(piece: str, by: float) -> None:
    before, after = blouse(), apply_step(blouse(), Lengthen(piece, by))
    corners = named(CHECKS, ["corners-true"])
    for was, now in zip(run_checks(before, checks=corners), run_checks(after, checks=corners), strict=True):
        # legs that turn by less than a degree each are left straight
        borne = 2.0 if now.where == "front: mouth of waist dart" else 1e-6
        assert now.measured == pytest.approx(was.measured, abs=borne)
    for altered in after.pieces:
        for edge in altered.edges:
            for one, other in zip(edge.curves, edge.curves[1:], strict=False):
                assert bend(one, other) < 1e-6


def bend(one: Line | Cubic, other: Line | Cubic) -> float:
    """The corner between two curves, degrees."""
    arriving = one.end - (one.c2 if isinstance(one, Cubic) else one.start)
    leaving = (other.c1 if isinstance(other, Cubic) else other.end) - other.start
    return abs(math.degrees(math.atan2(arriving.cross(leaving), arriving.dot(leaving))))


def test_a_redrawn_straight_side_bows_by_a_tenth_of_the_amount_times_the_sine_of_its_slant() -> None:
    side = apply_step(blouse(), Lengthen("sleeve", 50.0)).piece("sleeve").edge("underarm, front")
    curve = next(curve for curve in side.curves if isinstance(curve, Cubic))
    chord = (curve.end - curve.start).unit()
    bow = max(abs(chord.cross(p - curve.start)) for p in polyline([curve], 1e-4))
    assert 0.0 < bow <= 0.1 * 50.0 * math.sin(math.atan2(50.0, 400.0))


def unmarked(pattern: Pattern, piece: str) -> Pattern:
    """The pattern without notches, its piece without balance lines other than the one it is lengthened at."""
    bare = tuple(
        replace(p, notches=(), lines=tuple(m for m in p.lines if p.name != piece or m.name == LENGTHEN_HERE))
        for p in pattern.pieces
    )
    return replace(pattern, pieces=bare, seams=tuple(replace(seam, notches=()) for seam in pattern.seams), measures=())


def test_a_straight_side_with_nothing_marked_on_it_stays_straight_when_it_turns_by_less_than_a_degree() -> None:
    pattern = unmarked(blouse(), "sleeve")
    for by, kind in ((40.0, Line), (80.0, Cubic)):  # 7.13 degrees off the grain: 6.49 after 40 mm, 5.95 after 80
        curves = apply_step(pattern, Lengthen("sleeve", by)).piece("sleeve").edge("underarm, front").curves
        assert [type(curve) for curve in curves] == [kind]


def test_held_to_one_piece_the_partner_stays_and_the_check_names_the_seam() -> None:
    before = blouse()
    after = apply_step(before, Lengthen("front", 20.0, only="front"))
    assert after.piece("back") is before.piece("back")
    failed = [result for result in run_checks(after) if result.verdict is Verdict.FAIL]
    assert {(r.code, r.where) for r in failed if r.code == "seam-length"} == {("seam-length", "side")}
    assert failed[0].measured == pytest.approx(20.0, abs=0.05)


def test_held_to_the_partner_only_that_is_cut() -> None:
    before = blouse()
    after = apply_step(before, Lengthen("front", 20.0, only="back"))
    assert after.piece("front") is before.piece("front")
    assert after.piece("back") != before.piece("back")


def test_a_partner_without_the_line_is_cut_level_with_where_the_seam_is_met() -> None:
    before = blouse()
    back = before.piece("back")
    before = with_pieces(before, replace(back, lines=tuple(m for m in back.lines if m.name != LENGTHEN_HERE)))
    after = apply_step(before, Lengthen("front", 25.0))
    assert after.piece("back").edge("centre back").length == pytest.approx(420.0)
    assert {result.verdict for result in run_checks(after)} <= {Verdict.PASS, Verdict.WARN}


@pytest.mark.parametrize("move", [shift(Vec(40.0, -900.0)), turn(Point(0.0, 0.0), 0.4)])
def test_where_a_piece_lies_on_the_paper_changes_nothing(move: Move) -> None:
    laid = replace(blouse(), pieces=tuple(move_piece(piece, move) for piece in blouse().pieces))
    altered, plain = apply_step(laid, Lengthen("front", 30.0)), apply_step(blouse(), Lengthen("front", 30.0))
    for piece in plain.pieces:
        for edge in piece.edges:
            assert altered.piece(piece.name).edge(edge.name).length == pytest.approx(edge.length, abs=1e-6)


@pytest.mark.parametrize("piece", ["bodice front", "bodice back", "sleeve", "skirt front", "skirt back"])
@pytest.mark.parametrize("by", [40.0, -25.0])
def test_every_piece_of_the_dress_is_lengthened_and_shortened_at_its_own_line(piece: str, by: float) -> None:
    after = apply_step(dress(), Lengthen(piece, by))
    assert {result.verdict for result in run_checks(after)} <= {Verdict.PASS, Verdict.WARN}


@pytest.mark.parametrize("by", [10.0, 20.0])
def test_a_side_that_is_lengthened_keeps_to_one_bend_and_comes_back(by: float) -> None:
    # where its chords only steepen, a line that bends one way goes through its marks (plane geometry)
    for before in dresses():
        after = apply_step(before, Lengthen("bodice front", by))
        sides = [each for each in run_checks(after) if each.check == "curves" and each.where.endswith("side seam")]
        assert {each.verdict for each in sides} == {Verdict.PASS}
        back = apply_step(after, Lengthen("bodice front", -by))
        assert furthest(back, before) < 1e-6


REFUSED = [
    (Lengthen("slev", 20.0), 'There is no piece "slev". Did you mean "sleeve"?'),
    (Lengthen("front", 20.0, line="hip line"), '"front" has no line "hip line"'),
    (Lengthen("front", 0.0), "changes nothing"),
    (Lengthen("front", 20.0, only="sleeve"), 'There is no piece that is altered here "sleeve"'),
    (Lengthen("sleeve", -96.0), 'the start of "underarm, front" lies only 96.0 mm below the cut'),
    (Lengthen("front", -75.0), 'the notch "side" lies only 70.0 mm below the cut'),
    (
        Lengthen("front", -40.0, line="bust line"),
        'the point of "waist dart" lies 20.0 mm from the line, too near for -40.0 mm',
    ),
]


@pytest.mark.parametrize(("step", "reason"), REFUSED)
def test_what_makes_no_sense_is_refused_with_a_reason(step: Lengthen, reason: str) -> None:
    with pytest.raises(StepRefused) as refused:
        apply_step(blouse(), step)
    assert reason in str(refused.value)


def with_line(pattern: Pattern, piece: str, y: float, *, to: float | None = None) -> Pattern:
    old = pattern.piece(piece)
    line = MarkLine("odd line", Point(0.0, y), Point(200.0, y if to is None else to))
    return with_pieces(pattern, replace(old, lines=(*old.lines, line)))


@pytest.mark.parametrize(
    ("y", "reason"),
    [
        (-200.0, "all of the piece lies above the line"),
        (900.0, "all of the piece lies below the line"),
        (1.5, 'runs along "wrist"'),
    ],
)
def test_a_line_that_does_not_cross_from_side_to_side_is_refused(y: float, reason: str) -> None:
    with pytest.raises(StepRefused, match=reason):
        apply_step(with_line(blouse(), "sleeve", y), Lengthen("sleeve", 20.0, line="odd line"))


def test_a_line_that_would_slice_an_edge_lengthwise_is_refused() -> None:
    # the back width line is met, on the sleeve, near the top of the cap
    with pytest.raises(StepRefused, match=r'carried to "sleeve".*too flatly'):
        apply_step(dress(), Lengthen("bodice back", 20.0, line="back width line"))


def test_a_line_into_the_mouth_of_a_dart_is_refused() -> None:
    pattern = with_line(blouse(), "front", 100.0)
    piece = pattern.piece("front")
    side = piece.edge("side seam")
    # a dart in the side seam, its mouth from 90 to 110 mm above the hem
    low, high = Point(244.5, 90.0), Point(245.5, 110.0)
    apex = Point(180.0, 103.0)
    names = [edge.name for edge in piece.edges]
    at = names.index("side seam")
    edges = (
        *piece.edges[:at],
        replace(side, name="side seam, lower", curves=(Line(side.start, low),)),
        Edge("side leg, lower", (Line(low, apex),), Role.DART_LEG),
        Edge("side leg, upper", (Line(apex, high),), Role.DART_LEG),
        replace(side, curves=(Line(high, side.end),)),
        *piece.edges[at + 1 :],
    )
    dart = replace(piece.darts[0], name="side dart", legs=("side leg, lower", "side leg, upper"), apex=apex)
    darted = replace(piece, edges=edges, darts=(*piece.darts, dart))
    with pytest.raises(StepRefused, match='runs into the mouth of "side dart"'):
        apply_step(with_pieces(pattern, darted), Lengthen("front", 20.0, line="odd line", only="front"))


def test_a_piece_without_grain_is_refused() -> None:
    pattern = blouse()
    bare = with_pieces(pattern, replace(pattern.piece("sleeve"), grain=None))
    with pytest.raises(StepRefused, match="no grain line"):
        apply_step(bare, Lengthen("sleeve", 20.0))


def test_a_partner_that_cannot_follow_is_named_with_how_to_leave_it() -> None:
    pattern = blouse()
    back = pattern.piece("back")
    low = Notch("low", Station("side seam", 125.0, "end"))
    with pytest.raises(StepRefused) as refused:
        apply_step(with_pieces(pattern, replace(back, notches=(*back.notches, low))), Lengthen("front", -40.0))
    assert 'carried to "back"' in str(refused.value)
    assert 'only = "front"' in str(refused.value)


def test_the_cut_is_square_to_the_grain_even_where_the_line_is_not() -> None:
    pattern = with_line(blouse(), "sleeve", 80.0, to=120.0)
    after = apply_step(pattern, Lengthen("sleeve", 20.0, line="odd line"))
    assert after.piece("sleeve").edge("wrist").start == Point(-110.0, -20.0)
    assert after.piece("sleeve").edge("underarm, front").start == Point(110.0, -20.0)


def test_a_curved_edge_below_the_line_is_moved_whole() -> None:
    before, after = blouse(), apply_step(blouse(), Lengthen("front", 30.0))
    old, new = (p.piece("front").edge("hem, side part").curves[0] for p in (before, after))
    assert isinstance(old, Cubic)
    assert isinstance(new, Cubic)
    assert new.c1 - old.c1 == new.start - old.start
    assert with_edges(after.piece("front")) == after.piece("front")


def test_no_more_is_taken_out_than_could_be_let_in_again_under_a_hollow_wrist() -> None:
    short = apply_step(blouse(), Lengthen("sleeve", -94.0))
    assert furthest(apply_step(short, Lengthen("sleeve", 94.0)), blouse()) < 1e-6
    with pytest.raises(StepRefused, match='"wrist" would come to lie over the line'):
        apply_step(blouse(), Lengthen("sleeve", -95.0))


@pytest.mark.parametrize("by", [-80.0, -60.0, -50.0, -25.0, 25.0, 50.0, 100.0])
def test_a_sleeve_shortened_or_lengthened_below_the_elbow_has_even_seams(by: float) -> None:
    for base in dresses():
        after = apply_step(base, Lengthen("sleeve", by))
        wavers = [each for each in run_checks(after) if each.where.startswith("sleeve underarm seam")]
        assert not [each.remedy for each in wavers if each.code == "curves-even" and each.verdict is not Verdict.PASS]


def test_a_dart_is_true_however_often_the_bodice_is_lengthened() -> None:
    """Common practice: a line runs on over a closed dart."""
    after = dress()
    for _ in range(8):
        after = apply_step(after, Lengthen("bodice front", 10.0, "underarm line"))
    assert failed(after) == []
