"""Strangers judge the PDF: a reader measures pages and lines, a renderer the squares at 600 dots to the inch."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import dataclass, replace
from functools import cache
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from pypdf import PdfReader
from shapely import MultiLineString, box
from shapely.affinity import translate
from shapely.ops import unary_union

from drafting.geometry import Cubic
from drafting.pattern import Nest, Sized
from output.drawings.document import Document, Page
from output.drawings.drawing import Stroke, layer_of
from output.drawings.pdf import document_pdf
from output.sheets import large_sheet
from output.sheets.large_sheet import lay_out, lay_out_nest
from output.sheets.papers import PAPERS, Paper, roll
from output.sheets.sheet_pdf import tiles_pdf
from output.sheets.tiling import BLEED, Tile, tiles
from tests.drafting.sizes import sized
from tests.examples import example_pattern
from tests.output.sample import sample_pattern
from tests.output.whole_sheet import PATTERN_KINDS, laid_out_example
from tests.outside.read_pdf import Sheet, read_pdf, rendered, text_of, without_layers
from tests.sampling import some

ROOT = Path(__file__).parents[2]
DRESS = ROOT / "examples" / "garments" / "ferry-dress.toml"
# ISO 216, ANSI/ASME Y14.1; as wide as A4 and as high as Letter; a roll of 36 inches is as long as it must be
PAGES = {
    "A4": (210.0, 297.0),
    "Letter": (215.9, 279.4),
    "A4 or Letter": (210.0, 279.4),
    "A3": (297.0, 420.0),
    "A0": (841.0, 1189.0),
    "roll": (914.4, None),
}
STEP = {"A3": (272.0, 395.0), "A0": (790.0, 1138.0)}
AREA = {"A3": (284.3, 407.3), "A0": (811.0, 1159.0)}
NEAR = 0.05


@dataclass(frozen=True)
class Printed:
    """A large sheet, its sheets of paper, the file, and the same as a stranger reads it."""

    sheet: large_sheet.Sheet
    tiles: tuple[Tile, ...]
    data: bytes
    read: tuple[Sheet, ...]


def paper(name: str) -> Paper:
    return roll(914.4) if name == "roll" else PAPERS[name]


@cache
def printed(what: str, name: str) -> Printed:
    if what == "nest":
        nest = Nest("Dress", tuple(Sized(str(size), sized(size)) for size in (84, 92)))
        sheet = lay_out_nest(nest, paper=paper(name))
        cut = tiles(sheet)
    elif what == "dress" and name != "roll":
        sheet, cut = laid_out_example("ferry-dress", name)
    else:
        sheet = lay_out(example_pattern("ferry-dress") if what == "dress" else sample_pattern(), paper=paper(name))
        cut = tiles(sheet)
    data = tiles_pdf(sheet, cut)
    return Printed(sheet, cut, data, tuple(read_pdf(data)))


@pytest.mark.parametrize("name", PAGES)
def test_a_reader_finds_pages_of_the_size_of_the_paper(name: str) -> None:
    for page in printed("sample", name).read:
        width, height = PAGES[name]
        assert page.width == pytest.approx(width, abs=1e-4)
        assert page.height == pytest.approx(height or page.height, abs=1e-4)


@pytest.mark.parametrize("name", some(PAGES, every=2, first=1))
@pytest.mark.parametrize("which", [0, -1], ids=["first", "last"])
def test_at_600_dots_to_the_inch_both_squares_are_of_their_size(name: str, which: int) -> None:
    one = printed("dress" if name in ("A4", "roll") else "sample", name)
    squares = sorted(one.read[which].squares, key=lambda square: square.length)
    assert len(squares) == 2
    for square, side in zip(squares, (100.0, 4 * 25.4), strict=True):
        left, bottom, right, top = square.bounds
        assert right - left == pytest.approx(side, abs=1e-3)
        assert top - bottom == pytest.approx(side, abs=1e-3)
        page = which % len(one.read)
        across = rendered(one.data, page, 600.0, (left - 1, bottom + 0.9, right + 1, bottom + 1.4))
        down = rendered(one.data, page, 600.0, (left + 0.9, bottom - 1, left + 1.4, top + 1))
        assert _apart(across.mean(axis=0)) == pytest.approx(side, abs=0.1)
        assert _apart(down.mean(axis=1)) == pytest.approx(side, abs=0.1)


def test_where_there_is_one_sheet_only_its_squares_are_the_last() -> None:
    assert len(printed("sample", "A0").read) == 1
    assert len(printed("sample", "A0").read[0].squares) == 2


@pytest.mark.parametrize(
    ("what", "name"),
    [
        ("dress", "A4"),
        ("sample", "Letter"),
        ("sample", "A4 or Letter"),
        ("dress", "A0"),
        *(pytest.param(what, "A3", marks=pytest.mark.whole) for what in ("dress", "nest")),
    ],
)
def test_the_pages_put_back_together_give_every_line_of_the_sheet_and_no_other(what: str, name: str) -> None:
    one = printed(what, name)
    step, area = STEP.get(name, (185.0, 254.0)), AREA.get(name, (197.3, 266.7))
    border = 15.0 if name == "A0" else 6.35
    for layer, lines in _whole_lines(one.sheet).items():
        placed, near = [], []
        for tile, page in zip(one.tiles, one.read, strict=True):
            # its upper left corner of what is drawn lies as many steps along as its row and column say
            x, y = (tile.column - 1) * step[0], -(tile.row - 1) * step[1]
            part = translate(page.lines.get(layer, MultiLineString()), x - border, y + border - page.height)
            placed.append(part)
            near.append(part.buffer(NEAR))
            shown = box(x, y - area[1], x + area[0], y).buffer(-0.45, join_style="mitre")
            assert lines.intersection(shown).difference(near[-1]).length < 1e-6, (layer, tile.number)
        assert lines.difference(unary_union(near)).length < 1e-6, layer
        # the legend and the marks for joining are on no layer of the pattern
        assert unary_union(placed).difference(lines.buffer(NEAR)).length < 1e-6, layer


@pytest.mark.parametrize("name", some(PAGES, every=2))
def test_no_ink_comes_nearer_to_the_edge_than_a_printer_reaches(name: str) -> None:
    one = printed("sample" if name == "A4 or Letter" else "dress", name)
    border = 15.0 if name in ("A0", "roll") else 6.35
    for page in one.read:
        area = box(border, border, page.width - border, page.height - border)
        assert all(area.covers(box(*ink)) for ink in page.inked)
    dpi = 40.0
    for number in range(len(one.read)):
        dark = rendered(one.data, number, dpi)
        rim = int(border * dpi / 25.4)
        inside = np.zeros(dark.shape, dtype=bool)
        inside[rim:-rim, rim:-rim] = True
        assert dark[~inside].max() == 0.0
        assert dark[inside].max() > 0.3


@pytest.mark.parametrize("hidden", ["sewing lines", "balance lines", "texts", "marks for joining", "notches"])
def test_a_hidden_layer_hides_what_it_says_and_nothing_else(hidden: str) -> None:
    _same_without(printed("dress", "A4"), hidden)


@pytest.mark.parametrize("hidden", ["size 84", "size 92"])
def test_a_size_of_a_nest_is_hidden_with_its_layer(hidden: str) -> None:
    _same_without(printed("nest", "A4"), hidden)


def test_there_is_a_layer_for_each_kind_of_line_and_each_size() -> None:
    kinds = {
        "cutting lines",
        "sewing lines",
        "folds",
        "darts",
        "notches",
        "marked points",
        "grain lines",
        "balance lines",
    }
    assert kinds | {"texts", "marks for joining"} == _layers(printed("dress", "A4").data)
    assert {"size 84", "size 92"} < _layers(printed("nest", "A4").data)


@pytest.mark.parametrize(("what", "name"), [("dress", "A4"), ("dress", "roll"), ("nest", "A4")])
def test_every_piece_can_be_searched_for_on_its_pages_and_is_a_bookmark(what: str, name: str) -> None:
    one = printed(what, name)
    found = text_of(one.data)
    reader = PdfReader(BytesIO(one.data))
    marks = {str(each.title): reader.get_destination_page_number(each) for each in reader.outline}  # type: ignore[union-attr, arg-type]
    assert list(marks) == ["how to print", *one.sheet.names]
    for piece in one.sheet.names:
        assert piece in found[0]
        on = [tile.number - 1 for tile in one.tiles if piece in tile.pieces]
        assert all(piece in found[page] for page in on)
        assert marks[piece] == on[0]


def test_a_viewer_is_asked_not_to_scale_and_to_print_on_one_side() -> None:
    root = PdfReader(BytesIO(printed("sample", "A4").data)).trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"  # type: ignore[index]
    assert root["/ViewerPreferences"]["/Duplex"] == "/Simplex"  # type: ignore[index]


def test_every_font_is_in_the_file_cut_down_to_its_letters() -> None:
    for page in PdfReader(BytesIO(printed("dress", "A4").data)).pages:
        fonts = page["/Resources"]["/Font"]  # type: ignore[index]
        assert len(fonts) == 2
        for font in fonts.values():
            descriptor = font["/DescendantFonts"][0]["/FontDescriptor"]
            assert 1000 < len(descriptor["/FontFile2"].get_data()) < 40_000
            assert str(font["/BaseFont"])[7] == "+"


def test_the_same_pattern_gives_the_same_bytes_in_another_process() -> None:
    words = (
        "import hashlib, sys; from output.sheets.large_sheet import lay_out; from output.sheets.papers import PAPERS; "
        "from output.sheets.sheet_pdf import sheet_pdf; from tests.output.sample import sample_pattern; "
        "print(hashlib.sha256(sheet_pdf(lay_out(sample_pattern(), paper=PAPERS['A4']))).hexdigest())"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", words], check=True, cwd=ROOT, env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
            stdout=subprocess.PIPE, text=True,
        ).stdout
        for seed in ("1", "2")
    }  # fmt: skip
    assert len(digests) == 1


def _whole_lines(sheet: large_sheet.Sheet) -> dict[str, MultiLineString]:
    """The lines of the pattern on the large sheet by layer, y down below zero from its upper border."""
    found: dict[str, list[np.ndarray]] = {}
    for piece in sheet.pieces:
        for item in piece.items:
            if isinstance(item, Stroke) and item.kind in PATTERN_KINDS:
                for curve in item.curves:
                    ends = (
                        (curve.start, curve.c1, curve.c2, curve.end)
                        if isinstance(curve, Cubic)
                        else (curve.start, curve.end)
                    )
                    points = _flat([(p.x, p.y - sheet.height) for p in ends])
                    found.setdefault(layer_of(item), []).append(points)
    return {layer: MultiLineString(lines) for layer, lines in found.items()}


def _flat(points: list[tuple[float, float]]) -> np.ndarray:
    from tests.outside.read_svg import flat

    return flat(points)


def _layers(data: bytes) -> set[str]:
    groups = PdfReader(BytesIO(data)).trailer["/Root"]["/OCProperties"]["/OCGs"]  # type: ignore[index]
    return {str(group.get_object()["/Name"]) for group in groups}


def _same_without(one: Printed, layer: str) -> None:
    """Hidden by a reader, a page looks as if what is on the layer had never been drawn."""
    number = max(range(1, len(one.tiles)), key=lambda n: [layer_of(item) for item in one.tiles[n].items].count(layer))
    tile = one.tiles[number]
    kept = tuple(item for item in tile.items if layer_of(item) != layer)
    page = Page(tile.paper.width, tile.paper.height, kept, tile.area.grown(-BLEED))
    bare = document_pdf(Document("bare", (page,)))
    hidden = rendered(without_layers(one.data, layer), number, 72.0)
    assert np.array_equal(hidden, rendered(bare, 0, 72.0))
    assert not np.array_equal(hidden, rendered(one.data, number, 72.0))


def _apart(profile: np.ndarray) -> float:
    """The distance in mm between the first and the last dark line of a profile at 600 dots to the inch."""
    at = np.flatnonzero(profile > 0.2)
    groups = np.split(at, np.flatnonzero(np.diff(at) > 3) + 1)
    centres = [float(np.average(group, weights=profile[group])) for group in (groups[0], groups[-1])]
    return (centres[1] - centres[0]) * 25.4 / 600.0


def test_a_hostile_name_and_letters_the_font_lacks_are_printed_as_far_as_they_can_be() -> None:
    title = "Сарафан (夏) \\ <b>&amp;</b> %PDF endstream ) Tj 🧵"
    sheet = lay_out(replace(sample_pattern(), title=title), paper=PAPERS["A4"])
    data = tiles_pdf(sheet, tiles(sheet))
    assert len(read_pdf(data)) == len(tiles(sheet))
    assert str(PdfReader(BytesIO(data)).metadata.title) == title  # type: ignore[union-attr]
    found = text_of(data)[0]
    # all of it can be searched for, the letters shown as boxes too, and the sheet says what a box means
    assert title in found
    assert "empty box" in found
    assert "empty box" not in text_of(printed("sample", "A4").data)[0]
