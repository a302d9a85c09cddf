"""`trueseam size`: told in her unit, the same as data, one page to print; and all that is wrong at once."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from tests.output.running import FERRY, ran

Capsys = pytest.CaptureFixture[str]

CHART = """
title = "Slip dress"
unit = "in"
sizes = "8 10 12 14"
garment = "dress"
[body]
bust = "32 34 36 38"
waist = "26 28 30 32"
hip = "36 38 40 42"
[finished]
sleeve = "21 21 21 21"
"""
WREN = """
name = "Wren"
body = "woman"
unit = "in"
[measurements]
height = 66
bust = 34
waist = 30
hip = 42
arm_length = 23
"""


@pytest.fixture
def files(tmp_path: Path) -> tuple[Path, Path]:
    chart, wren = tmp_path / "slip-dress.toml", tmp_path / "wren.toml"
    chart.write_text(CHART, encoding="utf-8")
    wren.write_text(WREN, encoding="utf-8")
    return chart, wren


def test_the_answer_in_her_inches_and_as_data(files: tuple[Path, Path], capsys: Capsys) -> None:
    told, data = ran(capsys, "size", *files), ran(capsys, "size", *files, "--json")
    assert (told.status, data.status) == (0, 0)
    words = " ".join(told.out.split())
    assert "Take size 10, with 12 at the waist and 14 at the hip." in words
    # 42 less 38 in over four edges
    assert "lies 1 in out from the line of size 10, 4 in round" in words
    assert "Arm length: you have 23 in, the garment has 21 in: lengthen by 2 in in the sleeve" in words
    assert "Next best" in words
    assert not re.search(r"\d (cm|mm)\b", told.out)
    assert data.data["size"] == "10"
    assert [(each["at"], each["size"], each["each_edge_mm"]) for each in data.data["blends"]] == [
        ("waist", "12", pytest.approx(12.7)),
        ("hip", "14", pytest.approx(25.4)),
    ]
    in_cm = ran(capsys, "size", *files, "--unit", "cm")
    assert "lies 25 mm out from the line of size 10, 10.2 cm round" in " ".join(in_cm.out.split())


def test_the_kind_of_garment_and_the_cloth_change_the_answer(files: tuple[Path, Path], capsys: Capsys) -> None:
    full = ran(capsys, "size", *files, "--for", "full-skirted dress", "--json").data
    assert ([each["at"] for each in full["blends"]], full["no_blend_needed"]) == (["waist"], ["hip"])
    close = ran(capsys, "size", "women", files[1], "--for", "skirt", "--cloth", "denim", "--fit", "close", "--json")
    assert (close.data["rules"], close.data["cloth"], close.data["fit"]) == ("hip", "denim", "close")


def test_a_knit_over_the_body_is_said_with_what_it_means(tmp_path: Path, capsys: Capsys) -> None:
    chart, ines = tmp_path / "tee.toml", tmp_path / "ines.toml"
    rows = '[body]\nbust = "32 35 38"\n[finished]\nbust = "31 34 37"\n'
    chart.write_text(f'unit = "in"\nsizes = "S M L"\ncloth = "jersey"\ngarment = "knit top"\n{rows}', encoding="utf-8")
    ines.write_text(WREN.replace("bust = 34", 'bust = "33 7/8"'), encoding="utf-8")
    words = " ".join(ran(capsys, "size", chart, ines).out.split())
    assert "Size M would finish 1/8 in over your bust, though this pattern is meant to finish below it" in words
    assert "it would hang instead of clinging" in words
    stiff = ran(capsys, "size", chart, ines, "--cloth", "poplin", "--json").data
    assert "drawn for a knit: in poplin, which does not give, it has to be larger" in str(stiff["said"])
    # 33 7/8 in of body, and 1 1/2 in the least in a woven: 34 is too little, the next one up
    assert stiff["size"] == "L"


def test_a_full_bust_is_told_with_its_amount(files: tuple[Path, Path], capsys: Capsys) -> None:
    files[1].write_text(WREN.replace("bust = 34", "bust = 38\nhigh_bust = 34"), encoding="utf-8")
    words = " ".join(ran(capsys, "size", *files).out.split())
    assert "Your high bust, 34 in, asks for size 12 (no high bust in the chart: 2 in under its bust)" in words
    # 4 in apart where the pattern is drawn for 2: 2 in in all, 1 in on each half
    assert "a full-bust alteration of 2 in in all: spread each half of the front by 1 in at the bust point" in words


def test_of_a_child_it_is_not_told_as_if_the_reader_were_the_child(tmp_path: Path, capsys: Capsys) -> None:
    tove = tmp_path / "tove.toml"
    girths = "height = 108\nchest = 65\nwaist = 63\nhip = 68\n"
    tove.write_text(f'name = "Tove"\nbody = "girl"\nunit = "cm"\n[measurements]\n{girths}', encoding="utf-8")
    words = " ".join(ran(capsys, "size", "girls", tove).out.split())
    assert "more than the child's body" in words
    assert not re.search(r"\b[Yy]our\b|\byou (have|are|would)\b|\bbust\b", words)
    assert "in the length of size 110" in words


def test_a_garment_in_sizes_is_its_own_chart(files: tuple[Path, Path], tmp_path: Path, capsys: Capsys) -> None:
    garment = tmp_path / "market-skirt.toml"
    skirt = '[[block]]\nname = "skirt"\nlength = "60 cm"\nease = { hip = "10 cm", waist = "2 cm" }\n'
    garment.write_text(f'title = "Market skirt"\nunit = "cm"\n[sizes]\nhip = 100\n{skirt}', encoding="utf-8")
    data = ran(capsys, "size", garment, files[1], "--json").data
    assert (data["for"], data["rules"]) == ("skirt", "hip")
    hip = next(level for level in data["levels"] if level["at"] == "hip")
    # as the garment is drafted: 10 cm of ease in every size
    assert hip["ease_designed_mm"] == pytest.approx(100.0, abs=0.5)
    measured = ran(capsys, "size", FERRY, files[1])
    assert measured.status == 2
    assert "one made to measure has no sizes to choose from" in measured.err


class _Page(HTMLParser):
    """A reader of the page that shares nothing with its writer: its words, and the tags left open."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: object) -> None:  # noqa: ARG002
        if tag not in ("meta", "br", "path", "rect"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in ("path", "rect"):
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def test_one_page_to_print_with_the_side_seam_drawn(files: tuple[Path, Path], tmp_path: Path, capsys: Capsys) -> None:
    told = ran(capsys, "size", *files, "--to", tmp_path / "out")
    assert "size.html: one page to print" in " ".join(told.out.split())
    page = _Page((tmp_path / "out" / "size.html").read_text(encoding="utf-8"))
    assert page.open == []
    words = " ".join(" ".join(page.words).split())
    for said in ("Take size 10, with 12 at the waist and 14 at the hip.", "hip: size 14", "each edge 1 in out"):
        assert said in words


def test_all_that_is_wrong_is_said_at_once_and_nothing_is_written(
    files: tuple[Path, Path], tmp_path: Path, capsys: Capsys
) -> None:
    files[0].write_text(CHART.replace('"32 34 36 38"', '"32 34 33 38"').replace('"26 28', '"26 -'), encoding="utf-8")
    files[1].write_text(WREN.replace("hip = 42\n", ""), encoding="utf-8")
    options = ("--cloth", "denm", "--fit", "tight", "--for", "hat", "--stretch", "lots", "--to", tmp_path / "out")
    told = ran(capsys, "size", *files, *options)
    assert told.status == 2
    lines = told.err.splitlines()
    assert len(lines) == 7
    for place in ("--fit", "--stretch", "--cloth", "--for", "[body] bust", "[body] waist", "[measurements] hip"):
        assert any(place in line for line in lines), place
    assert not (tmp_path / "out").exists()


def test_a_stretch_that_no_knit_has_is_one_fault(files: tuple[Path, Path], capsys: Capsys) -> None:
    told = ran(capsys, "size", *files, "--cloth", "knit", "--stretch", "400%")
    assert told.err.splitlines() == ['the command line, size --stretch: read "400%", expected a share from 0 to 300 %.']


def test_a_chart_is_begun_and_read_once_filled_in(tmp_path: Path, capsys: Capsys) -> None:
    path = tmp_path / "pier.toml"
    assert ran(capsys, "new", "chart", path, "--unit", "in").status == 0
    text = path.read_text(encoding="utf-8")
    unfilled = ran(capsys, "size", path, "women")
    assert unfilled.status == 2
    # every example line in it is one that can be read
    path.write_text(re.sub(r"^#(sizes|bust|sleeve_length|garment) =", r"\1 =", text, flags=re.M), encoding="utf-8")
    wren = tmp_path / "wren.toml"
    wren.write_text(WREN, encoding="utf-8")
    assert ran(capsys, "size", path, wren).status == 0
