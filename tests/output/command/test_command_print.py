"""What `draft` writes to be printed, and the words for it: --paper and --sizes, [paper] roll."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from drafting.errors import UnknownName
from drafting.reading.units import NotRead
from output.api import pdf, read_garment
from output.api.making import draft
from output.command import main

ROOT = Path(__file__).parents[3]
SKIRT = f'''title = "Skirt"
wearer = "{(ROOT / "examples" / "people" / "oda.toml").as_posix()}"
[[block]]
name = "skirt"
length = "55 cm"
'''

Capsys = pytest.CaptureFixture[str]


@pytest.fixture
def garment(tmp_path: Path) -> Path:
    path = tmp_path / "skirt.toml"
    path.write_text(SKIRT, encoding="utf-8")
    return path


def written(*words: object) -> int:
    return main([str(word) for word in words])


def pages(path: Path) -> list[tuple[int, int]]:
    """The size of each page, whole millimetres."""
    boxes = [page.mediabox for page in PdfReader(BytesIO(path.read_bytes())).pages]
    return [(round(float(box.width) / 72 * 25.4), round(float(box.height) / 72 * 25.4)) for box in boxes]


def test_there_is_a_file_for_the_printer_at_home_and_one_for_the_copy_shop(garment: Path, tmp_path: Path) -> None:
    assert written("draft", garment, "--to", tmp_path / "out") == 0
    home = pages(tmp_path / "out" / "print-at-home.pdf")
    assert set(home) == {(210, 297)}
    assert len(home) == len(list((tmp_path / "out" / "sheets").iterdir()))
    assert pages(tmp_path / "out" / "copy-shop.pdf") == [(841, 1189)]


def test_large_paper_is_for_the_copy_shop_alone(garment: Path, tmp_path: Path) -> None:
    assert written("draft", garment, "--to", tmp_path / "out", "--paper", "A0") == 0
    assert not (tmp_path / "out" / "print-at-home.pdf").exists()
    assert pages(tmp_path / "out" / "copy-shop.pdf") == [(841, 1189)]


def test_a_roll_is_named_on_the_command_line_or_in_the_file(garment: Path, tmp_path: Path) -> None:
    assert written("draft", garment, "--to", tmp_path / "one", "--paper", "roll 36 in") == 0
    garment.write_text(f'{SKIRT}[paper]\nroll = "36 in"\n', encoding="utf-8")
    assert written("draft", garment, "--to", tmp_path / "two") == 0
    one, two = (tmp_path / name / "copy-shop.pdf" for name in ("one", "two"))
    assert one.read_bytes() == two.read_bytes()
    ((wide, long),) = pages(one)
    assert wide == 914
    assert 600 < long < 1500
    assert set(pages(tmp_path / "one" / "print-at-home.pdf")) == {(210, 297)}


@pytest.mark.parametrize(
    ("paper", "said"),
    [
        ("roll", 'expected "roll" and its width: a length with its unit'),
        ("roll 5 cm", "a length from 30.0 cm to 165.0 cm"),
        ("roll 36", "Write the unit behind the number"),
        ("foolscap", 'expected A4, Letter, A4 or Letter, A3, A0 or "roll 36 in"'),
    ],
)
def test_a_paper_that_cannot_be_is_said_with_what_could_be(
    garment: Path, tmp_path: Path, capsys: Capsys, paper: str, said: str
) -> None:
    assert written("draft", garment, "--to", tmp_path / "out", "--paper", paper) == 2
    assert said in capsys.readouterr().err.replace("\n", " ")
    assert not (tmp_path / "out").exists()


def test_a_roll_that_no_plotter_takes_is_refused_in_the_file(garment: Path, tmp_path: Path, capsys: Capsys) -> None:
    garment.write_text(f'{SKIRT}[paper]\nroll = "3 m"\n', encoding="utf-8")
    assert written("draft", garment, "--to", tmp_path / "out") == 2
    assert "roll" in capsys.readouterr().err


def test_some_sizes_of_a_nest_are_printed_and_one_alone_with_its_sewing_lines(garment: Path, tmp_path: Path) -> None:
    garment.write_text(
        'title = "Skirt"\n[sizes]\nnest = [88, 92, 96]\n[[block]]\nname = "skirt"\nlength = "30 cm"\n', encoding="utf-8"
    )
    layers = {}
    for sizes in ("88,96", "92"):
        assert written("draft", garment, "--to", tmp_path / "out", "--sizes", sizes) == 0
        assert (tmp_path / "out" / "size-92" / "report.html").is_file()
        root = PdfReader(BytesIO((tmp_path / "out" / "print-at-home.pdf").read_bytes())).trailer["/Root"]
        layers[sizes] = {group.get_object()["/Name"] for group in root["/OCProperties"]["/OCGs"]}  # type: ignore[index]
    assert {"size 88", "size 96"} <= layers["88,96"]
    assert "size 92" not in layers["88,96"]
    assert "sewing lines" in layers["92"]


@pytest.mark.parametrize(("sizes", "more"), [("90", "nest = [88, 92]"), (",", "nest = [88, 92]"), ("92", "bust = 92")])
def test_sizes_that_are_not_there_are_said(
    garment: Path, tmp_path: Path, capsys: Capsys, sizes: str, more: str
) -> None:
    garment.write_text(f'title = "Skirt"\n[sizes]\n{more}\n[[block]]\nname = "skirt"\n', encoding="utf-8")
    assert written("draft", garment, "--to", tmp_path / "out", "--sizes", sizes) == 2
    assert "--sizes" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_from_python_the_paper_is_chosen_for_one_pdf(garment: Path) -> None:
    skirt = draft(read_garment(garment))
    assert pdf(skirt, paper="A4") == pdf(skirt)
    for paper, wide in (("letter", 216), ("A4 or Letter", 210), ("a3", 297), ("roll 60 cm", 600)):
        box = PdfReader(BytesIO(pdf(skirt, paper=paper))).pages[0].mediabox
        assert round(float(box.width) / 72 * 25.4) == wide
    with pytest.raises(UnknownName, match="A4, Letter"):
        pdf(skirt, paper="quarto")
    with pytest.raises(NotRead):
        pdf(skirt, paper="roll 1 in")
