from __future__ import annotations

from drafting.pattern import NotchRef
from drafting.pattern.notches import notch_numbers
from drafting.pattern.seam_ends import ALONE, sewn
from output.drawings.drawing import Text
from output.drawings.piece_drawing import piece_lines
from output.report.notch_table import notch_table
from tests.drafting.dress import dress


def test_every_notch_that_meets_another_has_its_number_drawn_on_its_piece() -> None:
    pattern = dress()
    numbers = notch_numbers(pattern.seams)
    assert sorted(set(numbers.values())) == list(range(1, 1 + len(set(numbers.values()))))
    for piece in pattern.pieces:
        drawn = piece_lines(piece, sewn(pattern)[piece.name])
        texts = sorted(item.words for item in drawn.items if isinstance(item, Text))
        assert texts == sorted(str(number) for mark, number in numbers.items() if mark.piece == piece.name)


def test_both_notches_of_a_pair_have_one_number_and_no_other_pair_has_it() -> None:
    pattern = dress()
    numbers = notch_numbers(pattern.seams)
    pairs = [pair for seam in pattern.seams for pair in seam.notches]
    assert all(numbers[one] == numbers[other] for one, other in pairs)
    assert len({numbers[one] for one, _ in pairs}) == len(pairs)


def test_notches_that_all_meet_one_mark_share_its_number() -> None:
    seam = next(seam for seam in dress().seams if seam.notches)
    (one, other), *_ = seam.notches
    third = NotchRef(one.piece, "another")
    more = type(seam)(seam.name, seam.a, seam.b, seam.ease, ((one, other), (third, other)))
    assert set(notch_numbers([more]).values()) == {1}


def test_a_piece_by_itself_has_no_numbers() -> None:
    piece = dress().piece("sleeve")
    assert not any(isinstance(item, Text) for item in piece_lines(piece, ALONE).items)


def test_the_report_lists_every_pair_under_its_number() -> None:
    pattern = dress()
    table = notch_table(pattern, "cm")
    numbers = notch_numbers(pattern.seams)
    assert [row.cells[0] for row in table.rows] == [str(n) for n in sorted(set(numbers.values()))]
    told = " ".join(cell for row in table.rows for cell in row.cells)
    assert all(mark.notch in told for mark in numbers)
