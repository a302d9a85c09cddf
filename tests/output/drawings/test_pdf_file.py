"""The objects of a PDF file, read back by pypdf."""

from __future__ import annotations

from io import BytesIO

import pytest
from pypdf import PdfReader
from pypdf.generic import NullObject

from output.drawings.pdf_file import Name, PdfFile

WORDS = ("plain", "in (brackets) and \\", "Żółta sukienka 夏", "")


def file_of(value: object) -> bytes:
    """A file with one empty page, its catalogue holding the value as /Held."""
    pdf = PdfFile()
    tree = pdf.reserve()
    page = pdf.add({"Type": Name("Page"), "Parent": tree, "MediaBox": (0, 0, 10, 10)})
    pdf.put(tree, {"Type": Name("Pages"), "Count": 1, "Kids": [page]})
    root = pdf.add({"Type": Name("Catalog"), "Pages": tree, "Held": value, "Packed": pdf.stream(b"q " * 99, Kind="x")})
    return pdf.written(root=root, info=pdf.add({}))


def held(value: object) -> object:
    """The value as it is read."""
    return PdfReader(BytesIO(file_of(value)), strict=True).root_object["/Held"]


@pytest.mark.parametrize("words", WORDS)
def test_words_come_back(words: str) -> None:
    assert held(words) == words


@pytest.mark.parametrize("number", [0, 7, -3, 0.5, -1069.336, 2383.93701, 1e-7, 1e9])
def test_numbers_come_back_to_five_digits(number: float) -> None:
    assert float(held(number)) == pytest.approx(number, abs=0.5e-5)  # type: ignore[arg-type]


def test_everything_else_comes_back() -> None:
    value = {"Names": [Name("XYZ"), True, False, 2.0], "More": {"Nothing": (), "Words": "a"}}
    assert held(value) == {"/Names": ["/XYZ", True, False, 2], "/More": {"/Nothing": [], "/Words": "a"}}
    assert isinstance(held(None), NullObject)
    with pytest.raises(TypeError, match="no set"):
        file_of({1})


def test_streams_come_back_and_objects_are_found_where_the_table_says() -> None:
    written = file_of("a")
    packed = PdfReader(BytesIO(written), strict=True).root_object["/Packed"].get_object()
    assert packed.get_data() == b"q " * 99
    assert packed["/Kind"] == "x"
    rows = written[written.rindex(b"xref\n0 ", 0, written.rindex(b"trailer")) :].split(b"\n")[3:]
    places = [int(row[:10]) for row in rows if row.endswith(b" 00000 n ")]
    assert len(places) == 5
    for number, place in enumerate(places, start=1):
        assert written[place:].startswith(b"%d 0 obj\n" % number)


def test_the_same_objects_are_the_same_file_and_others_have_another_identifier() -> None:
    assert file_of("a") == file_of("a")
    one, other = (PdfReader(BytesIO(file_of(words))).trailer["/ID"] for words in "ab")
    assert one != other


def test_a_number_that_nothing_was_put_for_is_told() -> None:
    pdf = PdfFile()
    root = pdf.reserve()
    with pytest.raises(AssertionError, match="object 1 was reserved"):
        pdf.written(root=root, info=root)
