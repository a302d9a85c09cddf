from __future__ import annotations

from itertools import combinations

import pytest

from drafting.geometry import Point
from output.drawings.drawing import Box
from output.sheets.arrange_pieces import Arrangement, Shape, arrange
from output.sheets.paper_use import EDGE
from output.sheets.papers import PAPERS

FRONT = (171.0, 240.0)


def oblong(width: float, height: float, *, left: float = 0.0, bottom: float = 0.0) -> Shape:
    box = Box(left, bottom, left + width, bottom + height)
    corners = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    return Shape(tuple(Point(*xy) for xy in corners), box)


def laid_boxes(laid: Arrangement, shapes: list[Shape]) -> list[Box]:
    """The boxes as they lie, the front block first; y runs down."""
    left, top = laid.front
    boxes = [Box(left, top, left + FRONT[0], top + FRONT[1])]
    for shape, (x, y) in zip(shapes, laid.corners, strict=True):
        boxes.append(Box(x, y, x + shape.box.width, y + shape.box.height))
    return boxes


DRESS = [oblong(300, 470), oblong(285, 450, left=400), oblong(400, 660, bottom=-90), oblong(290, 700), oblong(285, 705)]


@pytest.mark.parametrize("name", PAPERS)
def test_nothing_lies_over_anything_else_or_beyond_the_sheets(name: str) -> None:
    paper = PAPERS[name]
    laid = arrange(FRONT, DRESS, paper)
    boxes = laid_boxes(laid, DRESS)
    for one, other in combinations(boxes, 2):
        assert one.apart(other), (one, other)
    for box in boxes:
        assert box.left >= 0.0
        assert box.bottom >= 0.0
        assert box.right <= laid.columns * paper.step_width
        assert box.top <= laid.rows * paper.step_height


def test_it_takes_no_more_sheets_than_laying_each_piece_on_its_own() -> None:
    paper = PAPERS["A4"]
    alone = sum(
        -(-int(shape.box.width) // int(paper.step_width)) * -(-int(shape.box.height) // int(paper.step_height))
        for shape in DRESS
    )
    assert arrange(FRONT, DRESS, paper).sheets <= alone + 1


def test_no_side_of_a_piece_lies_upon_a_join() -> None:
    # 265 mm behind the first join of A3 (272 mm, and 7 to keep from it) would end exactly at the second
    paper = PAPERS["A3"]
    shapes = [oblong(265.0, 670.0), oblong(272.0, 395.0), oblong(544.0, 100.0), oblong(538.0, 380.0)]
    laid = arrange(FRONT, shapes, paper)
    for box in laid_boxes(laid, shapes)[1:]:
        for side in (box.left, box.right):
            join = round(side / paper.step_width)
            assert join in (0, laid.columns) or abs(side - join * paper.step_width) >= 2.0
        for side in (box.bottom, box.top):
            join = round(side / paper.step_height)
            assert join == 0 or abs(side - join * paper.step_height) >= 2.0


@pytest.mark.parametrize("name", PAPERS)
def test_the_front_block_lies_on_one_sheet_clear_of_the_joins(name: str) -> None:
    paper = PAPERS[name]
    laid = arrange(FRONT, DRESS, paper)
    for at, size, step in zip(laid.front, FRONT, (paper.step_width, paper.step_height), strict=True):
        assert at % step >= EDGE
        assert at % step + size <= step - EDGE


def whole_on_one(at: float, size: float, step: float, area: float) -> bool:
    """Whether a side lies on one sheet, told from sheets that are that far apart and show so much each."""
    strip = 0.5 * (area - step)
    return any(n * step - strip <= at and at + size <= (n + 1) * step + strip for n in range(20))


@pytest.mark.parametrize(
    "sizes",
    [
        [(300, 460), (295, 460), (395, 665), (290, 700), (320, 700)],
        [(809, 1157)],
        [(800, 400), (100, 1150), (790, 1138), (400, 600)],
        [(450, 300), (450, 500), (450, 700), (450, 900), (380, 380), (120, 90), (60, 1000)],
        [(300, 400), (1500, 300), (500, 500)],
    ],
)
def test_what_fits_on_one_sheet_of_a0_is_not_cut(sizes: list[tuple[float, float]]) -> None:
    paper = PAPERS["A0"]
    shapes = [oblong(*size) for size in sizes]
    laid = arrange(FRONT, shapes, paper)
    for one, other in combinations(laid_boxes(laid, shapes), 2):
        assert one.apart(other), (one, other)
    for (width, height), (x, y) in zip(sizes, laid.corners, strict=True):
        if width <= paper.area_width - 2.0 and height <= paper.area_height - 2.0:
            assert whole_on_one(x, width, paper.step_width, paper.area_width)
            assert whole_on_one(y, height, paper.step_height, paper.area_height)


def test_it_lies_no_wider_than_a_table_where_that_takes_no_more_sheets() -> None:
    # eleven sheets side by side in three rows take as many as six by five
    shapes = [oblong(304, 461), oblong(298, 462), oblong(463, 708), oblong(290, 681), oblong(320, 681)]
    paper = PAPERS["A4"]
    assert arrange(FRONT, shapes, paper).columns * paper.step_width <= 1200.0


def test_a_piece_is_moved_so_that_no_sheet_holds_a_sliver() -> None:
    # 3 mm more than two sheets: laid at the first join it would reach a third by a hair
    paper = PAPERS["A4"]
    shapes = [oblong(2.0 * paper.step_width + 3.0, 2.0 * paper.step_height - 20.0)]
    laid = arrange((100.0, 100.0), shapes, paper)
    (x, _), width = laid.corners[0], shapes[0].box.width
    first, last = x % paper.step_width, (x + width) % paper.step_width
    assert min(paper.step_width - first, last) >= 0.02 * paper.step_width


def test_the_same_shapes_lie_the_same_way() -> None:
    assert arrange(FRONT, DRESS, PAPERS["A4"]) == arrange(FRONT, DRESS, PAPERS["A4"])


def test_two_small_pieces_share_the_plotters_one_sheet_with_the_front_block() -> None:
    laid = arrange(FRONT, [oblong(300, 400), oblong(300, 500)], PAPERS["A0"])
    assert (laid.sheets, laid.rows, laid.columns) == (1, 1, 1)


def test_no_pieces_leave_the_front_block_alone() -> None:
    assert arrange(FRONT, [], PAPERS["A4"]) == Arrangement((EDGE, EDGE), (), 1, 1, 1)


def test_a_piece_wider_than_any_number_of_columns_tried_still_lies() -> None:
    laid = arrange(FRONT, [oblong(3000, 100)], PAPERS["A4"])
    assert laid.columns == 17


def test_the_inside_of_a_large_piece_takes_sheets_too() -> None:
    big = oblong(3 * 185 - 2, 3 * 254 - 2)
    laid = arrange((1.0, 1.0), [big], PAPERS["A4"])
    assert laid.sheets >= 9
