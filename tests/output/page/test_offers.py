"""What a button does is not told to be typed beside it."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

import pytest

from drafting.alterations import Neckline, Opening
from drafting.errors import Remedy, Setting, StepRefused
from output.page.views.offers import StepsInFile, offers_of, without_what_buttons_do
from output.page.views.refused import refused_step
from tests.examples import example

OPENS = {
    "words": "Open it",
    "edits": [{"in": "garment", "do": "insert", "at": ["step", 0], "value": {"alter": "opening", "at": "centre back"}}],
}


@pytest.mark.parametrize(
    ("said", "shown"),
    [
        ('nothing opens at the neck: alter = "opening", at = "centre back"', "nothing opens at the neck"),
        ('It has no opening; add alter = "opening", at = "side". So it stays.', "It has no opening. So it stays."),
        ('a lower armhole helps: alter = "armhole"', 'a lower armhole helps: alter = "armhole"'),
    ],
)
def test_the_line_that_a_button_writes_is_not_shown(said: str, shown: str) -> None:
    assert without_what_buttons_do(said, [OPENS]) == shown
    assert without_what_buttons_do(said, []) == said


_LATE = Remedy("put before", "opening", (Setting("step", 1.0),), step=2)


@pytest.mark.parametrize(
    ("taken", "as_written", "moved"),
    [
        ([0, 1], True, [(1, 0)]),
        ([1, 2], True, [(2, 1)]),  # one that is switched off stands before them
        ([0, 1], False, []),  # the engine chooses the order: moved in the file it would be taken where it was
        ([None, 0], True, []),  # that one stands in another file
    ],
)
def test_a_step_that_comes_too_late_is_moved_by_a_button(
    taken: list[int | None], as_written: bool, moved: list[tuple[int, int]]
) -> None:
    steps = [{"alter": "opening"}, {"alter": "neckline"}, {"alter": "neckline"}]
    offers = offers_of([_LATE], StepsInFile(steps, taken, "cm", as_written=as_written))
    edits = [{"in": "garment", "do": "move", "at": ["step", place], "to": to} for place, to in moved]
    assert offers == ([{"words": "Put it before “opening”", "edits": edits}] if moved else [])


@pytest.mark.parametrize("order", ["as written", "by layer"])
def test_what_no_button_does_is_told_on_the_card(order: Literal["as written", "by layer"]) -> None:
    ordered = replace(example("ferry-dress").garment, order=order)
    steps = [{"alter": "opening"}, {"alter": "neckline"}]
    garment = replace(ordered, steps=(Opening("centre front", "buttons"), Neckline(depth=30.0)), sources=())
    remedy = replace(_LATE, step=2 if order == "as written" else 1, settings=(Setting("step", 1.0),))
    refused = StepRefused("neckline", reason="it has a button stand", remedies=(remedy,), step=remedy.step)
    card = refused_step(refused, garment, {"step": steps})
    told = "" if order == "as written" else '; put this step before "opening"'
    assert card["sentences"] == [f"It has a button stand{told}."]
    assert len(card["offers"]) == (1 if order == "as written" else 0)
