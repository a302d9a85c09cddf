"""What a button does is not told to be typed beside it."""

from __future__ import annotations

import pytest

from output.page.views.offers import without_what_buttons_do

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
