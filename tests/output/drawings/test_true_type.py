"""A font file read and cut down, judged by fontTools."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

import output.drawings.font
from output.drawings.true_type import NO_LETTER, TrueType

FONTS = Path(output.drawings.font.__file__).with_name("fonts")
BOTH = ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf")


def drawn(font: TTFont, shape: str) -> object:
    """A shape as its strokes, what it is put together from drawn out."""
    pen = DecomposingRecordingPen(font.getGlyphSet())
    font["glyf"][shape].draw(pen, font["glyf"])
    return pen.value


@pytest.mark.parametrize("name", BOTH)
def test_every_letter_is_found_with_its_width(name: str) -> None:
    ours, theirs = TrueType((FONTS / name).read_bytes()), TTFont(FONTS / name)
    known = theirs.getBestCmap()
    for code in range(0x10000):
        shape = theirs.getGlyphID(known[code]) if code in known else NO_LETTER
        assert ours.shape_of(chr(code)) == shape
    for shape, glyph in enumerate(theirs.getGlyphOrder()):
        assert ours.advance(shape) == theirs["hmtx"][glyph][0]
    assert ours.shape_of("\U0001f9f5") == NO_LETTER
    head = theirs["head"]
    assert (ours.units_per_em, *ours.box) == (head.unitsPerEm, head.xMin, head.yMin, head.xMax, head.yMax)
    assert (ours.ascent, ours.descent) == (theirs["hhea"].ascent, theirs["hhea"].descent)


@pytest.mark.parametrize("name", BOTH)
def test_what_is_cut_out_is_drawn_as_before(name: str) -> None:
    ours, theirs = TrueType((FONTS / name).read_bytes()), TTFont(FONTS / name)
    order = theirs.getGlyphOrder()
    letters = "Ferry ǆḖĳ½ Żółta Сарафан Ώ Հայ"
    kept = ours.with_parts(map(ours.shape_of, letters))
    written = ours.cut_down(kept)
    cut = TTFont(BytesIO(written), checkChecksums=2)  # 2: a sum that is wrong is an error
    assert cut["maxp"].numGlyphs == len(kept) < 80
    for place, shape in enumerate(kept):
        glyph = cut.getGlyphOrder()[place]
        assert drawn(cut, glyph) == drawn(theirs, order[shape])
        assert cut["hmtx"][glyph] == theirs["hmtx"][order[shape]]
    whole = sum(int.from_bytes(written[at : at + 4], "big") for at in range(0, len(written), 4)) % 2**32
    assert whole == 0xB1B0AFBA  # the sum of a whole font file, by its standard


def test_the_box_that_stands_for_no_letter_is_always_there() -> None:
    assert TrueType((FONTS / BOTH[0]).read_bytes()).with_parts([]) == [NO_LETTER]
