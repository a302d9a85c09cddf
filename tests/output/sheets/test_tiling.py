from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

import pytest
import shapely

from drafting.geometry import Line, Point, run_bounds, run_length
from drafting.pattern import Pattern
from output.drawings.drawing import Box, Item, LineKind, Stroke, Text
from output.drawings.lettering import corners
from output.sheets.large_sheet import lay_out
from output.sheets.paper_grid import Grid
from output.sheets.papers import PAPERS
from output.sheets.sheet_map import sheet_map
from output.sheets.tiling import BLEED, Tile, tiles
from tests.examples import example_pattern
from tests.output.sample import cuff, sample_pattern
from tests.output.whole_sheet import PATTERN_KINDS


@pytest.fixture(scope="module")
def a4() -> tuple[Tile, ...]:
    return tiles(lay_out(sample_pattern(), paper=PAPERS["A4"], dated="3 October"))


def strokes(items: tuple[Item, ...], kind: LineKind) -> list[Stroke]:
    return [item for item in items if isinstance(item, Stroke) and item.kind is kind]


def words(tile: Tile) -> list[str]:
    return [item.words for item in tile.items if isinstance(item, Text)]


def squares(tile: Tile) -> list[float]:
    """The sides of the whole squares on a sheet of paper."""
    found = []
    for stroke in strokes(tile.items, LineKind.SQUARE):
        left, bottom, right, top = run_bounds(stroke.curves)
        assert right - left == pytest.approx(top - bottom)
        found.append(round(right - left, 6))
    return sorted(found)


def test_every_sheet_bears_its_row_column_and_number(a4: tuple[Tile, ...]) -> None:
    for number, tile in enumerate(a4, start=1):
        assert (tile.number, tile.count) == (number, len(a4))
        label = f"row {tile.row}, column {tile.column}: sheet {number} of {len(a4)}"
        assert label in words(tile)


def test_every_sheet_comes_once_and_the_front_block_first(a4: tuple[Tile, ...]) -> None:
    places = [(tile.row, tile.column) for tile in a4]
    assert len(set(places)) == len(places)
    assert "The sheets" in words(a4[0])


def test_the_names_of_files_sort_in_the_order_of_printing(a4: tuple[Tile, ...]) -> None:
    names = [tile.name for tile in a4]
    assert names == sorted(set(names))
    assert names[0] == f"sheet-{1:0{len(str(len(a4)))}}-row-{a4[0].row}-column-{a4[0].column}"


def test_sheets_with_nothing_on_them_are_left_out(a4: tuple[Tile, ...]) -> None:
    rows, columns = max(tile.row for tile in a4), max(tile.column for tile in a4)
    assert len(a4) < rows * columns
    for tile in a4[:-1]:
        assert any(isinstance(item, Stroke) and item.kind in PATTERN_KINDS for item in tile.items), tile.number


@pytest.mark.parametrize("name", ["A4", "Letter", "A3"])
def test_the_first_and_the_last_sheet_bear_both_squares_whole(name: str) -> None:
    found = tiles(lay_out(sample_pattern(), paper=PAPERS[name]))
    for tile in (found[0], found[-1]):
        assert squares(tile) == [100.0, 101.6]
        # each is labelled with its own unit
        written = "\n".join(words(tile))
        assert all(said in written for said in ("10 cm", "100 mm each side", "4 inches", "measure me"))


def test_the_squares_of_the_last_sheet_lie_over_no_line_of_the_pattern(a4: tuple[Tile, ...]) -> None:
    boxes = [Box(*run_bounds(stroke.curves)) for stroke in strokes(a4[-1].items, LineKind.SQUARE)]
    for item in a4[-1].items:
        if isinstance(item, Stroke) and item.kind in PATTERN_KINDS:
            for curve in item.curves:
                assert all(box.apart(Box(*run_bounds([curve]))) for box in boxes)


def test_the_squares_find_room_on_the_last_sheet_when_there_is_some() -> None:
    small = Pattern("Cuffs", sample_pattern().wearer, (replace(cuff(), name="one"), cuff()))
    found = tiles(lay_out(small, paper=PAPERS["A3"]))
    assert squares(found[-1]) == [100.0, 101.6]
    assert strokes(found[-1].items, LineKind.CUTTING)


@pytest.mark.parametrize("name", PAPERS)
def test_all_lines_lie_in_the_printable_area_with_half_their_weight(name: str) -> None:
    for tile in tiles(lay_out(sample_pattern(), paper=PAPERS[name])):
        area = tile.area.grown(-BLEED + 1e-6)
        for item in tile.items:
            if isinstance(item, Stroke):
                left, bottom, right, top = run_bounds(item.curves)
                assert area.holds(Point(left, bottom)), item.kind
                assert area.holds(Point(right, top)), item.kind


def test_the_label_and_the_words_at_joins_lie_in_the_printable_area(a4: tuple[Tile, ...]) -> None:
    for tile in a4:
        ours = [
            item for item in tile.items if isinstance(item, Text) and re.match("row|cut along|lay sheet", item.words)
        ]
        # a sheet added for the squares alone is not joined
        assert len(ours) >= (2 if strokes(tile.items, LineKind.CUTTING) else 1)
        for text in ours:
            assert all(tile.area.holds(p) for p in corners(text)), text


def test_each_join_has_two_rounds_that_both_sheets_show(a4: tuple[Tile, ...]) -> None:
    by_place = {(tile.row, tile.column): tile for tile in a4}
    joins = 0
    for (row, column), tile in by_place.items():
        for other in (by_place.get((row, column + 1)), by_place.get((row + 1, column))):
            # the sheet added for the squares alone need not be joined
            if other is None or (other is a4[-1] and not strokes(other.items, LineKind.CUTTING)):
                continue
            joins += 1
            shared = _rounds(tile) & _rounds(other)
            assert len(shared) == 2, (tile.number, other.number)
            assert f"lay sheet {other.number} to here" in words(tile)
            assert "cut along here" in words(other)
    assert joins > len(a4) / 2


def test_a_length_of_200_mm_crosses_a_join_of_either_direction(a4: tuple[Tile, ...]) -> None:
    seen: dict[tuple[float, float, float, float], int] = {}
    for tile in a4:
        for stroke in strokes(tile.items, LineKind.CHECK):
            for curve in stroke.curves:
                at = _on_sheet(tile, curve)
                seen[at] = seen.get(at, 0) + 1
    level = sorted((y0, min(x0, x1), max(x0, x1)) for x0, y0, x1, y1 in seen if y0 == y1 and abs(x1 - x0) > 20)
    upright = sorted((x0, min(y0, y1), max(y0, y1)) for x0, y0, x1, y1 in seen if x0 == x1 and abs(y1 - y0) > 20)
    for parts in (level, upright):
        assert parts
        lines = {part[0] for part in parts}
        for line in lines:
            spans = [part[1:] for part in parts if part[0] == line]
            assert max(s[1] for s in spans) - min(s[0] for s in spans) == pytest.approx(200.0, abs=1e-4)
            assert len(spans) == 2  # half of it, and the overlap, on each of two sheets
    assert sum("200 mm from tick to tick" in words(tile) for tile in a4) >= 2


def test_corner_marks_are_one_step_of_the_paper_apart(a4: tuple[Tile, ...]) -> None:
    for tile in a4:
        middles = {
            (round(0.5 * (c.start.x + c.end.x), 6), round(0.5 * (c.start.y + c.end.y), 6))
            for stroke in strokes(tile.items, LineKind.JOIN)
            for c in stroke.curves
            if isinstance(c, Line)
        }
        xs, ys = sorted({x for x, _ in middles}), sorted({y for _, y in middles})
        assert [b - a for a, b in pairwise(xs)] == [pytest.approx(185.0)]
        assert [b - a for a, b in pairwise(ys)] == [pytest.approx(254.0)]


def test_the_map_on_the_first_sheet_numbers_every_sheet(a4: tuple[Tile, ...]) -> None:
    assert {str(n) for n in range(1, len(a4) + 1)} <= set(words(a4[0]))
    assert strokes(a4[0].items, LineKind.MAP)
    assert not any(strokes(tile.items, LineKind.MAP) for tile in a4[1:])


@pytest.mark.parametrize(("columns", "turned"), [(4, False), (12, True)])
def test_the_map_fills_its_room_turned_where_that_is_plainly_larger(columns: int, turned: bool) -> None:
    paper, room = PAPERS["A4"], Box(10.0, 20.0, 75.0, 120.0)
    cells = [(row, column) for row in range(1, 4) for column in range(1, columns + 1)]
    drawn = sheet_map(room, Grid(paper, 3.0 * paper.step_height + paper.overlap_y), cells, [], [])
    (frames,) = [item for item in drawn if isinstance(item, Stroke)]
    left, bottom, right, top = run_bounds(frames.curves)
    assert (left, top) == pytest.approx((room.left, room.top))
    assert min(right, room.right) == pytest.approx(right)
    assert right == pytest.approx(room.right) or bottom == pytest.approx(room.bottom)
    assert {item.angle for item in drawn if isinstance(item, Text)} == {-90.0 if turned else 0.0}


def test_one_sheet_alone_needs_no_marks_to_join_it() -> None:
    (only,) = tiles(lay_out(Pattern("Cuff", sample_pattern().wearer, (cuff(),)), paper=PAPERS["A0"]))
    for kind in (LineKind.JOIN, LineKind.FRAME, LineKind.CHECK, LineKind.MAP):
        # the legend explains no join either where there is none
        assert not strokes(only.items, kind), kind
    assert squares(only) == [100.0, 101.6]


def test_the_inside_of_a_piece_is_printed_though_no_line_crosses_it() -> None:
    from drafting.pattern import Edge, Piece

    big = [Point(0, 0), Point(900, 0), Point(900, 1200), Point(0, 1200)]
    edges = tuple(Edge(f"side {i}", (Line(big[i], big[(i + 1) % 4]),)) for i in range(4))
    sheet = lay_out(Pattern("Rug", sample_pattern().wearer, (Piece("rug", edges),)), paper=PAPERS["A4"])
    places = {(tile.row, tile.column) for tile in tiles(sheet)}
    drawn = sheet.pieces[0].box
    columns = range(int((drawn.left + 200) // 185), int((drawn.right - 200) // 185))
    assert {(row, column + 1) for row in (3, 4) for column in columns} <= places


def _rounds(tile: Tile) -> set[tuple[float, float]]:
    """The centres of the whole rounds on a sheet of paper, on the large sheet."""
    found = set()
    for stroke in strokes(tile.items, LineKind.JOIN):
        if run_length(stroke.curves) == pytest.approx(31.416, abs=0.05):
            left, bottom, right, top = run_bounds(stroke.curves)
            centre = Point(0.5 * (left + right), 0.5 * (bottom + top))
            at = centre - Point(tile.area.left, tile.area.bottom)
            found.add((round(at.x + tile.shown.left, 4), round(at.y + tile.shown.bottom, 4)))
    return found


def _on_sheet(tile: Tile, curve: object) -> tuple[float, float, float, float]:
    assert isinstance(curve, Line)
    x, y = tile.shown.left - tile.area.left, tile.shown.bottom - tile.area.bottom
    return (
        round(curve.start.x + x, 5),
        round(curve.start.y + y, 5),
        round(curve.end.x + x, 5),
        round(curve.end.y + y, 5),
    )


def test_no_name_on_the_map_stands_over_a_number_or_another_name() -> None:
    """By the word of a stranger (shapely): the pieces of a smock, of which three names stood over numbers."""
    sheet = lay_out(example_pattern("weir-smock"), paper=PAPERS["A4"], dated="3 October")
    grid, outlines = Grid(sheet.paper, sheet.height), [piece.outline for piece in sheet.pieces]
    drawn = sheet_map(sheet.map_room, grid, sheet.cells, outlines, sheet.names)
    texts = [item for item in drawn if isinstance(item, Text)]
    rooms = [shapely.Polygon([(at.x, at.y) for at in corners(text)]).buffer(-0.15) for text in texts]
    assert {"13", "15"} <= {text.words for text in texts}
    assert [(a, b) for k, a in enumerate(rooms) for b in rooms[:k] if a.intersects(b)] == []
    room = sheet.map_room
    around = shapely.box(room.left - 1.0, room.bottom - 1.0, room.right + 1.0, room.top + 1.0)
    assert all(around.contains(each) for each in rooms)
