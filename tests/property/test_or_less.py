"""Whatever a chain of alterations brings, the step it came with is one of them, and what is given to type mends it."""

from __future__ import annotations

from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from blocks.remedies.step_at_fault import checked_after
from drafting.alterations import ALTERATIONS, make_step
from drafting.checks import Check, Look, Result, Verdict, look
from drafting.checks.base import verdict_on
from drafting.pattern import Pattern, Piece
from tests.chains import BASES, LEAST_SHARE, LINKS, Link, bases, scaled, taken
from tests.remedies import came_with, mends_instead

places = st.integers(0, BASES - 1)
links = st.tuples(st.sampled_from(LINKS), st.floats(LEAST_SHARE, 1.0)).map(lambda each: (*each[0], each[1]))
LITTLE, MORE = 20.0, 30.0
"""mm by which the outline of a piece may become longer or shorter: a check that many steps fail."""


def outline(piece: Piece) -> float:
    return sum(edge.length for edge in piece.edges)


def near(base: Pattern) -> Check:
    """A check that every piece is about as long round as in the pattern as drafted."""
    drafted = {piece.name: outline(piece) for piece in base.pieces}

    def looks(_check: Check, pattern: Pattern) -> Iterator[Look]:
        for piece in pattern.pieces:
            if piece.name in drafted:
                yield look(found, piece)

    def found(check: Check, piece: Piece) -> Iterator[Result]:
        off = abs(outline(piece) - drafted[piece.name])
        yield check.result(piece.name, verdict_on(off, passing=LITTLE, warning=MORE), remedy=f"It is {off:.1f} mm off.")

    return Check("near", "near", "No piece is much longer round.", looks)


@settings(deadline=None, max_examples=6)
@given(places, st.lists(links, min_size=1, max_size=4), st.sampled_from(["cm", "in"]))
def test_what_a_chain_brings_is_told_with_its_step_and_mended_by_what_is_to_be_typed(
    place: int, asked: list[Link], unit: str
) -> None:
    base = bases()[place]
    stages = taken(base, [scaled(*link) for link in asked]).stages
    steps = [make_step(step, ALTERATIONS) for step in stages[-1].history]
    checks = (near(base),)
    failed = [each for each in checked_after(stages, steps, unit=unit, checks=checks) if each.verdict is Verdict.FAIL]
    for each in failed:
        assert 1 <= (came_with(each.remedy) or 0) <= len(steps)
        assert mends_instead(base, steps, each, unit=unit, checks=checks), each.remedy
