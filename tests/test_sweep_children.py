"""A few of the children that `python -m tests.sweep_children` sweeps over, and the stranger's tape on their dresses."""

from __future__ import annotations

from functools import cache

import pytest

from drafting.body.person import Person
from tests.sweep import End
from tests.sweep_child_styles import CASES, odd_children
from tests.sweep_child_styles import end_of as styled
from tests.sweep_children import GARMENTS, babies, children, end_of, found_by_a_stranger


@cache
def sample() -> tuple[Person, ...]:
    """Made where it is used: thousands of children are read for it."""
    return (*children()[::230], *children(four_only=True)[40::460])


@pytest.mark.parametrize("name", GARMENTS)
def test_a_sample_of_children_is_drafted_and_passes_every_check(name: str) -> None:
    found = [end_of(who, name) for who in sample()]
    assert [(each.who, each.end, each.said) for each in found if each.end is not End.PASSES] == []


@pytest.mark.parametrize("name", [name for name in GARMENTS if "romper" in name or "dungarees" in name])
def test_a_sample_of_babies_is_drafted_and_passes_every_check(name: str) -> None:
    found = [end_of(who, name) for who in babies()[7::31]]
    assert [(each.who, each.end, each.said) for each in found if each.end is not End.PASSES] == []


def test_a_stranger_finds_on_the_dress_what_body_and_ease_ask_for() -> None:
    for who in sample():
        lines = found_by_a_stranger(who)
        assert len(lines) >= 24
        assert [line for line in lines if not line.holds] == [], who.name


def test_style_lines_and_collars_on_a_few_children_pass_or_are_refused_in_a_sentence() -> None:
    tried = ((children()[500], CASES[::3]), (odd_children()[301], CASES[1::4]))
    ends = {(case, who.name): styled(who, *case) for who, cases in tried for case in cases}
    assert {key: end for key, end in ends.items() if end[0] not in ("passes", "refused")} == {}
    assert len(odd_children()) == 486
    assert sum(end[0] == "passes" for end in ends.values()) > 0.7 * len(ends)
