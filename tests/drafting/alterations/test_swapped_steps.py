"""Neighbouring steps the other way round: whether that matters, and what differs then."""

from __future__ import annotations

import pytest

from drafting.alterations import Alteration, Lengthen, UpperArm, apply_step, swapped_steps
from drafting.alterations.swapped_steps import Swapped, swapped
from drafting.errors import BrokenPromise
from drafting.pattern import Pattern
from tests.drafting.dress import dress


def stages(*steps: Alteration) -> list[Pattern]:
    found = [dress()]
    for step in steps:
        found.append(apply_step(found[-1], step))
    return found


def swaps(*steps: Alteration) -> list[Swapped]:
    return list(swapped(stages(*steps), steps))


def test_steps_on_pieces_that_are_not_sewn_together_there_can_change_places() -> None:
    (swap,) = swaps(Lengthen("sleeve", 30.0), Lengthen("skirt front", 40.0))
    assert not swap.matters
    assert swap == Swapped(1)


def test_lengthening_a_sleeve_and_making_room_in_it_give_another_elbow_the_other_way_round() -> None:
    # the lower sleeve is drawn from the biceps line to the wrist, so a longer one is narrower where the elbow was
    (swap,) = swaps(Lengthen("sleeve", 30.0), UpperArm(by=30.0))
    assert swap.matters
    assert "elbow" in {each.name for each in swap.moved}
    assert swap.redrawn == ("sleeve",)


def test_an_order_that_cannot_be_taken_says_why() -> None:
    # the second shortens what the first has lengthened by more than there was
    piece, line = "bodice front", "lengthen or shorten line"
    (swap,) = swaps(Lengthen(piece, 300.0, line), Lengthen(piece, -250.0, line))
    assert swap.matters
    assert swap.refused.startswith("lengthen: ")
    assert swap.first == 1


def test_an_order_in_which_a_step_would_break_its_promise_says_which(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> Pattern:
        raise BrokenPromise("full cap", "the wrist", 200.0, 201.0)

    found = stages(Lengthen("sleeve", 30.0), Lengthen("sleeve", 20.0))
    monkeypatch.setattr(swapped_steps, "apply_to", broken)
    (swap,) = swapped(found, (Lengthen("sleeve", 30.0), Lengthen("sleeve", 20.0)))
    assert swap == Swapped(1, 'Then "full cap" would change the wrist, which it leaves alone.')


def test_every_two_neighbours_are_looked_at() -> None:
    steps = (Lengthen("sleeve", 30.0), UpperArm(by=30.0), Lengthen("skirt front", 40.0))
    assert [swap.first for swap in swaps(*steps)] == [1, 2]
    assert [swap.matters for swap in swaps(*steps)] == [True, False]
    assert swaps(*steps[:1]) == []
