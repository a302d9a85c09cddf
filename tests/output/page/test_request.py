"""What a page sends is read, or said not to be."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from output.api import Draft
from output.page.drawing_questions import MOST_CHANGES, drawing_answers
from output.page.request import read_request, text_of
from tests.output.page.test_table_views import garment

STATIC = Path(__file__).parents[3] / "output" / "page" / "static"


@pytest.mark.parametrize("body", [b"", b"{", b'{"a": "\\ud800"}', b"[" * 90_000, b"\xff", b"3", b"[]"], ids=range(7))
def test_what_cannot_be_read_is_said(body: bytes) -> None:
    assert str(read_request(body)).endswith(".")


def test_what_was_sent_is_read() -> None:
    assert read_request('{"file": "\U0001f9f5.toml"}'.encode()) == {"file": "\U0001f9f5.toml"}
    assert text_of({"a": "b"}, "a") == "b"
    assert text_of({"a": 3}, "a", "none") == "none"
    assert len(text_of({"a": "b" * 9000}, "a")) < 9000


@pytest.mark.parametrize("back", [10**30, -1, 0, "3", None, 1.5, MOST_CHANGES + 1])
def test_no_more_changes_are_looked_back_over_than_are_told(back: object) -> None:
    class Changed:
        asked = 0

        def drafted(self, _name: str) -> Draft:
            return garment()

        def earlier(self, _name: str, back: int) -> Draft:
            self.asked = back
            return garment()

        def changes(self, _name: str) -> list[str]:
            return []

    versions = Changed()
    given: Mapping[str, Any] = {"file": "garments/ferry-dress.toml", "back": back}
    drawing_answers(versions)["compare"](given)
    assert versions.asked == 1


def test_every_module_that_the_page_loads_is_there() -> None:
    for script in STATIC.glob("*.js"):
        for name in re.findall(r'from "\./([^"]+)"', script.read_text(encoding="utf-8")):
            assert (STATIC / name).is_file(), f"{script.name} asks for {name}"
    assert ".catch(() => ({" not in (STATIC / "page.js").read_text(encoding="utf-8")
