"""What checking one state of a pattern found may be given to the check of the next: what comes out is the same."""

from __future__ import annotations

import pickle
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.alterations import Lengthen, apply_step
from drafting.checks import CHECKS, Check, Checked, Look, Result, Verdict, check_pattern, check_table, look, run_checks
from drafting.errors import StepRefused
from drafting.geometry import Vec, shift
from drafting.pattern import Pattern, Piece, move_piece, with_pieces
from tests.alteration_samples import SAMPLES, sample
from tests.chains import BASES, LEAST_SHARE, LINKS, Link, bases, scaled, taken
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.sampling import some

places = st.integers(0, BASES - 1)
links = st.tuples(st.sampled_from(LINKS), st.floats(LEAST_SHARE, 1.0)).map(lambda each: (*each[0], each[1]))


@settings(deadline=None, max_examples=6)
@given(places, st.lists(links, min_size=1, max_size=6))
def test_after_every_step_of_a_chain_the_results_are_those_of_looking_at_everything(
    place: int, asked: list[Link]
) -> None:
    known: Checked | None = None
    for pattern in taken(bases()[place], [scaled(*link) for link in asked]).stages:
        known = check_pattern(pattern, known=known)
        assert known.results == run_checks(pattern)


@pytest.mark.parametrize("name", some(SAMPLES, every=4))
def test_after_every_sample_of_an_alteration_the_results_are_those_of_looking_at_everything(name: str) -> None:
    """As on a page where one number is changed: each amount on the same dress, checked after the amount before it."""
    pattern = sized(92) if name == "blend" else dress()
    known = check_pattern(pattern)
    for options in SAMPLES[name][::2]:
        try:
            altered = apply_step(pattern, sample(name, options))
        except StepRefused:
            continue  # one that the dress has no dart or no place for
        known = check_pattern(altered, known=known)
        assert known.results == run_checks(altered)


def test_after_a_longer_sleeve_no_piece_is_measured_again_that_it_left_alone() -> None:
    """A look that takes something made anew each time would be another look: so each measured piece is the sleeve."""
    known = check_pattern(dress())
    after = check_pattern(apply_step(dress(), Lengthen("sleeve", 30.0)), known=known)
    alone = {"goes-on-cloth", "cut-width", "outline-simple", "grain-line", "notch-marks", "bends-allowed"}
    again = [
        (each.check.code, part.name)
        for key, each in after.looked.items()
        if key not in known.looked and each.check.code in alone
        for part in each.look.given
        if isinstance(part, Piece)
    ]
    assert sorted(again) == [(code, "sleeve") for code in sorted(alone)]


@settings(deadline=None, max_examples=10)
@given(places, places, links)
def test_what_was_found_on_another_garment_does_no_harm(place: int, other: int, link: Link) -> None:
    known = check_pattern(taken(bases()[other], [scaled(*link)]).pattern)
    assert check_pattern(bases()[place], known=known).results == run_checks(bases()[place])


def counting(looked_at: list[str]) -> tuple[Check, ...]:
    def find(check: Check, piece: Piece) -> Iterator[Result]:
        looked_at.append(piece.name)
        yield check.result(piece.name, Verdict.PASS)

    def looks(_check: Check, pattern: Pattern) -> Iterator[Look]:
        for piece in pattern.pieces:
            yield look(find, piece)

    return check_table(Check("counted", "counted", "Counts how often it looks.", looks))


def test_a_piece_that_a_step_left_alone_is_not_looked_at_again() -> None:
    looked_at: list[str] = []
    checks = counting(looked_at)
    known = check_pattern(dress(), checks=checks)
    assert looked_at == [piece.name for piece in dress().pieces]
    looked_at.clear()
    longer = apply_step(dress(), Lengthen("sleeve", 20.0))
    after = check_pattern(longer, known=known, checks=checks)
    assert looked_at == ["sleeve"]
    assert after.results == known.results


def test_a_piece_that_is_moved_by_nothing_is_another_piece_and_looked_at_again() -> None:
    looked_at: list[str] = []
    checks = counting(looked_at)
    known = check_pattern(dress(), checks=checks)
    looked_at.clear()
    moved = with_pieces(dress(), move_piece(dress().piece("sleeve"), shift(Vec(0.0, 0.0))))
    assert moved == dress()
    check_pattern(moved, known=known, checks=checks)
    assert looked_at == ["sleeve"]


def test_a_part_is_never_taken_for_one_that_is_gone() -> None:
    looked_at: list[str] = []

    def find(check: Check, part: object) -> Iterator[Result]:
        looked_at.append(str(part))
        yield check.result("part", Verdict.PASS)

    def looks(_check: Check, _pattern: Pattern) -> Iterator[Look]:
        yield look(find, object())  # made for this look alone: were it let go, the next might get its id

    checks = check_table(Check("fresh", "fresh", "Looks at something new each time.", looks))
    known: Checked | None = None
    for count in range(1, 50):
        known = check_pattern(dress(), known=known, checks=checks)
        assert len(looked_at) == count


def test_a_check_of_the_same_code_that_looks_otherwise_takes_nothing_over() -> None:
    known = check_pattern(dress())
    stricter = tuple(replace(check, name="stricter") for check in CHECKS)
    assert {each.check for each in check_pattern(dress(), known=known, checks=stricter).results} == {"stricter"}


def test_what_was_found_survives_being_written_down_and_read_back() -> None:
    known = check_pattern(dress())
    read = pickle.loads(pickle.dumps(known))
    assert read == known
    assert check_pattern(dress(), known=read).results == known.results
