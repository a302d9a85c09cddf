"""The first sheet: what is cut how often of which cloth, which pages hold it, what has to be bought."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.pattern import BodyPart, Cut, Identity, Piece, PieceKind
from output.drawings.drawing import Box, Text
from output.drawings.lettering import corners
from output.sheets.cut_list import cut_list
from output.sheets.papers import page_ranges
from tests.output.sample import cuff

ROOM = Box(0.0, 0.0, 94.0, 78.0)


def piece(name: str, cut: Cut, part: BodyPart | None = None) -> Piece:
    return replace(cuff(), name=name, cut=cut, identity=Identity(PieceKind.FRONT, part))


def lines(texts: tuple[Text, ...]) -> list[list[str]]:
    """The words of each line, from the left, the uppermost first."""
    found: dict[float, list[Text]] = {}
    for text in texts:
        found.setdefault(round(text.at.y, 3), []).append(text)
    return [[t.words for t in sorted(found[y], key=lambda t: t.at.x)] for y in sorted(found, reverse=True)]


def test_each_piece_has_a_row_with_what_is_cut_of_each_cloth_and_its_pages() -> None:
    pieces = [
        piece("bodice front", Cut(1, fold=True), BodyPart.BODICE),
        piece("bodice back", Cut(2, mirror=True), BodyPart.BODICE),
        piece("cuff", Cut(4, mirror=True, interfacing=2), BodyPart.SLEEVE),
        piece("belt", Cut(1, interfacing=1), None),
    ]
    pages = {"bodice front": [2, 3, 4], "bodice back": [4, 5, 9], "cuff": [6], "belt": [7, 8]}
    assert lines(cut_list(ROOM, pieces, pages, ["3 buttons of 1.5 cm"])) == [
        ["piece", "shell", "interfacing", "print pages"],
        ["bodice front", "1 on fold", "2-4"],
        ["bodice back", "1 pair", "4-5, 9"],
        ["cuff", "2 pairs", "1 pair", "6"],
        ["belt", "1", "1", "7-8"],
        ["only the bodice: print pages 2-5, 9"],
        ["To buy"],
        ["3 buttons of 1.5 cm"],
    ]


def test_on_a_single_sheet_no_page_is_named() -> None:
    written = lines(cut_list(ROOM, [piece("cuff", Cut(2))], {}, []))
    assert written == [["piece", "shell"], ["cuff", "2"]]


@pytest.mark.parametrize("count", [1, 9, 17, 60])
def test_however_many_pieces_nothing_leaves_the_room_and_what_is_left_out_is_said(count: int) -> None:
    pieces = [piece(f"a piece with a long name, number {n}", Cut(2, mirror=True)) for n in range(count)]
    pages = {each.name: [n, n + 2, n + 4, n + 9] for n, each in enumerate(pieces)}
    texts = cut_list(
        ROOM, pieces, pages, ["a zip (or another fastening) for the centre back: it is open for 64.7 cm"] * 3
    )
    for text in texts:
        for corner in corners(text):
            assert ROOM.grown(1.2).holds(corner), text
    named = sum("number" in text.words or text.words.endswith("...") for text in texts)
    more = [text.words for text in texts if "see the report" in text.words]
    assert more == ([] if named == count else [f"and {count - named} more: see the report"])


def test_ranges_are_written_as_a_print_window_takes_them() -> None:
    assert page_ranges([9, 2, 3, 4, 6]) == "2-4, 6, 9"
    assert page_ranges([]) == ""


def test_no_page_of_a_piece_is_left_out_of_the_list_to_print_it_by() -> None:
    some, many = [6, 7, 10, 12, 19, 21, 22, 23], list(range(1, 60, 2))
    pieces = [piece("sleeve", Cut(2, mirror=True, interfacing=2)), piece("skirt front", Cut(1, fold=True))]
    written = lines(cut_list(ROOM, pieces, {"sleeve": some, "skirt front": many}, []))
    assert ["sleeve", "1 pair", "1 pair", page_ranges(some)] in written
    assert ["skirt front", "1 on fold", "see below"] in written
    below = " ".join(" ".join(line).strip() for line in written[3:])
    assert below == f"skirt front: print pages {page_ranges(many)}"
