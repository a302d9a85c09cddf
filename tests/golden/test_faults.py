"""What the checks say of the examples and of faults in them, as when last looked at (`python -m tests.golden`)."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.examples import NAMES, example_pattern
from tests.golden.faults import faults_digest

FAULTS = Path(__file__).parent / "faults"


@pytest.mark.parametrize("name", NAMES)
def test_the_checks_say_what_they_said(name: str) -> None:
    kept = (FAULTS / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    assert faults_digest(example_pattern(name), NAMES.index(name)).splitlines() == kept


def test_no_page_is_left_of_a_garment_that_is_gone() -> None:
    assert sorted(path.stem for path in FAULTS.glob("*.txt")) == NAMES
