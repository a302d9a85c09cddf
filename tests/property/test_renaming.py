"""Names are for people to read: whatever the parts are called, every alteration and every check does the same."""

from __future__ import annotations

from itertools import cycle

import pytest

from drafting.checks import run_checks
from drafting.pattern.text import from_json, to_json
from drafting.reading.options import Value
from tests.alteration_samples import SAMPLES
from tests.renaming import (
    ALIKE,
    BASES,
    NAMINGS,
    base_pattern,
    compared,
    first_difference,
    main,
    names_for,
    pair,
    plain,
    renamed,
)
from tests.sampling import some

_CASES = [
    (base, *sample, naming)
    for sample, base, naming in zip(
        [(name, count) for name, samples in SAMPLES.items() for count in range(len(samples))],
        cycle(BASES),
        cycle((*NAMINGS, "crosswise")),  # three to a turn, so that every pattern meets both ways of naming
        strict=False,
    )
]
_CASES = [case for turn, case in enumerate(_CASES) if turn % 2 == 0 or case[2] == 0]
"""Every other sample and the first of every alteration; `python -m tests.renaming` tries all."""


@pytest.mark.parametrize(("base", "name", "count", "naming"), some(_CASES, every=6))
def test_an_alteration_makes_the_same_of_a_renamed_pattern(base: str, name: str, count: int, naming: str) -> None:
    assert compared(pair(base_pattern(base), naming), name, SAMPLES[name][count]) in ALIKE


def test_what_is_newly_drawn_has_a_free_name_where_the_garment_has_its_usual_one_already() -> None:
    """The notch of a neck facing, and the lower edge of a yoke."""
    asked: list[tuple[str, str, dict[str, Value]]] = [
        ("boathouse-dress", "back width", {"amount": 5.0}),
        ("spillway-skirt", "skirt yoke", {"depth": 90.0}),
    ]
    for base, name, options in asked:
        assert compared(pair(base_pattern(base), "crosswise"), name, options) == "same"


@pytest.mark.parametrize("naming", NAMINGS)
@pytest.mark.parametrize("name", some(BASES, every=2))
def test_every_check_finds_the_same_on_a_renamed_pattern(name: str, naming: str) -> None:
    base = base_pattern(name)
    other = renamed(base, names_for(base, NAMINGS[naming]))
    found, found_too = (
        [(each.code, each.verdict, each.measured, each.wanted, each.allowed) for each in run_checks(pattern)]
        for pattern in (base, other)
    )
    assert found == found_too


def test_a_renamed_pattern_differs_in_nothing_but_names_and_in_every_one_of_them() -> None:
    base = base_pattern(BASES[0])
    other = renamed(base, names_for(base, NAMINGS["another script"]))
    assert not first_difference(plain(base), plain(other))
    for one, two in zip(base.pieces, other.pieces, strict=True):
        assert one.name != two.name
        for group in ("edges", "darts", "notches", "lines", "points"):
            assert not {each.name for each in getattr(one, group)} & {each.name for each in getattr(two, group)}
    assert to_json(from_json(to_json(other))) == to_json(other)


def test_a_difference_that_is_none_of_names_is_seen() -> None:
    base = base_pattern(BASES[0])
    assert first_difference(plain(base), plain(base_pattern(BASES[1])))


def test_the_command_tells_how_many_cases_it_tried_and_ends_well_where_none_differs(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tests.renaming.BASES", BASES[:1])
    assert main(["lengthen", "--every", "3", "--from", "2"]) == 0
    assert capsys.readouterr().out == "3 tried: 3 same\n"


def test_the_command_tells_what_differs_and_ends_badly(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tests.renaming.BASES", BASES[:1])
    monkeypatch.setattr("tests.renaming.compared", lambda *_: "pattern.pieces[0]: 1 and 2")
    assert main(["lengthen", "--every", "8"]) == 1
    said = "size 92 | lengthen {'piece': 'sleeve', 'by': 10.0} | another script | pattern.pieces[0]: 1 and 2"
    assert capsys.readouterr().out == f"{said}\n1 tried: 1 different\n"


def test_what_breaks_off_inside_is_told_and_the_rest_can_be_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    both = pair(base_pattern(BASES[0]), "crosswise")
    monkeypatch.setattr("tests.renaming.check_pattern", lambda *_given, **_named: 1 / 0)
    assert compared(both, "lengthen", SAMPLES["lengthen"][0]) == "broken off: ZeroDivisionError('division by zero')"
