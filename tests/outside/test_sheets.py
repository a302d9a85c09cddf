"""Strangers judge how the sheets are made up: how many carry nothing, where the squares stand, what is named where.

The files of the sheets are read by tests/outside/read_svg.py, titles rendered by resvg (through resvg_py), and all of
it compared by shapely with the cutting lines as they lie on the large sheet. None shares code with what cuts them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
import resvg_py
from shapely import Polygon, box
from shapely.ops import unary_union

from blocks.from_file.garment_file import read_garment
from output.sheets.large_sheet import lay_out_nest
from output.sheets.papers import PAPERS
from output.sheets.sheet_svg import tile_svg
from output.sheets.tiling import piece_list_words, tiles
from tests.blocks.nests import draft_nest
from tests.output.whole_sheet import laid_out_example
from tests.outside.read_png import darkness
from tests.outside.read_svg import Drawing, read_svg
from tests.sampling import some

GARMENTS = Path(__file__).parents[2] / "examples" / "garments"
NEST = Path(__file__).with_name("nest.toml")

# What is stated for a person: how far apart neighbouring sheets lie, and what each shows, mm.
STEP = {"A4": (185.0, 254.0), "Letter": (185.0, 254.0), "A3": (272.0, 395.0), "A0": (790.0, 1138.0)}
SHOWN = {"A4": (197.3, 266.7), "Letter": (197.3, 266.7), "A3": (284.3, 407.3), "A0": (811.0, 1159.0)}
TABLE = 1200.0
SLIVER = 0.02
DPI = 50.0
SVG = "{http://www.w3.org/2000/svg}"

CASES = [
    *(("signal-dress", "Letter"), ("ferry-dress", "A4"), ("bakehouse-bodice", "A4"), ("nest", "A4")),
    *(("slipway-skirt", paper) for paper in ("A3", "A0")),
]
"""Each paper and each kind of garment; `python -m tests.sweep_sheets` looks at the dresses of real women."""


@dataclass(frozen=True)
class Paper:
    """One sheet of paper as its file tells it."""

    text: str
    drawing: Drawing
    row: int
    column: int
    number: int
    count: int


@dataclass(frozen=True)
class Printed:
    """The sheets in the order of their files, and the cutting line of each piece, y down from the large sheet's top."""

    paper: str
    sheets: tuple[Paper, ...]
    pieces: dict[str, Polygon]
    said: str

    def own(self, sheet: Paper) -> Polygon:
        """The part of the large sheet between the joins around one sheet of paper."""
        (across, down), (wide, high) = STEP[self.paper], SHOWN[self.paper]
        left = 0.5 * (wide - across) + (sheet.column - 1) * across
        top = 0.5 * (high - down) + (sheet.row - 1) * down
        return box(left, top, left + across, top + down)

    def on(self, sheet: Paper) -> set[str]:
        """The pieces that lie on a sheet."""
        return {name for name, piece in self.pieces.items() if piece.intersects(self.own(sheet))}


@cache
def printed(name: str, paper: str) -> Printed:
    if name == "nest":
        laid = lay_out_nest(draft_nest(read_garment(NEST)), paper=PAPERS[paper])
        cut = tuple(tiles(laid))
    else:
        laid, cut = laid_out_example(name, paper)
    sheets = []
    for tile in cut:
        text = tile_svg(tile)
        drawing = read_svg(text)
        found = [re.fullmatch(r"row (\d+), column (\d+): sheet (\d+) of (\d+)", words) for words in drawing.words]
        (title,) = [match for match in found if match]
        sheets.append(Paper(text, drawing, *map(int, title.groups())))
    pieces = {
        name: Polygon([(p.x, laid.height - p.y) for p in piece.outline]).buffer(0.0)
        for name, piece in zip(laid.names, laid.pieces, strict=True)
    }
    return Printed(paper, tuple(sheets), pieces, piece_list_words(cut))


@pytest.fixture(params=some([(case,) for case in CASES], every=2, first=1), ids=" ".join)
def one(request: pytest.FixtureRequest) -> Printed:
    return printed(*request.param)


def squares_on(sheet: Paper) -> list[float]:
    lines = sheet.drawing.lines.get("test-square")
    return sorted(round(line.length / 4.0, 3) for line in lines.geoms) if lines is not None else []


def test_the_sheets_are_numbered_as_their_files_follow_each_other(one: Printed) -> None:
    assert [sheet.number for sheet in one.sheets] == list(range(1, len(one.sheets) + 1))
    assert {sheet.count for sheet in one.sheets} == {len(one.sheets)}
    assert len({(sheet.row, sheet.column) for sheet in one.sheets}) == len(one.sheets)


def test_at_most_the_first_sheet_carries_no_piece(one: Printed) -> None:
    idle = [sheet.number for sheet in one.sheets if not one.on(sheet)]
    assert idle in ([], [1])
    if one.paper == "A0":
        assert idle == []


def test_every_part_of_a_piece_lies_on_some_sheet(one: Printed) -> None:
    # on large paper the strips that neighbours share serve too
    strip = 10.5 if one.paper == "A0" else 0.0
    together = unary_union([one.own(sheet).buffer(strip, join_style="mitre") for sheet in one.sheets])
    for name, piece in one.pieces.items():
        assert piece.difference(together).area < 0.01, name


def test_both_squares_stand_on_the_first_sheet_and_on_the_last_and_nowhere_else(one: Printed) -> None:
    for sheet in one.sheets:
        wanted = [100.0, 101.6] if sheet.number in (1, len(one.sheets)) else []
        assert squares_on(sheet) == wanted, sheet.number
    assert one.on(one.sheets[-1])


def test_no_line_and_no_writing_runs_into_the_squares(one: Printed) -> None:
    last = one.sheets[-1]
    if last.number == 1:
        return  # those of the front block, which are looked at elsewhere
    for square in last.drawing.lines["test-square"].geoms:
        for kind, lines in last.drawing.lines.items():
            if kind != "test-square":
                assert not Polygon(square.coords).buffer(0.5).intersects(lines), kind


def test_no_sheet_shows_but_a_sliver_of_a_piece(one: Printed) -> None:
    for sheet in one.sheets:
        own = one.own(sheet)
        share = sum(piece.intersection(own).area for piece in one.pieces.values()) / own.area
        assert share == 0.0 or share >= SLIVER, (sheet.number, share)


def test_no_row_of_sheets_is_wider_than_a_table(one: Printed) -> None:
    assert max(sheet.column for sheet in one.sheets) * STEP[one.paper][0] <= TABLE


def test_a_piece_that_one_sheet_of_a0_holds_is_not_cut() -> None:
    for name, paper in CASES:
        if paper == "A0":
            one = printed(name, paper)
            wide, high = SHOWN[paper]
            for piece in one.pieces.values():
                left, top, right, bottom = piece.bounds
                if right - left < wide - 3.0 and bottom - top < high - 3.0:
                    areas = [one.own(sheet).buffer(10.5, join_style="mitre") for sheet in one.sheets]
                    assert any(area.covers(piece) for area in areas), name


def test_each_sheet_names_the_pieces_on_it(one: Printed) -> None:
    for sheet in one.sheets:
        words = sheet.drawing.words
        place = next(n for n, line in enumerate(words) if line.startswith("row "))
        # the names stand below the title, over as many lines as they need
        below = " ".join(words[place + 1 : place + 1 + len(one.pieces)])
        for name in one.on(sheet):
            assert name in below, (sheet.number, below)
        others = set(one.pieces) - one.on(sheet)
        assert not [name for name in others if name in below.split("  ")[0].split(", ")]


def test_the_map_names_each_piece(one: Printed) -> None:
    if len(one.sheets) > 1:
        words = {word for line in one.sheets[0].drawing.words for word in line.split()}
        for name in one.pieces:
            assert set(name.split()) <= words


def test_the_report_tells_which_sheets_to_print_for_a_piece(one: Printed) -> None:
    told = dict(part.split(": ") for part in one.said.split("; "))
    assert set(told) == set(one.pieces)
    for name, words in told.items():
        numbers: set[int] = set()
        for first, last in re.findall(r"(\d+)(?: to (\d+))?", words):
            numbers.update(range(int(first), int(last or first) + 1))
        assert numbers == {sheet.number for sheet in one.sheets if name in one.on(sheet)}


@pytest.mark.parametrize("case", some([(case,) for case in CASES if case[1] != "A0"], every=2, first=1), ids=" ".join)
def test_no_title_crosses_a_line(case: tuple[str, str]) -> None:
    """The ink of each title, as a renderer draws it, against every line of its sheet."""
    for sheet in printed(*case).sheets:
        words = sheet.drawing.words
        place = next(n for n, line in enumerate(words) if line.startswith("row "))
        ink = _ink(sheet.text, place)
        for kind, lines in sheet.drawing.lines.items():
            assert not ink.intersects(lines), (sheet.number, kind)


def _ink(text: str, place: int) -> Polygon:
    """Around what of a sheet is dark when only the title is drawn, mm. place: which of its lines of writing it is."""
    root = ElementTree.fromstring(text)
    title = list(root.iter(f"{SVG}text"))[place : place + 2]
    for group in root.iter(f"{SVG}g"):
        for child in list(group):
            if child.tag == f"{SVG}path" or (child.tag == f"{SVG}text" and child not in title):
                group.remove(child)
    bare = ElementTree.tostring(root, encoding="unicode")
    png = resvg_py.svg_to_bytes(svg_string=bare, dpi=DPI, background="white", sans_serif_family="DejaVu Sans")
    down, across = np.nonzero(darkness(bytes(png)) > 0.3)
    assert len(down)
    mm = 25.4 / DPI
    return box(across.min() * mm, down.min() * mm, (across.max() + 1) * mm, (down.max() + 1) * mm)
