"""Chains of alterations, at random: they never crash, never break a promise, and can be taken again and taken back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from blocks.remedies.step_at_fault import checked_after
from drafting.alterations import (
    ALTERATIONS,
    Alteration,
    FullBust,
    MoveDart,
    SmallBust,
    apply_step,
    make_step,
    replay,
    undo,
)
from drafting.checks import Verdict, run_checks
from drafting.errors import StepRefused
from drafting.geometry import Line, Point
from drafting.pattern import Cut, Edge, Pattern, Piece, Wearer
from drafting.pattern.compare import strayed
from tests.chains import BASES, LEAST_SHARE, LINKS, Chain, Link, bases, main, scaled, taken, unnoticed_crossings
from tests.drafting.dress import dress
from tests.remedies import mends, mends_instead

places = st.integers(0, BASES - 1)
links = st.tuples(st.sampled_from(LINKS), st.floats(LEAST_SHARE, 1.0)).map(lambda each: (*each[0], each[1]))
chains = st.lists(links, min_size=3, max_size=8)
many = settings(deadline=None, max_examples=12)
few = settings(deadline=None, max_examples=6)
IDENTICAL = 1e-6


def chain(place: int, asked: list[Link]) -> Chain:
    return taken(bases()[place], [scaled(*link) for link in asked])


def furthest(one: Pattern, other: Pattern) -> float:
    assert [piece.name for piece in one.pieces] == [piece.name for piece in other.pieces]
    return max(strayed(piece, other.piece(piece.name)) for piece in one.pieces)


@many
@given(places, chains)
def test_a_chain_never_crashes_nor_crosses_unnoticed_and_what_fails_says_what_to_type(
    place: int, asked: list[Link]
) -> None:
    found = chain(place, asked)
    steps = [make_step(step, ALTERATIONS) for step in found.pattern.history]
    results = checked_after(found.stages, steps)
    assert [each for each in results if each.verdict is Verdict.ERROR] == []
    assert unnoticed_crossings(found.pattern, results) == []
    for failed in (each for each in results if each.verdict is Verdict.FAIL):
        assert mends(found.pattern, failed) or mends_instead(bases()[place], steps, failed), failed.remedy


@many
@given(places, chains)
def test_a_chain_taken_again_gives_the_same_pattern_and_taken_back_the_one_before(
    place: int, asked: list[Link]
) -> None:
    found = chain(place, asked)
    base = bases()[place]
    assert replay(base, found.pattern.history) == found.pattern
    if len(found.stages) > 1:
        assert undo(base, found.pattern) == found.stages[-2]


@few
@given(places, st.floats(2.0, 60.0))
def test_a_full_bust_and_then_a_small_one_by_as_much_is_the_identity(place: int, by: float) -> None:
    base = bases()[place]
    full = taken_or_not(base, FullBust(by=by))
    assert furthest(apply_step(full, SmallBust(by=by)), base) < IDENTICAL


@few
@given(places, st.floats(0.15, 0.85))
def test_a_dart_moved_there_and_back_is_the_identity(place: int, share: float) -> None:
    base = bases()[place]
    front = base.piece("bodice front")
    beside = front.edge("shoulder at armhole")
    assert [beside.end, front.edge("bust dart leg, armhole").end] == [front.edge("armhole").start, beside.start]
    there = taken_or_not(base, MoveDart("bodice front", "bust dart", "side seam", share=share, measured_from="armhole"))
    back = MoveDart("bodice front", "bust dart", "shoulder", at=beside.length, measured_from="armhole")
    assert furthest(apply_step(there, back), base) < IDENTICAL


@few
@given(places, st.floats(0.15, 0.85), st.floats(0.2, 0.8))
def test_a_part_of_a_dart_moved_there_and_back_is_the_identity(place: int, share: float, part: float) -> None:
    base = bases()[place]
    step = MoveDart("bodice front", "bust dart", "side seam", share=share, measured_from="armhole", part=part)
    there = taken_or_not(base, step)
    back = MoveDart("bodice front", "side dart", "bust dart")
    assert furthest(apply_step(there, back), base) < IDENTICAL


def taken_or_not(pattern: Pattern, step: Alteration) -> Pattern:
    """The pattern after the step; an amount that it refuses is another example's business."""
    try:
        return apply_step(pattern, step)
    except StepRefused:
        assume(False)
        raise


def test_an_outline_that_crosses_itself_is_seen_by_the_stranger() -> None:
    corners = [Point(0, 0), Point(100, 0), Point(100, 100), Point(50, -30), Point(0, 100)]
    lines = [Line(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]
    piece = Piece("star", tuple(Edge(f"edge {k}", (line,)) for k, line in enumerate(lines)), cut=Cut(1))
    pattern = Pattern("star", Wearer(""), (piece,))
    results = run_checks(pattern)
    assert unnoticed_crossings(pattern, results) == []  # the check says so itself
    passing = [replace(each, verdict=Verdict.PASS) for each in results]
    assert unnoticed_crossings(pattern, passing) == ["star"]


def test_the_table_of_chains_is_printed_and_is_the_same_every_time(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--count", "2", "--seed", "3"]) == 0
    first = capsys.readouterr().out
    assert main(["--count", "2", "--seed", "3"]) == 0
    assert capsys.readouterr().out == first
    assert "passes every check" in first
    assert dress().title in {pattern.title for pattern in bases()}
