from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from drafting.pattern.seam_ends import sewn_piece
from output.drawings.drawing import Stroke
from output.drawings.piece_drawing import piece_lines, piece_strokes
from output.drawings.svg import piece_picture, piece_svg
from output.sheets.large_sheet import lay_out
from output.sheets.papers import PAPERS
from output.sheets.sheet_svg import tile_svg
from output.sheets.tiling import tiles
from tests.drafting.dress import dress
from tests.output.sample import sample_pattern, skirt_front
from tests.output.whole_sheet import sheet_svg

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def first() -> str:
    return tile_svg(tiles(lay_out(sample_pattern(), paper=PAPERS["A4"]))[0])


@pytest.mark.parametrize("name", PAPERS)
def test_a_sheet_of_paper_states_its_size_in_millimetres_and_draws_in_them(name: str) -> None:
    paper = PAPERS[name]
    root = ElementTree.fromstring(tile_svg(tiles(lay_out(sample_pattern(), paper=paper))[0]))
    width, height = f"{paper.width:g}", f"{paper.height:g}"
    assert (root.get("width"), root.get("height")) == (f"{width}mm", f"{height}mm")
    assert root.get("viewBox") == f"0 0 {width} {height}"


def test_one_path_for_each_kind_of_line(first: str) -> None:
    kinds = [path.get("class") for path in ElementTree.fromstring(first).iter(f"{SVG}path")]
    assert len(kinds) == len(set(kinds))
    assert "cutting-line" in kinds
    assert "test-square" in kinds


def test_the_same_drawing_gives_the_same_bytes() -> None:
    def drawn() -> list[str]:
        sheet = lay_out(sample_pattern(), paper=PAPERS["A4"], dated="3 October")
        return [*map(tile_svg, tiles(sheet)), sheet_svg(sheet), piece_svg(skirt_front(), sample_pattern())]

    assert drawn() == drawn()


def test_numbers_have_at_most_three_decimals_and_no_minus_before_nought(first: str) -> None:
    data = " ".join(path.get("d", "") for path in ElementTree.fromstring(first).iter(f"{SVG}path"))
    numbers = re.findall(r"-?[\d.]+", data)
    assert len(numbers) > 100
    assert all(re.fullmatch(r"-?\d+(\.\d{1,3})?", number) for number in numbers)
    assert "-0" not in numbers
    assert "e" not in data


def test_no_transform_but_turned_writing_and_no_colour_but_black(first: str) -> None:
    root = ElementTree.fromstring(first)
    for element in root.iter():
        transform = element.get("transform")
        assert transform is None or (element.tag == f"{SVG}text" and transform.startswith("rotate("))
        assert element.get("stroke") in (None, "black")
        assert element.get("fill") in (None, "none", "black")


def test_words_of_a_person_are_escaped_and_control_characters_dropped() -> None:
    pattern = sample_pattern(title='<Oda & \x01 "co">', wearer="\x00\x1b[31m\ud800")
    sheet = lay_out(pattern, paper=PAPERS["A4"], dated="3 < 4\n\t")
    for drawing in (*map(tile_svg, tiles(sheet)), sheet_svg(sheet), piece_svg(skirt_front(), pattern)):
        ElementTree.fromstring(drawing.encode())
    written = "".join(ElementTree.fromstring(tile_svg(tiles(sheet)[0]).encode()).itertext())
    assert '<Oda &   "co">' in written


def test_a_piece_is_drawn_whole_with_a_length_to_measure() -> None:
    root = ElementTree.fromstring(piece_svg(skirt_front(), sample_pattern(), dated="3 October"))
    width, height = (float(root.get(name, "").removesuffix("mm")) for name in ("width", "height"))
    # fold to side 250 and its allowance 15; hem allowance 40, waist at the side 612 and its corner
    assert width == pytest.approx(250 + 15 + 20, abs=4)
    assert height > 40 + 612 + 15 + 20
    kinds = {path.get("class") for path in root.iter(f"{SVG}path")}
    assert {"cutting-line", "sewing-line", "fold-of-cloth", "dart-leg", "notch", "grain-line", "check-length"} <= kinds
    written = [text.text for text in root.iter(f"{SVG}text")]
    assert "100 mm from tick to tick" in written
    assert "3 October" in written
    assert root.find(f".//{SVG}clipPath") is None  # so that several stand in one page without sharing ids


def test_a_picture_of_a_piece_has_the_lines_of_its_drawing_and_no_writing() -> None:
    for piece in dress().pieces:
        of_seams = sewn_piece(dress(), piece.name)
        lines, box = piece_strokes(piece, of_seams)
        drawn = piece_lines(piece, of_seams)
        assert (lines, box) == (tuple(item for item in drawn.items if isinstance(item, Stroke)), drawn.box)
        assert "<text" not in piece_picture(piece, of_seams)
