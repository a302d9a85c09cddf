"""Alterations on real bodies: a fixed few of what the whole sweep (`python -m tests.sweep_alterations`) tries."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from drafting.alterations import ALTERATIONS
from tests import sweep_alterations
from tests.alteration_samples import SAMPLES, TROUSER_SAMPLES
from tests.bodies import women
from tests.sweep_alterations import Case, End, Outcome, after, cases, dresses, main, sweep

EVERY = 1104


@cache
def sample() -> tuple[Outcome, ...]:
    return sweep(women()[189::EVERY], cases())


def test_every_alteration_has_amounts_to_be_tried_with() -> None:
    every = {**SAMPLES, **TROUSER_SAMPLES}
    assert set(every) == {entry.name for entry in ALTERATIONS}
    assert [name for name, amounts in every.items() if len(amounts) < 3] == []


def test_nothing_crashes_breaks_its_promise_or_fails_a_check() -> None:
    grave = (End.CRASHED, End.BROKEN, End.FAILED)
    assert [(outcome, cases()[outcome.case]) for outcome in sample() if outcome.end in grave] == []


def test_every_alteration_passes_on_some_body_at_each_of_its_amounts() -> None:
    passed = Counter(outcome.case for outcome in sample() if outcome.end is End.PASSES)
    assert [case for number, case in enumerate(cases()) if not passed[number]] == []


def test_nearly_every_alteration_passes_and_what_is_refused_is_said_in_a_sentence() -> None:
    refused = [outcome for outcome in sample() if outcome.end is End.REFUSED]
    assert len(refused) <= 0.02 * len(sample())
    for outcome in refused:
        (sentence,) = outcome.said
        assert sentence.startswith(f"{cases()[outcome.case].name}: ")


@pytest.mark.parametrize(
    ("case", "end"),
    [
        (Case("lengthen", {"piece": "sleeve", "by": 10.0}), End.PASSES),
        (Case("lengthen", {"piece": "bodice front", "by": 20.0, "only": "bodice front"}), End.FAILED),
        (Case("lengthen", {"piece": "sleeve", "by": 0.0}), End.REFUSED),
        (Case("lengthen", {"piece": "sleeve", "by": "long"}), End.REFUSED),
    ],
)
def test_each_way_to_end_is_told_apart(case: Case, end: End) -> None:
    ((who, pattern),) = dresses(women()[5:6])
    assert after(who, pattern, case).end is end


def test_whatever_else_goes_wrong_is_counted_as_a_crash(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sweep_alterations, "check_pattern", lambda *_given, **_named: 1 / 0)
    ((who, pattern),) = dresses(women()[5:6])
    assert after(who, pattern, Case("lengthen", {"piece": "sleeve", "by": 10.0})).end is End.CRASHED


def test_the_sweep_prints_its_table_and_ends_well(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--every", "552", "--only", "lengthen", "--processes", "1"]) == 0
    told = capsys.readouterr().out
    assert "lengthen: piece sleeve, by 10" in told
    assert "(100.00%), 0 refused" in told


def test_the_sweep_ends_badly_where_a_check_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.sweep_alterations.sweep", lambda *_, **__: (Outcome("she", 0, End.FAILED, ("seam",)),))
    assert main(["--only", "lengthen"]) == 1
