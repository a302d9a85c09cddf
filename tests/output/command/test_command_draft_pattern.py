"""A drawing of pieces, or a pattern.json, put on paper by the command and from a script; read back by a stranger."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from drafting.errors import InputProblems
from output.api import draft, dxf, pdf, read_garment, read_pattern, sheets, svg, to_json
from output.command import main
from tests.outside.read_svg import read_svg

EXAMPLE = Path(__file__).parents[3] / "examples" / "garments" / "slipway-skirt.toml"

Capsys = pytest.CaptureFixture[str]

SQUARE = """0 SECTION 2 HEADER 9 $INSUNITS 70 4 0 ENDSEC 0 SECTION 2 ENTITIES 0 POLYLINE 8 1 66 1 70 1
0 VERTEX 8 1 10 0 20 0 0 VERTEX 8 1 10 300 20 0 0 VERTEX 8 1 10 300 20 400 0 VERTEX 8 1 10 0 20 400 0 SEQEND
0 ENDSEC 0 EOF"""


def square(folder: Path) -> Path:
    path = folder / "shirt.dxf"
    path.write_text("\n".join(SQUARE.split()))
    return path


def test_a_strangers_pieces_are_put_on_paper_at_true_scale(tmp_path: Path, capsys: Capsys) -> None:
    main(["draft", str(square(tmp_path)), "--to", str(tmp_path / "made"), "--paper", "Letter"])
    told = capsys.readouterr()
    assert "print-at-home.pdf" in told.out + told.err
    names = {path.name for path in (tmp_path / "made").iterdir()}
    assert {"print-at-home.pdf", "copy-shop.pdf", "sheets", "pieces", "pattern.dxf", "pattern.json"} <= names
    assert "report.html" not in names
    left, top, right, bottom = read_svg((tmp_path / "made/pieces/piece.svg").read_text()).lines["cutting-line"].bounds
    assert (right - left, bottom - top) == pytest.approx((300.0, 400.0), abs=1e-3)
    assert json.loads((tmp_path / "made/pattern.json").read_text())["title"] == "shirt"


def test_a_pattern_that_was_read_is_printed_as_the_garment_it_was_written_from(tmp_path: Path) -> None:
    skirt = draft(read_garment(EXAMPLE))
    (tmp_path / "pattern.json").write_text(to_json(skirt))
    (tmp_path / "pattern.dxf").write_bytes(dxf(skirt))
    for name in ("pattern.json", "pattern.dxf"):
        read = read_pattern(tmp_path / name)
        assert [piece.name for piece in read.pieces] == [piece.name for piece in skirt.pattern.pieces]
        assert len(sheets(read, paper="A0")) == len(sheets(skirt, paper="A0"))
        assert pdf(read)[:5] == b"%PDF-"
        assert svg(read).startswith("<svg")


def test_a_pattern_json_is_answered_in_the_unit_of_its_wearer(tmp_path: Path, capsys: Capsys) -> None:
    garment = read_garment(EXAMPLE)
    path = tmp_path / "pattern.json"
    path.write_text(to_json(draft(replace(garment, wearer=replace(garment.wearer, unit="in")))))
    for words, unit, other in (((), " in", " cm"), (("--unit", "cm"), " cm", " in ")):
        main(["check", str(path), *words])
        told = capsys.readouterr().out.partition("Finished")[2]
        assert unit in told
        assert other not in told


@pytest.mark.parametrize("name", ["nowhere.dxf", "shirt.svg", "shirt", "\x00.dxf"])
def test_what_is_no_pattern_is_refused_in_a_sentence(name: str, tmp_path: Path) -> None:
    with pytest.raises(InputProblems, match="expected"):
        read_pattern(tmp_path / name)
