from __future__ import annotations

import pytest

from drafting.errors import UnknownName
from drafting.geometry import run_bounds
from output.drawings.drawing import Stroke
from output.drawings.piece_drawing import piece_lines
from output.sheets.large_sheet import lay_out
from output.sheets.papers import PAPERS, Paper, paper_named, roll
from output.sheets.tiling import tiles
from tests.output.sample import cuff, sample_pattern


def test_sizes_are_those_of_the_standards() -> None:
    # ISO 216:2007, table of the A series, mm; Letter 8 1/2 by 11 inches, ANSI/ASME Y14.1
    sizes = {name: (paper.width, paper.height) for name, paper in PAPERS.items()}
    assert sizes == {
        "A4": (210.0, 297.0),
        "Letter": (pytest.approx(8.5 * 25.4), pytest.approx(11 * 25.4)),
        # as wide as the narrower and as high as the lower of the two
        "A4 or Letter": (210.0, pytest.approx(11 * 25.4)),
        "A3": (297.0, 420.0),
        "A0": (841.0, 1189.0),
    }


@pytest.mark.parametrize("paper", PAPERS.values(), ids=lambda paper: paper.name)
def test_the_drawn_area_keeps_the_printers_border_on_every_side(paper: Paper) -> None:
    least = 15.0 if paper.name == "A0" else 6.35  # a quarter of an inch: common practice
    assert paper.margin >= least
    assert paper.width - paper.margin - paper.area_width >= least - 1e-9
    assert paper.height - paper.margin - paper.area_height >= least - 1e-9


@pytest.mark.parametrize("paper", PAPERS.values(), ids=lambda paper: paper.name)
def test_sheets_overlap_by_more_than_the_border(paper: Paper) -> None:
    assert paper.overlap_x > paper.margin
    assert paper.overlap_y > paper.margin


def test_a_sheet_made_for_a4_or_letter_lies_inside_the_border_of_the_other() -> None:
    a4, letter = PAPERS["A4"], PAPERS["Letter"]
    for one, other in ((a4, letter), (letter, a4)):
        assert one.margin + one.area_width <= other.width - 6.35 + 1e-9
        assert one.margin + one.area_height <= other.height - 6.35 + 1e-9
    assert (a4.step_width, a4.step_height) == (letter.step_width, letter.step_height)


def test_a_paper_is_found_by_name_whatever_its_capitals() -> None:
    assert paper_named(" letter ") is PAPERS["Letter"]


def test_an_unknown_paper_names_what_there_is() -> None:
    with pytest.raises(UnknownName, match="A4, Letter, A4 or Letter, A3, A0"):
        paper_named("foolscap")


def test_a_page_for_a4_or_letter_is_whole_on_both_with_the_border_of_a_printer() -> None:
    both = PAPERS["A4 or Letter"]
    for paper in (PAPERS["A4"], PAPERS["Letter"]):
        # a viewer that does not scale sets a page in the middle of the paper, or in a corner
        assert both.width <= paper.width
        assert both.height <= paper.height
        assert (both.area_width, both.area_height) == (paper.area_width, paper.area_height)
    assert both.width - 2 * both.margin == pytest.approx(both.area_width)
    assert both.height - 2 * both.margin == pytest.approx(both.area_height)


@pytest.mark.parametrize("width", [330.0, 610.0, 914.4, 1524.0])
def test_a_roll_is_one_page_cut_off_below_the_drawing(width: float) -> None:
    paper = roll(width)
    assert paper.height * 72 / 25.4 <= 14_400  # the longest page that is sure to be read: ISO 32000-1, annex C
    sheet = lay_out(sample_pattern(), paper=paper)
    (tile,) = tiles(sheet)
    low, high = tile.area.bottom, tile.area.top
    reached = [run_bounds(item.curves) for item in tile.items if isinstance(item, Stroke)]
    assert min(bottom for _, bottom, _, _ in reached) >= low
    assert max(top for *_, top in reached) <= high
    assert max(right for _, _, right, _ in reached) <= width - 15.0
    # no more than the shared strip and the border is left below
    assert min(bottom for _, bottom, _, _ in reached) < 40.0


def test_a_wider_roll_is_no_longer() -> None:
    lengths = [lay_out(sample_pattern(), paper=roll(width)).height for width in (610.0, 914.4, 1524.0)]
    assert lengths == sorted(lengths, reverse=True)


def test_a_band_too_wide_for_a_roll_lies_along_it_on_one_page() -> None:
    band, narrow = piece_lines(cuff()).box, roll(280.0)
    assert band.width > narrow.area_width > band.height  # lying as it was drafted it would be on two pages
    sheet = lay_out(sample_pattern(), paper=narrow, only=["cuff"])
    assert (sheet.columns, sheet.rows) == (1, 1)
    lying = sheet.pieces[0].box
    assert (lying.height, lying.width) == pytest.approx((band.width, band.height), abs=8.0)  # but for its notes
