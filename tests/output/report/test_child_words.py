"""Cautions stand where a child may wear it, and nowhere else; each sends her to the rules where she lives."""

from __future__ import annotations

from dataclasses import replace

from drafting.alterations import Opening, Wrap, apply_step
from drafting.pattern import Pattern, Wearer
from drafting.sewing import Act, possible_cautions, sewing_order
from output.report.sewing_words import step_words
from tests.drafting.sizes import sized


def _said(pattern: Pattern, act: Act) -> str:
    step = next(step for step in sewing_order(pattern) if step.act is act)
    return " ".join(step_words(pattern, step, "cm").sentences)


def test_a_grown_woman_is_told_nothing_of_children_and_of_an_unknown_wearer_it_is_said() -> None:
    buttoned = apply_step(sized(92, "skirt"), Opening("centre front", "buttons"))
    wrapped = apply_step(sized(92, "skirt"), Wrap(overlap=120.0))
    for pattern, act, what in ((buttoned, Act.BUTTONS, "under three"), (wrapped, Act.LAP, "cords")):
        unknown = replace(pattern, wearer=Wearer(""))
        assert "child" not in _said(pattern, act)
        assert possible_cautions(pattern) == ()
        assert what in _said(unknown, act)
        assert "rules in force where you live" in _said(unknown, act)
        assert any("burn" in each.short for each in possible_cautions(unknown))
