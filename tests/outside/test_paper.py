"""Strangers judge the paper: a renderer measures the squares in pixels, a reader puts the sheets back together.

resvg (through resvg_py) renders; tests/outside/read_svg.py reads; shapely compares. None shares code with the writer.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
import resvg_py
from shapely import MultiLineString, box
from shapely.affinity import translate
from shapely.ops import unary_union

from drafting.geometry import Cubic
from output.drawings.drawing import Stroke, Text
from output.sheets.large_sheet import Sheet, lay_out
from output.sheets.papers import PAPERS
from output.sheets.sheet_svg import tile_svg
from output.sheets.tiling import tiles
from tests.output.sample import sample_pattern
from tests.output.whole_sheet import PATTERN_KINDS, laid_out_example, sheet_svg
from tests.outside.read_png import darkness
from tests.outside.read_svg import Drawing, flat, read_svg
from tests.sampling import some

# What is stated for a person: the border of the paper and the distance between corner marks, mm.
BORDER = {"A4": 6.35, "Letter": 6.35, "A3": 6.35, "A0": 15.0}
STEP = {"A4": (185.0, 254.0), "Letter": (185.0, 254.0), "A3": (272.0, 395.0), "A0": (790.0, 1138.0)}
AREA = {"A4": (197.3, 266.7), "Letter": (197.3, 266.7), "A3": (284.3, 407.3), "A0": (811.0, 1159.0)}
NEAR = 0.05


@dataclass(frozen=True)
class Printed:
    """A sheet, its sheets of paper as files, and the same as a stranger reads them, each with its row and column."""

    name: str
    sheet: Sheet
    files: tuple[str, ...]
    read: tuple[tuple[int, int, Drawing], ...]


@cache
def printed(what: str, name: str) -> Printed:
    """The example dress or the sample on a paper."""
    if what == "dress":
        sheet, cut = laid_out_example("ferry-dress", name)
    else:
        sheet = lay_out(sample_pattern(), paper=PAPERS[name], dated="3 October")
        cut = tuple(tiles(sheet))
    files = tuple(tile_svg(tile) for tile in cut)
    return Printed(name, sheet, files, tuple(_placed(text) for text in files))


def _placed(text: str) -> tuple[int, int, Drawing]:
    drawing = read_svg(text)
    labels = [re.fullmatch(r"row (\d+), column (\d+): sheet \d+ of \d+", words) for words in drawing.words]
    (label,) = [label for label in labels if label]
    return int(label[1]), int(label[2]), drawing


@pytest.fixture(params=["sample Letter", "sample A3", "sample A0", "dress A4"])
def one(request: pytest.FixtureRequest) -> Printed:
    return printed(*request.param.split())


def whole_lines(sheet: Sheet) -> dict[str, MultiLineString]:
    """Every line of the sheet by kind, y down from its upper border, by the reader's own arithmetic."""
    found: dict[str, list[np.ndarray]] = {}
    for item in sheet.items:
        if isinstance(item, Stroke) and item.kind in PATTERN_KINDS:
            for curve in item.curves:
                ends = (
                    (curve.start, curve.c1, curve.c2, curve.end)
                    if isinstance(curve, Cubic)
                    else (curve.start, curve.end)
                )
                points = flat([(p.x, sheet.height - p.y) for p in ends])
                found.setdefault(item.kind.replace(" ", "-"), []).append(points)
    return {kind: MultiLineString(lines) for kind, lines in found.items()}


def put_together(one: Printed, kind: str) -> list[tuple[object, object]]:
    """The lines of a kind on each sheet of paper where they belong, and the part of the whole that the paper shows."""
    across, down = STEP[one.name]
    wide, high = AREA[one.name]
    placed = []
    for row, column, drawing in one.read:
        x, y = (column - 1) * across, (row - 1) * down
        lines = drawing.lines.get(kind, MultiLineString())
        placed.append((translate(lines, x - BORDER[one.name], y - BORDER[one.name]), box(x, y, x + wide, y + high)))
    return placed


def test_the_sheets_put_back_together_give_every_line_and_no_other(one: Printed) -> None:
    for kind, lines in whole_lines(one.sheet).items():
        parts = [part for part, _ in put_together(one, kind)]
        # sheet by sheet: where two show the same line, all together would be lines that nearly coincide, slow to widen
        lost = lines.difference(unary_union([part.buffer(NEAR) for part in parts]))
        assert lost.length < 1e-6, (kind, lost)
        invented = unary_union(parts).difference(lines.buffer(NEAR))
        assert invented.length < 1e-6, (kind, invented)


def test_each_sheet_shows_everything_that_lies_in_its_area_overlaps_included(one: Printed) -> None:
    for kind, lines in whole_lines(one.sheet).items():
        for part, shown in put_together(one, kind):
            # lines end half the widest stroke inside the printable area
            lost = lines.intersection(shown.buffer(-0.45, join_style="mitre")).difference(part.buffer(NEAR))
            assert lost.length < 1e-6, (kind, lost)


def test_the_parts_between_the_joins_add_up_to_the_length_of_the_whole(one: Printed) -> None:
    for kind, lines in whole_lines(one.sheet).items():
        total = 0.0
        for part, shown in put_together(one, kind):
            overlap = [AREA[one.name][i] - STEP[one.name][i] for i in (0, 1)]
            left, top, right, bottom = shown.bounds
            own = box(left + overlap[0] / 2, top + overlap[1] / 2, right - overlap[0] / 2, bottom - overlap[1] / 2)
            total += part.intersection(own).length
        assert total == pytest.approx(lines.length, abs=NEAR)


def test_every_word_of_the_sheet_stands_on_some_sheet_of_paper(one: Printed) -> None:
    written = {words for _, _, drawing in one.read for words in drawing.words}
    assert {item.words for item in one.sheet.items if isinstance(item, Text)} <= written


def test_no_line_leaves_the_printable_area(one: Printed) -> None:
    border, (wide, high) = BORDER[one.name], AREA[one.name]
    area = box(border, border, border + wide, border + high)
    for _, _, drawing in one.read:
        for kind, lines in drawing.lines.items():
            assert area.covers(lines), kind


def test_the_whole_sheet_as_one_file_has_the_same_lines(one: Printed) -> None:
    read = read_svg(sheet_svg(one.sheet))
    for kind, lines in whole_lines(one.sheet).items():
        assert lines.length <= read.lines[kind].length + NEAR
        assert lines.difference(read.lines[kind].buffer(NEAR)).length < 1e-6


@pytest.mark.parametrize("name", some(["A4", "Letter"], every=2))
def test_a_renderer_leaves_the_border_of_the_paper_white(name: str) -> None:
    dpi = 50.0
    sheet = printed("sample", name)
    border, (wide, high) = BORDER[name], AREA[name]
    for text in sheet.files:
        dark = darkness(_rendered(text, dpi))
        inside = np.zeros(dark.shape, dtype=bool)
        left, right = int(border * dpi / 25.4), int(np.ceil((border + wide) * dpi / 25.4))
        top, bottom = int(border * dpi / 25.4), int(np.ceil((border + high) * dpi / 25.4))
        inside[top:bottom, left:right] = True
        assert dark[~inside].max() == 0.0
        assert dark[inside].max() > 0.3


@pytest.mark.parametrize("which", [0, -1], ids=["first", "last"])
@pytest.mark.parametrize(("what", "name"), [("sample", "Letter"), ("dress", "A4")])
def test_a_renderer_shows_both_squares_at_their_size_within_a_tenth_of_a_millimetre(
    what: str, name: str, which: int
) -> None:
    text = printed(what, name).files[which]
    # the last sheet carries a part of a piece beside them
    assert which == 0 or {"sewing-line", "cutting-line", "grain-line"} & read_svg(text).lines.keys()
    squares = sorted(read_svg(text).lines["test-square"].geoms, key=lambda line: line.length)
    assert len(squares) == 2
    for square, side in zip(squares, (100.0, 4 * 25.4), strict=True):
        left, top, right, bottom = square.bounds
        # a band through the square off its middle, where its label stands
        across = _band(text, left - 1, top + 0.2 * side, side + 2, 0.5)
        down = _band(text, left + 0.04 * side, top - 1, 0.5, side + 2)
        assert _apart(across.mean(axis=0)) == pytest.approx(side, abs=0.1)
        assert _apart(down.mean(axis=1)) == pytest.approx(side, abs=0.1)
        assert right - left == pytest.approx(side, abs=1e-6)
        assert bottom - top == pytest.approx(side, abs=1e-6)


def _rendered(text: str, dpi: float) -> bytes:
    # one generic family is named in the files; a renderer may map it to any font that it has
    return bytes(resvg_py.svg_to_bytes(svg_string=text, dpi=dpi, background="white", sans_serif_family="DejaVu Sans"))


def _band(text: str, x: float, y: float, width: float, height: float) -> np.ndarray:
    """A strip of the drawing at 600 dots to the inch: the same file with another window in its first line."""
    window = f'width="{width}mm" height="{height}mm" viewBox="{x} {y} {width} {height}"'
    root = re.search(r"<svg [^>]*>", text)
    assert root
    attributes = re.sub(r' (?:width|height|viewBox)="[^"]*"', "", root[0])
    return darkness(_rendered(text.replace(root[0], attributes.replace("<svg", f"<svg {window}", 1), 1), 600.0))


def _apart(profile: np.ndarray) -> float:
    """The distance in mm between the first and the last dark line of a profile at 600 dots to the inch."""
    at = np.flatnonzero(profile > 0.2)
    groups = np.split(at, np.flatnonzero(np.diff(at) > 3) + 1)
    centres = [float(np.average(group, weights=profile[group])) for group in (groups[0], groups[-1])]
    return (centres[1] - centres[0]) * 25.4 / 600.0
