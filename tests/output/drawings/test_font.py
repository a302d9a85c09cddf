"""The font that a PDF carries: which letters it has, how wide they are, what becomes of those it has not."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

import output.drawings.font
from output.drawings.font import face, lacking, shown_words
from output.drawings.lettering import text_width

FONTS = Path(output.drawings.font.__file__).with_name("fonts")
NAMES = ("Ferry dress", "Сарафан", "Φόρεμα", "Żółta sukienka", "Կիսաշրջազգեստ", "Kjóll Þóru, 3½", "cinq «jupes» à 20 €")


def test_both_faces_hold_the_same_letters() -> None:
    one, other = (set(TTFont(FONTS / name).getBestCmap()) for name in ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf"))
    assert one == other
    assert len(one) > 2000


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", NAMES)
def test_no_line_of_writing_is_wider_than_the_room_that_was_kept_for_it(words: str, bold: bool) -> None:
    assert face(words, bold=bold).width(words, 10.0) <= text_width(words, 10.0, bold=bold)


@pytest.mark.parametrize("bold", [False, True])
def test_every_letter_of_latin_greek_and_cyrillic_keeps_within_its_room(bold: bool) -> None:
    letters = [
        chr(code) for code in (*range(0x20, 0x7F), *range(0xA1, 0x180), *range(0x391, 0x3CA), *range(0x410, 0x450))
    ]
    missing = lacking("".join(letters))
    letters = [letter for letter in letters if letter.isprintable() and letter not in missing]
    whole = face(letters, bold=bold)
    over = [letter for letter in letters if whole.width(letter, 1.0) > 1.05 * text_width(letter, 1.0, bold=bold)]
    # one in twenty is nothing beside the air around writing; signs that no name has may take more
    assert set(over) <= set("^~ĳĲ")


def test_what_the_font_lacks_is_named_and_stands_as_its_empty_box() -> None:
    assert lacking("Ferry dress") == ""
    assert lacking("Sukienka żółta") == ""
    assert lacking("夏の夏 dress 🧵") == "夏の🧵"
    cut = face("a夏", bold=False)
    assert cut.codes == {"a": 1, "夏": 2}
    font = TTFont(BytesIO(cut.program))
    box = font["glyf"][font.getGlyphOrder()[cut.glyphs[1]]]
    assert cut.glyphs[1] == 0
    assert box.numberOfContours == 2


def test_accents_are_put_together_and_control_characters_are_spaces() -> None:
    assert shown_words("e\u0301te\u0301\n\u202e!") == "été  !"


def test_the_same_letters_give_the_same_program_with_their_shapes_alone() -> None:
    one, other = face("Åg", bold=True), face("gÅ", bold=True)
    assert one == other
    font = TTFont(BytesIO(one.program))
    whole = TTFont(FONTS / "DejaVuSans-Bold.ttf")
    # the two letters, the empty box, and what the one with a ring is put together from
    assert 3 <= len(font.getGlyphOrder()) <= 5
    for letter, place in zip(sorted("Åg"), one.glyphs, strict=True):
        before = whole["glyf"][whole.getBestCmap()[ord(letter)]]
        after = font["glyf"][font.getGlyphOrder()[place]]
        assert after.getCoordinates(font["glyf"])[0] == before.getCoordinates(whole["glyf"])[0]


def test_the_licence_lies_beside_the_fonts() -> None:
    assert "Permission is hereby granted, free of charge" in (FONTS / "LICENSE.md").read_text(encoding="utf-8")
