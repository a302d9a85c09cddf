"""What is brought in from elsewhere: whatever it is called and holds, it lies in one folder, and spoils nothing."""

from __future__ import annotations

import base64
import json
from pathlib import Path
from typing import Any

import pytest

from output.api import dxf
from output.page.brought import brought_answers
from output.page.edits import CannotEdit
from output.page.folder import Folder, NotInFolder
from output.page.listing import listed
from tests.examples import example
from tests.output.page.running_page import copy_of_examples

SKIRT = dxf(example("slipway-skirt"))


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    (tmp_path / "hers").mkdir()
    return Folder.at(copy_of_examples(tmp_path / "hers"))


def ask(folder: Folder, address: str, **given: Any) -> Any:
    return json.loads(brought_answers(folder)[address](given))


def bring(folder: Folder, name: object, content: bytes = SKIRT, names: object = "") -> str:
    file: str = ask(folder, "bring", name=name, content=base64.b64encode(content).decode(), names=names)["file"]
    return file


def held(place: Path) -> dict[Path, bytes]:
    """Every file below a place, with what is in it."""
    return {path: path.read_bytes() for path in place.rglob("*") if path.is_file()}


@pytest.mark.parametrize(
    "name",
    [
        "../../out.dxf",
        "..\\..\\out.dxf",
        "/etc/out.dxf",
        "C:\\out.dxf",
        "a\0b.dxf",
        "<img src=x onerror=alert(1)>.dxf",
        "CON.dxf",
        "lpt1.DXF",
        "....dxf",
        "-rf.dxf",
        f"{'ä' * 390}.dxf",
        "people/oda.dxf",
    ],
)
def test_a_file_of_any_name_lies_under_a_plain_one_in_its_folder(folder: Folder, tmp_path: Path, name: str) -> None:
    before = held(tmp_path)
    file = bring(folder, name, names='[[piece]]\nname = "FRONT"\n')
    after = held(tmp_path)
    written = {folder.path / file, (folder.path / file).with_suffix(".toml")}
    assert after.keys() - before.keys() == written
    assert {path: after[path] for path in before} == before
    assert (folder.path / file).parent == folder.path / "patterns"
    assert not set(file) & set("\0<>\\\"':()")
    assert Path(file).stem not in ("con", "lpt1")
    assert file in listed(folder)["patterns"]


@pytest.mark.parametrize("name", ["", ".dxf", "x.toml", "x.dxf\0.toml", "/dev/null", "nul", 7, None, ["x.dxf"]])
def test_what_is_no_pattern_by_its_name_is_refused(folder: Folder, tmp_path: Path, name: object) -> None:
    before = held(tmp_path)
    with pytest.raises(CannotEdit, match="A pattern from elsewhere is"):
        bring(folder, name)
    assert held(tmp_path) == before


@pytest.mark.parametrize("content", ["", "no base64!", "=", 7, None, {"a": 1}])
def test_what_holds_nothing_is_refused(folder: Folder, content: object) -> None:
    with pytest.raises(CannotEdit, match="There is nothing in that file"):
        ask(folder, "bring", name="x.dxf", content=content)
    assert not (folder.path / "patterns").exists()


def test_a_folder_or_a_name_that_is_a_link_leads_nowhere(folder: Folder, tmp_path: Path) -> None:
    (tmp_path / "away").mkdir()
    (tmp_path / "away" / "secret.toml").write_text("secret = 1\n")
    (folder.path / "patterns").symlink_to(tmp_path / "away", target_is_directory=True)
    with pytest.raises(CannotEdit, match="leads out"):
        bring(folder, "x.dxf")
    (folder.path / "patterns").unlink()
    (folder.path / "patterns").mkdir()
    (folder.path / "patterns" / "x.dxf").symlink_to(tmp_path / "nowhere.dxf")
    (folder.path / "patterns" / "x-2.toml").symlink_to(tmp_path / "away" / "secret.toml")
    assert bring(folder, "x.dxf", names="unit = 'cm'") == "patterns/x-3.dxf"
    assert not (tmp_path / "nowhere.dxf").exists()
    (folder.path / "patterns" / "x-2.dxf").write_bytes(SKIRT)
    with pytest.raises(CannotEdit, match="Nothing can be written"):
        ask(folder, "names", file="patterns/x-2.dxf", was="secret = 1\n", text="unit = 'cm'")
    assert (tmp_path / "away" / "secret.toml").read_text() == "secret = 1\n"


def test_the_names_of_a_drawing_are_never_written_over_a_person_or_a_garment(folder: Folder) -> None:
    person = folder.path / "people" / "oda.toml"
    text = person.read_text()
    with pytest.raises(CannotEdit, match="Nothing can be written"):  # there is no such drawing
        ask(folder, "names", file="people/oda.dxf", was=text, text="unit = 'cm'")
    (folder.path / "people" / "oda.dxf").write_bytes(SKIRT)
    with pytest.raises(CannotEdit, match="Nothing can be written"):
        ask(folder, "names", file="people/oda.dxf", was=text, text="unit = 'cm'")
    assert ask(folder, "brought", file="people/oda.dxf")["names"] is None
    assert person.read_text() == text
    assert "people/oda.toml" in {each["file"] for each in listed(folder)["people"]}


def test_what_the_names_say_is_written_only_over_what_she_saw(folder: Folder) -> None:
    file = bring(folder, "skirt.dxf", names="unit = 'cm'\n")
    with pytest.raises(CannotEdit, match="changed meanwhile"):
        ask(folder, "names", file=file, was="", text="unit = 'in'\n")
    with pytest.raises(CannotEdit, match="a garment or a person"):
        ask(folder, "names", file=file, was="unit = 'cm'\n", text="[measurements]\nbust = 90\n")
    ask(folder, "names", file=file, was="unit = 'cm'\n", text="unit = 'in'\n")
    assert ask(folder, "brought", file=file)["names"] == "unit = 'in'\n"


@pytest.mark.parametrize(
    "spoilt",
    [SKIRT[:2000], SKIRT.replace(b"POLYLINE", b"POLYLIKE"), b"\0" * 500, b"<script>", b"{", b"0\r\nSECTION\r\n" * 9],
)
def test_a_spoilt_drawing_is_told_in_plain_sentences(folder: Folder, spoilt: bytes) -> None:
    for ending in ("dxf", "json"):
        told = ask(folder, "brought", file=bring(folder, f"spoilt.{ending}", spoilt))
        assert told["state"] == "failed"
        assert told["problems"]
        for sentence in told["problems"]:
            assert str(folder.path) not in sentence
            assert "Traceback" not in sentence


def test_a_drawing_that_is_not_there_is_not_looked_at(folder: Folder, tmp_path: Path) -> None:
    (tmp_path / "out.dxf").write_bytes(SKIRT)
    for file in ("../out.dxf", str(tmp_path / "out.dxf"), "people/oda.toml", "patterns/\0.dxf", ".trueseam/x.dxf"):
        with pytest.raises(NotInFolder):
            ask(folder, "brought", file=file)
