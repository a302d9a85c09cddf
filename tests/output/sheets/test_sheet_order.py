from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from output.sheets.sheet_order import ordered_cells, torn

FRONT = (1, 1)
cells = st.tuples(st.integers(1, 4), st.integers(1, 5)).filter(lambda cell: cell != FRONT)
pieces = st.lists(st.frozensets(cells, min_size=1, max_size=6), min_size=1, max_size=7)


@settings(max_examples=60, deadline=None)
@given(pieces)
def test_every_sheet_is_numbered_once_and_the_front_first(on: list[frozenset[tuple[int, int]]]) -> None:
    found = ordered_cells(FRONT, on)
    assert found[0] == FRONT
    assert sorted(found) == sorted({FRONT}.union(*on))


@settings(max_examples=60, deadline=None)
@given(pieces)
def test_no_more_lies_between_than_in_the_order_of_the_pieces(on: list[frozenset[tuple[int, int]]]) -> None:
    natural = list(dict.fromkeys([FRONT, *(cell for each in on for cell in sorted(each))]))
    assert torn(ordered_cells(FRONT, on), on) <= torn(natural, on)


def test_pieces_that_share_no_sheet_follow_each_other() -> None:
    on = [[(row, column) for row in (1, 2, 3)] for column in (2, 3, 4)]
    assert torn(ordered_cells(FRONT, on), on) == 0


def test_neighbours_that_share_a_column_of_sheets_follow_each_other_whatever_their_order() -> None:
    strips = [list(product((1, 2), columns)) for columns in ((2, 3), (3, 4), (4, 5), (5, 6), (6, 7))]
    for on in (strips, strips[::-1], [strips[n] for n in (2, 0, 4, 1, 3)]):
        assert torn(ordered_cells(FRONT, on), on) == 0


@pytest.mark.parametrize("wanted", [(1, 2), (2, 3), (3, 4)])
def test_a_sheet_that_will_do_as_the_last_becomes_it(wanted: tuple[int, int]) -> None:
    on = [[(row, column) for row in (1, 2, 3)] for column in (2, 3, 4)]
    found = ordered_cells(FRONT, on, as_last=lambda cell: int(cell != wanted), worst=1)
    assert found[-1] == wanted
    assert torn(found, on) == 0


def test_what_lies_between_the_sheets_of_a_piece_is_counted() -> None:
    assert torn([(1, 1), (1, 2), (1, 3), (1, 4)], [[(1, 1), (1, 4)], [(1, 2), (1, 3)]]) == 2
