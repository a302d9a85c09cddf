"""Laws of alterations, on a pattern drawn by hand and on the example dress, with random amounts at random lines."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drafting.alterations import Lengthen, apply_step, replay, undo
from drafting.checks import Verdict, run_checks
from drafting.errors import StepRefused
from drafting.geometry import Line, distance, polyline, run_at
from drafting.pattern import Pattern, Piece, finished, place
from tests.drafting.dress import dress
from tests.drafting.sample import blouse

PATTERNS = {"blouse": blouse(), "dress": dress()}
STEPS = [
    (name, piece.name, line.name)
    for name, pattern in PATTERNS.items()
    for piece in pattern.pieces
    for line in piece.lines
]
amounts = st.floats(-120.0, 200.0).filter(lambda by: abs(by) > 0.01)
many = settings(deadline=None, max_examples=10)


def taken(pattern: Pattern, *steps: Lengthen) -> Pattern:
    """The pattern after the steps; an amount that it refuses is another example's business."""
    try:
        for step in steps:
            pattern = apply_step(pattern, step)
    except StepRefused:
        assume(False)
    return pattern


def furthest(one: Pattern, other: Pattern) -> float:
    """How far apart any two places of the same name lie on two patterns, mm."""
    worst = 0.0
    for a in one.pieces:
        b = other.piece(a.name)
        assert [edge.name for edge in a.edges] == [edge.name for edge in b.edges]
        for edge in a.edges:
            same = b.edge(edge.name)
            worst = max(worst, abs(edge.length - same.length))
            for share in (0.0, 0.12, 0.5, 0.83, 1.0):
                p, q = run_at(edge.curves, share * edge.length), run_at(same.curves, share * same.length)
                worst = max(worst, distance(p, q))
        for notch in a.notches:
            worst = max(worst, distance(place(a, notch.station)[0], place(b, b.notch(notch.name).station)[0]))
        for dart in a.darts:
            worst = max(worst, distance(dart.apex, b.dart(dart.name).apex))
        for line in a.lines:
            worst = max(worst, distance(line.start, b.line(line.name).start), distance(line.end, b.line(line.name).end))
        for mark in a.points:
            worst = max(worst, distance(mark.at, b.point(mark.name)))
    return worst


@many
@given(st.sampled_from(STEPS), amounts, st.booleans())
def test_lengthen_then_shorten_by_as_much_is_the_identity(step: tuple[str, str, str], by: float, held: bool) -> None:
    name, piece, line = step
    only = piece if held else ""
    there = taken(PATTERNS[name], Lengthen(piece, by, line, only))
    back = apply_step(there, Lengthen(piece, -by, line, only))
    assert furthest(back, PATTERNS[name]) < 1e-6


@many
@given(st.sampled_from(STEPS), amounts, amounts)
def test_two_amounts_one_after_the_other_are_their_sum(step: tuple[str, str, str], one: float, other: float) -> None:
    name, piece, line = step
    assume(abs(one + other) > 0.01)
    pattern = PATTERNS[name]
    both = taken(pattern, Lengthen(piece, one, line), Lengthen(piece, other, line))
    at_once = taken(pattern, Lengthen(piece, one + other, line))
    # a straight edge with nothing marked on it may stay straight one way and bow by a hair the other: see `stretch`
    hair = 0.1 * (abs(one) + abs(other)) * 0.2
    assert furthest(both, at_once) < (hair if lone_straight_edge_cut(pattern, at_once) else 1e-6)


def lone_straight_edge_cut(pattern: Pattern, after: Pattern) -> bool:
    return any(
        isinstance(edge.curves[0], Line) and len(edge.curves) == 1 and edge.start.x != edge.end.x
        for piece in pattern.pieces
        for edge in piece.edges
        if abs(after.piece(piece.name).edge(edge.name).length - edge.length) > 1e-6
    )


@many
@given(st.sampled_from(STEPS), amounts)
def test_what_is_below_moves_by_exactly_the_amount_and_what_is_above_not_at_all(
    step: tuple[str, str, str], by: float
) -> None:
    name, piece, line = step
    before = PATTERNS[name].piece(piece)
    after = taken(PATTERNS[name], Lengthen(piece, by, line)).piece(piece)
    level = before.line(line).start.y
    for notch in before.notches:
        was, now = (place(p, p.notch(notch.name).station)[0] for p in (before, after))
        assert abs(now.x - was.x) < 1e-6
        assert abs(now.y - was.y + (by if was.y < level - 1e-6 else 0.0)) < 1e-6
    for edge in before.edges:
        was, now = edge.start, after.edge(edge.name).start
        if (was.x, was.y) not in {
            (dart.apex.x, dart.apex.y) for dart in before.darts
        }:  # a point follows its dart's axis
            assert now.x == was.x
            assert now.y == pytest.approx(was.y - (by if was.y < level - 1e-6 else 0.0), abs=1e-9)


@many
@given(st.sampled_from(STEPS), amounts, st.randoms(use_true_random=False))
def test_a_chain_of_steps_replays_and_undoes_to_the_same_patterns(
    first: tuple[str, str, str], by: float, chance: random.Random
) -> None:
    name, piece, line = first
    drafted = PATTERNS[name]
    pattern = taken(drafted, Lengthen(piece, by, line))
    for _ in range(chance.randint(0, 3)):
        _, piece, line = chance.choice([step for step in STEPS if step[0] == name])
        try:
            pattern = apply_step(pattern, Lengthen(piece, chance.uniform(-40.0, 60.0), line))
        except StepRefused:
            continue
    assert replay(drafted, pattern.history) == pattern
    undone = undo(drafted, pattern)
    assert undone.history == pattern.history[:-1]
    assert apply_step(undone, Lengthen(**dict(pattern.history[-1].options))) == pattern


@many
@given(st.sampled_from(STEPS), amounts)
def test_after_any_step_the_checks_pass_or_a_seam_is_named(step: tuple[str, str, str], by: float) -> None:
    name, piece, line = step
    results = run_checks(taken(PATTERNS[name], Lengthen(piece, by, line)))
    assert all(result.remedy for result in results if result.verdict in (Verdict.WARN, Verdict.FAIL))
    assert all(result.verdict is not Verdict.ERROR for result in results)
    # lengthening alone leaves no outline crossed and no dart unequal
    for result in results:
        if result.code in ("outline-simple", "dart-legs"):
            assert result.verdict is Verdict.PASS, (result.where, result.measured, result.remedy)


@many
@given(st.sampled_from(STEPS), amounts)
def test_measurements_taken_at_other_lines_stay(step: tuple[str, str, str], by: float) -> None:
    name, piece, line = step
    before, after = PATTERNS[name], taken(PATTERNS[name], Lengthen(piece, by, line))
    levels = {mark.name for each in before.pieces for mark in each.lines if mark.name != line}
    for measure, was, now in zip(before.measures, finished(before), finished(after), strict=True):
        lines = {getattr(part, "line", None) for part in measure.tape}
        if lines <= levels and not darts_lengthened(before, after):
            assert now.finished == pytest.approx(was.finished, abs=1e-4)


def darts_lengthened(before: Pattern, after: Pattern) -> bool:
    """A dart that was lengthened is narrower at a line across it, so the width there is not kept."""
    return any(
        abs(piece.edge(dart.legs[0]).length - after.piece(piece.name).edge(dart.legs[0]).length) > 1e-3
        for piece in before.pieces
        for dart in piece.darts
    )


def lowest(piece: Piece) -> float:
    return min(point.y for point in polyline(piece.outline))


@many
@given(st.sampled_from(STEPS), amounts)
def test_the_piece_is_longer_by_the_amount(step: tuple[str, str, str], by: float) -> None:
    name, piece, line = step
    pattern = replace(PATTERNS[name], history=())
    after = taken(pattern, Lengthen(piece, by, line))
    assert lowest(after.piece(piece)) == pytest.approx(lowest(pattern.piece(piece)) - by, abs=1e-6)
