"""What the checks say of the examples and of faults in them, as when last looked at (`python -m tests.golden`)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from drafting.pattern import Pattern
from tests.drafting.checks import collar_breaks, trouser_breaks
from tests.drafting.checks.test_checks_break import BREAKS, DART_BREAKS, DRESS_BREAKS, WARNINGS
from tests.drafting.checks.test_collar_checks import shirt
from tests.drafting.checks.test_trousers_checks import jumpsuit
from tests.drafting.dress import dress
from tests.drafting.sample import blouse
from tests.examples import NAMES, example_pattern
from tests.golden.faults import breaks_digest, faults_digest

FAULTS = Path(__file__).parent / "faults"


def broken() -> Iterator[tuple[str, Pattern, Pattern]]:
    """Every pattern that a test of the checks breaks by hand: what it breaks, the sound one, the broken one."""
    by_blouse = [*BREAKS, *((f"{code} {where}", way) for code, where, way in WARNINGS)]
    by_dress = [*DRESS_BREAKS, *((" ".join(sorted(codes)), way) for codes, way in DART_BREAKS)]
    collars = (collar_breaks.under_collar_larger, collar_breaks.neck_grown, collar_breaks.cuff_buttoned_too_tight)
    by_shirt = [(way.__name__, way) for way in (*collars, collar_breaks.slit_gone)]
    for sound, ways in (
        (blouse(), by_blouse),
        (dress(), by_dress),
        (jumpsuit(), trouser_breaks.BREAKS),
        (shirt(), by_shirt),
    ):
        for k, (name, way) in enumerate(ways):
            yield f"{sound.title}, {k + 1}: {name}", sound, way(sound)


def pages() -> Iterator[tuple[str, str]]:
    """Every page by the name of its file."""
    for k, name in enumerate(NAMES):
        yield f"faults/{name}.txt", faults_digest(example_pattern(name), k)
    yield "faults/breaks.txt", breaks_digest(broken())


@pytest.mark.parametrize("name", NAMES)
def test_the_checks_say_of_an_example_what_they_said(name: str) -> None:
    kept = (FAULTS / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    assert faults_digest(example_pattern(name), NAMES.index(name)).splitlines() == kept


def test_the_checks_say_of_what_was_broken_by_hand_what_they_said() -> None:
    kept = (FAULTS / "breaks.txt").read_text(encoding="utf-8").splitlines()
    assert breaks_digest(broken()).splitlines() == kept


def test_no_page_is_left_of_a_garment_that_is_gone() -> None:
    assert sorted(path.stem for path in FAULTS.glob("*.txt")) == sorted(["breaks", *NAMES])
