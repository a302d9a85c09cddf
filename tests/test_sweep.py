"""Real bodies, a fixed sample of the open 1988 survey: what the whole sweep (`python -m tests.sweep`) finds of all."""

from __future__ import annotations

from functools import cache

import pytest

from drafting.body.terms import KEYS
from drafting.fit.cloth import Cloth
from drafting.fit.ease import Fit
from tests.bodies import women
from tests.sweep import End, Outcome, end_of, found_by_a_stranger, main, sweep

EVERY = 48
REFUSED = ("woman 576", "woman 1204")
"""Two of the four who are refused: across the back too wide for the bust, and a bust point too near the waist."""


DEEP = {"ease: armhole, for raising an arm"}
"""What may be warned of with the table's own ease: an armhole let down far, so that a sleeve goes over a large arm."""


@cache
def sample(*, girths_only: bool) -> tuple[Outcome, ...]:
    return sweep(women(girths_only=girths_only)[::EVERY])


@pytest.mark.parametrize("girths_only", [False, True])
def test_no_body_crashes_and_no_pattern_fails_a_check(girths_only: bool) -> None:
    outcomes = sample(girths_only=girths_only)
    assert len(outcomes) == 23
    assert [outcome for outcome in outcomes if outcome.end in (End.CRASHED, End.FAILED, End.OTHERWISE)] == []


@pytest.mark.parametrize(("girths_only", "refused"), [(False, 1), (True, 0)])
def test_nearly_every_body_gets_a_pattern_that_passes_all_checks(girths_only: bool, refused: int) -> None:
    outcomes = sample(girths_only=girths_only)
    assert sum(outcome.end is End.PASSES for outcome in outcomes) >= len(outcomes) - refused


@pytest.mark.parametrize(
    ("cloth", "fit"),
    [
        (Cloth("lawn"), "close"),
        (Cloth("denim"), "regular"),
        (Cloth("wool coating", over=("shirt", "pullover")), "loose"),
        (Cloth("jersey"), "regular"),
        (Cloth("rib"), "close"),
    ],
    ids=lambda each: each if isinstance(each, str) else each.kind,
)
def test_the_ease_of_each_cloth_passes_and_nobody_crashes(cloth: Cloth, fit: Fit) -> None:
    outcomes = sweep(women()[::184], cloth, fit)
    assert [outcome for outcome in outcomes if outcome.end is not End.PASSES] == []
    assert {told for outcome in outcomes for told in outcome.warned if told.startswith("ease")} <= DEEP


@pytest.mark.parametrize("name", REFUSED)
def test_a_refusal_names_two_measurements_and_how_far_they_are_apart(name: str) -> None:
    (outcome,) = [end_of(who) for who in women() if who.name == name]
    assert outcome.end is End.REFUSED
    assert len(outcome.named) >= 2
    assert set(outcome.named) <= set(KEYS)
    (sentence,) = outcome.said
    assert "cm" in sentence
    assert "again" in sentence


def test_a_stranger_finds_the_measurements_of_the_sample_in_their_dresses() -> None:
    measured = [found_by_a_stranger(who) for who in women()[5::276]]
    assert sum(bool(lines) for lines in measured) == len(measured) == 4
    assert [line for lines in measured for line in lines if not line.holds] == []


def test_the_sweep_prints_its_table_and_ends_well(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--girths", "--every", "400"]) == 0
    told = capsys.readouterr().out
    assert "passes every check" in told
    assert "100.0%" in told


def test_the_sweep_ends_badly_where_a_pattern_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.sweep.sweep", lambda *_: (Outcome("she", End.FAILED, ("seam length: side seam",)),))
    assert main(["--every", "1104"]) == 1
