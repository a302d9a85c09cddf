"""A pattern.json as it is written, and what each slip in it is answered by, as when last looked at
(`python -m tests.golden`)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from drafting.pattern.text import from_json
from tests.drafting.pattern.full import full
from tests.golden.slips import full_text, slips_digest

SLIPS = Path(__file__).parent / "slips"


def pages() -> Iterator[tuple[str, str]]:
    """Both pages by the names of their files."""
    yield "slips/pattern.json", full_text()
    yield "slips/slips.txt", slips_digest()


def test_a_pattern_with_everything_in_it_is_written_as_it_was_and_read_back() -> None:
    assert full_text() == (SLIPS / "pattern.json").read_text(encoding="utf-8")
    assert from_json(full_text()) == full()


def test_each_slip_is_answered_as_it_was() -> None:
    kept = (SLIPS / "slips.txt").read_text(encoding="utf-8").splitlines()
    assert slips_digest().splitlines() == kept
