"""A nest on paper: every size there, told apart without colour, and written to one folder."""

from __future__ import annotations

import json
from itertools import combinations
from pathlib import Path

import pytest

from blocks.from_file.garment_file import read_garment
from blocks.garment import prepare
from drafting.errors import InputProblems
from drafting.geometry import run_length
from drafting.pattern import Nest, Sized
from drafting.pattern.cutting import cutting_line
from drafting.pattern.seam_ends import ALONE
from output.command.check import check_file
from output.command.nest import draft_sizes_to_folder
from output.drawings.drawing import LINE_STYLES, SIZE_LINES, LineKind, Stroke, Text
from output.drawings.nest_drawing import nested_lines, nested_pieces, note_piece
from output.sheets.large_sheet import lay_out_nest
from output.sheets.papers import PAPERS
from output.sheets.tiling import tiles
from tests.drafting.sizes import sized
from tests.output.whole_sheet import sheet_svg


def nest(*sizes: int) -> Nest:
    return Nest("Dress", tuple(Sized(str(size), sized(size)) for size in sizes))


@pytest.fixture
def garment(tmp_path: Path) -> Path:
    path = tmp_path / "skirt.toml"
    path.write_text(
        'title = "Skirt"\n[sizes]\nnest = [84, 92]\n[[block]]\nname = "skirt"\nlength = "40 cm"\n', encoding="utf-8"
    )
    return path


def test_a_size_has_as_many_dots_between_its_dashes_as_sizes_come_before_it() -> None:
    for place, kind in enumerate(SIZE_LINES):
        dash = LINE_STYLES[kind].dash
        dots = [on for on in dash[2::2] if on < 1.0]
        assert len(dots) == place
        assert bool(dash) == bool(place)
    for one, other in combinations((*SIZE_LINES, LineKind.FOLD), 2):
        assert LINE_STYLES[one] != LINE_STYLES[other]


@pytest.mark.parametrize("name", ["skirt back", "sleeve", "bodice front"])
def test_the_whole_cutting_line_of_every_size_is_drawn_in_its_own_line(name: str) -> None:
    pieces = next(pieces for pieces in nested_pieces(nest(84, 88, 92)) if pieces[0].name == name)
    drawn = nested_lines(pieces, ["84", "88", "92"], [ALONE] * 3)
    for kind, piece in zip(SIZE_LINES, pieces, strict=False):
        legs = sum(edge.length for dart in piece.darts for edge in map(piece.edge, dart.legs))
        length = sum(run_length(item.curves) for item in drawn.items if isinstance(item, Stroke) and item.kind is kind)
        on_fold = run_length(cutting_line(piece)) + legs - length
        assert on_fold == pytest.approx(0.0, abs=1e-3) if not piece.cut.fold else on_fold > 100.0
    written = {item.words for item in drawn.items if isinstance(item, Text)}
    assert {"84", "88", "92"} <= written


def test_the_first_sheet_says_what_each_size_measures() -> None:
    sheet = lay_out_nest(nest(84, 88, 92), paper=PAPERS["A4"])
    words = [item.words for item in sheet.front if isinstance(item, Text)]
    assert "92: 92.0, 73.3, 97.6 cm" in words
    kinds = {item.kind for item in sheet.front if isinstance(item, Stroke)}
    assert {LineKind.SIZE_1, LineKind.SIZE_2, LineKind.SIZE_3} <= kinds
    assert LineKind.SIZE_4 not in kinds
    assert sheet_svg(sheet) == sheet_svg(lay_out_nest(nest(84, 88, 92), paper=PAPERS["A4"]))


def test_a_nest_in_inches_keeps_within_the_front_block() -> None:
    sheet = lay_out_nest(nest(76, 80, 84, 88, 92, 96), paper=PAPERS["A4"], unit="in")
    assert any("in" in item.words and item.words.startswith("96: ") for item in sheet.front if isinstance(item, Text))
    assert tiles(sheet)[0].row == tiles(sheet)[0].column == 1
    assert sheet.map_room.height > 20.0


def test_notes_stand_in_the_smallest_size() -> None:
    pieces = nested_pieces(nest(84, 92))[0]
    assert note_piece(pieces).edges == pieces[0].edges


def test_more_sizes_than_lines_are_refused_in_a_sentence() -> None:
    with pytest.raises(InputProblems, match="7 sizes, expected 6 sizes or fewer"):
        nested_pieces(nest(76, 80, 84, 88, 92, 96, 100))


def test_a_nest_is_written_as_one_set_of_sheets_and_a_folder_for_each_size(garment: Path, tmp_path: Path) -> None:
    answer = draft_sizes_to_folder(garment, to=tmp_path / "out", paper=None, quiet=True)
    assert answer.status == 0
    assert {path.name for path in (tmp_path / "out").iterdir() if path.is_dir()} == {"sheets", "size-84", "size-92"}
    pattern = json.loads((tmp_path / "out" / "size-92" / "pattern.json").read_text(encoding="utf-8"))
    assert pattern["wearer"]["name"] == "size 92"
    assert set(answer.data()["sizes"]) == {"84", "92"}  # type: ignore[call-overload]


def test_a_nest_is_checked_in_every_size_and_not_as_if_it_were_one(garment: Path) -> None:
    answer = check_file(garment, unit=None)
    assert answer.status == 0
    assert set(answer.data()["sizes"]) == {"84", "92"}  # type: ignore[call-overload]
    with pytest.raises(InputProblems, match="read sizes 84 and 92, expected one size"):
        prepare(read_garment(garment))
