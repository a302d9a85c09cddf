"""`trueseam measure --sheet`: a sheet to print with a drawing, a word on how, and a blank for each measurement."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from output.api.measuring import measuring_order
from output.command import main


def cards(path: Path) -> list[ElementTree.Element]:
    """The cards of a sheet; what is on it has to be well formed."""
    text = path.read_text(encoding="utf-8")
    body = re.sub(r"<meta[^>]*>", "", text.removeprefix("<!DOCTYPE html>"))
    return list(ElementTree.fromstring(body).iter("li"))


@pytest.mark.parametrize("body", ["woman", "girl", "boy"])
def test_each_measurement_has_a_drawing_with_its_tape_and_two_blanks(
    body: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["measure", "--sheet", "sheet", "--body", body]) == 0
    found = cards(tmp_path / "sheet.html")
    assert len(found) == len(measuring_order(body))  # type: ignore[arg-type]
    for card in found:
        drawn = [path for path in card.iter("{http://www.w3.org/2000/svg}path") if path.get("stroke") == "#b3261e"]
        assert drawn, "".join(card.itertext())
        assert len(list(card.iter("b"))) == 2
    names = [card.findtext("div/h2") for card in found]
    assert ("5. chest" in names) is (body != "woman")


def test_her_own_sheet_is_in_her_unit_with_what_was_measured_last(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = Path.cwd()
    monkeypatch.chdir(tmp_path)
    oda, garment = str(root / "examples/people/oda.toml"), str(root / "examples/garments/slipway-skirt.toml")
    assert main(["measure", oda, "--sheet", "oda.html", "--unit", "in", "--garment", garment]) == 0
    told = ["".join(card.itertext()) for card in cards(tmp_path / "oda.html")]
    assert len(told) == 7  # the four that must be there, and the three that a skirt is drawn from
    assert any("last time 31 1/8 in" in each for each in told)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--sheet", "sheet.pdf"], "a file that ends in .html"),
        (["--sheet", "there.html"], "a file of that name is there already"),
        (["--sheet", "s.html", "--body", "grl"], 'Did you mean "girl"'),
        (["nobody.toml", "--sheet", "s.html"], "no such file"),
        ([], "no PERSON.toml"),
        (["nobody.toml", "--body", "girl"], "it is for --sheet"),
    ],
)
def test_what_cannot_be_written_is_told(
    words: list[str], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("there.html").write_text("mine", encoding="utf-8")
    assert main(["measure", *words]) == 2
    assert told in capsys.readouterr().err
    assert [each.name for each in tmp_path.iterdir()] == ["there.html"]
