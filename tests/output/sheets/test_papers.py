from __future__ import annotations

import pytest

from drafting.errors import UnknownName
from output.sheets.papers import PAPERS, Paper, paper_named


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
