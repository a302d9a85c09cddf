"""`trueseam new`: a file to start from that drafts, asked about where somebody is there, never over another."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from drafting.body.terms import BASICS, measurement
from drafting.reading.files import load_toml
from output.command import new
from tests.output.running import ran

Capsys = pytest.CaptureFixture[str]

NUMBERS = {"in": ("65", "36", "29", "39"), "cm": ("166", "92", "75", "100"), "mm": ("1660", "920", "750", "1000")}


def filled(path: Path, unit: str) -> None:
    """The four lines that must be there, written as the comments say."""
    text = path.read_text(encoding="utf-8")
    for key, number in zip(BASICS, NUMBERS[unit], strict=True):
        text = re.sub(rf"^#{measurement(key).word} = .*$", f"{measurement(key).word} = {number}", text, flags=re.M)
    path.write_text(text, encoding="utf-8")


@pytest.mark.parametrize("unit", NUMBERS)
def test_a_person_and_a_garment_are_begun_filled_in_and_drafted(
    unit: str, tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert ran(capsys, "new", "person", "people/wren", "--unit", unit).status == 0
    person = tmp_path / "people" / "wren.toml"
    wanting = ran(capsys, "measure", person)
    assert wanting.status == 2
    assert len(wanting.err.splitlines()) == len(BASICS)
    filled(person, unit)
    assert ran(capsys, "measure", person).status == 0
    begun = ran(capsys, "new", "garment", "dress.toml", "--json")
    assert begun.data == {"file": "dress.toml", "then": "trueseam draft dress.toml"}
    assert load_toml("dress.toml")["wearer"] == "people/wren.toml"
    assert ran(capsys, "check", "dress.toml").status in (0, 1)
    uncommented = re.sub(r"^#(?=\S)", "", Path("dress.toml").read_text(encoding="utf-8"), flags=re.M)
    Path("all.toml").write_text(uncommented, encoding="utf-8")
    assert ran(capsys, "check", "all.toml").status in (0, 1)


@pytest.mark.parametrize("what", ["person", "garment"])
def test_a_file_that_is_there_is_left_as_it_is(what: str, tmp_path: Path, capsys: Capsys) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("mine\n", encoding="utf-8")
    (tmp_path / "link.toml").symlink_to(tmp_path / "nowhere.toml")
    for name in ("mine.toml", "mine", "link.toml"):
        result = ran(capsys, "new", what, tmp_path / name)
        assert result.status == 2
        assert "nothing is written over" in result.err
    assert path.read_text(encoding="utf-8") == "mine\n"
    assert not (tmp_path / "nowhere.toml").exists()


def test_a_file_that_cannot_be_written_is_refused_in_a_sentence(tmp_path: Path, capsys: Capsys) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    result = ran(capsys, "new", "person", tmp_path / "file" / "wren.toml")
    assert result.status == 2
    assert "cannot be written" in result.err


def answering(*answers: str) -> Callable[[str], str]:
    waiting = list(answers)
    return lambda _question: waiting.pop(0) if waiting else ""


def test_where_somebody_is_there_it_asks(tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(new, "at_a_terminal", lambda: True)
    answers = answering('Wren "the tall"', "in", "woman", "65 1/2", "4", "long", "36", "29 1/2 in", "39")
    monkeypatch.setattr("builtins.input", answers)
    assert ran(capsys, "new", "person").status == 0
    table = load_toml("wren_the_tall.toml")
    assert table["name"] == "Wren 'the tall'"
    assert table["measurements"] == {"height": "65 1/2", "bust": 36, "waist": "29 1/2 in", "hip": 39}
    assert ran(capsys, "measure", "wren_the_tall.toml").status == 0


def test_where_nobody_answers_it_asks_nothing(tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "stdin", None)
    assert ran(capsys, "new", "person").status == 0
    assert load_toml("person.toml")["name"] == "Your name"


def test_a_garment_is_begun_in_the_unit_of_its_wearer_whatever_else_is_wrong_with_her_file(
    tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "tess.toml").write_text('name = "Tess"\nunit = "in"\n[measurements]\nbust = 39\n')
    assert ran(capsys, "new", "garment", "try.toml").status == 0
    text = (tmp_path / "try.toml").read_text()
    assert 'wearer = "tess.toml"' in text
    assert 'size = "Letter"' in text
    assert 'seam_allowance = "5/8 in"' in text
