"""What the checks say of the examples and of faults in them, as when last looked at (`python -m tests.golden`)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest

from drafting.alterations import apply_step
from drafting.pattern import Pattern
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.checks import collar_breaks, trouser_breaks
from tests.drafting.checks.test_checks_break import BREAKS, DART_BREAKS, DRESS_BREAKS, WARNINGS
from tests.drafting.checks.test_collar_checks import shirt
from tests.drafting.checks.test_trousers_checks import jumpsuit
from tests.drafting.dress import dress
from tests.drafting.sample import blouse
from tests.drafting.sizes import sized
from tests.examples import NAMES, example_pattern
from tests.golden.faults import breaks_digest, faults_digest

FAULTS = Path(__file__).parent / "faults"

STYLES: Final = ("raglan", "saddle shoulder", "dropped shoulder", "yoke", "smock", "kimono", "empire seam")
NEAR_KIN: Final = ("lantern-dress", "signal-dress", "tollhouse-dress")
"""Examples much like the ferry dress."""


def styled() -> Iterator[str]:
    """A page for each style line, of a dress that has it."""
    for k, name in enumerate(STYLES):
        step = sample(name, SAMPLES[name][0])
        yield f"{name}\n" + faults_digest(apply_step(sized(92), step), k, each=1)


def of_example(name: str) -> str:
    """The page of an example."""
    return faults_digest(example_pattern(name), NAMES.index(name), each=1 if name in NEAR_KIN else 2)


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
    for name in NAMES:
        yield f"faults/{name}.txt", of_example(name)
    yield "faults/styles.txt", "\n".join(styled())
    yield "faults/breaks.txt", breaks_digest(broken())


@pytest.mark.parametrize("name", NAMES)
def test_the_checks_say_of_an_example_what_they_said(name: str) -> None:
    kept = (FAULTS / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    assert of_example(name).splitlines() == kept


def test_the_checks_say_of_every_style_line_what_they_said() -> None:
    kept = (FAULTS / "styles.txt").read_text(encoding="utf-8").splitlines()
    assert "\n".join(styled()).splitlines() == kept


def test_the_checks_say_of_what_was_broken_by_hand_what_they_said() -> None:
    kept = (FAULTS / "breaks.txt").read_text(encoding="utf-8").splitlines()
    assert breaks_digest(broken()).splitlines() == kept


def test_no_page_is_left_of_a_garment_that_is_gone() -> None:
    assert sorted(path.stem for path in FAULTS.glob("*.txt")) == sorted(["breaks", "styles", *NAMES])
